/// The owner's sheet.

#include "chlorine_drawing.hpp"
#include "forecast_drawing.hpp"
#include "glossary.hpp"
#include "plain.hpp"
#include "saturation_drawing.hpp"
#include "wording.hpp"

#include "padwalk/numerics/number_text.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using chemistry::DosePlan;
using chemistry::DoseStep;
using chemistry::WaterAt;

/// A value rounded as a kit would be read, without its basis: every kit reads its own.
template <class Q> std::string shown(Q const& value, double step, units::System system)
{
    double const rounded = std::round(units::in_si(value) / step) * step;
    std::string text = units::show(units::measure_of<Q>::value, rounded == 0 ? 0.0 : rounded, 0, {system, {}, {}});
    return glued(text.substr(0, text.find(" as ")));
}

std::string number_of(std::string const& quantity)
{
    return quantity.substr(0, quantity.find_first_of(" \xC2")); // a space or a no-break space
}

constexpr double ppm = 1e-3;

struct Row
{
    std::string name, before, after;
};

void add(std::vector<Row>& rows, std::string name, std::string before, std::string after)
{
    if (before != after)
        rows.push_back({std::move(name), std::move(before), std::move(after)});
}

/// What a step changes, in the precision of a good kit.
std::vector<Row> changes(WaterAt const& a, WaterAt const& b, units::System s)
{
    std::vector<Row> rows;
    auto const &x = a.readings, &y = b.readings;
    add(rows, "pH", shown(x.ph, 0.05, s), shown(y.ph, 0.05, s));
    add(rows, "free chlorine", shown(x.free_chlorine, 0.1 * ppm, s), shown(y.free_chlorine, 0.1 * ppm, s));
    add(rows, "alkalinity", shown(x.alkalinity, ppm, s), shown(y.alkalinity, ppm, s));
    add(rows, "calcium hardness", shown(x.calcium, ppm, s), shown(y.calcium, ppm, s));
    add(rows, "cyanurate", shown(x.cyanurate, ppm, s), shown(y.cyanurate, ppm, s));
    add(rows, "borate", shown(x.borate, ppm, s), shown(y.borate, ppm, s));
    add(rows, "salt", shown(x.salt, 10 * ppm, s), shown(y.salt, 10 * ppm, s));
    add(rows, "saturation index", shown(a.saturation, 0.05, s), shown(b.saturation, 0.05, s));
    return rows;
}

std::string in_line(std::vector<Row> const& rows)
{
    std::string out;
    for (auto const& row : rows)
        out += (out.empty() ? "" : "; ") + row.name + " " + number_of(row.before) + " → " + row.after;
    return out;
}

std::string hours(units::Duration d)
{
    double const h = d.value() / units::exact::hour;
    return glued(h < 48 ? numerics::number_text(std::round(h)) + " h"
                        : numerics::number_text(std::round(h / 24)) + " days");
}

void part(std::vector<Part>& parts, std::string label, std::vector<std::string> texts, Tone tone = Tone::plain)
{
    texts.erase(std::remove_if(texts.begin(), texts.end(), [](auto const& t) { return t.empty(); }), texts.end());
    if (!texts.empty())
        parts.push_back({std::move(label), std::move(texts), tone, false});
}

/// Where a way of adding was told before.
using Told = std::map<std::string, std::size_t>;

Card step_card(DoseStep const& step, std::size_t number, assess::WaterReport const& report, units::System system,
               Said& said, Told& told)
{
    Card card;
    card.title = step.what;
    card.number = number;
    card.tick = "tick when it is done";
    part(card.parts, "Why", {step.why});
    auto const [how, first] = told.emplace(step.how, number);
    part(card.parts, "How", {first || step.how.empty() ? step.how : "as in step " + std::to_string(how->second)});
    part(card.parts, "Should then read", {in_line(changes(step.before, step.after, system))});
    std::string next;
    if (step.wait.value() > 0)
        next = "wait " + hours(step.wait) + " with the pump running before anything else is added";
    constexpr double worth_a_test = 0.25; // of pH: the volume and the tests are not known better
    bool const moves_ph = std::abs((step.after.readings.ph - step.before.readings.ph).value()) > worth_a_test;
    if (step.retest || moves_ph)
        next += (next.empty() ? "" : ", then ") + std::string("test again before you go on");
    part(card.parts, "Then", {next});
    if (step.swim.value() > 0)
        part(card.parts, "Nobody in the water", {"for " + hours(step.swim) + ", and until it tests right"});
    std::vector<std::string> cautions;
    for (auto const& id : step.cautions)
        if (said.emplace(id, "a step before").second)
            for (auto const& [key, say] : report.sayings)
                if (key == id)
                    cautions.push_back(say);
    part(card.parts, "Take care", cautions, Tone::danger);
    return card;
}

std::string heading(assess::WaterReport const& report, assess::WaterSheet const& sheet, std::string const& text)
{
    return report.waters.size() < 2 ? text : capitalised(report.assessment.items.at(sheet.item).name) + ": " + text;
}

std::string id(assess::WaterSheet const& sheet, std::string const& what)
{
    return what + "-" + std::to_string(sheet.item);
}

void draw(Section& section, Drawing drawing)
{
    if (!drawing.svg.empty())
        section.blocks.emplace_back(std::move(drawing));
}

Section doing_section(assess::WaterReport const& report, assess::WaterSheet const& sheet, units::System system)
{
    Section out{id(sheet, "doing"), heading(report, sheet, "what the water is doing"), {}};
    if (report.waters.size() < 2)
        out.heading = "What the water is doing";
    Points points;
    for (auto const& text : sheet.doing)
        points.texts.push_back(capitalised(text));
    if (!points.texts.empty())
        out.blocks.emplace_back(std::move(points));
    if (sheet.chlorine)
        draw(out, chlorine_drawing(*sheet.chlorine, system, id(sheet, "chlorine")));
    if (sheet.saturation)
        draw(out, saturation_drawing(*sheet.saturation, system, id(sheet, "saturation")));
    return out;
}

Section swim_section(assess::WaterReport const& report, assess::WaterSheet const& sheet)
{
    Section out{id(sheet, "swim"), heading(report, sheet, "When to swim"), {}};
    if (sheet.swim.now)
        out.blocks.emplace_back(Paragraph{
            sheet.swim.when.empty() ? "Nothing that was tested speaks against it now."
                                    : "Nothing that was tested speaks against it now, before a product is added."});
    else
        out.blocks.emplace_back(Paragraph{"Not now: " + joined(sheet.swim.against, "; ", "; ") + ".", Tone::danger});
    if (!sheet.swim.when.empty())
        out.blocks.emplace_back(Paragraph{capitalised(sheet.swim.when) + "."});
    return out;
}

Section plan_section(assess::WaterReport const& report, assess::WaterSheet const& sheet, units::System system,
                     Said& said)
{
    Section out{id(sheet, "plan"), heading(report, sheet, "What to add"), {}};
    if (!sheet.plan)
    {
        out.blocks.emplace_back(Paragraph{"No plan: " + sheet.no_plan + "."});
        return out;
    }
    DosePlan const& plan = *sheet.plan;
    out.blocks.emplace_back(Paragraph{plan.answer});
    if (!plan.outside.empty())
    {
        out.blocks.emplace_back(Points{plan.outside});
        out.blocks.emplace_back(Paragraph{"What is outside its band by less than the test's own doubt is left alone."});
    }
    std::size_t number = 0;
    Told told;
    for (auto const& step : plan.steps)
        out.blocks.emplace_back(step_card(step, ++number, report, system, said, told));
    if (plan.steps.size() > 1)
        out.blocks.emplace_back(Paragraph{"In all: " + in_line(changes(plan.now, plan.end, system)) + "."});
    if (plan.cost)
        out.blocks.emplace_back(Paragraph{"By the prices given this uses up " +
                                          numerics::number_text(std::round(*plan.cost * 100) / 100) +
                                          " of what the packages cost."});
    if (!plan.general.empty() && !plan.steps.empty())
        out.blocks.emplace_back(Points{plan.general});
    return out;
}

std::string_view followed_name(chemistry::Followed reading)
{
    using F = chemistry::Followed;
    switch (reading)
    {
    case F::ph: return "pH";
    case F::alkalinity: return "alkalinity";
    case F::calcium: return "calcium hardness";
    case F::cyanurate: return "cyanurate";
    case F::free_chlorine: return "free chlorine";
    case F::salt: return "salt";
    case F::saturation_index: return "saturation index";
    }
    return {};
}

template <class Q>
std::string spread(std::string const& name, chemistry::Spread<Q> const& s, double step, units::System system)
{
    std::string const middle = shown(s.median, step, system), low = shown(s.low, step, system),
                      high = shown(s.high, step, system);
    return name + " " + middle + (low == high ? "" : " (" + number_of(low) + " to " + number_of(high) + ")");
}

Table forecast_table(chemistry::Forecast const& forecast, units::System system)
{
    Table table;
    table.caption = "In brackets what it may be, 19 times in 20";
    table.heads = {"day", "readings"};
    table.needed = true;
    std::size_t const last = forecast.days.size() - 1;
    std::size_t const every = last <= 7 ? 1 : last <= 35 ? 7 : 30;
    for (std::size_t i = 0; i <= last; ++i)
    {
        if (i % every != 0 && i != last)
            continue;
        auto const& d = forecast.days[i];
        std::string text =
            spread("pH", d.ph, 0.1, system) + "; " + spread("free chlorine", d.free_chlorine, 0.1 * ppm, system) +
            "; " + spread("alkalinity", d.alkalinity, ppm, system) + "; " + spread("calcium", d.calcium, ppm, system);
        if (d.saturation_index)
            text += "; " + spread("index", *d.saturation_index, 0.1, system);
        table.rows.push_back(
            {{"day " + numerics::number_text(std::round(d.at.value() / units::exact::day)), {}}, {text, {}}});
    }
    return table;
}

Section forecast_section(assess::WaterReport const& report, assess::WaterSheet const& sheet, units::System system)
{
    Section out{id(sheet, "forecast"), heading(report, sheet, "What comes by itself"), {}};
    if (!sheet.forecast)
    {
        out.blocks.emplace_back(Paragraph{"No forecast: " + sheet.no_forecast + "."});
        return out;
    }
    bool const planned = sheet.plan && !sheet.plan->steps.empty();
    out.blocks.emplace_back(
        Paragraph{std::string("If nothing is added ") + (planned ? "after this plan" : "from now on") +
                  " but what was said under care, a reading leaves the band that was planned for:"});
    Points points;
    for (auto const& exit : sheet.forecast->exits)
        points.texts.push_back(std::string(followed_name(exit.band.reading)) + ": " +
                               chemistry::exit_in_words(exit, sheet.ahead));
    out.blocks.emplace_back(std::move(points));
    draw(out, forecast_drawing(sheet, system, id(sheet, "days")));
    out.blocks.emplace_back(forecast_table(*sheet.forecast, system));
    if (!sheet.forecast->ended_because.empty())
        out.blocks.emplace_back(Paragraph{"The forecast ends there: " + sheet.forecast->ended_because + "."});
    return out;
}

/// The sources whose keys the page names; the figures' own stand in 'padwalk figure NAME'.
Section cited_sources(assess::Assessment const& a, Page const& page)
{
    std::string const said = all_text(page);
    assess::Assessment named;
    for (auto const& source : a.sources)
        if (said.find("[" + source.first + "]") != std::string::npos)
            named.sources.push_back(source);
    return source_section(named);
}

} // namespace

Page water_page(assess::WaterReport const& report, units::System system)
{
    auto const& a = report.assessment;
    Page page;
    page.kind = "owner";
    page.on = a.on;
    page.title = capitalised(a.property.empty() ? "the water" : "the water, " + a.property);
    if (!a.on.empty())
        page.about.push_back("Tested " + a.on);
    Said said;
    auto put = [&](Section section)
    {
        if (!section.blocks.empty())
            page.sections.push_back(std::move(section));
    };
    put(danger_section(a, said));
    put(question_section(a));
    for (auto const& sheet : report.waters)
    {
        put(doing_section(report, sheet, system));
        put(swim_section(report, sheet));
        put(plan_section(report, sheet, system, said));
        put(forecast_section(report, sheet, system));
    }
    put(limits_section(a));
    put(figure_section(a, system));
    put(assumption_section(a));
    put(cited_sources(a, page));
    page.foot.push_back(
        "Doses are worked out from the readings and the volume; the label of the product decides how it "
        "is handled, local code what is allowed, and a fresh test whether it worked.");
    return page;
}

} // namespace padwalk::report
