/// The log of a folder of visits: what happened, and each reading and figure over time.

#include "page_history.hpp"

#include "change_words.hpp"
#include "history_drawing.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

using assess::EventKind;
using assess::PropertyLog;

std::string date_of(assess::VisitInLog const& visit)
{
    return visit.on ? visit.on->text : std::string("no date");
}

std::string name_of(PropertyLog const& log)
{
    return log.name.empty() ? std::string("a property without a name") : log.name;
}

std::string at_item(PropertyLog const& log, std::string_view what, std::size_t item)
{
    return item == 0 ? std::string(what) : std::string(what) + " (" + log.items.at(item) + ")";
}

void add_dangers(Section& out, PropertyLog const& log, bool several)
{
    std::string const where = several ? ", " + name_of(log) : std::string();
    bool any = false;
    for (auto const& alarm : log.alarms)
    {
        if (alarm.urgency != assess::Urgency::stop_use)
            continue;
        any = true;
        Card card{capitalised(at_item(log, alarm.name, alarm.item)) + where,
                  "seen " + date_of(log.visits.at(alarm.visit)) +
                      (alarm.looked_at ? "" : "; nobody looked since, so it stands"),
                  {},
                  0,
                  Tone::danger,
                  {}};
        if (!alarm.say.empty())
            card.parts.push_back({"At once", {alarm.say}, Tone::danger, false});
        out.blocks.emplace_back(std::move(card));
    }
    if (!log.unsafe || any)
        return;
    auto const& last = log.visits.back();
    out.blocks.emplace_back(Card{"Not safe to use at the last visit" + where,
                                 date_of(last),
                                 {},
                                 0,
                                 Tone::danger,
                                 {{{}, {last.summary}, Tone::plain, false}}});
}

Section danger(assess::History const& history)
{
    Section out{"danger", "Danger: act on this first", {}, Tone::danger};
    for (auto const& log : history.properties)
        add_dangers(out, log, history.properties.size() > 1);
    if (!out.blocks.empty())
        out.blocks.emplace_back(
            Paragraph{"'padwalk assess' on that visit says whom to call and what to take care of."});
    return out;
}

Section remarks(assess::History const& history)
{
    Section out{"remarks", "Before you read on", {}};
    Points points;
    for (auto const& bad : history.not_read)
        points.texts.push_back(bad.file + " could not be read and is left out; 'padwalk check' says why.");
    for (auto const& log : history.properties)
        for (auto const& note : log.notes)
            points.texts.push_back(capitalised(note) + ".");
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    return out;
}

Section visit_section(PropertyLog const& log)
{
    constexpr std::size_t longest = 160;
    Section out{"visits", "The visits", {}};
    Table table{"In the order of their dates", {"when", "by, and file", "what it came to"}, {}, 26};
    for (auto const& visit : log.visits)
    {
        bool const unsafe = visit.outcome == assess::Outcome::unsafe;
        table.rows.push_back(
            {{date_of(visit), {}},
             {visit.by ? std::string(walker(*visit.by)) : std::string("who is not said"), {visit.file}},
             {visit.outcome == assess::Outcome::nothing_found ? "nothing wrong in what was looked at"
                                                              : brief(visit.summary, longest),
              {},
              unsafe ? Tone::danger : Tone::plain}});
    }
    out.blocks.emplace_back(std::move(table));
    return out;
}

// What moves, and what lies outside at the last.
Section short_section(PropertyLog const& log, units::System system)
{
    Section out{"answer", "In short", {}};
    Points points;
    for (auto const& series : log.series)
    {
        bool const weather = series.item == 0 && series.figure.empty();
        bool const moves = !series.steady && series.trend && series.trend->shows();
        auto const& last = series.points.back();
        bool const outside = last.side != assess::BandSide::within;
        if (weather || (!moves && !outside))
            continue;
        std::string text = capitalised(series_name(log, series));
        if (moves)
            text += " " + trend_in_words(series, system);
        text += (moves ? "; last " : ": last ") + point_text(series, last, system);
        if (outside)
            text += ", " + side_in_words(series, last) + "; wanted " + band_in_words(series, system);
        points.texts.push_back(std::move(text) + ".");
    }
    if (points.texts.empty() && log.series.empty())
        return out;
    if (points.texts.empty())
        points.texts.emplace_back("No reading or figure shows a trend, and none lies outside what is wanted.");
    out.blocks.emplace_back(std::move(points));
    return out;
}

std::string_view kind_word(EventKind kind)
{
    switch (kind)
    {
    case EventKind::alarm: return "alarm";
    case EventKind::alarm_gone: return "alarm gone";
    case EventKind::found: return "on site";
    case EventKind::verdict: return "how it stands";
    case EventKind::dose: return "doses";
    case EventKind::note: return "note";
    case EventKind::not_tested: break;
    }
    return "not tested";
}

Section event_section(PropertyLog const& log)
{
    Section out{"events", "What happened", {}};
    Table table{"By visit; the numbers are those of the marks on the pictures", {"visit", "what"}, {}, 0};
    for (std::size_t visit = 0; visit < log.visits.size(); ++visit)
    {
        Cell what;
        std::size_t number = 0;
        for (auto const& event : log.events)
        {
            if (event.visit != visit)
                continue;
            number = event.number;
            std::string text = capitalised(kind_word(event.kind)) + ": " + at_item(log, event.words, event.item);
            what.tone = event.danger ? Tone::danger : what.tone;
            if (what.text.empty())
                what.text = std::move(text);
            else
                what.more.push_back(std::move(text));
        }
        if (!what.text.empty())
            table.rows.push_back({{(number > 0 ? std::to_string(number) + ". " : "") + date_of(log.visits[visit]), {}},
                                  std::move(what)});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    return out;
}

std::string over(assess::Series const& series)
{
    std::string out = std::to_string(series.points.size()) + " values";
    if (!series.gaps.empty())
        out += ", none at " + std::to_string(series.gaps.size()) +
               (series.gaps.size() == 1 ? " dated visit" : " dated visits");
    return out;
}

// Values and gaps in the order of time.
Table value_table(PropertyLog const& log, assess::Series const& series, units::System system)
{
    bool const wanted = series.band.has_value();
    Table table{capitalised(series_name(log, series)), {"when", "value"}, {}, 0};
    if (wanted)
        table.heads.emplace_back("against what is wanted");
    std::vector<std::pair<double, std::vector<Cell>>> rows;
    for (auto const& point : series.points)
    {
        std::vector<Cell> row{{point.at.text, {}}, {point_text(series, point, system), {}}};
        if (wanted)
            row.push_back({side_in_words(series, point), {}, point.surely ? Tone::danger : Tone::plain});
        rows.emplace_back(point.at.hours, std::move(row));
    }
    for (std::size_t const gap : series.gaps)
    {
        std::vector<Cell> row{{date_of(log.visits[gap]), {}}, {"not taken", {}, Tone::quiet}};
        if (wanted)
            row.push_back({{}, {}});
        rows.emplace_back(log.visits[gap].on->hours, std::move(row));
    }
    std::stable_sort(rows.begin(), rows.end(), [](auto const& a, auto const& b) { return a.first < b.first; });
    for (auto& row : rows)
        table.rows.push_back(std::move(row.second));
    return table;
}

Section reading_section(PropertyLog const& log, units::System system, std::string const& prefix)
{
    Section out{"course", "Readings over time", {}};
    std::vector<std::string> steady;
    std::size_t number = 0;
    for (auto const& series : log.series)
    {
        if (!series.figure.empty())
            continue;
        if (series.steady && !series.band)
        {
            steady.push_back(series_name(log, series) + " " + point_text(series, series.points.back(), system));
            continue;
        }
        Card card{capitalised(series_name(log, series)), over(series), {}, 0, Tone::plain, {}};
        card.parts.push_back({"Trend", {trend_in_words(series, system)}, Tone::plain, true});
        if (series.band)
            card.parts.push_back({"Wanted", {band_in_words(series, system)}, Tone::plain, true});
        out.blocks.emplace_back(std::move(card));
        auto drawing = history_drawing(log, series, system, prefix + "course-" + std::to_string(++number));
        if (!drawing.svg.empty())
            out.blocks.emplace_back(std::move(drawing));
        out.blocks.emplace_back(value_table(log, series, system));
    }
    if (!steady.empty())
        out.blocks.emplace_back(
            Paragraph{"The same at every visit that has it: " + joined(steady, "; ", "; ") + ".", Tone::quiet});
    return out;
}

Section figure_section(PropertyLog const& log, units::System system)
{
    Section out{"figures-over-time", "Figures over time", {}};
    Table table{"Computed at each visit from its readings; values from first to last",
                {"figure", "trend", "values"},
                {},
                26,
                true};
    std::vector<std::string> steady;
    for (auto const& series : log.series)
    {
        if (series.figure.empty())
            continue;
        if (series.steady)
        {
            steady.push_back(series_name(log, series) + " " + point_text(series, series.points.back(), system));
            continue;
        }
        std::vector<std::string> values;
        for (auto const& point : series.points)
            values.push_back(point_text(series, point, system));
        table.rows.push_back({{capitalised(series_name(log, series)), {}},
                              {trend_in_words(series, system), {}},
                              {joined(values, ", then ", ", then "), {}}});
    }
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
    if (!steady.empty())
        out.blocks.emplace_back(Paragraph{"The same each time: " + joined(steady, "; ", "; ") + ".", Tone::quiet});
    return out;
}

void add_property(Page& page, PropertyLog const& log, units::System system, std::size_t number, bool several)
{
    std::string const prefix = several ? "p" + std::to_string(number) + "-" : std::string();
    for (auto& section : {short_section(log, system), visit_section(log), event_section(log),
                          reading_section(log, system, prefix), figure_section(log, system)})
    {
        if (section.blocks.empty())
            continue;
        page.sections.push_back(section);
        if (several)
        {
            page.sections.back().id = prefix + section.id;
            page.sections.back().heading = capitalised(name_of(log)) + ": " + section.heading;
        }
    }
}

} // namespace

Page history_page(assess::History const& history, units::System system)
{
    bool const several = history.properties.size() > 1;
    std::size_t const visits = history.visits();
    Page page;
    page.kind = "log";
    page.title = several || history.properties.empty()
                     ? "Log of " + std::to_string(history.properties.size()) + " properties"
                     : capitalised(history.properties.front().name.empty() ? "pool and spa equipment"
                                                                           : history.properties.front().name) +
                           ": log";
    page.about.push_back(std::to_string(visits) + (visits == 1 ? " visit" : " visits") +
                         (history.not_read.empty()
                              ? "."
                              : ", and " + std::to_string(history.not_read.size()) + " that could not be read."));
    for (auto& section : {danger(history), remarks(history)})
        if (!section.blocks.empty())
            page.sections.push_back(section);
    for (std::size_t i = 0; i < history.properties.size(); ++i)
        add_property(page, history.properties[i], system, i + 1, several);
    page.foot = {"A trend is a straight line by weighted least squares, told where its 95 % interval excludes zero; "
                 "where the values scatter more than their doubts, the scatter gives the interval. It says what was, "
                 "not what will be.",
                 "What was not looked at is not said to be sound. Local code and the maker's instructions decide."};
    return page;
}

std::string as_text(assess::History const& history, TextOptions const& options)
{
    return text_of(history_page(history, options.system), options);
}

std::string as_html(assess::History const& history, units::System system, Layout const& layout)
{
    return html_of(history_page(history, system), layout);
}

} // namespace padwalk::report
