#pragma once
/// Fields of a record as rows of the sheet on paper.

#include "padwalk/visit/sheet_form.hpp"
#include "sheet_parts.hpp"
#include "sheet_plan.hpp"

namespace padwalk::visit
{

/// A record's fields and what is known of them.
struct Facts
{
    fields::RecordShape const* shape = nullptr;
    fields::Tree known;
};

template <class T> Facts facts_of(T const& item)
{
    return {&T::declaration().shape(), T::declaration().write(item)};
}

/// How the rows are made: the words, the parts that are on the sheet, and the units to print.
struct RowStyle
{
    SheetPlan const& plan;
    Parts const& parts;
    units::System system;
};

/// The rows of a group that concern this item.
///
/// Throws: std::logic_error where the plan names a field that is not declared
[[nodiscard]] std::vector<SheetRow> rows_of(GroupPlan const& group, Facts const& facts, RowStyle const& style);

} // namespace padwalk::visit
