#include "padwalk/fields/shape.hpp"

#include <cmath>

namespace padwalk::fields
{
namespace
{

std::string joined(std::vector<std::string> const& words, std::string_view between)
{
    std::string out;
    for (auto const& word : words)
        out += (out.empty() ? "" : std::string(between)) + word;
    return out;
}

// The measure's own example where the field's range allows it, else a value in the middle of that range.
std::string sample_of(FieldShape const& field)
{
    std::string const usual(units::info(*field.measure).example);
    if (!field.low || !field.high)
        return usual;
    auto const read = units::read_quantity(usual, *field.measure, field.name);
    double const value = std::get<units::Reading>(read).value;
    if (value >= *field.low && value <= *field.high)
        return usual;
    double const middle = *field.low > 0 ? std::sqrt(*field.low * *field.high) : (*field.low + *field.high) / 2;
    return units::show(*field.measure, middle, 0, field.style(units::System::us));
}

} // namespace

FieldShape const* RecordShape::find(std::string_view field) const
{
    for (auto const& f : fields)
        if (f.name == field)
            return &f;
    return nullptr;
}

std::string FieldShape::sample() const
{
    if (!example.empty())
        return example;
    switch (form)
    {
    case Form::quantity: return sample_of(*this);
    case Form::choice: return words.front();
    case Form::yes_no: return "yes";
    case Form::moment: return "2026-05-14 10:30";
    case Form::curve: return "0 gpm:80 ft, 40 gpm:68 ft, 75 gpm:40 ft";
    default: return "words";
    }
}

std::string FieldShape::bound(double si, std::string const& declared, units::System system) const
{
    bool const as_declared =
        measure == units::Measure::gauge_pressure && system == units::System::us && !declared.empty();
    return as_declared ? declared : units::show(*measure, si, 0, style(system));
}

std::string FieldShape::describe(units::System system) const
{
    switch (form)
    {
    case Form::quantity:
    {
        std::string out(units::info(*measure).noun);
        if (!units::info(*measure).basis.empty())
            out += " as " + std::string(units::info(*measure).basis);
        if (low && high)
            out += ", " + bound(*low, low_text, system) + " to " + bound(*high, high_text, system);
        return out;
    }
    case Form::choice: return joined(words, " | ");
    case Form::yes_no: return "yes or no";
    case Form::moment: return "a date, or a date and time";
    case Form::curve: return "points flow:head";
    case Form::record: return "a group of fields";
    case Form::list: return item == Form::choice ? "a list of: " + joined(words, ", ") : "a list";
    case Form::named: return "a group for each, under a name of your own";
    case Form::text: break;
    }
    return "words";
}

} // namespace padwalk::fields
