#include "padwalk/chemistry/chlorine.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/number_text.hpp"

namespace padwalk::chemistry
{
namespace
{

constexpr double mg_per_litre = 1e-3;
constexpr units::AsChlorine legal_kit_error = units::of_si<units::AsChlorine>(0.5 * mg_per_litre); // [utah-r392-302-27]

std::string ppm(std::optional<units::Reading> const& bound)
{
    return numerics::number_text(bound->value / mg_per_litre) + " ppm";
}

WorkingBand const& pool_band(std::vector<WorkingBand> const& bands, Parameter parameter,
                             Stabilizer stabilizer = Stabilizer::either)
{
    WorkingBand const* band = working_band(bands, parameter, Venue::pool, stabilizer);
    if (band == nullptr)
        throw std::logic_error("data/chemistry/limits.yaml has no working band for a parameter that a model needs");
    return *band;
}

} // namespace

units::AsChlorine combined_chlorine(units::AsChlorine total, units::AsChlorine free)
{
    return total - free;
}

std::string combined_in_words(units::AsChlorine combined, std::vector<WorkingBand> const& bands)
{
    Bounds const& limit = pool_band(bands, Parameter::combined_chlorine).bounds;
    if (combined < -legal_kit_error)
        return "free reads above total, which can't be: test both again with fresh reagent";
    if (combined.value() <= 0)
        return "none to be seen";
    if (combined <= *Bounds::as<units::AsChlorine>(limit.ideal_high))
        return "little: at most " + ppm(limit.ideal_high);
    if (combined <= *Bounds::as<units::AsChlorine>(limit.high))
        return "some: above the ideal " + ppm(limit.ideal_high) + ", within the limit of " + ppm(limit.high);
    return "much: above the limit of " + ppm(limit.high) + "; it smells, stings the eyes and disinfects poorly";
}

units::Number cyanurate_ratio(units::AsChlorine free, units::AsCyanuricAcid cyanurate)
{
    if (!(free.value() > 0))
        throw figures::NotComputed("there is no free chlorine, so no ratio; such water is not disinfected");
    return units::Number::from_value(cyanurate.value() / free.value());
}

std::string ratio_in_words(units::AsChlorine free, units::AsCyanuricAcid cyanurate,
                           std::vector<WorkingBand> const& bands)
{
    double const closes = pool_band(bands, Parameter::cyanurate_to_chlorine).bounds.high->value;
    auto const stabilizer = cyanurate.value() > 0 ? Stabilizer::present : Stabilizer::none;
    Bounds const& chlorine = pool_band(bands, Parameter::free_chlorine, stabilizer).bounds;
    Bounds const& acid = pool_band(bands, Parameter::cyanurate).bounds;

    std::string text = "the ratio is ";
    text += cyanurate_ratio(free, cyanurate).value() > closes ? "above " : "at most ";
    text += numerics::number_text(closes) + " to 1, above which the model code closes a public pool";
    if (free < *Bounds::as<units::AsChlorine>(chlorine.low))
        text += "; free chlorine is below the " + ppm(chlorine.low) + " asked for " +
                (cyanurate.value() > 0 ? "with cyanurate" : "without cyanurate");
    if (cyanurate > *Bounds::as<units::AsCyanuricAcid>(acid.high))
        text += "; cyanurate is above the laxest published limit of " + ppm(acid.high);
    else if (cyanurate > *Bounds::as<units::AsCyanuricAcid>(acid.ideal_high))
        text += "; cyanurate is above the recommended " + ppm(acid.ideal_high) +
                ", and several bodies set a limit below " + ppm(acid.high);
    return text;
}

} // namespace padwalk::chemistry
