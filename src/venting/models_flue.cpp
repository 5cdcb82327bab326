#include "model_groups.hpp"

#include "padwalk/physics/air.hpp"

namespace padwalk::venting
{
namespace
{

using fields::Record;

struct AirFreeInput
{
    units::GasFraction carbon_monoxide{};
    units::Fraction oxygen{};
    static Record<AirFreeInput> const& declaration()
    {
        static Record<AirFreeInput> const record =
            Record<AirFreeInput>("carbon_monoxide_air_free",
                                 "carbon monoxide in a flue as if no extra air had thinned it")
                .field("carbon_monoxide", &AirFreeInput::carbon_monoxide, "as read in the flue")
                .required()
                .within("0 ppm", "100000 ppm")
                .field("oxygen", &AirFreeInput::oxygen, "in the same sample, dry")
                .required()
                .within("0 %", "20.9 %")
                .usual("3 %", "9 %")
                .like("7 %");
        return record;
    }
};

struct AirFreeOutput
{
    units::GasFraction air_free{};
    std::string in_words;
    static Record<AirFreeOutput> const& declaration()
    {
        static Record<AirFreeOutput> const record =
            Record<AirFreeOutput>("carbon_monoxide_air_free",
                                  "carbon monoxide in a flue as if no extra air had thinned it")
                .field("air_free", &AirFreeOutput::air_free, "with all excess air taken out")
                .shown_in("ppm", "ppm")
                .field("in_words", &AirFreeOutput::in_words, "against the limits listed for flues");
        return record;
    }
};

AirFreeOutput air_free_of(AirFreeInput const& in, std::vector<CarbonMonoxideLimit> const& limits)
{
    auto const found = carbon_monoxide_air_free(in.carbon_monoxide, in.oxygen);
    return {found, flue_in_words(found, limits)};
}

struct DraftInput
{
    units::Length height{};
    units::Temperature outside_temperature{};
    units::Temperature flue_temperature{};
    units::Length altitude{};
    static Record<DraftInput> const& declaration()
    {
        static Record<DraftInput> const record =
            Record<DraftInput>("stack_draft", "pull of a vent full of hot gas")
                .field("height", &DraftInput::height, "from the draft hood or flue collar up to the end")
                .required()
                .within("0 ft", "300 ft")
                .field("outside_temperature", &DraftInput::outside_temperature, "air outside")
                .required()
                .within("-40 degF", "130 degF")
                .field("flue_temperature", &DraftInput::flue_temperature, "gas in the vent, mean over its height")
                .required()
                .within("-40 degF", "1500 degF")
                .usual("200 degF", "700 degF")
                .field("altitude", &DraftInput::altitude, "height of the place above the sea")
                .otherwise("0 ft", "near sea level; each 1000 ft takes about 3.6 % off the draft")
                .within("-300 ft", "14000 ft");
        return record;
    }
};

struct DraftOutput
{
    units::Pressure draft{};
    std::string in_words;
    static Record<DraftOutput> const& declaration()
    {
        static Record<DraftOutput> const record =
            Record<DraftOutput>("stack_draft", "pull of a vent full of hot gas")
                .field("draft", &DraftOutput::draft, "pull before flow takes any of it")
                .shown_in("in water", "Pa")
                .field("in_words", &DraftOutput::in_words, "what that means");
        return record;
    }
};

DraftOutput draft_of(DraftInput const& in)
{
    auto const draft =
        stack_draft(in.height, in.outside_temperature, in.flue_temperature, physics::pressure_at_altitude(in.altitude));
    return {draft, draft_in_words(draft)};
}

struct LossInput
{
    units::Temperature flue_temperature{};
    units::Temperature air_temperature{};
    units::Fraction oxygen{};
    StackFuel fuel = StackFuel::natural_gas;
    static Record<LossInput> const& declaration()
    {
        static Record<LossInput> const record =
            Record<LossInput>("stack_loss", "heat that leaves up the vent")
                .field("flue_temperature", &LossInput::flue_temperature, "gas leaving the heater")
                .required()
                .within("32 degF", "1500 degF")
                .usual("200 degF", "700 degF")
                .field("air_temperature", &LossInput::air_temperature, "air the burner takes in")
                .required()
                .within("-40 degF", "150 degF")
                .field("oxygen", &LossInput::oxygen, "in the flue gas, dry, before a draft hood")
                .required()
                .within("0 %", "20.9 %")
                .usual("3 %", "9 %")
                .like("6 %")
                .field("fuel", &LossInput::fuel, "which gas")
                .otherwise("natural_gas", "most heaters burn it; say propane where there is a tank");
        return record;
    }
};

struct LossOutput
{
    units::Fraction loss{};
    units::Fraction efficiency_net{};
    units::Fraction efficiency_gross{};
    units::Fraction excess_air{};
    static Record<LossOutput> const& declaration()
    {
        static Record<LossOutput> const record =
            Record<LossOutput>("stack_loss", "heat that leaves up the vent")
                .field("loss", &LossOutput::loss, "share of the net heat that leaves up the vent")
                .field("efficiency_net", &LossOutput::efficiency_net, "the rest, of the net heating value")
                .field("efficiency_gross", &LossOutput::efficiency_gross,
                       "the same of the gross heating value, as nameplates count it")
                .field("excess_air", &LossOutput::excess_air, "air beyond what the fuel needs");
        return record;
    }
};

LossOutput loss_of(LossInput const& in, StackFacts const& facts)
{
    StackGas const& gas = facts.gas(in.fuel);
    auto const loss = stack_loss(in.flue_temperature, in.air_temperature, in.oxygen, gas);
    auto const net = units::Fraction::from_value(1.0) - loss;
    return {loss, net, net * gas.net_to_gross.value(), excess_air(in.oxygen, gas)};
}

figures::Model carbon_monoxide_air_free_model(std::vector<CarbonMonoxideLimit> const& limits)
{
    return figures::model<AirFreeInput, AirFreeOutput>(
        {.name = "carbon_monoxide_air_free",
         .title = "carbon monoxide in a flue as if no extra air had thinned it",
         .equation = "air free = CO · 20.9 / (20.9 - O2), O2 in % of dry gas",
         .valid = "flue gas sampled before a draft hood, burner steady, up to 18 % oxygen (judgement); a value "
                  "caught just after the burner "
                  "stops is falsely high; sampling takes a trained person and an analyser, and says nothing of the "
                  "air people breathe" +
                  std::string(rules_decide),
         .sources = {"combustion-analysis-trade-article-1", "flue-co-limits-trade-list", "judgement"},
         .cautions = {"carbon_monoxide", "burner_work"}},
        [limits](AirFreeInput const& in) { return air_free_of(in, limits); });
}

figures::Model stack_draft_model()
{
    return figures::model<DraftInput, DraftOutput>(
        {.name = "stack_draft",
         .title = "pull of a vent full of hot gas",
         .equation = "draft = g · air pressure / R of air · (1/T outside - 1/T flue) · height",
         .valid = "theoretical: bends, the connector and the cap take part of it; flue gas taken as air; wind and "
                  "fans in the house left out; "
                  "a good figure doesn't prove that a vent is open" +
                  std::string(rules_decide),
         .sources = {"venting-steam-babcock-wilcox", "fan-maker-negative-pressure"},
         .cautions = {"carbon_monoxide"}},
        draft_of);
}

figures::Model stack_loss_model(StackFacts const& stack)
{
    return figures::model<LossInput, LossOutput>(
        {.name = "stack_loss",
         .title = "heat that leaves up the vent",
         .equation = "loss(%) = (flue - air) · (A2 / (21 - O2) + B); excess air = k · O2 / (21 - O2); A2, B, k = "
                     "0.66, 0.009, 0.895 for "
                     "natural gas and 0.63, 0.008, 0.916 for propane (°C, % of dry gas)",
         .valid = "nothing condenses, steady firing, up to 18 % oxygen (judgement); A2, B and the net to gross "
                  "ratios (0.90, 0.92) are from "
                  "memory; against combustion enthalpies the loss comes out 1 % (natural gas) or 4 to 5 % "
                  "(propane) of itself too low; heat "
                  "lost through the jacket isn't in it" +
                  std::string(rules_decide),
         .sources = {"venting-siegert-1-bimschv", "venting-siegert-tyrol-law", "judgement"},
         .cautions = {"carbon_monoxide", "burner_work"}},
        [stack](LossInput const& in) { return loss_of(in, stack); });
}

} // namespace

std::vector<figures::Model> flue_models(std::vector<CarbonMonoxideLimit> const& limits, StackFacts const& stack)
{
    return {carbon_monoxide_air_free_model(limits), stack_draft_model(), stack_loss_model(stack)};
}

} // namespace padwalk::venting
