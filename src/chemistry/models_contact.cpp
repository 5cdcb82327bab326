// The figures of chlorine and time.
#include "models_sanitizer.hpp"

#include "padwalk/chemistry/sanitizer.hpp"
#include "padwalk/units/definitions.hpp"

#include <algorithm>

namespace padwalk::chemistry
{
namespace
{

using fields::Record;

struct ContactInput
{
    Incident incident = Incident::formed_stool;
    units::AsChlorine free_chlorine{};
    units::AsCyanuricAcid cyanurate{};
    units::Ph ph{};
    units::Temperature temperature{};

    static Record<ContactInput> const& declaration()
    {
        static Record<ContactInput> const record =
            Record<ContactInput>("contact_time", "how long chlorine must be held after an incident")
                .field("incident", &ContactInput::incident, "what got into the water")
                .required()
                .field("free_chlorine", &ContactInput::free_chlorine, "free chlorine that is held")
                .required()
                .within("0 ppm", "100 ppm")
                .like("20 ppm")
                .field("cyanurate", &ContactInput::cyanurate, "cyanurate (stabilizer)")
                .required()
                .within("0 ppm", "1000 ppm")
                .like("0 ppm")
                .field("ph", &ContactInput::ph, "pH of the water")
                .required()
                .within("6", "10")
                .field("temperature", &ContactInput::temperature, "temperature of the water")
                .required()
                .within("32 degF", "113 degF");
        return record;
    }
};

struct ContactOutput
{
    units::Number ct_needed{};
    units::Duration time_needed{};
    std::string in_words;

    static Record<ContactOutput> const& declaration()
    {
        static Record<ContactOutput> const record =
            Record<ContactOutput>("contact_time", "how long")
                .field("ct_needed", &ContactOutput::ct_needed, "free chlorine times time, mg/L x min")
                .field("time_needed", &ContactOutput::time_needed, "time at this free chlorine")
                .field("in_words", &ContactOutput::in_words, "what to do");
        return record;
    }
};

} // namespace

figures::Model contact_model(reference::Data const& data)
{
    return figures::model<ContactInput, ContactOutput>(
        {.name = "contact_time",
         .title = "how long to hold chlorine after stool or diarrhea in the water",
         .equation = "time = CT / free chlorine; CT published for formed stool (Giardia) and diarrhea "
                     "(Cryptosporidium), three powers of ten",
         .valid = "pH 7.5 or less, 77 °F (25 °C) or warmer, cyanurate 15 ppm or less; free chlorine 2 ppm (4 with "
                  "cyanurate) for formed stool, 10 ppm for diarrhea. With cyanurate the figure for diarrhea is from "
                  "memory. The health department's rule goes before",
         .sources = {"formed-stool-club-plan", "shields-2008", "cdc-fecal-response-2018",
                     "trade-newspaper-crypto-2023"},
         .cautions = {"unsanitized_water", "pool_chemicals"}},
        [table = contact_table(data)](ContactInput const& in)
        {
            ChlorineReadings const r{in.free_chlorine, in.cyanurate, in.ph, in.temperature, {}};
            auto const t = contact_time(in.incident, r, table);
            return ContactOutput{t.ct, t.time, contact_in_words(t, r)};
        });
}

namespace
{

struct GiardiaInput
{
    units::AsChlorine free_chlorine{};
    units::Ph ph{};
    units::Temperature temperature{};
    units::Duration time{};

    static Record<GiardiaInput> const& declaration()
    {
        static Record<GiardiaInput> const record =
            Record<GiardiaInput>("giardia_inactivation", "free chlorine without cyanurate against Giardia")
                .field("free_chlorine", &GiardiaInput::free_chlorine, "free chlorine, in water without cyanurate")
                .required()
                .within("0 ppm", "4 ppm")
                .field("ph", &GiardiaInput::ph, "pH of the water")
                .required()
                .within("6", "9")
                .field("temperature", &GiardiaInput::temperature, "temperature; above 77 °F it counts as 77 °F")
                .required()
                .within("33 degF", "113 degF")
                .field("time", &GiardiaInput::time, "how long it was or will be held")
                .required()
                .within("0 min", "100 h");
        return record;
    }
};

struct GiardiaOutput
{
    units::Number powers_of_ten{}, ct_for_three{};

    static Record<GiardiaOutput> const& declaration()
    {
        static Record<GiardiaOutput> const record =
            Record<GiardiaOutput>("giardia_inactivation", "what that does to Giardia")
                .field("powers_of_ten", &GiardiaOutput::powers_of_ten, "by which it is reduced")
                .field("ct_for_three", &GiardiaOutput::ct_for_three, "mg/L x min for three powers of ten");
        return record;
    }
};

} // namespace

figures::Model giardia_model()
{
    return figures::model<GiardiaInput, GiardiaOutput>(
        {.name = "giardia_inactivation",
         .title = "what free chlorine and time do to Giardia, without cyanurate",
         .equation = "CT = n 0.361 (-2.216 + exp(2.69 - 0.065 T + 0.111 C + 0.361 pH)) from 12.5 °C, "
                     "n 0.353 (12.006 + exp(2.46 - 0.073 T + 0.125 C + 0.389 pH)) below; T °C, C mg/L, n powers of ten",
         .valid = "pH 6 to 9, up to 4 mg/L, 0.5 to 25 °C (warmer counts as 25), no cyanurate; conservative: about 10 % "
                  "above the drinking water tables it stands for",
         .sources = {"smith-1995"},
         .cautions = {"unsanitized_water"}},
        [](GiardiaInput const& in)
        {
            auto const warmest = units::of_si<units::Temperature>(25 + units::exact::celsius_zero);
            auto const one = giardia_contact(units::Number::from_value(1), in.free_chlorine, in.ph,
                                             std::min(in.temperature, warmest));
            double const ct = units::in_si(in.free_chlorine) * 1e3 * (units::in_si(in.time) / units::exact::minute);
            return GiardiaOutput{units::Number::from_value(ct / one.value()), one * 3};
        });
}

} // namespace padwalk::chemistry
