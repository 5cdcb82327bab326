#pragma once
/// The sheet that is written on with a pen, as plain data: what is asked at each item, in the order of the walk.

#include "padwalk/reference/data.hpp"
#include "padwalk/units/measure.hpp"
#include "padwalk/visit/visit.hpp"

#include <string>
#include <vector>

namespace padwalk::visit
{

/// How something is answered on paper.
enum class Answer
{
    quantity, ///< a number in a box, its unit printed behind
    ticks,    ///< a tick box for each word, yes and no among them
    text,     ///< ruled lines
    moment,   ///< a date and a time of day
    table     ///< several lines under the heads of columns
};

/// One column of a table on the sheet.
struct SheetColumn
{
    std::string label;
    std::string unit;
    std::vector<std::string> words; ///< to tick in each line; empty: something is written
    std::size_t characters = 0;     ///< that what is written takes at most
};

/// One thing to write down.
struct SheetRow
{
    std::string label;
    Answer answer = Answer::text;
    std::string unit;
    std::vector<std::string> words; ///< of ticks
    bool several = false;           ///< more than one may be ticked
    std::size_t characters = 0;     ///< of the longest number that can be, with the unit printed
    std::size_t lines = 1;          ///< of text; blank ones of a table
    std::string example;            ///< as one would write it
    std::string known;              ///< stands in the place of the answer: nothing is to be written
    std::string before;             ///< what an earlier visit read, beside the box
    std::vector<SheetColumn> columns;
    std::vector<std::vector<std::string>> filled; ///< lines of a table that are known, a text for each column
    std::string legend;                           ///< words that fit a column, where they are too many to tick
};

/// What is written about one item. Things noticed, not tested and pictures have their place in each.
struct SheetGroup
{
    std::string section; ///< part of the walk: 'At the pad'
    std::string kind;    ///< 'pump'
    std::string name;    ///< of the item at this property: 'spa loop'; empty where there is only one
    std::string caution; ///< to mind while it is looked at
    bool notes = true;   ///< has the lines for what was noticed, what was not tested, and pictures
    std::vector<SheetRow> rows;
};

/// A danger that is asked about before everything else.
struct SheetDanger
{
    std::string ask;
    std::string say; ///< what to do at once if it is so
};

struct SheetForm
{
    std::string title;
    std::string property; ///< in the words of the visit; empty: to be written
    std::string on;       ///< day of the visit that it was made from; empty: of none
    std::vector<SheetDanger> dangers;
    std::vector<SheetGroup> groups;
};

/// A blank sheet for these parts of a walk (`sheet_parts`); with none, all of them. The dangers are left to whoever
/// knows them.
///
/// Units are those that the field's own example is printed in, in the system chosen. What is asked, and in which words,
/// is data/visit/field_sheet.yaml; what each field is, its declaration.
///
/// Throws: std::invalid_argument for an unknown part, naming those there are; reference::DataProblems for data that is
/// not as declared; std::logic_error where that file names a field that is not declared
[[nodiscard]] SheetForm sheet_form(reference::Data const& data, std::vector<std::string> const& parts,
                                   units::System system);

/// The same for the items of a visit, under their names. What the visit knows and stays so is printed in place of its
/// box; what is read anew on each visit keeps its box, the earlier reading beside it. An item of a part that was named
/// and that the visit has not is there blank.
[[nodiscard]] SheetForm sheet_form(reference::Data const& data, Visit const& visit,
                                   std::vector<std::string> const& parts, units::System system);

} // namespace padwalk::visit
