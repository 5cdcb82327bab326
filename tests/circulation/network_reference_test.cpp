#include "network_made.hpp"

#include <map>

using namespace padwalk;
using namespace padwalk::circulation;
using namespace padwalk::tests;
using Catch::Matchers::WithinRel;

TEST_CASE("40 loops as networks: an independent solution in SI within 0.01 %, EPANET 2.3.5 within 0.2 %",
          "[circulation]")
{
    auto const rows = tests::reference_csv("circulation/loop.csv");
    REQUIRE(rows.size() == 40);
    for (auto const& row : rows)
    {
        INFO(row.place() << " " << row.text("id"));
        bool const hazen = row.text("formula") == "HW";
        auto const c = number(hazen ? row.number("hw_C") : 0);
        auto const roughness = metre(hazen ? 0 : row.number("roughness_m"));
        auto const discharge = metre(row.number("d_discharge_m"));
        Network n;
        n.formula = hazen ? FrictionFormula::hazen_williams : FrictionFormula::darcy_weisbach;
        auto const pool = n.water("pool", metre(0));
        auto const a = n.junction("a"), b = n.junction("b"), d = n.junction("d"), e = n.junction("e");
        n.link("suction", pool, a,
               Pipe{metre(row.number("d_suction_m")), metre(row.number("L_suction_m")), number(row.number("K_suction")),
                    roughness, c});
        auto const pump = n.link("pump", a, b, row_curve(row, "pump_"));
        n.link("filter", b, d, FixedLoss{discharge, number(row.number("K_filter"))});
        n.link("heater", d, e, FixedLoss{discharge, number(row.number("K_heater"))});
        n.link("discharge", e, pool,
               Pipe{discharge, metre(row.number("L_discharge_m")), number(row.number("K_discharge")), roughness, c});
        auto const s = solve(n, celsius(row.number("temp_C")));
        CHECK_THAT(at(s, pump), WithinRel(row.number("si_flow_m3s"), 1e-4));
        CHECK_THAT(-s.drop[pump].value(), WithinRel(row.number("si_pump_head_m"), 1e-4));
        CHECK_THAT(at(s, pump), WithinRel(row.number("flow_m3s"), 2e-3));
        CHECK_THAT(-s.drop[pump].value(), WithinRel(row.number("pump_head_m"), 2e-3));
    }
}

namespace
{

struct ReferenceNetwork
{
    Network network;
    std::vector<double> flow, drop;
    units::Temperature water;
};

std::map<std::string, ReferenceNetwork> reference_networks()
{
    std::map<std::string, ReferenceNetwork> out;
    std::map<std::string, std::size_t> node;
    for (auto const& r : tests::reference_csv("circulation/network.csv"))
    {
        auto& c = out[r.text("network")];
        auto& n = c.network;
        c.water = celsius(r.number("temp_C"));
        auto const of = [&](std::string const& end)
        {
            std::string const name = r.text(end), level = r.text(end + "_level_m");
            auto const [place, fresh] = node.try_emplace(r.text("network") + "/" + name, 0);
            if (fresh)
                place->second = level.empty() ? n.junction(name) : n.water(name, metre(r.number(end + "_level_m")));
            return place->second;
        };
        std::string const kind = r.text("kind"), name = r.text("link");
        auto const from = of("from"), to = of("to");
        if (kind == "pump")
            n.link(name, from, to, row_curve(r, ""));
        else if (kind == "loss")
            n.link(name, from, to, FixedLoss{metre(r.number("d_m")), number(r.number("K"))});
        else
        {
            Pipe const pipe{metre(r.number("d_m")), metre(r.number("L_m")), number(r.number("K")),
                            metre(r.number("roughness_m")), number(0)};
            auto const l = n.link(name, from, to, pipe);
            n.links[l].one_way = kind == "check";
        }
        c.flow.push_back(r.number("flow_m3s"));
        c.drop.push_back(r.number("drop_m"));
    }
    return out;
}

} // namespace

TEST_CASE("24 house networks with parallel drains and two returns against EPANET by epanet-js", "[circulation]")
{
    auto const all = reference_networks();
    REQUIRE(all.size() == 24);
    double worst_share = 0, worst_flow = 0, worst_drop = 0;
    for (auto const& [id, c] : all)
    {
        INFO(id);
        auto const s = solve(c.network, c.water);
        check_balance(c.network, s);
        check_heads(c.network, s);
        double const largest = *std::max_element(c.flow.begin(), c.flow.end());
        double const deepest = -*std::min_element(c.drop.begin(), c.drop.end()); // the pump's head
        for (std::size_t l = 0; l < c.flow.size(); ++l)
        {
            INFO(c.network.links[l].name);
            double const off = std::abs(at(s, l) - c.flow[l]);
            worst_share = std::max(worst_share, off / largest);
            if (c.flow[l] > 0.1 * largest)
                worst_flow = std::max(worst_flow, off / c.flow[l]);
            if (c.flow[l] == 0)
                continue; // held by its check valve: the drop across it is no loss, and EPANET prints none
            worst_drop = std::max(worst_drop, std::abs(s.drop[l].value() - c.drop[l]) / deepest);
        }
    }
    // Measured: 0.226 %, 0.290 %, 0.075 %. The largest are a return into a raised spa and the weaker of two pumps, both
    // differences of nearly equal heads. The explicit factor is 0.3 to 1.6 % off the root, g and 0.02517 0.03 %.
    CHECK(worst_share < 0.0025); // of every link, as a share of the largest flow in its network
    CHECK(worst_flow < 0.003);   // of every link that carries more than a tenth of that, as a share of itself
    CHECK(worst_drop < 0.001);   // of every link, as a share of the pump's head
}
