/// Readings and figures of two visits side by side.

#include "change_words.hpp"
#include "page_comparison.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

namespace padwalk::report
{
namespace
{

using assess::Changed;

std::string value_of(assess::ReadingSide const& side, fields::FieldShape const* shape, units::System system)
{
    if (!side.words.empty())
        return side.words;
    units::Style const style = shape != nullptr ? shape->style(system) : units::Style{system, {}, {}};
    return glued(units::show_with_doubt(side.reading.measure, side.reading.value, side.reading.doubt, style));
}

Cell side_cell(std::string_view when, std::optional<assess::ReadingSide> const& side, fields::FieldShape const* shape,
               units::System system)
{
    if (!side)
        return {std::string(when) + "not taken", {}, Tone::quiet};
    Cell cell{std::string(when) + value_of(*side, shape, system), {}};
    if (!side->taken_at.empty())
        cell.more.push_back("test of " + side->taken_at);
    return cell;
}

Cell change_cell(assess::ReadingCompared const& r, units::System system)
{
    Cell cell;
    if (!r.then || !r.now)
        cell.text = r.then ? "not taken this time" : "not taken then";
    else if (!r.difference)
        cell.text = r.changed == Changed::agrees ? "the same" : "other words";
    else if (r.changed == Changed::agrees)
        cell.text = r.difference->by == 0 ? "the same" : "agrees within doubt";
    else
        cell.text = change_in_words(*r.difference, r.then->reading.measure, r.then->reading.value, r.now->reading.value,
                                    r.shape, system);
    if (r.other_instrument)
        cell.more.push_back("other instrument: " + means_of(r.then->reading) + " then, " + means_of(r.now->reading) +
                            " now");
    return cell;
}

// Nothing to weigh.
bool plainly_same(assess::ReadingCompared const& r)
{
    return r.changed == Changed::agrees && !r.other_instrument && (!r.difference || r.difference->by == 0);
}

void put(Section& out, Table table)
{
    if (!table.rows.empty())
        out.blocks.emplace_back(std::move(table));
}

std::string output_text(std::optional<figures::OutputValue> const& out, std::string const& why_not,
                        units::System system)
{
    if (!out)
        return why_not.empty() ? "not computed" : "not computed: " + why_not;
    return glued(
        units::show_interval(*out->shape->measure, *out->value, out->low, out->high, out->shape->style(system)));
}

std::string figure_change(assess::FigureCompared const& f, units::System system)
{
    if (!f.difference)
        return f.then ? "only then" : f.now ? "only now" : "at neither";
    if (f.changed == Changed::agrees)
        return f.difference->by == 0 ? "the same" : "agrees within doubt";
    return change_in_words(*f.difference, *f.now->shape->measure, *f.then->value, *f.now->value, f.now->shape, system);
}

} // namespace

Section readings_compared(assess::Comparison const& c, units::System system)
{
    Section out{"readings-compared", "Readings side by side", {}};
    std::vector<std::string> const heads{"reading", "then", "now", "what changed"};
    Table changed{"Changed by more than the doubt of both", heads, {}, 0, true};
    Table agree{"Within the doubt of both", heads, {}, 0, true};
    Table once{"Taken at one of the visits only", heads, {}, 0, true};
    std::vector<std::string> same;
    for (auto const& r : c.readings)
    {
        std::string const name = of_item(c, plain_name(r.label), r.item);
        if (plainly_same(r))
        {
            same.push_back(name + " " + value_of(*r.now, r.shape, system));
            continue;
        }
        auto& table = !r.then || !r.now ? once : r.changed == Changed::changed ? changed : agree;
        table.rows.push_back({{capitalised(name), {}},
                              side_cell("then ", r.then, r.shape, system),
                              side_cell("now ", r.now, r.shape, system),
                              change_cell(r, system)});
    }
    put(out, std::move(changed));
    put(out, std::move(agree));
    put(out, std::move(once));
    if (!same.empty())
        out.blocks.emplace_back(Paragraph{"The same at both visits: " + joined(same, "; ", "; ") + ".", Tone::quiet});
    if (c.marks_then + c.marks_now > 0)
        out.blocks.emplace_back(Paragraph{"Marks of a level count from a first mark of their own, so they are not "
                                          "compared one by one; what they say of a leak stands in each report.",
                                          Tone::quiet});
    return out;
}

Section figures_compared(assess::Comparison const& c, units::System system)
{
    Section out{"figures-compared", "Figures side by side", {}};
    Table table{"Computed from the readings; in brackets what each may be, 19 times in 20",
                {"figure", "then", "now", "what changed"},
                {},
                0,
                true};
    std::vector<std::string> same, neither;
    for (auto const& f : c.figures)
    {
        if (f.difference && f.difference->by == 0)
            same.push_back(f.label + " " + output_text(f.now, {}, system));
        else if (!f.then && !f.now)
            neither.push_back(f.label);
        else
            table.rows.push_back({{capitalised(f.label), {}, Tone::plain},
                                  {"then " + output_text(f.then, f.why_not_then, system), {}},
                                  {"now " + output_text(f.now, f.why_not_now, system), {}},
                                  {figure_change(f, system), {}}});
    }
    put(out, std::move(table));
    if (!same.empty())
        out.blocks.emplace_back(Paragraph{"The same at both: " + joined(same, "; ", "; ") + ".", Tone::quiet});
    if (!neither.empty())
        out.blocks.emplace_back(
            Paragraph{"Not computed at either visit: " + joined(neither, "; ", "; ") + ".", Tone::quiet});
    return out;
}

} // namespace padwalk::report
