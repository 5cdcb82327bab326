#pragma once
/// What a record looks like, without its C++ type: from this come the schema, the field sheet and the help.

#include "padwalk/units/measure.hpp"
#include "padwalk/units/print.hpp"

#include <optional>
#include <string>
#include <vector>

namespace padwalk::fields
{

struct RecordShape;

/// One field of a record.
struct FieldShape
{
    enum class Form
    {
        quantity,
        text,
        choice,
        yes_no,
        moment, ///< a date, or a date and time
        curve,  ///< points 'flow:head'
        record,
        list,
        named ///< a map of records under names that the user chooses
    };

    std::string name;
    std::string meaning;
    Form form = Form::text;
    std::optional<units::Measure> measure;   ///< quantity
    std::vector<std::string> words;          ///< choice
    RecordShape const* (*inner)() = nullptr; ///< record, list or named of records
    Form item = Form::text;                  ///< what a list holds
    std::optional<double> low, high;         ///< SI; a value outside can't be
    std::string low_text, high_text;         ///< the same as declared, for US messages: '-30 inHg'
    std::string usual_low_text, usual_high_text;
    std::optional<double> usual_low, usual_high; ///< SI; a value outside is odd and is said
    bool required = false;
    std::string otherwise;        ///< assumed when left out, as one would write it
    std::string because;          ///< why that may be assumed
    std::string instrument;       ///< row of data/instruments.yaml that gives the doubt
    std::string unit_us, unit_si; ///< to print in, where the measure's own choice won't do
    std::string example;

    [[nodiscard]] units::Style style(units::System system) const { return {system, unit_us, unit_si}; }
    /// 'a pressure, 0 to 150 psi' for help and messages.
    [[nodiscard]] std::string describe(units::System system) const;
    /// A bound of the range in words. A gauge's is said as declared, since one pair may be in inHg and psi.
    [[nodiscard]] std::string bound(double si, std::string const& declared, units::System system) const;
    /// An example that would pass: the field's own, or its measure's.
    [[nodiscard]] std::string sample() const;
};

struct RecordShape
{
    std::string name;
    std::string meaning;
    std::vector<FieldShape> fields;
    std::string short_form; ///< the field that is meant where a single value stands in place of the record

    [[nodiscard]] FieldShape const* find(std::string_view field) const;
};

} // namespace padwalk::fields
