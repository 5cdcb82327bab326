#include "catch_compat.hpp"
#include "data_folder.hpp"
#include "padwalk/circulation/limits.hpp"
#include "written.hpp"

#include <set>

using namespace padwalk;
using namespace padwalk::circulation;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using tests::in;
using tests::q;

namespace
{

template <class Row> Row at(std::vector<Row> const& rows, std::string const& where)
{
    for (auto const& row : rows)
        if (row.where == where)
            return row;
    throw std::out_of_range(where);
}

} // namespace

TEST_CASE("turnover limits: Iowa's spas 30 min and the pool code of 2012, as read in its DC print", "[circulation]")
{
    auto const limits = turnover_limits(tests::data_from_folder());
    CHECK_THAT(in(*at(limits, "Iowa").longest, "min"), WithinRel(30.0, 1e-12));
    auto const by_depth = at(limits, "International Swimming Pool and Spa Code 2012, classes A, B and C");
    CHECK(!longest_turnover(by_depth, std::nullopt));
    CHECK_THAT(in(*longest_turnover(by_depth, q<units::Length>("3 ft")), "h"), WithinRel(4.5, 1e-12));
    CHECK_THAT(in(*longest_turnover(by_depth, q<units::Length>("5 ft")), "h"), WithinRel(6.0, 1e-12)); // the cap
    auto const energy = at(limits, "California energy code");
    CHECK(!longest_turnover(energy, q<units::Length>("5 ft")));
    CHECK_THAT(in(*energy.shortest, "h"), WithinRel(6.0, 1e-12));
}

TEST_CASE("velocity limits: Nevada's public pools as read in its code 444.160 and 444.158", "[circulation]")
{
    auto const nevada = at(velocity_limits(tests::data_from_folder()), "Nevada public pools");
    CHECK_THAT(in(*nevada.suction, "ft/s"), WithinRel(6.0, 1e-12));
    CHECK_THAT(in(*nevada.discharge, "ft/s"), WithinRel(10.0, 1e-12));
    CHECK_THAT(in(*nevada.copper, "ft/s"), WithinRel(6.0, 1e-12));
    CHECK(nevada.source.seen == reference::Seen::read);
}

TEST_CASE("filter rates: Georgia's 15, 12, 0.30 and 2.0 gpm/ft2, as read in its rule 511-3-5-.08", "[circulation]")
{
    std::multiset<double> georgia;
    for (auto const& limit : filter_rate_limits(tests::data_from_folder()))
        if (limit.where == "Georgia")
        {
            georgia.insert(in(limit.greatest_per_square_foot, "gpm"));
            // 1 gpm/ft2 = 231 in3/min over 144 in2 = 0.133681 ft/min
            CHECK_THAT(in(limit.greatest(), "ft/min"),
                       WithinRel(in(limit.greatest_per_square_foot, "gpm") * 231 / 1728, 1e-12));
        }
    REQUIRE(georgia.size() == 4);
    double const expected[] = {0.3, 2, 12, 15};
    std::size_t i = 0;
    for (double const rate : georgia)
        CHECK_THAT(rate, WithinRel(expected[i++], 1e-12));
}

TEST_CASE("cleaning rise: 5 to 10 psi in US federal advice, read", "[circulation]")
{
    auto const advice = at(cleaning_rises(tests::data_from_folder()), "US federal advice");
    CHECK_THAT(in(advice.low, "psi"), WithinRel(5.0, 1e-12));
    CHECK_THAT(in(advice.high, "psi"), WithinRel(10.0, 1e-12));
}

TEST_CASE("full-load currents rise with power, and 230 V takes half of 115 V, in the code's table as read",
          "[circulation]")
{
    auto const rows = full_load_currents(tests::data_from_folder());
    REQUIRE(rows.size() == 10);
    for (std::size_t i = 0; i < rows.size(); ++i)
    {
        CHECK_THAT(in(rows[i].at_230_volt, "A"), WithinRel(in(rows[i].at_115_volt, "A") / 2, 1e-12));
        CHECK(rows[i].at_208_volt < rows[i].at_200_volt);
        if (i > 0)
            CHECK(rows[i].shaft > rows[i - 1].shaft);
    }
    CHECK_THAT(in(rows[6].shaft, "hp"), WithinRel(1.5, 1e-12));
    CHECK_THAT(in(rows[6].at_230_volt, "A"), WithinRel(10.0, 1e-12));
}

TEST_CASE("loss coefficients after Crane, second hand: elbows and check valves from 1.5 to 3 in", "[circulation]")
{
    Pipes const table = pipes(tests::data_from_folder());
    struct Row
    {
        char const* size;
        double elbow, check;
    };
    for (auto const& r :
         {Row{"1.5 in", 0.600, 2.00}, Row{"2 in", 0.565, 1.885}, Row{"2.5 in", 0.543, 1.81}, Row{"3 in", 0.516, 1.72}})
    {
        auto const size = q<units::Length>(r.size);
        CHECK_THAT(table.loss_coefficient("elbow_90", size)->value(),
                   WithinAbs(r.elbow, 0.0015)); // fT has three digits
        CHECK_THAT(table.loss_coefficient("swing_check", size)->value(), WithinAbs(r.check, 0.006));
        CHECK_THAT(table.loss_coefficient("exit", size)->value(), WithinRel(1.0, 1e-12));
    }
    CHECK(!table.loss_coefficient("elbow_90", q<units::Length>("1 in")));
    CHECK(!table.loss_coefficient("elbow_91", q<units::Length>("2 in")));
}

TEST_CASE("bores of PVC pipe as read in the Hydraulic Institute's data tool, other sizes and schedules have none",
          "[circulation]")
{
    Pipes const table = pipes(tests::data_from_folder());
    CHECK_THAT(in(*table.bore(q<units::Length>("2 in")), "in"), WithinRel(2.058, 1e-12));
    CHECK_THAT(in(*table.bore(q<units::Length>("1 1/2 in"), 80), "in"), WithinRel(1.488, 1e-12));
    CHECK(!table.bore(q<units::Length>("1.75 in")));
    CHECK(!table.bore(q<units::Length>("2 in"), 60));
    for (auto const& row : table.bores)
        CHECK(row.schedule_80 < row.schedule_40);
}

TEST_CASE("pipes: the trade size nearest to a bore", "[circulation]")
{
    auto const table = pipes(tests::data_from_folder());
    for (auto const& row : table.bores)
        CHECK(in(table.nearest_nominal(row.schedule_40), "in") == in(row.nominal, "in"));
    CHECK_THAT(in(table.nearest_nominal(q<units::Length>("1.9 in")), "in"), WithinAbs(2.0, 1e-9));
    CHECK_THAT(in(table.nearest_nominal(q<units::Length>("1 in")), "in"), WithinAbs(1.5, 1e-9));
    CHECK_THAT(in(table.nearest_nominal(q<units::Length>("6 in")), "in"), WithinAbs(3.0, 1e-9));
    CHECK_THROWS_AS(Pipes{}.nearest_nominal(q<units::Length>("2 in")), std::logic_error);
}
