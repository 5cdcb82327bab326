#pragma once
/// What is asked on paper, and how it is said there: data/visit/field_sheet.yaml.

#include "padwalk/fields/record.hpp"
#include "padwalk/reference/data.hpp"

namespace padwalk::visit
{

/// A field of an entry of a list, as a column.
struct ColumnPlan
{
    std::string field, label;
    static fields::Record<ColumnPlan> const& declaration();
};

/// A field of an item, or one of a record in it: 'motor/voltage'.
struct RowPlan
{
    std::string field, label;
    std::optional<bool> again;   ///< read anew on each visit
    std::optional<bool> like;    ///< an example helps
    std::optional<bool> several; ///< more than one word may be ticked
    std::optional<units::Number> lines;
    std::string only_if;         ///< another field of the item …
    std::vector<std::string> is; ///< … that is one of these
    std::optional<bool> or_unknown;
    std::string name;  ///< what the names of a named group are called
    std::string value; ///< and what stands under them, where that is a quantity
    std::vector<ColumnPlan> columns;
    static fields::Record<RowPlan> const& declaration();
};

struct GroupPlan
{
    std::string of, section, title, caution;
    std::vector<RowPlan> rows;
    static fields::Record<GroupPlan> const& declaration();
};

/// How a word of the file is said on paper.
struct WordPlan
{
    std::string word, say;
    static fields::Record<WordPlan> const& declaration();
};

/// Fields that are left to the desk; 'any' stands for every record.
struct NotOnPaper
{
    std::string of;
    std::vector<std::string> fields;
    std::string because;
    static fields::Record<NotOnPaper> const& declaration();
};

struct SheetPlan
{
    std::vector<GroupPlan> groups;
    std::vector<WordPlan> say;
    std::vector<NotOnPaper> not_on_paper;
    static fields::Record<SheetPlan> const& declaration();

    /// Throws: std::logic_error where there is no such group
    [[nodiscard]] GroupPlan const& group(std::string_view of) const;
    /// A word of the file in plain words.
    [[nodiscard]] std::string said(std::string const& word) const;
};

/// Throws: reference::DataProblems where the file is not as declared
[[nodiscard]] SheetPlan sheet_plan(reference::Data const& data);

} // namespace padwalk::visit
