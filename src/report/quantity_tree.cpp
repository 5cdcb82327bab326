#include "quantity_tree.hpp"

#include "padwalk/report/figures.hpp"

namespace padwalk::report
{
namespace
{

using fields::Tree;

std::string_view unit_of(units::Measure measure, fields::FieldShape const* shape, units::System system)
{
    if (shape != nullptr)
        if (std::string const& own = system == units::System::us ? shape->unit_us : shape->unit_si; !own.empty())
            return own;
    auto const& info = units::info(measure);
    return (system == units::System::us ? info.us : info.si).back().symbol;
}

Tree value_tree(units::Measure measure, double si, std::string_view unit)
{
    Tree out = Tree::map();
    out.add("value", units::in_unit(measure, si, unit));
    if (!unit.empty())
        out.add("unit", unit);
    if (auto const basis = units::info(measure).basis; !basis.empty())
        out.add("basis", basis);
    return out;
}

} // namespace

std::string_view stable_unit(fields::FieldShape const& field, units::System system)
{
    return field.measure ? unit_of(*field.measure, &field, system) : std::string_view{};
}

Tree reading_tree(units::Reading const& reading, fields::FieldShape const* shape, units::System system)
{
    std::string_view const unit = unit_of(reading.measure, shape, system);
    Tree out = value_tree(reading.measure, reading.value, unit);
    auto const* found = unit.empty() ? nullptr : units::find_unit(unit, units::info(reading.measure).dimension);
    if (reading.doubt > 0)
        out.add("plus_minus", units::coverage * reading.doubt / (found != nullptr ? found->scale : 1.0));
    return out;
}

Tree output_tree(figures::OutputValue const& output, units::System system)
{
    if (!output.value || !output.shape->measure)
        return output.words.empty() ? Tree() : Tree(output.words);
    units::Measure const measure = *output.shape->measure;
    std::string_view const unit = stable_unit(*output.shape, system);
    Tree out = value_tree(measure, *output.value, unit);
    out.add("low", units::in_unit(measure, output.low, unit));
    out.add("high", units::in_unit(measure, output.high, unit));
    return out;
}

} // namespace padwalk::report
