#include "catch_compat.hpp"

#include "csv.hpp"
#include "run_model.hpp"

#include "padwalk/chemistry/limits.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

using namespace padwalk;
using namespace padwalk::chemistry_tests;
using namespace padwalk::chemistry;

TEST_CASE("limits: enough rows were seen, each names a known source, and what is from memory says so in its source")
{
    auto const limits = published_limits(data());
    auto const works = reference::bibliography(data());
    std::map<Parameter, int> count;
    std::size_t seen = 0;
    for (auto const& limit : limits)
    {
        INFO(limit.body << " " << limit.source.key);
        ++count[limit.parameter];
        CHECK(works.count(limit.source.key) == 1);
        bool const memory = limit.source.seen == reference::Seen::memory;
        CHECK((memory || limit.source.seen == reference::Seen::read || limit.source.seen == reference::Seen::quoted));
        REQUIRE(works.count(limit.source.key) == 1);
        bool const said = works.at(limit.source.key).seen.find("from memory") != std::string::npos;
        CHECK(said == memory);
        seen += memory ? 0 : 1;
        CHECK(!limit.body.empty());
    }
    CHECK(seen == 113);
    for (auto p : {Parameter::ph, Parameter::free_chlorine, Parameter::combined_chlorine, Parameter::bromine,
                   Parameter::alkalinity, Parameter::calcium, Parameter::cyanurate, Parameter::water_temperature,
                   Parameter::saturation_index})
        CHECK(count[p] >= 1);
}

TEST_CASE("limits: spot rows as published")
{
    auto const limits = published_limits(data());
    auto const row = [&](Parameter p, Venue v, std::string const& body, Stabilizer s = Stabilizer::either) -> Limit
    {
        for (auto const& limit : limits)
            if (limit.parameter == p && limit.venue == v && limit.body == body && limit.stabilizer == s)
                return limit;
        FAIL("no row of " << body);
        return {};
    };
    auto const california = row(Parameter::free_chlorine, Venue::pool, "California", Stabilizer::present);
    CHECK(std::abs(Bounds::as<units::AsChlorine>(california.bounds.low)->value() - 2e-3) <= 1e-12);
    CHECK(std::abs(Bounds::as<units::AsChlorine>(california.bounds.high)->value() - 10e-3) <= 1e-12);
    auto const spa = row(Parameter::water_temperature, Venue::spa, "New York");
    CHECK(std::abs(Bounds::as<units::Temperature>(spa.bounds.high)->value() - (40 + 273.15)) <= 1e-9);
    CHECK_THROWS_AS(Bounds::as<units::AsChlorine>(spa.bounds.high), std::logic_error);
    auto const hardness = row(Parameter::calcium, Venue::pool, "Montana, 2010");
    CHECK(std::abs(hardness.bounds.ideal_high->value - 0.4) <= 1e-12);
    CHECK(!row(Parameter::calcium, Venue::pool, "Guildford, UK").bounds.high);
}

TEST_CASE("limits: rows for all venues hold at each")
{
    auto const limits = published_limits(data());
    auto const spa = limits_for(limits, Parameter::ph, Venue::spa);
    std::set<std::string> bodies;
    for (auto const& limit : spa)
        bodies.insert(limit.body);
    CHECK(bodies.count("Anchorage AK") == 1);  // spa only
    CHECK(bodies.count("Florida") == 1);       // all
    CHECK(bodies.count("Guildford, UK") == 0); // pool only
}

TEST_CASE("working bands: every row stands among published rows of its parameter and body")
{
    auto const limits = published_limits(data());
    auto const works = reference::bibliography(data());
    auto const has = [&](WorkingBand const& band, std::string const& key, auto member)
    {
        auto const& bound = band.bounds.*member;
        if (!bound)
            return true;
        for (auto const& limit : limits)
            if (limit.parameter == band.parameter && limit.source.key == key)
                for (auto const& seen : {limit.bounds.*member, limit.bounds.low, limit.bounds.high})
                    if (seen && std::abs(seen->value - bound->value) <= 1e-12)
                        return true;
        return false;
    };
    for (auto const& band : working_bands(data()))
    {
        INFO(band.because << " / " << band.source.key);
        CHECK(!band.because.empty());
        CHECK(works.count(band.source.key) == 1);
        if (band.parameter == Parameter::saturation_index)
            continue; // a trade newspaper's band, in saturation_handbook.yaml
        CHECK(has(band, band.source.key, &Bounds::low));
        CHECK(has(band, band.source.key, &Bounds::high));
        if (band.ideal_source)
        {
            CHECK(has(band, band.ideal_source->key, &Bounds::ideal_low));
            CHECK(has(band, band.ideal_source->key, &Bounds::ideal_high));
        }
        else
            CHECK((!band.bounds.ideal_low && !band.bounds.ideal_high));
    }
}

TEST_CASE("working bands: with cyanurate more chlorine is asked for, not knowing takes the stricter")
{
    auto const bands = working_bands(data());
    auto const low = [&](Stabilizer s)
    { return working_band(bands, Parameter::free_chlorine, Venue::pool, s)->bounds.low->value; };
    CHECK(low(Stabilizer::none) == 1e-3);
    CHECK(low(Stabilizer::present) == 2e-3);
    CHECK(low(Stabilizer::either) == 2e-3);
    CHECK(working_band(bands, Parameter::dissolved_solids, Venue::pool) == nullptr);
    for (auto venue : {Venue::pool, Venue::spa})
        for (auto p : {Parameter::ph, Parameter::free_chlorine, Parameter::combined_chlorine, Parameter::bromine,
                       Parameter::alkalinity, Parameter::calcium, Parameter::cyanurate,
                       Parameter::cyanurate_to_chlorine, Parameter::water_temperature, Parameter::saturation_index})
            CHECK(working_band(bands, p, venue) != nullptr);
}

TEST_CASE("limits: a bound that is no reading of its parameter, or out of order, is refused")
{
    auto const message = [](std::string const& row)
    {
        try
        {
            auto const bad = reference::Data::from_texts(
                {{"chemistry/limits.yaml", "limits:\n  - " + row + "\nworking_bands: []\nsets: {a: {name: A}}\n"}});
            (void)published_limits(bad);
        }
        catch (reference::DataProblems const& e)
        {
            return std::string(e.what());
        }
        return std::string("accepted");
    };
    std::string const source = ", source: {key: x, seen: judgement}}";
    CHECK(message("{parameter: ph, venue: pool, set: a, body: A, low: 7.8, high: 7.2" + source) ==
          "data file chemistry/limits.yaml: the limits of 'A' are not in order (line 0)");
    CHECK(message("{parameter: ph, venue: pool, set: a, body: A" + source) ==
          "data file chemistry/limits.yaml: a row of 'A' has no limit (line 0)");
    CHECK(message("{parameter: free_chlorine, venue: pool, set: a, body: A, low: 7.2 degF" + source)
              .find("limit '7.2 degF'") != std::string::npos);
    CHECK(message("{parameter: ph, venue: pool, set: a, body: A, low: 7.2, high: 7.8" + source) == "accepted");
    CHECK(message("{parameter: ph, venue: pool, set: b, body: A, low: 7.2, high: 7.8" + source) ==
          "data file chemistry/limits.yaml: the limits of 'A' belong to no set that is listed (line 0)");
}

namespace
{

template <class Q> units::Reading reading_of(double si)
{
    return units::Reading::exact(units::of_si<Q>(si));
}

// The bodies that find a reading outside, each once.
std::set<std::string> breaks(std::vector<LimitCompared> const& compared, Standing standing)
{
    std::set<std::string> out;
    for (auto const& one : compared)
        if (one.standing == standing)
            out.insert(one.limit.body);
    return out;
}

// The set that a row of the collected table belongs to, by how its source begins.
std::string set_of(std::string const& source)
{
    static std::map<std::string, std::string> const by_start{{"CDC MAHC", "model_code"},
                                                             {"CMAHC", "model_code"},
                                                             {"California", "california"},
                                                             {"Florida FAC 64E-9.004 (text", "florida"},
                                                             {"Florida FAC 64E-9.004 (2016", "florida_2016"},
                                                             {"Montana", "montana_2010"},
                                                             {"NY ", "new_york"},
                                                             {"Wisconsin", "wisconsin"},
                                                             {"Texas", "texas"},
                                                             {"Utah", "utah"},
                                                             {"Anne Arundel", "anne_arundel"},
                                                             {"Fishers", "fishers"},
                                                             {"Anchorage", "anchorage"},
                                                             {"Pima", "pima"},
                                                             {"Cincinnati", "cincinnati"},
                                                             {"Quebec", "quebec"},
                                                             {"Logan", "logan"},
                                                             {"Guildford", "guildford"},
                                                             {"MIL-HDBK", "navy"},
                                                             {"ANSI/APSP", "industry"},
                                                             {"trade newspaper 2022 citing", "industry"},
                                                             {"EPA/APSP", "industry"},
                                                             {"WHO", "who"},
                                                             {"Army", "army"},
                                                             {"equipment maker", "equipment_maker"}};
    for (auto const& [start, set] : by_start)
        if (source.rfind(start, 0) == 0)
            return set;
    throw std::runtime_error("no set for '" + source + "'");
}

std::optional<double> number_or_none(std::string const& text)
{
    try
    {
        return tests::csv_number(text);
    }
    catch (std::runtime_error const&)
    {
        return std::nullopt;
    }
}

// A number of the table in SI of its parameter.
double in_si_of(Parameter parameter, double number, std::string const& unit)
{
    if (unit == "F")
        return (number + 459.67) / 1.8;
    if (unit == "C")
        return number + 273.15;
    bool const concentration = units::info(measure_of(parameter)).dimension == units::Dimension::mass_concentration;
    return concentration ? number * 1e-3 : number;
}

bool same(std::optional<units::Reading> const& bound, std::optional<double> si)
{
    return bound.has_value() == si.has_value() && (!si || std::abs(bound->value - *si) <= 1e-9);
}

} // namespace

TEST_CASE("limits: every number of the collected table (source and how seen in each of its rows) is in the data")
{
    std::map<std::string, Parameter> const parameters{{"free chlorine", Parameter::free_chlorine},
                                                      {"combined chlorine", Parameter::combined_chlorine},
                                                      {"bromine", Parameter::bromine},
                                                      {"pH", Parameter::ph},
                                                      {"total alkalinity", Parameter::alkalinity},
                                                      {"calcium hardness", Parameter::calcium},
                                                      {"cyanuric acid", Parameter::cyanurate},
                                                      {"CYA:DPD-free-chlorine ratio", Parameter::cyanurate_to_chlorine},
                                                      {"temperature", Parameter::water_temperature},
                                                      {"saturation index", Parameter::saturation_index},
                                                      {"copper", Parameter::copper},
                                                      {"iron", Parameter::iron},
                                                      {"TDS", Parameter::dissolved_solids},
                                                      {"sulfate", Parameter::sulfate}};
    // doses, and a condition (bromine) that the rows can't tell
    std::set<std::string> const left_out{"pool, algae superchlorination", "bromine"};
    auto const limits = published_limits(data());
    std::size_t found = 0;
    for (auto const& row : tests::reference_csv("chemistry/water_limits.csv"))
    {
        INFO(row.place() << " " << row.text("parameter") << " of " << row.text("source"));
        auto const parameter = parameters.find(row.text("parameter"));
        if (parameter == parameters.end() || left_out.count(row.text("venue")) == 1)
            continue; // turbidity, redox potential, clarity, total chlorine, copper sulfate: no field of a test
        auto const bound = [&](std::string const& column) -> std::optional<double>
        {
            auto const number = number_or_none(row.text(column));
            bool const nothing = column == "min" && number && *number == 0; // no concentration is below 0
            return number && !nothing ? std::optional(in_si_of(parameter->second, *number, row.text("unit")))
                                      : std::nullopt;
        };
        auto const low = bound("min"), high = bound("max");
        if ((!low && !high) || (!high && !row.text("max").empty()))
            continue; // only a recommendation, or a limit in words
        bool const memory = row.text("status") == "FROM MEMORY";
        bool const there = std::any_of(limits.begin(), limits.end(),
                                       [&](Limit const& limit)
                                       {
                                           return limit.parameter == parameter->second &&
                                                  limit.set == set_of(row.text("source")) &&
                                                  (limit.source.seen == reference::Seen::memory) == memory &&
                                                  same(limit.bounds.low, low) && same(limit.bounds.high, high);
                                       });
        CHECK(there);
        found += there ? 1 : 0;
    }
    CHECK(found >= 120);
}

TEST_CASE("limit sets: those that limit pH and free chlorine may lead, others may not")
{
    std::map<std::string, std::string> sets;
    for (auto const& set : limit_sets(data()))
        sets[set.id] = set.name;
    CHECK(sets.size() >= 10);
    CHECK(sets["new_york"] == "New York");
    CHECK(sets["model_code"] == "Model Aquatic Health Code");
    for (auto const* id : {"utah", "texas", "wisconsin", "pima", "army", "equipment_maker", "florida_2016"})
        CHECK(sets.count(id) == 0); // each lacks pH or free chlorine, or has it for indoor pools only
}

TEST_CASE(
    "limits compared: a pH of 7.3 is below New York's for pools and within Montana's (10 NYCRR 6-1.30, ARM 37.115)")
{
    auto const limits = published_limits(data());
    auto const pool = compared(limits, Parameter::ph, Venue::pool, reading_of<units::Ph>(7.3));
    CHECK(breaks(pool, Standing::below) == std::set<std::string>{"New York", "US Navy training pools"});
    CHECK(breaks(pool, Standing::above).empty());
    CHECK(breaks(pool, Standing::within).count("Montana, 2010") == 1);
    auto const spa = compared(limits, Parameter::ph, Venue::spa, reading_of<units::Ph>(7.7));
    CHECK(breaks(spa, Standing::above) == std::set<std::string>{"Anchorage AK"});
    CHECK(breaks(spa, Standing::within).count("New York") == 1);
    CHECK(breaks(spa, Standing::within).count("Guildford, UK") == 0); // pools only
    // on the limit is within, however it was worked out
    auto const edge = compared(limits, Parameter::ph, Venue::pool, reading_of<units::Ph>(7.8 + 1e-12));
    CHECK(breaks(edge, Standing::within).count("New York") == 1);
    CHECK_THROWS_AS(compared(limits, Parameter::ph, Venue::pool, reading_of<units::AsChlorine>(7.3)), std::logic_error);
}

TEST_CASE("limits compared: what only recommends is left out, and cyanurate chooses the row (22 CCR 65529)")
{
    auto const limits = published_limits(data());
    auto const chlorine = reading_of<units::AsChlorine>(1.5e-3);
    auto const with = compared(limits, Parameter::free_chlorine, Venue::pool, chlorine, Stabilizer::present);
    auto const without = compared(limits, Parameter::free_chlorine, Venue::pool, chlorine, Stabilizer::none);
    CHECK(breaks(with, Standing::below).count("California") == 1);
    CHECK(breaks(without, Standing::below).count("California") == 0);
    CHECK(breaks(without, Standing::within).count("California") == 1);
    for (auto const& one : with)
        CHECK(one.limit.body != "industry association"); // recommends 2 to 4 ppm
}

TEST_CASE("leading band: the set's row where it has one, else the usual one, end by end")
{
    auto const limits = published_limits(data());
    auto const bands = working_bands(data());
    auto const of = [&](std::string const& set, Parameter p, Venue v = Venue::pool, Stabilizer s = Stabilizer::either)
    { return leading_band(limits, bands, set, p, v, s); };
    auto const usual = of("", Parameter::ph);
    CHECK(usual.low->bound.value == 7.2);
    CHECK_FALSE(usual.low->chosen);
    CHECK(usual.low->body == "Montana, 2010");
    auto const new_york = of("new_york", Parameter::ph);
    CHECK(new_york.low->bound.value == 7.4);
    CHECK(new_york.low->chosen);
    CHECK(new_york.low->source.key == "ny-10-nycrr-6-1-30");
    CHECK(of("new_york", Parameter::ph, Venue::spa).low->bound.value == 7.2);
    auto const chlorine = of("new_york", Parameter::free_chlorine);
    CHECK(std::abs(chlorine.low->bound.value - 0.6e-3) <= 1e-12);
    CHECK(chlorine.low->chosen);
    CHECK_FALSE(chlorine.high->chosen); // New York's rows for pools set none
    CHECK(std::abs(chlorine.high->bound.value - 10e-3) <= 1e-12);
    CHECK_FALSE(of("new_york", Parameter::copper).high->chosen);
    // Of the model code's rows for pH, 7.0 stands first and only a quoted one has an upper end.
    auto const code = of("model_code", Parameter::ph);
    CHECK(code.low->bound.value == 7.0);
    CHECK(code.high->bound.value == 7.8);
    CHECK(code.high->source.seen == reference::Seen::quoted);
    // What was seen goes before what is from memory.
    CHECK(of("industry", Parameter::free_chlorine).low->source.seen == reference::Seen::quoted);
    CHECK(of("industry", Parameter::calcium).low->source.seen == reference::Seen::memory);
}

TEST_CASE("leading band: a row that was seen goes before one from memory, then one for the venue, then the first")
{
    auto const row = [](Venue venue, reference::Seen seen, double high)
    {
        Bounds bounds;
        bounds.high = reading_of<units::Ph>(high);
        return Limit{Parameter::ph, venue, Stabilizer::either, "s", "S", bounds, "", {"k", "", seen}};
    };
    using reference::Seen;
    auto const high = [](std::vector<Limit> const& rows)
    { return leading_band(rows, {}, "s", Parameter::ph, Venue::pool).high->bound.value; };
    CHECK(high({row(Venue::pool, Seen::memory, 7.6), row(Venue::all, Seen::read, 7.8)}) == 7.8);
    CHECK(high({row(Venue::all, Seen::read, 7.8), row(Venue::pool, Seen::read, 7.7)}) == 7.7);
    CHECK(high({row(Venue::all, Seen::read, 7.8), row(Venue::all, Seen::read, 7.7)}) == 7.8);
}

TEST_CASE("leading band: without knowing of cyanurate the row that asks for more, with it its own")
{
    auto const limits = published_limits(data());
    auto const bands = working_bands(data());
    auto const low = [&](Stabilizer s)
    { return leading_band(limits, bands, "california", Parameter::free_chlorine, Venue::pool, s).low->bound.value; };
    CHECK(std::abs(low(Stabilizer::none) - 1e-3) <= 1e-12);
    CHECK(std::abs(low(Stabilizer::present) - 2e-3) <= 1e-12);
    CHECK(std::abs(low(Stabilizer::either) - 2e-3) <= 1e-12);
}

TEST_CASE("leading band: an end of the usual band that would leave nothing gives way to the set's")
{
    auto const limits = published_limits(data());
    std::vector<WorkingBand> high_only = working_bands(data());
    for (auto& band : high_only)
        if (band.parameter == Parameter::free_chlorine)
            band.bounds = {reading_of<units::AsChlorine>(4e-3), {}, {}, {}};
    auto const band = leading_band(limits, high_only, "who", Parameter::free_chlorine, Venue::pool); // at most 3 ppm
    CHECK(band.high->chosen);
    CHECK_FALSE(band.low);
}

TEST_CASE("chemistry: every source that a model or table names is in the bibliography")
{
    auto const works = reference::bibliography(data());
    for (auto const& model : catalogue().models())
        for (auto const& key : model.sources)
        {
            INFO(model.name << ": " << key);
            CHECK(works.count(key) == 1);
        }
}
