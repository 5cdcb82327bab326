#include "catch_compat.hpp"

#include "run_model.hpp"

#include "padwalk/chemistry/limits.hpp"

#include <cmath>
#include <map>
#include <set>

using namespace padwalk;
using namespace padwalk::chemistry_tests;
using namespace padwalk::chemistry;

TEST_CASE("limits: enough rows were seen, each names a known source, none is from memory")
{
    auto const limits = published_limits(data());
    auto const works = reference::bibliography(data());
    CHECK(limits.size() >= 60);
    std::map<Parameter, int> count;
    for (auto const& limit : limits)
    {
        INFO(limit.body << " " << limit.source.key);
        ++count[limit.parameter];
        CHECK(works.count(limit.source.key) == 1);
        CHECK((limit.source.seen == reference::Seen::read || limit.source.seen == reference::Seen::quoted));
        CHECK(!limit.body.empty());
    }
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
                {{"chemistry/limits.yaml", "limits:\n  - " + row + "\nworking_bands: []\n"}});
            (void)published_limits(bad);
        }
        catch (reference::DataProblems const& e)
        {
            return std::string(e.what());
        }
        return std::string("accepted");
    };
    std::string const source = ", source: {key: x, seen: judgement}}";
    CHECK(message("{parameter: ph, venue: pool, body: A, low: 7.8, high: 7.2" + source) ==
          "data file chemistry/limits.yaml: the limits of 'A' are not in order (line 0)");
    CHECK(message("{parameter: ph, venue: pool, body: A" + source) ==
          "data file chemistry/limits.yaml: a row of 'A' has no limit (line 0)");
    CHECK(message("{parameter: free_chlorine, venue: pool, body: A, low: 7.2 degF" + source).find("limit '7.2 degF'") !=
          std::string::npos);
    CHECK(message("{parameter: ph, venue: pool, body: A, low: 7.2, high: 7.8" + source) == "accepted");
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
