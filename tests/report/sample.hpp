#pragma once
/// A made-up assessment with something in every section, and models small enough to check by hand.

#include "padwalk/assess/assessment.hpp"
#include "padwalk/figures/catalogue.hpp"

#include <algorithm>
#include <sstream>

namespace padwalk::tests
{

using units::of_si;

struct TurnoverIn
{
    units::Volume volume{};
    units::VolumeFlow flow{};
    units::Fraction share{};
    static fields::Record<TurnoverIn> const& declaration()
    {
        static auto const record = fields::Record<TurnoverIn>("sample_turnover", "a water and its flow")
                                       .field("volume", &TurnoverIn::volume, "volume of the water")
                                       .required()
                                       .within("20 gal", "2000000 gal")
                                       .like("16000 gal")
                                       .field("flow", &TurnoverIn::flow, "flow of the loop")
                                       .required()
                                       .within("0.1 gpm", "2000 gpm")
                                       .like("45 gpm")
                                       .field("share", &TurnoverIn::share, "share of the flow that serves it")
                                       .otherwise("100 %", "one water on the loop is usual")
                                       .within("1 %", "100 %");
        return record;
    }
};

struct TurnoverOut
{
    units::Duration time{};
    units::Number turns{};
    units::AsChlorine chlorine{};
    std::string verdict;
    static fields::Record<TurnoverOut> const& declaration()
    {
        static auto const record = fields::Record<TurnoverOut>("sample_turnover", "its turnover")
                                       .field("time", &TurnoverOut::time, "time for one turnover")
                                       .shown_in("min", "h")
                                       .field("turns", &TurnoverOut::turns, "turnovers in a day")
                                       .field("chlorine", &TurnoverOut::chlorine, "a concentration, for the test")
                                       .field("verdict", &TurnoverOut::verdict, "in a word");
        return record;
    }
};

inline TurnoverOut turnover(TurnoverIn const& in)
{
    double const seconds = units::in_si(in.volume) / (units::in_si(in.flow) * units::in_si(in.share));
    if (seconds < 60)
        throw figures::NotComputed("a turnover under a minute is outside what this holds for");
    return {of_si<units::Duration>(seconds), of_si<units::Number>(86400 / seconds), of_si<units::AsChlorine>(0.003),
            seconds < 7200 ? "fast" : "slow"};
}

inline figures::Model sample_model()
{
    return figures::model<TurnoverIn, TurnoverOut>({.name = "sample_turnover",
                                                    .title = "how long one turnover takes",
                                                    .equation = "t = V / (q · share)",
                                                    .valid = "one minute and more",
                                                    .sources = {"gum-2008", "not-in-the-list"},
                                                    .cautions = {"electric_shock"},
                                                    .own_doubt = 0.05},
                                                   turnover);
}

inline units::Reading reading(units::Measure measure, double si, double doubt, std::string method = "gauge")
{
    return {measure, si, doubt, std::move(method), false};
}

inline figures::Figure sample_figure(figures::Model const& model)
{
    return figures::run(model, figures::Inputs()
                                   .add("volume", reading(units::Measure::volume, 16000 * 3.785411784e-3,
                                                          800 * 3.785411784e-3, "measured"))
                                   .add("flow", reading(units::Measure::volume_flow, 45 * 3.785411784e-3 / 60,
                                                        2 * 3.785411784e-3 / 60, "flow meter")));
}

inline void add_causes(assess::Assessment& a)
{
    assess::CauseEntryOf bearings;
    bearings.id = "pump_bearings";
    bearings.name = "motor bearings worn";
    bearings.meaning = "The bearings that carry the motor's shaft are rough or dry.";
    bearings.ask = "Listen at both ends of the motor, and price a motor before bearings.";
    bearings.meanwhile = "Run it no longer than the water needs.";
    bearings.item = 2;
    bearings.prior = 0.08;
    bearings.probability = 0.82;
    bearings.urgency = diagnosis::Urgency::soon;
    bearings.trade = "pool_service";
    bearings.cautions = {"rotating_machinery"};
    bearings.speaks_for = {{0, 3.4}, {2, 0.9}};
    bearings.speaks_against = {{1, -1.8}};
    assess::CauseEntryOf exchanger = bearings;
    exchanger.id = "vent_blocked";
    exchanger.name = "flue blocked";
    exchanger.meaning = "Flue gas cannot leave and spills where people stand.";
    exchanger.ask = "Test the burner and the flue with an analyser.";
    exchanger.meanwhile = "Leave the heater off.";
    exchanger.item = 3;
    exchanger.probability = 0.31;
    exchanger.urgency = diagnosis::Urgency::stop_use;
    exchanger.hurts_people = true;
    exchanger.trade = "combustion_technician";
    exchanger.cautions = {"carbon_monoxide", "electric_shock"};
    exchanger.speaks_for = {{2, 1.2}};
    exchanger.speaks_against = {};
    a.causes = {exchanger, bearings};
}

inline void add_findings(assess::Assessment& a)
{
    using enum assess::FindingState;
    a.findings = {
        {"pump_noise_grinding", "pump grinds", 2, seen, 1, false, "noticed: \"grinding noise, worse when warm\""},
        {"bubbles", "bubbles at the returns", 1, not_seen, 0, false, "looked for: \"bubbles anywhere\""},
        {"flow_below_curve", "flow below what the pump's curve allows", 2, seen, 0.93, true, "45 gpm against 62 gpm"},
        {"tingle", "someone felt a tingle", 1, seen, 1, false, "noticed: \"kid says the rail bites\""},
        {"cover_loose", "drain cover loose", 1, seen, 1, false, "noticed: \"one screw of the cover gone\""}};
    a.alarms = {{1,
                 3,
                 diagnosis::Urgency::stop_use,
                 "Everyone out of the water. Power off at the breaker by someone dry.",
                 "electrician",
                 {"electric_shock"}},
                {1, 4, diagnosis::Urgency::soon, "Keep the spa closed.", "pool_service", {}}};
}

inline void add_people(assess::Assessment& a)
{
    a.referrals = {{"electrician",
                    "licensed electrician",
                    "supply wiring, GFCI, bonding, lights",
                    diagnosis::Urgency::stop_use,
                    {},
                    {0},
                    {"electric_shock"}},
                   {"combustion_technician",
                    "licensed combustion or heating technician",
                    "burner, venting and combustion analysis",
                    diagnosis::Urgency::stop_use,
                    {0},
                    {},
                    {"carbon_monoxide"}},
                   {"pool_service",
                    "licensed pool and spa contractor or service",
                    "pump, filter, heater water side",
                    diagnosis::Urgency::soon,
                    {1},
                    {1},
                    {}}};
    a.next = {{"read_gauge",
               "read the filter gauge with the pump on and off",
               "nothing but eyes",
               4,
               3,
               0.4,
               {"filter gauge high", "filter gauge low"},
               {"electric_shock"},
               "A rise of 8 psi over clean would make a dirty filter likely.",
               "If not, a dirty filter is hardly it.",
               diagnosis::Risk::some,
               "A filter that wants cleaning.",
               "The filter is not what holds the water back."}};
    a.cautions = {
        {"electric_shock", "Keep out of the water and off wet metal while this is unexplained."},
        {"carbon_monoxide",
         "Carbon monoxide can't be seen or smelled. On an alarm, headache or dizziness: everyone into fresh air."},
        {"rotating_machinery", "Keep hands, hair and loose clothes away from the motor."}};
}

inline void add_basis(assess::Assessment& a)
{
    a.verdicts = {{1, assess::Condition::unsafe, "someone felt a tingle"},
                  {2, assess::Condition::works_with_fault, "it runs, and it grinds"},
                  {3, assess::Condition::not_tested, "gas was shut off at the meter"},
                  {4, assess::Condition::works, "gauge and flow as they should be"}};
    a.readings = {{4,
                   nullptr,
                   "filter gauge",
                   reading(units::Measure::gauge_pressure, 18 * 6894.757293168, 6894.757293168, "pressure gauge"),
                   {}},
                  {1, nullptr, "cyanuric acid", reading(units::Measure::as_cyanuric_acid, 0.04, 0.005, "drops"), {}}};
    a.undecided = {{0, {0}, "listen at both ends", {"inspector"}, 3, "a rod", {"rotating_machinery"}}};
    a.questions = {{2, "it goes wub wub", "no word of this is known", {"pump hums and does not start", "pump grinds"}}};
    a.assumptions = {{"spa loop serves spa", "'serves' was not given; its name suggests it"}};
    a.not_tested = {{3, "firing", "gas was shut off at the meter"}};
    fields::Problem odd;
    odd.place = {14, 9};
    odd.message = "gauge of 62 psi is unusual";
    odd.advice = "usual is 2 psi to 40 psi";
    odd.path = "loops/spa loop/filter/gauge";
    a.oddities = {odd};
    a.blanks = {"waters/spa/tests/1/borate", "heaters/heater/flue"};
    a.conflict =
        "A deep vacuum and bubbles at the returns seldom go with a flow this large; the flow meter stands out.";
    a.sources = {{"gum-2008", {"Guide to the expression of uncertainty in measurement", "JCGM", "2008", "from memory"}},
                 {"judgement", {"our own judgement", "", "", ""}}};
    a.notes = "Owner says the spa was drained last week.\nGate code needed.";
}

/// `model` must outlive it.
inline assess::Assessment sample(figures::Model const& model)
{
    assess::Assessment a;
    a.by = visit::By::inspector;
    a.on = "2026-05-14 10:30";
    a.property = "blue house, back yard";
    a.weather = "dry, 72 °F";
    a.outcome = assess::Outcome::unsafe;
    a.summary = "Keep everyone out of the spa until an electrician has been. The pump's bearings are likely worn.";
    a.items = {{"property", "blue house, back yard", "", "", "", {}},
               {"water", "spa", "waters/spa", "", "", {{"photos/rail.jpg", "the rail that bites"}}},
               {"pump", "pump of spa loop", "loops/spa loop/pump", "behind the hedge", "label half gone", {}},
               {"heater", "gas heater", "heaters/gas heater", "", "", {}},
               {"filter", "filter of spa loop", "loops/spa loop/filter", "", "", {}}};
    add_findings(a);
    add_causes(a);
    add_people(a);
    add_basis(a);
    a.figures = {
        {4, "turnover of spa loop", sample_figure(model), "slower than the 30 min that codes ask of public spas"}};
    figures::Figure missing;
    missing.model = &model;
    missing.why_not = "needs flow: flow of the loop";
    a.figures.push_back({4, "turnover of pool loop", missing, ""});
    return a;
}

/// Puts `text` into every free text of the assessment.
inline assess::Assessment hostile(figures::Model const& model, std::string const& text)
{
    assess::Assessment a = sample(model);
    a.property = a.weather = a.notes = a.summary = a.on = a.conflict = text;
    for (auto& item : a.items)
    {
        item.name = item.where = item.notes = item.path = text;
        item.photos.push_back({text, text});
    }
    for (auto& finding : a.findings)
        finding.name = finding.from = text;
    for (auto& cause : a.causes)
        cause.name = cause.meaning = cause.ask = cause.meanwhile = text;
    for (auto& alarm : a.alarms)
        alarm.say = alarm.trade = text;
    for (auto& verdict : a.verdicts)
        verdict.because = text;
    for (auto& referral : a.referrals)
        referral.name = referral.why = text;
    for (auto& check : a.next)
    {
        check.name = check.needs = check.changes = text;
        check.tells = {text, text};
    }
    for (auto& taken : a.readings)
        taken.label = taken.reading.method = text;
    for (auto& figure : a.figures)
        figure.label = figure.meaning = figure.figure.note = text;
    a.figures.back().figure.why_not = text;
    a.undecided = {{0, {0}, text, {text}, 1, text, {}}};
    a.questions = {{0, text, text, {text}}};
    a.assumptions = {{text, text}};
    a.not_tested = {{0, text, text}};
    a.oddities[0].message = a.oddities[0].advice = a.oddities[0].path = text;
    a.blanks = {text};
    for (auto& caution : a.cautions)
        caution.second = text;
    a.sources = {{text, {text, text, text, text}}};
    return a;
}

inline std::vector<std::string> lines_of(std::string const& text)
{
    std::vector<std::string> out;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        out.push_back(line);
    return out;
}

inline std::size_t code_points(std::string const& text)
{
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

inline std::size_t count(std::string const& text, std::string const& what)
{
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
        ++found;
    return found;
}

} // namespace padwalk::tests
