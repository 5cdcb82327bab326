#pragma once
/// What a reading or a figure is of, whichever visit it stands in.

#include "padwalk/assess/assessment.hpp"

namespace padwalk::assess
{

enum class ReadingOf
{
    item,       ///< read at the visit
    water_test, ///< read when the sample was taken
    level_mark  ///< counts from a first mark of its own
};

struct ReadingKey
{
    ReadingOf of = ReadingOf::item;
    std::string label;    ///< without the date of its test
    std::string taken_at; ///< date of its test, as text; empty where it has none
};

[[nodiscard]] ReadingKey key_of(ReadingTaken const& taken);

/// Who read, when, and what a thing costs are no readings of the property.
[[nodiscard]] bool of_the_visit(ReadingTaken const& taken);

/// The first quantity among a figure's outputs that has a doubt, or the first of all, with the interval that an output
/// 'doubt' beside it gives; none where there is none or it was not computed.
[[nodiscard]] std::optional<figures::OutputValue> main_output(figures::Figure const& figure);

/// What one visit says of a finding at an item: notes go before what was computed, contrary notes can't be told.
class Looked
{
public:
    void add(FindingEntryOf const& finding);
    [[nodiscard]] FindingState state() const;

    std::string name, from;

private:
    std::optional<FindingState> noted_, computed_;
    bool contrary_ = false;
};

} // namespace padwalk::assess
