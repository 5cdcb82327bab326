#include "padwalk/report/sheet.hpp"
#include "plain.hpp"
#include "sheet_words.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

using visit::Answer;

constexpr std::size_t columns = 80;
constexpr std::size_t answer_column = 40;

/// Lines under each other, the answers in a column of their own.
class Print
{
public:
    void line(std::string const& text = {}) { out_ += text + "\n"; }
    void paragraph(std::string_view text, std::string_view lead = {})
    {
        std::size_t const room = columns - width(lead);
        std::string start(lead);
        for (auto const& one : wrapped(clean(text), room, room))
            line(std::exchange(start, std::string(width(lead), ' ')) + one);
    }
    /// The label on the left, wrapped, and what stands right of it.
    void row(std::string_view label, std::vector<std::string> const& answer)
    {
        std::size_t const room = answer_column - 2;
        auto const left = wrapped(clean(label), room, room);
        for (std::size_t i = 0; i < std::max(left.size(), answer.size()); ++i)
        {
            std::string text = i < left.size() ? left[i] : std::string();
            if (i < answer.size())
                text += std::string(answer_column - std::min(answer_column, width(text)), ' ') + answer[i];
            line(text);
        }
    }
    [[nodiscard]] std::string take() { return std::move(out_); }

private:
    std::string out_;
};

// A text and a rule behind it to the end of the line.
std::string ruled(std::string_view text, char rule)
{
    std::size_t const taken = width(text) + 1;
    return std::string(text) + " " + std::string(columns - std::min(columns, taken), rule);
}

std::string box(std::size_t characters)
{
    return "[" + std::string(characters + 2, '_') + "]";
}

std::vector<std::string> ticks(std::vector<std::string> const& words, std::size_t room)
{
    std::vector<std::string> out;
    for (auto const& word : words)
    {
        std::string const one = "[ ] " + clean(word);
        if (out.empty() || width(out.back()) + 2 + width(one) > room)
            out.push_back(one);
        else
            out.back() += "  " + one;
    }
    return out;
}

std::vector<std::string> answer(visit::SheetRow const& row)
{
    constexpr std::size_t room = columns - answer_column;
    if (!row.known.empty())
        return wrapped(clean(row.known), room, room);
    std::vector<std::string> out;
    switch (row.answer)
    {
    case Answer::quantity: out = {box(row.characters) + (row.unit.empty() ? "" : " " + row.unit)}; break;
    case Answer::moment: out = {box(18)}; break;
    case Answer::ticks: out = ticks(row.words, room); break;
    case Answer::text: out.assign(row.lines, std::string(room, '_')); break;
    case Answer::table: break;
    }
    for (auto const& [lead, text] : {std::pair{"was ", row.before}, std::pair{"e.g. ", row.example}})
        if (!text.empty())
            for (auto const& one : wrapped(lead + clean(text), room, room))
                out.push_back(one);
    return out;
}

std::size_t room_of(visit::SheetColumn const& column)
{
    std::size_t out = std::max<std::size_t>(column.characters + 1, 6);
    for (auto const& text : {column.label, column.unit})
        for (std::size_t at = 0, end = 0; at <= text.size(); at = end + 1)
        {
            end = std::min(text.find(' ', at), text.size());
            out = std::max(out, width(std::string_view(text).substr(at, end - at)));
        }
    for (auto const& word : column.words)
        out = std::max(out, width(word) + 4);
    return out;
}

std::string padded(std::string_view text, std::size_t room)
{
    return std::string(text) + std::string(room - std::min(room, width(text)), ' ');
}

/// Cells side by side, each wrapped in its column.
void table_line(Print& print, std::string const& lead, std::vector<std::vector<std::string>> const& cells,
                std::vector<std::size_t> const& rooms)
{
    std::size_t height = 1;
    for (auto const& cell : cells)
        height = std::max(height, cell.size());
    for (std::size_t i = 0; i < height; ++i)
    {
        std::string text = i == 0 ? lead : std::string(lead.size(), ' ');
        for (std::size_t c = 0; c < cells.size(); ++c)
            text += "|" + padded(i < cells[c].size() ? cells[c][i] : std::string(), rooms[c]);
        print.line(text + "|");
    }
}

// The columns from `first` on that fit a line; those that don't come in a further block under the same numbers.
std::size_t block(Print& print, visit::SheetRow const& row, std::size_t first)
{
    std::vector<std::size_t> rooms;
    std::vector<std::vector<std::string>> heads;
    std::size_t taken = 4; // the number and the last rule
    std::size_t last = first;
    for (; last < row.columns.size(); ++last)
    {
        auto const& column = row.columns[last];
        std::size_t const room = std::min(room_of(column), columns - 5);
        if (last > first && taken + room + 1 > columns)
            break;
        taken += room + 1;
        rooms.push_back(room);
        heads.push_back(wrapped(clean(column.label), room, room));
        for (auto const& line : wrapped(column.unit, room, room))
            heads.back().push_back(line);
    }
    table_line(print, "   ", heads, rooms);
    for (std::size_t i = 0; i < row.filled.size() + row.lines; ++i)
    {
        std::vector<std::vector<std::string>> cells;
        for (std::size_t c = first; c < last; ++c)
            cells.push_back(i < row.filled.size()
                                ? wrapped(clean(row.filled[i].at(c)), rooms[c - first], rooms[c - first])
                            : row.columns[c].words.empty() ? std::vector{std::string(rooms[c - first], '_')}
                                                           : ticks(row.columns[c].words, rooms[c - first]));
        table_line(print, padded(std::to_string(i + 1), 3), cells, rooms);
    }
    return last;
}

void table(Print& print, visit::SheetRow const& row)
{
    print.line();
    print.paragraph(capitalised(row.label) + (row.legend.empty() ? "" : " (" + row.legend + ")"));
    for (std::size_t next = 0; next < row.columns.size();)
        next = block(print, row, next);
}

void group(Print& print, visit::SheetGroup const& one)
{
    print.line();
    print.paragraph(heading_of(one), "# ");
    if (!one.caution.empty())
        print.paragraph(one.caution, "! ");
    for (auto const& row : one.rows)
        if (row.answer == Answer::table)
            table(print, row);
        else
            print.row(capitalised(row.label) + (row.several && row.known.empty() ? " (any number)" : ""), answer(row));
    if (!one.notes)
        return;
    std::string const rule(columns, '_');
    print.line();
    print.line(sheet_noticed);
    for (int i = 0; i < 3; ++i)
        print.line(rule);
    print.line(ruled(sheet_untested, '_'));
    print.line(std::string(sheet_photos) + " " + std::string(24, '_'));
}

void dangers(Print& print, visit::SheetForm const& form)
{
    if (form.dangers.empty())
        return;
    print.line();
    print.paragraph(sheet_dangers);
    for (auto const& block : danger_blocks(form))
    {
        for (auto const& ask : block.asks)
            print.row(capitalised(ask), {"[ ] yes  [ ] no  [ ] not checked"});
        print.paragraph(block.say, "   If yes: ");
    }
}

} // namespace

std::string sheet_text(visit::SheetForm const& form)
{
    Print print;
    print.paragraph(form.title + ": " + (form.property.empty() ? std::string(40, '_') : form.property));
    print.line((form.on.empty() ? "" : "File of " + clean(form.on) + ". ") + "Date " + std::string(18, '_'));
    print.line();
    print.paragraph(sheet_how);
    print.paragraph(sheet_rule);
    dangers(print, form);
    std::string section;
    for (auto const& one : form.groups)
    {
        if (one.section != section)
        {
            print.line();
            print.line(ruled(clean(one.section), '='));
        }
        section = one.section;
        group(print, one);
    }
    return print.take();
}

} // namespace padwalk::report
