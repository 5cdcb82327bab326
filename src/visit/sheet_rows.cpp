#include "sheet_rows.hpp"

#include <algorithm>
#include <stdexcept>

namespace padwalk::visit
{
namespace
{

using fields::FieldShape;
using fields::RecordShape;
using fields::Tree;
using Form = FieldShape::Form;

/// A field and what is known of it.
struct Fact
{
    FieldShape const* shape = nullptr;
    Tree const* known = nullptr;
};

Tree const* entry_of(Tree const* map, std::string_view key)
{
    auto const* entries = map != nullptr ? std::get_if<Tree::Map>(&map->value()) : nullptr;
    if (entries != nullptr)
        for (auto const& [name, value] : *entries)
            if (name == key)
                return &value;
    return nullptr;
}

FieldShape const& declared(RecordShape const& record, std::string_view name)
{
    FieldShape const* found = record.find(name);
    if (found == nullptr)
        throw std::logic_error("data/visit/field_sheet.yaml: no field '" + std::string(name) + "' of a " + record.name);
    return *found;
}

// 'motor/voltage' from the pump.
Fact fact_at(Facts const& facts, std::string_view way)
{
    RecordShape const* record = facts.shape;
    Fact out{nullptr, &facts.known};
    while (true)
    {
        auto const slash = way.find('/');
        std::string_view const name = way.substr(0, slash);
        if (record == nullptr)
            throw std::logic_error("data/visit/field_sheet.yaml: nothing stands below '" + out.shape->name + "'");
        out = {&declared(*record, name), entry_of(out.known, name)};
        if (slash == std::string_view::npos)
            return out;
        record = out.shape->form == Form::record ? out.shape->inner() : nullptr;
        way.remove_prefix(slash + 1);
    }
}

// The example of the field as one value; that of a named group is '{pad: 0 ppm, …}'.
std::string sample_text(FieldShape const& field)
{
    std::string const sample = field.sample();
    if (field.form != Form::named)
        return sample;
    std::size_t const from = sample.find(": "), to = sample.find_first_of(",}");
    return from == std::string::npos || to == std::string::npos ? sample : sample.substr(from + 2, to - from - 2);
}

// It says what size of number is written, and so in which unit; in SI.
double sample_of(FieldShape const& field)
{
    std::string text = sample_text(field);
    if (text.starts_with("0 "))
        text.front() = '1'; // nought has no size
    auto const read = units::read_quantity(text, *field.measure, field.name);
    auto const* reading = std::get_if<units::Reading>(&read);
    return reading != nullptr ? reading->value : 0.0;
}

// The examples are written in the units that a US instrument or plate shows: a motor's power in hp, a depth in ft.
std::string_view unit_of(FieldShape const& field, units::System system)
{
    std::string const sample = sample_text(field);
    std::size_t const from = sample.find_first_not_of("0123456789.,/+- ");
    if (system == units::System::us && from != std::string::npos)
    {
        auto const goes_on = [&](std::size_t space) // as in '3 ft 6 in', '6 gal/day ± 2 gal/day'
        { return std::string_view("0123456789\xc2").find(sample[space + 1]) == std::string_view::npos; };
        std::size_t end = sample.find(' ', from);
        while (end != std::string::npos && goes_on(end))
            end = sample.find(' ', end + 1);
        std::string const unit = sample.substr(from, end == std::string::npos ? end : end - from);
        if (auto const* found = units::find_unit(unit, units::info(*field.measure).dimension))
            return found->symbol;
    }
    return units::unit_for(*field.measure, sample_of(field), field.style(system));
}

std::string printed_unit(FieldShape const& field, units::System system)
{
    std::string_view const unit = unit_of(field, system);
    std::string const basis(units::info(*field.measure).basis);
    bool const gallons = unit.starts_with("gal");
    return (gallons ? "US " : "") + units::printed(unit) + (basis.empty() ? "" : " as " + basis);
}

// Room for the longest number that is usual, and for the example.
std::size_t characters_of(FieldShape const& field, units::System system)
{
    std::string_view const unit = unit_of(field, system);
    auto const in_unit = [&](double si) { return units::in_unit(*field.measure, si, unit); };
    std::size_t out = units::show_significant(in_unit(sample_of(field)), 3).size();
    if (auto const high = field.usual_high ? field.usual_high : field.high)
        out = std::max(out, units::show_number(in_unit(*high), 0).size());
    return std::clamp<std::size_t>(out + (field.low && in_unit(*field.low) < 0 ? 1 : 0), 3, 9);
}

std::string example_of(FieldShape const& field, units::System system)
{
    if (!field.measure || system == units::System::us)
        return field.sample();
    std::string_view const unit = unit_of(field, system);
    std::string const number = units::show_significant(units::in_unit(*field.measure, sample_of(field), unit), 2);
    return unit.empty() ? number : number + " " + units::printed(unit);
}

std::string quantity_text(Tree const& tree, FieldShape const& field, units::System system)
{
    auto const number = [&](std::string_view key)
    {
        Tree const* value = entry_of(&tree, key);
        return value != nullptr ? std::get<double>(value->value()) : 0.0;
    };
    Tree const* symbol = entry_of(&tree, "unit");
    auto const* unit = symbol == nullptr ? nullptr
                                         : units::find_unit(std::get<std::string>(symbol->value()),
                                                            units::info(*field.measure).dimension);
    double const scale = unit != nullptr ? unit->scale : 1.0;
    double const zero = unit != nullptr ? unit->zero : 0.0;
    std::string_view const us = unit_of(field, units::System::us); // as the box that it stands in place of
    return units::show(*field.measure, (number("value") + zero) * scale, number("standard_uncertainty") * scale,
                       {system, us, field.unit_si});
}

// What is known, as it stands on paper; empty where nothing is.
std::string known_text(Fact const& fact, RowStyle const& style)
{
    if (fact.known == nullptr || fact.known->nothing())
        return {};
    if (auto const* yes = std::get_if<bool>(&fact.known->value()))
        return *yes ? "yes" : "no";
    if (auto const* text = std::get_if<std::string>(&fact.known->value()))
        return fact.shape->form == Form::choice ? style.plan.said(*text) : *text;
    if (auto const* list = std::get_if<Tree::List>(&fact.known->value()))
    {
        std::string out;
        for (auto const& item : *list)
            if (auto const* text = std::get_if<std::string>(&item.value()))
                out += (out.empty() ? "" : ", ") + (fact.shape->words.empty() ? *text : style.plan.said(*text));
        return out;
    }
    return fact.shape->measure ? quantity_text(*fact.known, *fact.shape, style.system) : std::string();
}

std::vector<std::string> said_words(FieldShape const& field, SheetPlan const& plan)
{
    if (field.form == Form::yes_no)
        return {"yes", "no"};
    std::vector<std::string> out;
    for (auto const& word : field.words)
        out.push_back(plan.said(word));
    return out;
}

SheetColumn column_of(FieldShape const& field, std::string const& label, RowStyle const& style, std::string& legend)
{
    constexpr std::size_t most_ticked = 18, moment = 16, in_words = 20, word = 11, least = 5; // characters
    SheetColumn out{label, {}, {}, in_words};
    if (field.measure)
    {
        out.unit = printed_unit(field, style.system);
        out.characters = std::max(least, characters_of(field, style.system));
        std::string const basis = " as " + label; // 'cyanuric acid, ppm as cyanuric acid'
        if (out.unit.ends_with(basis))
            out.unit.erase(out.unit.size() - basis.size());
    }
    if (field.form == Form::moment)
        out.characters = moment;
    auto words = said_words(field, style.plan);
    std::string joined;
    for (auto const& one : words)
        joined += (joined.empty() ? "" : ", ") + one;
    if (words.empty())
        return out;
    out.characters = word;
    if (joined.size() <= most_ticked)
        out.words = std::move(words);
    else
        legend += (legend.empty() ? "" : "; ") + label + ": " + joined;
    return out;
}

// The entries of a list or a named group; a single record is one entry.
std::vector<std::pair<std::string, Tree const*>> entries_of(Tree const* known, Form form)
{
    std::vector<std::pair<std::string, Tree const*>> out;
    if (known == nullptr)
        return out;
    if (auto const* list = std::get_if<Tree::List>(&known->value()))
        for (auto const& item : *list)
            out.emplace_back(std::string(), &item);
    else if (auto const* map = std::get_if<Tree::Map>(&known->value()); map != nullptr && form == Form::named)
        for (auto const& [name, value] : *map)
            out.emplace_back(name, &value);
    else
        out.emplace_back(std::string(), known);
    return out;
}

// The unit stands in the head; only another one is repeated below it.
std::string cell_text(Fact const& fact, RowStyle const& style)
{
    std::string out = known_text(fact, style);
    std::string const unit = fact.shape->measure ? " " + printed_unit(*fact.shape, style.system) : std::string();
    if (!out.empty() && unit.size() > 1 && out.ends_with(unit))
        out.erase(out.size() - unit.size());
    return out;
}

void fill_table(SheetRow& row, RowPlan const& plan, Fact const& fact, RowStyle const& style)
{
    constexpr std::size_t most = 8; // lines of earlier visits, the newest
    bool const plain_values = fact.shape->inner == nullptr;
    if (!plan.name.empty())
        row.columns.push_back({plan.name, {}, {}, 20});
    if (plain_values)
        row.columns.push_back(column_of(*fact.shape, plan.value, style, row.legend));
    for (auto const& column : plan.columns)
        row.columns.push_back(column_of(declared(*fact.shape->inner(), column.field), column.label, style, row.legend));
    for (auto const& [name, value] : entries_of(fact.known, fact.shape->form))
    {
        std::vector<std::string> line;
        if (!plan.name.empty())
            line.push_back(name);
        if (plain_values)
            line.push_back(cell_text({fact.shape, value}, style));
        bool any = !plan.name.empty();
        for (auto const& column : plan.columns)
        {
            line.push_back(
                cell_text({&declared(*fact.shape->inner(), column.field), entry_of(value, column.field)}, style));
            any = any || !line.back().empty();
        }
        if (any)
            row.filled.push_back(std::move(line));
    }
    if (row.filled.size() > most)
        row.filled.erase(row.filled.begin(), row.filled.end() - most);
    bool const fewer = !plan.again.value_or(false) && !row.filled.empty();
    row.lines = fewer ? std::max<std::size_t>(1, row.lines - std::min(row.lines, row.filled.size())) : row.lines;
}

SheetRow row_of(RowPlan const& plan, Fact const& fact, RowStyle const& style)
{
    FieldShape const& field = *fact.shape;
    SheetRow row;
    row.label = plan.label;
    row.several = plan.several.value_or(false);
    if (plan.lines)
        row.lines = static_cast<std::size_t>(units::in_si(*plan.lines));
    if (plan.like.value_or(false))
        row.example = example_of(field, style.system);
    if (!plan.columns.empty() || !plan.name.empty())
    {
        row.answer = Answer::table;
        fill_table(row, plan, fact, style);
        return row;
    }
    row.words = said_words(field, style.plan);
    row.answer = !row.words.empty()           ? Answer::ticks
                 : field.measure              ? Answer::quantity
                 : field.form == Form::moment ? Answer::moment
                                              : Answer::text;
    if (field.measure)
    {
        row.unit = printed_unit(field, style.system);
        row.characters = characters_of(field, style.system);
    }
    (plan.again.value_or(false) ? row.before : row.known) = known_text(fact, style);
    return row;
}

bool concerns(RowPlan const& plan, Facts const& facts, RowStyle const& style)
{
    std::string_view const first = std::string_view(plan.field).substr(0, plan.field.find('/'));
    if (!is_wanted(facts.shape->name, first, style.parts))
        return false;
    if (plan.only_if.empty())
        return true;
    Fact const on = fact_at(facts, plan.only_if);
    auto const* word = on.known != nullptr ? std::get_if<std::string>(&on.known->value()) : nullptr;
    if (word == nullptr)
    {
        bool const any_kind = facts.shape->name == "heater" && style.parts.contains("heater");
        return plan.or_unknown.value_or(false) || any_kind;
    }
    return std::find(plan.is.begin(), plan.is.end(), *word) != plan.is.end();
}

} // namespace

std::vector<SheetRow> rows_of(GroupPlan const& group, Facts const& facts, RowStyle const& style)
{
    std::vector<SheetRow> out;
    for (auto const& plan : group.rows)
        if (concerns(plan, facts, style))
            out.push_back(row_of(plan, fact_at(facts, plan.field), style));
    return out;
}

} // namespace padwalk::visit
