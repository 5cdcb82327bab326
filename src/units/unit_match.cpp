#include "unit_match.hpp"

#include "padwalk/units/spelling.hpp"

#include <algorithm>
#include <array>

namespace padwalk::units
{
namespace
{

bool is_word(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

bool is_letter(char c)
{
    return is_word(c) && !(c >= '0' && c <= '9');
}

char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool same_but_for_case(std::string_view a, std::string_view b)
{
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return lower(x) == lower(y); });
}

// m is milli and M is mega; one letter alone may be another unit.
bool case_matters(std::string_view symbol)
{
    static constexpr auto careful = std::to_array<std::string_view>(
        {"mL", "ml", "mL/min", "mm", "mA", "mV", "mPa s", "MPa", "mS/cm", "mg", "mil", "MJ", "MJ/m3", "Mohm"});
    if (symbol.size() < 2)
        return true;
    return std::find(careful.begin(), careful.end(), symbol) != careful.end();
}

bool among(std::vector<Dimension> const& dimensions, Dimension wanted)
{
    return std::find(dimensions.begin(), dimensions.end(), wanted) != dimensions.end();
}

} // namespace

UnitMatch match_unit(std::string_view text, std::vector<Dimension> const& dimensions)
{
    UnitMatch best;
    for (auto const& unit : all_units())
    {
        std::size_t const length = unit.symbol.size();
        if (text.size() < length || !(dimensions.empty() || among(dimensions, unit.dimension)))
            continue;
        // 'psig' is not 'psi', but 6" may stand before another number.
        bool const ends = text.size() == length || !is_word(text[length]) ||
                          (!is_letter(text[length]) && !is_letter(unit.symbol.back()));
        bool const same = text.starts_with(unit.symbol);
        bool const forgiven =
            !same && !case_matters(unit.symbol) && same_but_for_case(text.substr(0, length), unit.symbol);
        if (!ends || !(same || forgiven))
            continue;
        if (length > best.length || (length == best.length && best.folded && same))
            best = {&unit, length, forgiven};
    }
    return best;
}

std::string_view nearest_unit(std::string_view word, std::vector<Dimension> const& dimensions)
{
    std::string_view nearest;
    if (word.size() > 30)
        return nearest;
    std::size_t least = word.size() < 3 ? 2 : 3;
    for (auto const& unit : all_units())
        if (among(dimensions, unit.dimension))
            if (std::size_t const d = edits(word, unit.symbol); d < least)
            {
                least = d;
                nearest = unit.symbol;
            }
    return nearest;
}

std::vector<Dimension> dimensions_of(MeasureInfo const& measure)
{
    using D = Dimension;
    std::vector<Dimension> out{measure.dimension};
    if (measure.measure == Measure::gauge_pressure)
        out.push_back(D::gauge_only);
    if (measure.measure == Measure::absolute_pressure)
        out.push_back(D::absolute_only);
    if (measure.molar_mass > 0)
        out.push_back(D::amount_concentration);
    if (measure.measure == Measure::as_calcium_carbonate)
        out.push_back(D::equivalent_concentration);
    if (measure.measure == Measure::fraction)
        out.push_back(D::slope);
    return out;
}

} // namespace padwalk::units
