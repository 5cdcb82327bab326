/// The sections that say what the answer rests on.

#include "page.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

namespace padwalk::report
{
namespace
{

std::string words_of_label(std::string_view name)
{
    std::string out(name);
    for (char& c : out)
        c = c == '_' ? ' ' : c;
    return out;
}

std::string output_text(figures::OutputValue const& out, units::System system)
{
    if (!out.value || !out.shape->measure)
        return out.words;
    return glued(units::show_interval(*out.shape->measure, *out.value, out.low, out.high, out.shape->style(system)));
}

std::string input_text(figures::UsedInput const& input, units::System system)
{
    if (!input.shape->measure)
        return words_of_label(input.shape->name) + " " + input.words;
    return words_of_label(input.shape->name) + " " +
           glued(units::show(input.reading.measure, input.reading.value, 0, input.shape->style(system)));
}

Cell figure_value(figures::Figure const& figure, units::System system)
{
    if (!figure.computed())
        return {"not computed", {figure.why_not}, Tone::quiet};
    std::vector<std::string> lines;
    for (auto const& out : figure.outputs)
        if (std::string const text = output_text(out, system); !text.empty())
        {
            bool const unlabelled = figure.outputs.size() == 1 || out.shape->name == "in_words";
            lines.push_back(unlabelled ? text : words_of_label(out.shape->name) + ": " + text);
        }
    Cell cell{joined(lines, "\n", "\n"), {}};
    if (!figure.note.empty())
        cell.more.push_back(figure.note);
    std::vector<std::string> assumed;
    for (auto const& input : figure.inputs)
        if (input.assumed)
            assumed.push_back(input_text(input, system));
    if (!assumed.empty())
        cell.more.push_back("assumed: " + joined(assumed));
    return cell;
}

std::string_view said_of(assess::FindingState state)
{
    switch (state)
    {
    case assess::FindingState::seen: return "so";
    case assess::FindingState::not_seen: return "not so";
    case assess::FindingState::unclear: break;
    }
    return "can't tell";
}

} // namespace

Section figure_section(assess::Assessment const& a, units::System system)
{
    Section out{"figures", "Figures", {}};
    Table table{"Computed from the readings; in brackets what it may be, 19 times in 20",
                {"figure", "value", "what that means"},
                {},
                "\n",
                36};
    for (auto const& entry : a.figures)
    {
        std::string const name = entry.figure.model != nullptr ? "padwalk figure " + entry.figure.model->name : "";
        Cell label{entry.label, {}};
        if (!name.empty())
            label.more.push_back(name);
        table.rows.push_back({std::move(label), figure_value(entry.figure, system), {entry.meaning, {}}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section comparison_section(assess::Assessment const& a)
{
    Section out{"compared", "What the figures say", {}};
    Table table{"Readings and figures against what is usual or allowed, and the chance that it is so",
                {"is it so?", "answer", "compared"},
                {},
                "\n",
                18};
    for (auto const& finding : a.findings)
        if (finding.computed)
            table.rows.push_back({{at_item(a, finding.name, finding.item), {}},
                                  {std::string(said_of(finding.state)) + ", " + percent(finding.probability), {}},
                                  {finding.from, {}}});
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section reading_section(assess::Assessment const& a, units::System system)
{
    Section out{"readings", "Readings taken", {}};
    Table table{"As measured, with the doubt of the instrument (19 times in 20)", {"reading", "value", "by"}, {}, ", "};
    for (auto const& taken : a.readings)
    {
        units::Style const style = taken.shape != nullptr ? taken.shape->style(system) : units::Style{system, {}, {}};
        if (!taken.words.empty())
        {
            table.rows.push_back({{at_item(a, taken.label, taken.item), {}}, {taken.words, {}}, {"as noted", {}}});
            continue;
        }
        std::string const value =
            glued(units::show_with_doubt(taken.reading.measure, taken.reading.value, taken.reading.doubt, style));
        std::string const by = taken.reading.doubt_written       ? "doubt as written"
                               : taken.reading.method == "given" ? ""
                                                                 : taken.reading.method;
        table.rows.push_back({{at_item(a, taken.label, taken.item), {}}, {value, {}}, {by, {}}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section note_section(assess::Assessment const& a)
{
    Section out{"notes", "Notes and pictures", {}};
    if (!a.notes.empty())
        out.blocks.emplace_back(Paragraph{a.notes});
    Table table{"What was written down beside the readings", {"item", "where", "notes and pictures"}, {}, "\n", 28};
    for (auto const& item : a.items)
    {
        if (item.where.empty() && item.notes.empty() && item.photos.empty())
            continue;
        Cell notes{item.notes == a.notes ? "" : item.notes, {}};
        for (auto const& photo : item.photos)
            notes.more.push_back("picture " + photo.file + (photo.caption.empty() ? "" : ": " + photo.caption));
        table.rows.push_back({{item.name, {}}, {item.where, {}}, std::move(notes)});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section understanding_section(assess::Assessment const& a)
{
    Section out{"understood", "How your notes were read", {}};
    Table table{"Each note, and what it was taken to say", {"note", "taken as"}, {}, "\n"};
    for (auto const& finding : a.findings)
        if (!finding.computed)
            table.rows.push_back({{finding.from, {}},
                                  {at_item(a, finding.name, finding.item) +
                                       (finding.state == assess::FindingState::not_seen ? " – not there" : ""),
                                   {}}});
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    for (auto const& question : a.questions)
    {
        Card card{"Please say more: " + quoted(question.note) +
                      (question.item == 0 ? "" : " (" + a.items.at(question.item).name + ")"),
                  {},
                  {},
                  0,
                  Tone::plain,
                  {}};
        if (!question.why.empty())
            card.parts.push_back({"Why I ask", {question.why}});
        if (!question.may_mean.empty())
            card.parts.push_back({"Did you mean", question.may_mean});
        card.parts.push_back({"Until then", {"this note counts for nothing"}, Tone::quiet});
        out.blocks.emplace_back(std::move(card));
    }
    return out;
}

Section oddity_section(assess::Assessment const& a)
{
    Section out{"odd", "Values worth a second look", {}};
    Points points;
    for (auto const& odd : a.oddities)
    {
        std::string const line = odd.place.line > 0 ? "line " + std::to_string(odd.place.line) + ", " : "";
        std::string const where = odd.path.empty() && line.empty() ? "" : " (" + line + odd.path + ")";
        points.texts.push_back(odd.message + where + (odd.advice.empty() ? "" : "; " + odd.advice));
    }
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    return out;
}

Section not_tested_section(assess::Assessment const& a)
{
    Section out{"not-tested", "Not tested, and why", {}};
    Table table{"Nothing is said about these", {"what", "why not"}, {}, "\n"};
    for (auto const& entry : a.not_tested)
        table.rows.push_back({{at_item(a, entry.what, entry.item), {}}, {entry.because, {}}});
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section blank_section(assess::Assessment const& a)
{
    Section out{"blank", "Left blank on the sheet", {}};
    if (!a.blanks.empty())
        out.blocks.emplace_back(Paragraph{joined(a.blanks, ", ", ", ") + ".", Tone::quiet});
    return out;
}

Section assumption_section(assess::Assessment const& a)
{
    Section out{"assumed", "Assumed", {}};
    Table table{"Where nothing was written, this was taken", {"assumed", "because"}, {}, "\n"};
    for (auto const& entry : a.assumptions)
        table.rows.push_back({{entry.what, {}}, {entry.because, {}}});
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

Section source_section(assess::Assessment const& a)
{
    Section out{"sources", "Sources", {}};
    Table table{"What the figures and causes rest on, and how far it was seen", {"key", "source"}, {}, "\n"};
    for (auto const& [key, source] : a.sources)
    {
        std::string text = source.title + (source.by.empty() ? "" : ", " + source.by) +
                           (source.year.empty() ? "" : ", " + source.year);
        Cell cell{std::move(text), {}, Tone::quiet};
        if (!source.seen.empty())
            cell.more.push_back("seen: " + source.seen);
        table.rows.push_back({{"[" + key + "]", {}}, std::move(cell)});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

} // namespace padwalk::report
