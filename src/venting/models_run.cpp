#include "model_groups.hpp"

#include "padwalk/physics/air.hpp"

namespace padwalk::venting
{
namespace
{

using fields::Record;

struct CategoryInput
{
    units::GaugePressure outlet_pressure{};
    units::Fraction efficiency{};
    static Record<CategoryInput> const& declaration()
    {
        static Record<CategoryInput> const record =
            Record<CategoryInput>("vent_category", "vent category by pressure and condensing")
                .field("outlet_pressure", &CategoryInput::outlet_pressure,
                       "at the heater's outlet while it fires, against the air beside it; a pull is negative")
                .required()
                .within("-2 in water", "2 in water")
                .like("-0.03 in water")
                .field("efficiency", &CategoryInput::efficiency, "combustion efficiency, of the gross heating value")
                .required()
                .within("50 %", "100 %")
                .like("82 %");
        return record;
    }
};

struct CategoryOutput
{
    std::string category;
    std::string in_words;
    static Record<CategoryOutput> const& declaration()
    {
        static Record<CategoryOutput> const record =
            Record<CategoryOutput>("vent_category", "vent category by pressure and condensing")
                .field("category", &CategoryOutput::category, "I, II, III or IV")
                .field("in_words", &CategoryOutput::in_words, "what its vent must bear");
        return record;
    }
};

CategoryOutput category_of_readings(CategoryInput const& in, VentRules const& rules)
{
    bool const wet = condenses(in.efficiency, rules);
    auto const category = category_of(units::in_si(in.outlet_pressure) > 0, wet);
    std::string words = units::in_si(in.outlet_pressure) > 0
                            ? "pressure in the vent: every joint must be tight"
                            : "no pressure in the vent: it lives by its pull, or a fan at its end";
    words += wet ? "; above the efficiency at which gas counts as condensing: the vent must bear and drain sour water"
                 : "; dry by its efficiency, though a long cold run can condense all the same";
    return {fields::words_of<Category>::words()[static_cast<std::size_t>(category)], std::move(words)};
}

/// Pipe of a draft hood's connector.
enum class Wall
{
    single_wall,
    double_wall
};

} // namespace
} // namespace padwalk::venting

template <> struct padwalk::fields::words_of<padwalk::venting::Wall>
{
    static std::vector<std::string> words() { return {"single_wall", "double_wall"}; }
};

namespace padwalk::venting
{
namespace
{

struct RunInput
{
    units::Length height{}, run{};
    Wall wall = Wall::single_wall;
    std::optional<units::Fraction> slope;
    std::optional<units::Number> roof_slope;
    std::optional<units::Length> from_wall;
    static Record<RunInput> const& declaration()
    {
        static Record<RunInput> const record =
            Record<RunInput>("vent_run", "a draft hood's vent against the published rules of its run")
                .field("height", &RunInput::height, "from the draft hood's outlet up to the end")
                .required()
                .within("0 ft", "200 ft")
                .field("run", &RunInput::run, "its level run")
                .required()
                .within("0 ft", "300 ft")
                .field("wall", &RunInput::wall, "of the connector")
                .otherwise("single_wall", "nothing said: the harder rule")
                .field("slope", &RunInput::slope, "of the level run, rising to the end; falling is negative")
                .within("-100 %", "100 %")
                .like("2.1 %")
                .field("roof_slope", &RunInput::roof_slope, "rise of the roof in 12 of run")
                .within("0", "40")
                .like("4")
                .field("from_wall", &RunInput::from_wall, "level from its end to the nearest wall that is higher")
                .within("0 ft", "200 ft")
                .like("10 ft");
        return record;
    }
};

struct RunOutput
{
    units::Length run_allowed{}, run_to_spare{}, rise_needed{}, height_to_spare{};
    std::optional<units::Length> above_roof;
    std::string in_words;
    static Record<RunOutput> const& declaration()
    {
        static Record<RunOutput> const record =
            Record<RunOutput>("vent_run", "a draft hood's vent against the published rules of its run")
                .field("run_allowed", &RunOutput::run_allowed, "longest level run for this height")
                .shown_in("ft", "m")
                .field("run_to_spare", &RunOutput::run_to_spare, "what is left of it; negative: too long by that")
                .shown_in("ft", "m")
                .field("rise_needed", &RunOutput::rise_needed, "what the level run should rise from hood to vent")
                .shown_in("in", "cm")
                .field("height_to_spare", &RunOutput::height_to_spare, "above the least height over the draft hood")
                .shown_in("ft", "m")
                .field("above_roof", &RunOutput::above_roof, "least height of the end above a roof of this slope")
                .shown_in("ft", "m")
                .field("in_words", &RunOutput::in_words, "which of these rules are kept");
        return record;
    }
};

std::string words_of_run(RunInput const& in, RunOutput const& out, units::Fraction slope)
{
    std::string broken;
    auto const add = [&](bool is, std::string const& what)
    {
        if (is)
            broken += (broken.empty() ? "" : ", ") + what;
    };
    add(units::in_si(out.run_to_spare) < -1e-9, "the level run is too long for the height");
    add(in.slope && in.slope->value() < 0, "the level run falls");
    add(in.slope && in.slope->value() >= 0 && *in.slope < slope * (1 - 1e-3), "the level run rises too little");
    add(units::in_si(out.height_to_spare) < -1e-9, "the end is too low above the draft hood");
    std::string words = broken.empty() ? "keeps the published rules that were asked" : broken;
    if (!in.slope)
        words += "; the slope was not measured";
    return words + "; the shares of the height and the slope are from memory, and tables may allow other runs";
}

RunOutput run_of(RunInput const& in, VentRules const& rules)
{
    auto const& share = rules.rule(in.wall == Wall::single_wall ? "run_single_wall" : "run_double_wall").share.value();
    auto const slope = rules.rule("slope").share.value();
    RunOutput out;
    out.run_allowed = in.height * share.value();
    out.run_to_spare = out.run_allowed - in.run;
    out.rise_needed = in.run * slope.value();
    out.height_to_spare = in.height - rule_of(rules.clearances, ClearanceId::draft_hood_rise).least;
    if (in.roof_slope)
    {
        constexpr double near_wall = 8 * 0.3048;
        bool const by_table = !in.from_wall || units::in_si(*in.from_wall) >= near_wall * (1 - 1e-9);
        if (auto const* rule = roof_rule(*in.roof_slope, by_table, rules))
            out.above_roof = rule->least;
    }
    out.in_words = words_of_run(in, out, slope);
    return out;
}

struct AvailableInput
{
    units::Power input{};
    units::Length height{}, run{}, bore{};
    units::Number elbows{}, elbows_60{}, elbows_45{};
    MovedBy moved_by = MovedBy::draft_hood;
    StackFuel fuel = StackFuel::natural_gas;
    units::Fraction excess_air{};
    units::Temperature outside_temperature{}, flue_temperature{};
    units::Length altitude{};
    static Record<AvailableInput> const& declaration();
};

Record<AvailableInput>&& with_pipe(Record<AvailableInput>&& record)
{
    using In = AvailableInput;
    return std::move(record)
        .field("height", &In::height, "from the draft hood or flue collar up to the end")
        .required()
        .within("0 ft", "300 ft")
        .field("run", &In::run, "its level run")
        .otherwise("0 ft", "straight up; each foot of level run takes more of the pull")
        .within("0 ft", "300 ft")
        .field("bore", &In::bore, "its inside diameter")
        .required()
        .within("1 in", "36 in")
        .like("8 in")
        .field("elbows", &In::elbows, "bends of about a right angle")
        .otherwise("0", "none was counted")
        .within("0", "20")
        .like("2")
        .field("elbows_60", &In::elbows_60, "bends of about 60 degrees")
        .otherwise("0", "none was counted")
        .within("0", "20")
        .field("elbows_45", &In::elbows_45, "bends of 45 degrees or less")
        .otherwise("0", "none was counted")
        .within("0", "20");
}

Record<AvailableInput> const& AvailableInput::declaration()
{
    using In = AvailableInput;
    static Record<In> const record =
        with_pipe(Record<In>("available_draft", "pull of a vent, less what the flow of its gas takes")
                      .field("input", &In::input, "what the heater burns")
                      .required()
                      .within("1 kBtu/h", "3000 kBtu/h")
                      .like("400 kBtu/h"))
            .field("moved_by", &In::moved_by, "what moves the gas")
            .otherwise("draft_hood", "it lives by the pull, the hardest case")
            .field("fuel", &In::fuel, "which gas")
            .otherwise("natural_gas", "most heaters burn it; propane makes nearly as much flue gas")
            .field("excess_air", &In::excess_air, "air beyond what the fuel needs, with what a draft hood lets in")
            .otherwise("110 % ± 80 %", "what a burner and its draft hood take in together; 1.54 lb for each 1000 Btu")
            .within("0 %", "500 %")
            .field("outside_temperature", &In::outside_temperature, "air outside")
            .required()
            .within("-40 degF", "130 degF")
            .field("flue_temperature", &In::flue_temperature, "gas in the vent, mean over its height")
            .required()
            .within("-40 degF", "1500 degF")
            .usual("200 degF", "700 degF")
            .field("altitude", &In::altitude, "height of the place above the sea")
            .otherwise("0 ft", "near sea level; each 1000 ft takes about 3.6 % off the draft")
            .within("-300 ft", "14000 ft");
    return record;
}

struct AvailableOutput
{
    units::Pressure theoretical{}, losses{}, available{}, available_cold{};
    units::Fraction carried{}, carried_cold{};
    units::Velocity velocity{};
    units::Pressure velocity_pressure{};
    units::Number loss_coefficient{};
    std::string in_words;
    static Record<AvailableOutput> const& declaration()
    {
        using Out = AvailableOutput;
        static Record<Out> const record =
            Record<Out>("available_draft", "pull of a vent, less what the flow of its gas takes")
                .field("available", &Out::available,
                       "left of the pull when hot; negative: not all of the gas gets away")
                .shown_in("in water", "Pa")
                .field("theoretical", &Out::theoretical, "pull of its height")
                .shown_in("in water", "Pa")
                .field("losses", &Out::losses, "what the whole flow takes of it")
                .shown_in("in water", "Pa")
                .field("available_cold", &Out::available_cold, "left of the pull just after lighting")
                .shown_in("in water", "Pa")
                .field("carried", &Out::carried, "of the gas that is made, what the pull can carry when hot")
                .field("carried_cold", &Out::carried_cold, "the same just after lighting")
                .field("velocity", &Out::velocity, "of the whole flow in the vent")
                .shown_in("ft/s", "m/s")
                .field("velocity_pressure", &Out::velocity_pressure, "of that")
                .shown_in("in water", "Pa")
                .field("loss_coefficient", &Out::loss_coefficient, "all losses together, on that pressure")
                .field("in_words", &Out::in_words, "what that means for spill");
        return record;
    }
};

AvailableOutput available_of(AvailableInput const& in, FlueFlowFacts const& facts)
{
    FlueRun const run{in.height, in.run,     in.bore, in.elbows.value(), in.elbows_60.value(), in.elbows_45.value(),
                      true,      in.moved_by};
    auto const flow = flue_gas_flow(in.input, in.excess_air, facts.gas(in.fuel));
    auto const air = physics::pressure_at_altitude(in.altitude);
    auto const hot = draft_balance(run, flow, {in.outside_temperature, in.flue_temperature, air}, facts);
    auto const cold = draft_balance(
        run, flow, {in.outside_temperature, in.outside_temperature + facts.cold_start.warmer, air}, facts);
    AvailableOutput out;
    out.theoretical = hot.theoretical;
    out.losses = hot.losses;
    out.available = hot.available;
    out.available_cold = cold.available;
    out.carried = hot.carried;
    out.carried_cold = cold.carried;
    out.velocity = hot.velocity;
    out.velocity_pressure = hot.velocity_pressure;
    out.loss_coefficient = loss_of_run(run, facts);
    out.in_words = spill_in_words(hot, cold, in.moved_by);
    return out;
}

figures::Model category_model(VentRules const& rules)
{
    return figures::model<CategoryInput, CategoryOutput>(
        {.name = "vent_category",
         .title = "vent category by pressure and condensing",
         .equation = "I no pressure, dry; II no pressure, may condense; III pressure, dry; IV pressure, may condense; "
                     "it may condense above 83 % combustion efficiency",
         .valid =
             "gas heaters; the plate's category rules, this only says whether what was measured fits it; a plate's "
             "thermal efficiency is not quite the combustion efficiency" +
             std::string(rules_decide),
         .sources = {"ifgc-vent-categories-as-quoted", "chimney-science-trade-article-2"},
         .cautions = {"carbon_monoxide", "burner_work"}},
        [rules](CategoryInput const& in) { return category_of_readings(in, rules); });
}

figures::Model run_model(VentRules const& rules)
{
    return figures::model<RunInput, RunOutput>(
        {.name = "vent_run",
         .title = "a draft hood's vent against the published rules of its run",
         .equation = "level run at most 75 % of the height (single wall) or 100 % (double wall); it rises 1/4 in in "
                     "each foot; end 5 ft above the draft hood; above a roof by its slope, or 2 ft near a wall",
         .valid = "draft hoods; the shares of the height and the slope are from memory; a vent sized by its table may "
                  "run otherwise; the roof's table is for vents not over 12 in with a listed cap" +
                  std::string(rules_decide),
         .sources = {"venting-ifgc-503-10-memory", "venting-code-check-summary", "irc-2018-roof-table-web-copy",
                     "venting-roof-rule-summaries"},
         .cautions = {"carbon_monoxide"}},
        [rules](RunInput const& in) { return run_of(in, rules); });
}

figures::Model available_model(FlueFlowFacts const& facts)
{
    return figures::model<AvailableInput, AvailableOutput>(
        {.name = "available_draft",
         .title = "pull of a vent, less what the flow of its gas takes",
         .equation = "available = theoretical draft - (K of entrance, bends and cap + 0.0333 · length / bore) · "
                     "density · velocity² / 2; velocity from input / heat · (1 + (1 + excess air) · air) ; just lit: "
                     "gas 40 degF warmer than outside; carried = root of theoretical over losses",
         .valid =
             "one heater on a round vent of one bore with a listed cap, flue gas taken as air; K from memory, good "
             "to 20 to 50 %; wind and fans in the house left out; a good figure doesn't prove that a vent is open" +
             std::string(rules_decide),
         .sources = {"venting-steam-babcock-wilcox", "venting-ashrae-chimney-memory", "judgement"},
         .cautions = {"carbon_monoxide"}},
        [facts](AvailableInput const& in) { return available_of(in, facts); });
}

} // namespace

std::vector<figures::Model> run_models(VentRules const& rules, FlueFlowFacts const& facts)
{
    return {category_model(rules), run_model(rules), available_model(facts)};
}

} // namespace padwalk::venting
