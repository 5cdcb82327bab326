// What was seen of a vent's run, its end and its pit is enough to stop use; carbon monoxide at several places.
#include "assessed.hpp"
#include "catch_compat.hpp"

#include <algorithm>

using namespace padwalk;
using tests::assessed;
using venting::Keeps;

namespace
{

assess::FindingEntryOf const* finding(assess::Assessment const& a, std::string const& id)
{
    for (auto const& entry : a.findings)
        if (entry.id == id)
            return &entry;
    return nullptr;
}

assess::Alarm const* alarm(assess::Assessment const& a, std::string const& id)
{
    for (auto const& x : a.alarms)
        if (a.findings[x.finding].id == id)
            return &x;
    return nullptr;
}

std::optional<Keeps> keeps(assess::Assessment const& a, std::string const& id)
{
    for (auto const& vent : a.vents)
        for (auto const& rule : vent.rules)
            if (rule.id == id)
                return rule.keeps;
    return std::nullopt;
}

assess::FigureEntry const* figure(assess::Assessment const& a, std::string const& model)
{
    for (auto const& entry : a.figures)
        if (entry.figure.model->name == model)
            return &entry;
    return nullptr;
}

/// A gas heater in a shed with nothing wrong but what is added to its vent.
assess::Assessment with(std::string const& vent, std::string const& heater = "energy: natural_gas, stands: room")
{
    return assessed("air_temperature: 60 degF\nheaters:\n  h: {" + heater + ", vent: {" + vent + "}}\n");
}

struct Seen
{
    std::string vent, finding;
};

} // namespace

TEST_CASE("vents: an installation fault stops use without any symptom, and says who decides", "[assess][vents]")
{
    for (auto const& [vent, id] :
         {Seen{"buried: yes", "vent_runs_underground"}, Seen{"under_deck: yes", "vent_under_deck"},
          Seen{"enclosed: yes, made_of: [single_wall]", "vent_enclosed"}, Seen{"capped: no", "vent_end_uncapped"},
          Seen{"made_of: [flexible]", "vent_material_odd"},
          Seen{"kind: draft_hood, made_of: [plastic]", "vent_material_odd"},
          Seen{"bore: 6 in ± 0.1 in, outlet_bore: 8 in ± 0.1 in", "vent_reduced"},
          Seen{"kind: draft_hood, height: 4 ft, run: 12 ft", "vent_run_beyond_rule"},
          Seen{"kind: draft_hood, height: 3 ft", "vent_rise_short"},
          Seen{"run: 6 ft, slope: -4 %", "vent_runs_downhill"},
          Seen{"made_of: [single_wall], combustibles: 1 in", "vent_pipe_near_wood"},
          Seen{"category: I, outlet_pressure: 0.08 in water", "vent_outlet_pressure"},
          Seen{"category: I, outlet_pressure: 0.08 in water", "vent_category_mismatch"}})
    {
        INFO(vent);
        auto const a = with(vent);
        REQUIRE(finding(a, id) != nullptr);
        CHECK(finding(a, id)->state == assess::FindingState::seen);
        REQUIRE(alarm(a, id) != nullptr);
        CHECK(alarm(a, id)->urgency == assess::Urgency::stop_use);
        CHECK(a.outcome == assess::Outcome::unsafe);
        REQUIRE(a.vents.size() == 1);
        CHECK(std::any_of(a.referrals.begin(), a.referrals.end(),
                          [](auto const& r) { return r.trade == "combustion_technician"; }));
    }
}

TEST_CASE("vents: a sound run raises nothing", "[assess][vents]")
{
    auto const a = with("kind: draft_hood, category: I, made_of: [double_wall], height: 12 ft, run: 4 ft, slope: 3 %, "
                        "bore: 9 in, outlet_bore: 8 in, elbows: 1, capped: yes, buried: no, enclosed: no, "
                        "under_deck: no, combustibles: 6 in, outlet_pressure: -0.04 in water, roof_slope: 4, "
                        "above_roof: 2 ft, from_wall: 12 ft, clearances: {opening_beside: 6 ft, grade_above: 14 ft}",
                        "energy: natural_gas, stands: room, input: 200 kBtu/h, efficiency: 82 %");
    CHECK(a.alarms.empty());
    REQUIRE(a.vents.size() == 1);
    for (auto const& rule : a.vents[0].rules)
    {
        INFO(rule.id << ": " << rule.found);
        CHECK(rule.keeps != Keeps::fails);
    }
    CHECK(keeps(a, "category") == Keeps::holds);
    REQUIRE(figure(a, "vent_run") != nullptr);
    CHECK(figure(a, "vent_run")->figure.computed());
    REQUIRE(figure(a, "vent_category") != nullptr);
    CHECK(figure(a, "vent_category")->figure.output("category").words == "I");
    REQUIRE(figure(a, "available_draft") != nullptr);
    CHECK(figure(a, "available_draft")->figure.output("available").value.value() > 0);
    CHECK_FALSE(a.vents[0].draft_words.empty());
}

TEST_CASE("vents: nothing said of the vent judges nothing, and an electric heater has none", "[assess][vents]")
{
    CHECK(assessed("heaters:\n  h: {energy: natural_gas, stands: room}\n").vents.empty());
    CHECK(with("material: pipe").vents.empty());
    CHECK(with("capped: no", "energy: heat_pump").vents.empty());
    CHECK(finding(with("capped: no", "energy: heat_pump"), "vent_end_uncapped") == nullptr);
}

TEST_CASE("vents: free words name the kind of pipe where none was ticked", "[assess][vents]")
{
    CHECK(keeps(with("material: dryer hose from the hardware store"), "pipe") == Keeps::fails);
    CHECK(keeps(with("kind: draft_hood, material: PVC pipe"), "pipe") == Keeps::fails);
    CHECK(keeps(with("kind: draft_hood, category: I, material: galvanised single-wall"), "pipe") == Keeps::holds);
    CHECK(keeps(with("capped: yes, material: not plastic"), "pipe") == Keeps::not_known);
    CHECK(keeps(with("made_of: [stainless], category: IV, material: plastic cover"), "pipe") == Keeps::holds);
}

TEST_CASE("vents: the words of the visit and of the venting room are the same, in the same order", "[assess][vents]")
{
    CHECK(fields::words_of<visit::VentKind>::words() == fields::words_of<venting::MovedBy>::words());
    CHECK(fields::words_of<visit::VentMaterial>::words() == fields::words_of<venting::PipeKind>::words());
    CHECK(fields::words_of<visit::VentCategory>::words() == fields::words_of<venting::Category>::words());
}

TEST_CASE("vents: a strong pull in theory that the flow uses up still speaks", "[assess][vents]")
{
    // 8 ft give 0.043 in of water at 350 F; 400 kBtu/h through 6 in take several times that.
    std::string const run = "kind: draft_hood, height: 8 ft, run: 5 ft, elbows: 3, bore: ";
    std::string const heater = "energy: natural_gas, stands: room, input: 400 kBtu/h";
    auto const narrow = with(run + "6 in", heater), wide = with(run + "14 in", heater);
    REQUIRE(finding(narrow, "vent_draft_weak") != nullptr);
    CHECK(finding(narrow, "vent_draft_weak")->probability > 0.9);
    CHECK(finding(narrow, "vent_draft_weak")->from.find("from memory") != std::string::npos);
    CHECK(finding(wide, "vent_draft_weak")->probability < 0.25);
    CHECK(narrow.vents[0].draft_words.find("it spills at the heater") != std::string::npos);
}

TEST_CASE("pit: propane without a way out for gas stops use and calls a gas fitter", "[assess][vents]")
{
    auto const pit = [](std::string const& room, std::string const& gas = "propane")
    { return assessed("heaters:\n  h: {energy: " + gas + ", stands: pit, room: {" + room + "}}\n"); };
    auto const trapped = pit("depth: 5 ft, gas_way_out: no");
    REQUIRE(alarm(trapped, "vent_pit_gas_trapped") != nullptr);
    CHECK(alarm(trapped, "vent_pit_gas_trapped")->urgency == assess::Urgency::stop_use);
    CHECK(alarm(trapped, "vent_pit_gas_trapped")->trade == "gas_fitter");
    CHECK(alarm(trapped, "vent_propane_below_grade") != nullptr);
    CHECK(trapped.outcome == assess::Outcome::unsafe);
    auto const drained = pit("depth: 5 ft, gas_way_out: yes");
    CHECK(alarm(drained, "vent_pit_gas_trapped") == nullptr);
    CHECK(alarm(drained, "vent_propane_below_grade") != nullptr);
    auto const natural = pit("depth: 5 ft, gas_way_out: no", "natural_gas");
    CHECK(finding(natural, "vent_pit_gas_trapped") == nullptr);
    CHECK(finding(natural, "vent_propane_below_grade") == nullptr);
    // A room that lies below the ground is a pit for gas, whatever it is called.
    CHECK(alarm(assessed("heaters:\n  h: {energy: propane, stands: room, room: {depth: 4 ft, gas_way_out: no}}\n"),
                "vent_pit_gas_trapped") != nullptr);
}

TEST_CASE("pit: water, drain, way out and space for service", "[assess][vents]")
{
    auto const pit = [](std::string const& room)
    { return assessed("heaters:\n  h: {energy: natural_gas, stands: pit, room: {" + room + "}}\n"); };
    CHECK(alarm(pit("water: 4 in"), "vent_pit_water") != nullptr);
    CHECK(finding(pit("water: 0 in"), "vent_pit_water")->state == assess::FindingState::not_seen);
    CHECK(finding(pit("drain: not_working"), "vent_pit_no_drain")->state == assess::FindingState::seen);
    CHECK(finding(pit("drain: sump_pump"), "vent_pit_no_drain")->state == assess::FindingState::not_seen);
    CHECK(alarm(pit("person_way_out: no"), "vent_pit_no_way_out") != nullptr);
    CHECK(alarm(pit("lid: closed"), "vent_pit_no_way_out") != nullptr);
    CHECK(alarm(pit("lid: grating, person_way_out: yes"), "vent_pit_no_way_out") == nullptr);
    CHECK(finding(pit("service_space: 12 in"), "vent_no_service_space")->state == assess::FindingState::seen);
}

TEST_CASE("carbon monoxide: the worst of several places speaks and all are said", "[assess][vents]")
{
    auto const a = assessed("heaters:\n  h: {energy: natural_gas, carbon_monoxide_in_air: 2 ppm, carbon_monoxide_at: "
                            "{pit: 80 ppm, by the window: 12 ppm}}\n");
    REQUIRE(alarm(a, "ambient_co_high") != nullptr);
    CHECK(a.alarms[0].finding == alarm(a, "ambient_co_high")->finding);
    auto const& say = alarm(a, "ambient_co_high")->say;
    CHECK(say.find("Everyone out now and call emergency services from outside") == 0);
    CHECK(say.find("Nobody goes back in") != std::string::npos);
    auto const& from = finding(a, "ambient_co_high")->from;
    for (auto const* part : {"80 ± 8 ppm in the air (pit)", "the highest of 3 places", "by the window", "2 ± 6 ppm",
                             "50 ppm OSHA", "70 ppm UL 2034"})
    {
        INFO(from);
        CHECK(from.find(part) != std::string::npos);
    }
    std::size_t listed = 0;
    for (auto const& reading : a.readings)
        listed += reading.label.find("carbon monoxide") != std::string::npos ? 1U : 0U;
    CHECK(listed == 3);
    // The order in which they were written changes nothing.
    auto const turned = assessed("heaters:\n  h: {energy: natural_gas, carbon_monoxide_in_air: 2 ppm, "
                                 "carbon_monoxide_at: {by the window: 12 ppm, pit: 80 ppm}}\n");
    CHECK(finding(turned, "ambient_co_high")->from == from);
    auto const low = assessed("heaters:\n  h: {energy: natural_gas, carbon_monoxide_at: {pad: 0 ppm, pit: 1 ppm}}\n");
    CHECK(alarm(low, "ambient_co_high") == nullptr);
    CHECK(finding(low, "ambient_co_high")->state == assess::FindingState::not_seen);
}
