/// The sections that say what the answer rests on.

#include "figure_words.hpp"
#include "page.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <set>

namespace padwalk::report
{
namespace
{

/// Texts under one heading each, in the order in which the headings came.
class Groups
{
public:
    void add(std::string const& heading, std::string text)
    {
        auto const known = std::find_if(list_.begin(), list_.end(), [&](auto const& g) { return g.first == heading; });
        if (known == list_.end())
            list_.push_back({heading, {std::move(text)}});
        else
            known->second.push_back(std::move(text));
    }
    /// A row for each: the heading, then its texts.
    void rows(Table& table, std::string_view between) const
    {
        for (auto const& [heading, texts] : list_)
            table.rows.push_back({{heading, {}}, {joined(texts, between, between), {}}});
    }
    /// A row for each: its texts, then the heading.
    void rows_turned(Table& table, std::string_view between) const
    {
        for (auto const& [heading, texts] : list_)
            table.rows.push_back({{joined(texts, between, between), {}}, {heading, {}}});
    }

private:
    std::vector<std::pair<std::string, std::vector<std::string>>> list_;
};

void put(Section& out, Table table)
{
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
}

std::string item_name(assess::Assessment const& a, std::size_t item)
{
    return item == 0 ? std::string("the property") : a.items.at(item).name;
}

std::string input_text(figures::UsedInput const& input, units::System system)
{
    if (!input.shape->measure)
        return plain_name(input.shape->name) + " " + input.words;
    return plain_name(input.shape->name) + " " +
           glued(units::show(input.reading.measure, input.reading.value, 0, input.shape->style(system)));
}

// What the assumptions below say of this figure already is not said here.
std::string assumed_of(assess::Assessment const& a, assess::FigureEntry const& entry, units::System system)
{
    std::vector<std::string> assumed;
    for (auto const& input : entry.figure.inputs)
    {
        bool const below = std::any_of(a.assumptions.begin(), a.assumptions.end(),
                                       [&](auto const& said)
                                       {
                                           return said.what.starts_with(input.shape->name + " of ") &&
                                                  !entry.label.empty() &&
                                                  said.what.find(entry.label) != std::string::npos;
                                       });
        if (input.assumed && !below)
            assumed.push_back(input_text(input, system));
    }
    return assumed.empty() ? std::string() : "assumed: " + joined(assumed);
}

Cell figure_value(assess::Assessment const& a, assess::FigureEntry const& entry, units::System system)
{
    figures::Figure const& figure = entry.figure;
    if (!figure.computed())
        return {"not computed: " + figure.why_not, {}, Tone::quiet};
    Cell cell{values_text(entry, system), {}};
    if (!figure.note.empty())
        cell.more.push_back(figure.note);
    if (std::string assumed = assumed_of(a, entry, system); !assumed.empty())
        cell.more.push_back(std::move(assumed));
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
                36,
                true};
    std::vector<std::string> names;
    for (auto const& entry : a.figures)
    {
        if (auto const* model = entry.figure.model;
            model != nullptr && std::find(names.begin(), names.end(), model->name) == names.end())
            names.push_back(model->name);
        table.rows.push_back({{entry.label, {}}, figure_value(a, entry, system), {entry.meaning, {}}});
    }
    put(out, std::move(table));
    if (!names.empty())
        out.blocks.emplace_back(Paragraph{
            "'padwalk figure NAME' explains one and gives all of it; names here: " + joined(names) + ".", Tone::quiet});
    return out;
}

Section comparison_section(assess::Assessment const& a)
{
    Section out{"compared", "What the figures say", {}};
    Table table{"Readings and figures against what is usual or allowed, and the chance that it is so",
                {"is it so?", "answer", "compared"},
                {},
                18};
    Table not_so{"Compared too, and not so, with the chance that it is after all", {"item", "not so"}, {}, 0, true};
    Groups by_item;
    std::set<std::size_t> above; // stand with their comparison under Danger
    for (auto const& alarm : a.alarms)
        if (alarm.urgency == assess::Urgency::stop_use)
            above.insert(alarm.finding);
    for (std::size_t i = 0; i < a.findings.size(); ++i)
    {
        auto const& finding = a.findings[i];
        if (!finding.computed)
            continue;
        if (finding.state == assess::FindingState::not_seen)
            by_item.add(item_name(a, finding.item), finding.name + ", " + percent(finding.probability));
        else
            table.rows.push_back({{at_item(a, finding.name, finding.item), {}},
                                  {std::string(said_of(finding.state)) + ", " + percent(finding.probability), {}},
                                  {above.contains(i) ? "as under Danger" : finding.from, {}}});
    }
    put(out, std::move(table));
    by_item.rows(not_so, "; ");
    put(out, std::move(not_so));
    return out;
}

namespace
{

// 'New York (7.4 to 7.8) [key]'; what is only remembered is not cited.
std::string broken_text(assess::BrokenLimit const& limit)
{
    return limit.body + " (" + glued(limit.bound) +
           (limit.from_memory ? ", from memory, not confirmed)" : ") [" + limit.key + "]");
}

} // namespace

Section limits_section(assess::Assessment const& a)
{
    constexpr std::size_t bodies_named = 3; // all stand in JSON, with their conditions
    Section out{"limits", "Published limits", {}};
    Table table{"Readings outside some body's limits; most are for public pools, some under conditions",
                {"reading", "limits"},
                {},
                0,
                true};
    for (auto const& reading : a.limits_broken)
    {
        std::vector<std::string> said;
        for (std::size_t i = 0; i < reading.broken_by.size() && i < bodies_named; ++i)
            said.push_back(broken_text(reading.broken_by[i]));
        if (reading.broken_by.size() > bodies_named)
            said.push_back(std::to_string(reading.broken_by.size() - bodies_named) + " more");
        if (reading.kept_by > 0)
            said.push_back("kept: " + std::to_string(reading.kept_by));
        if (!reading.leading_verdict.empty())
            said.push_back(reading.leading_verdict + " the limit used here (" + reading.leading + ")");
        table.rows.push_back({{at_item(a, reading.parameter + " " + glued(reading.reading), reading.item), {}},
                              {"broken: " + joined(said, "; ", "; "), {}}});
    }
    put(out, std::move(table));
    return out;
}

Section reading_section(assess::Assessment const& a, units::System system)
{
    Section out{"readings", "Readings taken", {}};
    Table table{"As measured, with the doubt of the instrument (19 times in 20)", {"item", "readings"}, {}, 0, true};
    Groups by_item;
    for (auto const& taken : a.readings)
    {
        bool const in_the_head = taken.item == 0 && (taken.label == "by" || taken.label == "on");
        if (in_the_head)
            continue;
        std::string text = plain_name(taken.label) + " " + reading_text(taken, system);
        if (std::string const way = instrument_of(taken); !way.empty())
            text += " (" + way + ")";
        by_item.add(item_name(a, taken.item), std::move(text));
    }
    by_item.rows(table, "; ");
    put(out, std::move(table));
    return out;
}

Section note_section(assess::Assessment const& a)
{
    Section out{"notes", "Notes and pictures", {}};
    if (!a.notes.empty())
        out.blocks.emplace_back(Paragraph{a.notes});
    Table table{"What was written down beside the readings", {"item", "where", "notes and pictures"}, {}, 28};
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
    Table table{"Each note, and what it was taken to say", {"note", "taken as"}, {}};
    for (auto const& finding : a.findings)
        if (!finding.computed)
            table.rows.push_back({{finding.from, {}},
                                  {at_item(a, finding.name, finding.item) +
                                       (finding.state == assess::FindingState::not_seen ? " – not there" : ""),
                                   {}}});
    for (auto const& question : a.questions)
        table.rows.push_back({{quoted(question.note), {}}, {"not understood, counts for nothing; asked above", {}}});
    put(out, std::move(table));
    return out;
}

Section oddity_section(assess::Assessment const& a)
{
    Section out{"odd", "Values worth a second look", {}};
    Points points;
    for (auto const& odd : a.oddities)
    {
        std::string const line = odd.place.line > 0 ? "line " + std::to_string(odd.place.line) + ", " : "";
        std::string const where = odd.path.empty() && line.empty() ? "" : " (" + line + plain_name(odd.path) + ")";
        points.texts.push_back(plain_name(odd.message) + where + (odd.advice.empty() ? "" : "; " + odd.advice));
    }
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    return out;
}

Section not_tested_section(assess::Assessment const& a)
{
    Section out{"not-tested", "Not tested, and why", {}};
    Table table{"Nothing is said about these", {"what", "why not"}, {}};
    Groups by_reason;
    for (auto const& entry : a.not_tested)
        by_reason.add(entry.because, at_item(a, entry.what, entry.item));
    by_reason.rows_turned(table, "; ");
    put(out, std::move(table));
    return out;
}

Section blank_section(assess::Assessment const& a)
{
    Section out{"blank", "Left blank on the sheet", {}};
    Table table{"Neither looked at nor measured, as far as the sheet says", {"item", "left blank"}, {}};
    Groups by_item;
    for (auto const& path : a.blanks)
    {
        assess::ItemEntry const* owner = nullptr;
        for (auto const& item : a.items)
            if (!item.path.empty() && path.starts_with(item.path + "/") &&
                (owner == nullptr || item.path.size() > owner->path.size()))
                owner = &item;
        if (owner != nullptr)
            by_item.add(owner->name, plain_name(path.substr(owner->path.size() + 1)));
        else
            by_item.add(path.find('/') == std::string::npos ? "the visit" : plain_name(path.substr(0, path.rfind('/'))),
                        plain_name(path.substr(path.find('/') == std::string::npos ? 0 : path.rfind('/') + 1)));
    }
    by_item.rows(table, ", ");
    put(out, std::move(table));
    return out;
}

Section assumption_section(assess::Assessment const& a)
{
    Section out{"assumed", "Assumed", {}};
    Table table{"Where nothing was written, this was taken", {"assumed", "because"}, {}};
    Groups by_reason;
    for (auto const& entry : a.assumptions)
        by_reason.add(entry.because, plain_name(entry.what));
    by_reason.rows_turned(table, "; ");
    put(out, std::move(table));
    return out;
}

Section source_section(assess::Assessment const& a)
{
    Section out{"sources", "Sources", {}};
    // Long titles stand in full in JSON; how far a source was seen is never cut.
    constexpr std::size_t longest_title = 60;
    Table table{"What the figures and causes rest on, and how far it was seen", {"key", "source"}, {}};
    for (auto const& [key, source] : a.sources)
    {
        std::string end = source.year.empty() ? "" : ", " + source.year;
        if (!source.seen.empty())
            end += " — seen: " + clean(source.seen);
        std::string text = brief(source.title, longest_title) + end;
        table.rows.push_back({{"[" + key + "]", {}}, {std::move(text), {}, Tone::quiet}});
    }
    put(out, std::move(table));
    return out;
}

} // namespace padwalk::report
