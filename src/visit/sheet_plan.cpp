#include "sheet_plan.hpp"

#include <algorithm>
#include <stdexcept>

namespace padwalk::visit
{

using fields::Record;

Record<ColumnPlan> const& ColumnPlan::declaration()
{
    static Record<ColumnPlan> const record = Record<ColumnPlan>("column", "a field of an entry, as a column")
                                                 .field("field", &ColumnPlan::field, "its name")
                                                 .required()
                                                 .field("label", &ColumnPlan::label, "what it is called on paper")
                                                 .required();
    return record;
}

Record<RowPlan> const& RowPlan::declaration()
{
    static Record<RowPlan> const record =
        Record<RowPlan>("row", "a field of an item, on paper")
            .field("field", &RowPlan::field, "its name, or the way to it")
            .required()
            .field("label", &RowPlan::label, "what it is called on paper")
            .required()
            .field("again", &RowPlan::again, "whether it is read anew on each visit")
            .field("like", &RowPlan::like, "whether an example is printed")
            .field("several", &RowPlan::several, "whether more than one word may be ticked")
            .field("lines", &RowPlan::lines, "lines of text, or blank ones of a table")
            .within("1", "20")
            .field("if", &RowPlan::only_if, "another field of the item, on which it hangs")
            .field("is", &RowPlan::is, "what that one must be")
            .field("or_unknown", &RowPlan::or_unknown, "whether it is asked where that one is not known")
            .field("name", &RowPlan::name, "what the names of a named group are called")
            .field("value", &RowPlan::value, "what the quantities under those names are called")
            .field("columns", &RowPlan::columns, "fields of an entry");
    return record;
}

Record<GroupPlan> const& GroupPlan::declaration()
{
    static Record<GroupPlan> const record = Record<GroupPlan>("group", "what is asked of one item")
                                                .field("of", &GroupPlan::of, "which")
                                                .required()
                                                .field("section", &GroupPlan::section, "part of the walk")
                                                .required()
                                                .field("title", &GroupPlan::title, "what it is called on paper")
                                                .required()
                                                .field("caution", &GroupPlan::caution, "to mind while looking")
                                                .field("rows", &GroupPlan::rows, "fields, in the order of the walk")
                                                .required();
    return record;
}

Record<WordPlan> const& WordPlan::declaration()
{
    static Record<WordPlan> const record = Record<WordPlan>("word", "a word of the file")
                                               .field("word", &WordPlan::word, "as the file has it")
                                               .required()
                                               .field("say", &WordPlan::say, "as it stands on paper")
                                               .required();
    return record;
}

Record<NotOnPaper> const& NotOnPaper::declaration()
{
    static Record<NotOnPaper> const record = Record<NotOnPaper>("not_on_paper", "fields that are left to the desk")
                                                 .field("of", &NotOnPaper::of, "record, or any")
                                                 .required()
                                                 .field("fields", &NotOnPaper::fields, "by name")
                                                 .required()
                                                 .field("because", &NotOnPaper::because, "why")
                                                 .required();
    return record;
}

Record<SheetPlan> const& SheetPlan::declaration()
{
    static Record<SheetPlan> const record =
        Record<SheetPlan>("field_sheet", "what is asked on paper")
            .field("groups", &SheetPlan::groups, "by item")
            .required()
            .field("say", &SheetPlan::say, "words of the file that are said otherwise")
            .field("not_on_paper", &SheetPlan::not_on_paper, "fields that are left to the desk");
    return record;
}

GroupPlan const& SheetPlan::group(std::string_view of) const
{
    auto const found = std::find_if(groups.begin(), groups.end(), [&](auto const& group) { return group.of == of; });
    if (found == groups.end())
        throw std::logic_error("data/visit/field_sheet.yaml: no group of '" + std::string(of) + "'");
    return *found;
}

std::string SheetPlan::said(std::string const& word) const
{
    auto const found = std::find_if(say.begin(), say.end(), [&](auto const& row) { return row.word == word; });
    if (found != say.end())
        return found->say;
    std::string out = word;
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

SheetPlan sheet_plan(reference::Data const& data)
{
    return reference::read_table<SheetPlan>(data, "visit/field_sheet.yaml");
}

} // namespace padwalk::visit
