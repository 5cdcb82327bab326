#include "catch_compat.hpp"
#include "padwalk/figures/catalogue.hpp"
#include "padwalk/figures/figure.hpp"

#include <cmath>

using namespace padwalk;
using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;
using fields::Node;
using fields::Record;
using figures::Figure;
using figures::Inputs;
using figures::NotComputed;
using units::Measure;
using units::Reading;

namespace
{

enum class Way
{
    plain,
    doubled,
    tripled
};

} // namespace

template <> struct padwalk::fields::words_of<Way>
{
    static std::vector<std::string> words() { return {"plain", "doubled", "tripled"}; }
};

namespace
{

struct In
{
    units::Number a{};
    units::Number b{};
    std::optional<units::Number> c;
    Way way = Way::plain;
    static Record<In> const& declaration()
    {
        static Record<In> const record = Record<In>("in", "what goes in")
                                             .field("a", &In::a, "a number")
                                             .required()
                                             .within("-1000", "1000")
                                             .field("b", &In::b, "another")
                                             .otherwise("2 ± 0.2", "it usually is")
                                             .within("0", "10")
                                             .field("c", &In::c, "one that may be missing")
                                             .field("way", &In::way, "how to do it")
                                             .otherwise("doubled", "it is done so");
        return record;
    }
};

struct Out
{
    units::Number sum{};
    units::Number product{};
    std::optional<units::Number> ratio;
    Way way = Way::plain;
    static Record<Out> const& declaration()
    {
        static Record<Out> const record = Record<Out>("out", "what comes out")
                                              .field("sum", &Out::sum, "a factor times a plus b")
                                              .field("product", &Out::product, "a times b")
                                              .field("ratio", &Out::ratio, "a by c")
                                              .field("way", &Out::way, "how it was done");
        return record;
    }
};

Out compute(In const& in)
{
    double const a = in.a.value(), b = in.b.value();
    if (a < -100)
        throw NotComputed("a below -100 is not covered");
    if (a < -90)
        throw std::domain_error("a below -90 is out of range");
    if (a == 999)
        throw std::invalid_argument("a mistake of the program");
    double const factor = in.way == Way::plain ? 1 : in.way == Way::doubled ? 2 : 3;
    Out out;
    out.sum = units::Number::from_value(factor * a + b);
    out.product = units::Number::from_value(a * b);
    if (in.c)
        out.ratio = units::Number::from_value(a / in.c->value());
    out.way = in.way;
    return out;
}

figures::Model model_of(double own_doubt = 0)
{
    figures::About about{"sums", "sums of two numbers", "s = f a + b", "a above -100", {"judgement"}};
    about.own_doubt = own_doubt;
    return figures::model<In, Out>(about, compute);
}

Reading number(double value, double doubt = 0)
{
    return {Measure::number, value, doubt, "given", false};
}

Node written(std::vector<std::pair<std::string, std::string>> const& fields)
{
    Node node = Node::map();
    for (auto const& [key, value] : fields)
        node.entries.push_back({key, {1, 1}, Node::scalar(value, {1, 1})});
    return node;
}

} // namespace

TEST_CASE("a figure holds what went in, what was assumed, and what came out", "[figures]")
{
    auto const model = model_of();
    Figure const f = figures::run(model, Inputs().add("a", number(5)));
    REQUIRE(f.computed());
    REQUIRE(f.inputs.size() == 3);
    CHECK(f.inputs[0].shape->name == "a");
    CHECK_FALSE(f.inputs[0].assumed);
    CHECK(f.inputs[1].shape->name == "b");
    CHECK(f.inputs[1].assumed);
    CHECK(f.inputs[1].reading.value == 2);
    CHECK_THAT(f.inputs[1].reading.doubt, WithinRel(0.1, 1e-12)); // '± 0.2' is two standard uncertainties
    CHECK(f.inputs[1].reading.method == "assumed");
    CHECK(f.inputs[2].shape->name == "way");
    CHECK(f.inputs[2].words == "doubled");
    CHECK(*f.output("sum").value == 12); // the assumed way was really taken
    CHECK(*f.output("product").value == 10);
    CHECK_FALSE(f.output("ratio").value.has_value());
    CHECK(f.output("way").words == "doubled");
    CHECK(f.note.empty());
    CHECK(f.get<units::Number>("sum")->value.value() == 12);
    CHECK(f.get<units::Number>("sum")->method == "sums");
    CHECK_FALSE(f.get<units::Number>("ratio").has_value());
    CHECK_THROWS_AS(f.get<units::Fraction>("sum"), std::logic_error);
    CHECK_THROWS_AS(f.output("wombat"), std::out_of_range);
}

TEST_CASE("what is given replaces the assumption", "[figures]")
{
    auto const model = model_of();
    Figure const f = figures::run(
        model, Inputs().add("a", number(5)).add("b", number(3)).add("c", number(2)).add_words("way", "tripled"));
    CHECK(*f.output("sum").value == 18);
    CHECK(*f.output("ratio").value == 2.5);
    for (auto const& used : f.inputs)
        CHECK_FALSE(used.assumed);
    CHECK(f.output("sum").low == 18); // no doubt went in
    CHECK(f.output("sum").high == 18);
    std::optional<units::Measured<units::Number>> const nothing;
    CHECK(figures::run(model, Inputs().add("a", number(5)).add("b", nothing)).inputs[1].assumed);
}

TEST_CASE("doubt goes through a linear model as its closed form says", "[figures][doubt]")
{
    // sum = 2 a + b: the standard uncertainty is sqrt((2 x 0.5)^2 + 0.3^2), of a normal distribution. With one input
    // the points are even and only the interpolation between them is left (0.5 %). With two they are 255 of a plane,
    // six of them beyond each limit; a line through the plane may miss the even share by two points, and near the limit
    // neighbours in rank lie 0.07 u apart: z(6/256) = -1.989, z(5/256) = -2.063.
    auto const model = model_of();
    Figure const one = figures::run(model, Inputs().add("a", number(50, 0.5)).add("b", number(5)));
    CHECK(*one.output("sum").value == 105);
    CHECK_THAT(one.output("sum").low, WithinAbs(105 - 2 * 1.0, 0.005 * 2));
    CHECK_THAT(one.output("sum").high, WithinAbs(105 + 2 * 1.0, 0.005 * 2));
    CHECK_THAT(one.output("sum").reading().doubt, WithinRel(1.0, 0.005));

    double const u = std::sqrt(1.0 * 1.0 + 0.3 * 0.3);
    Figure const two = figures::run(model, Inputs().add("a", number(50, 0.5)).add("b", number(5, 0.3)));
    CHECK_THAT(two.output("sum").low, WithinAbs(105 - 2 * u, 2 * 0.07 * u));
    CHECK_THAT(two.output("sum").high, WithinAbs(105 + 2 * u, 2 * 0.07 * u));
}

TEST_CASE("doubt goes through a product as its closed form says", "[figures][doubt]")
{
    // relative: (u/p)^2 = (ua/a)^2 + (ub/b)^2 for small doubts; tolerances as for the sum of two above
    auto const model = model_of();
    Figure const f = figures::run(model, Inputs().add("a", number(50, 1.0)).add("b", number(5, 0.05)));
    double const u = 250 * std::sqrt(0.02 * 0.02 + 0.01 * 0.01);
    CHECK_THAT(f.output("product").reading().doubt, WithinRel(u, 0.07));
    CHECK_THAT(f.output("product").low, WithinAbs(250 - 2 * u, 2 * 0.07 * u));
    CHECK_THAT(f.output("product").high, WithinAbs(250 + 2 * u, 2 * 0.07 * u));
}

TEST_CASE("the doubt of the equation itself is relative and adds to that of the inputs", "[figures][doubt]")
{
    auto const model = model_of(0.05);
    Figure const alone = figures::run(model, Inputs().add("a", number(50)).add("b", number(5)));
    CHECK_THAT(alone.output("product").reading().doubt, WithinRel(12.5, 0.005));
    Figure const both = figures::run(model, Inputs().add("a", number(50, 2.5)).add("b", number(5)));
    CHECK_THAT(both.output("product").reading().doubt, WithinRel(12.5 * std::sqrt(2.0), 0.07));
}

TEST_CASE("an input's distribution is cut at the range that its field allows", "[figures][doubt]")
{
    // b is 0 ± 2 cut below 0: half a normal distribution. Its quantiles at 2.275 % and 97.725 % of the half are those
    // of the whole at 0.5 + p/2: 0.02851 and 2.2773 sigma (from tables of the normal distribution).
    auto const model = model_of();
    Figure const f = figures::run(model, Inputs().add("a", number(1)).add("b", number(0, 1)));
    CHECK_THAT(f.output("product").low, WithinAbs(0.02851, 0.001));
    CHECK_THAT(f.output("product").high, WithinRel(2.2773, 0.02));
}

TEST_CASE("the same input gives the same figure, byte for byte", "[figures][determinism]")
{
    auto const model = model_of(0.03);
    auto run = [&] {
        return figures::run(model,
                            Inputs().add("a", number(50, 0.7)).add("b", number(5, 0.3)).add("c", number(3, 0.1)));
    };
    Figure const first = run(), second = run();
    for (std::size_t i = 0; i < first.outputs.size(); ++i)
    {
        CHECK(first.outputs[i].value == second.outputs[i].value);
        CHECK(first.outputs[i].low == second.outputs[i].low);
        CHECK(first.outputs[i].high == second.outputs[i].high);
    }
}

TEST_CASE("what a model can't answer is said, not computed", "[figures][not-computed]")
{
    auto const model = model_of();
    auto why = [&](Inputs const& inputs)
    {
        Figure const f = figures::run(model, inputs);
        CHECK_FALSE(f.computed());
        CHECK(f.outputs.empty());
        CHECK_FALSE(f.get<units::Number>("sum").has_value());
        return f.why_not;
    };
    CHECK(why(Inputs()) == "needs a: a number");
    CHECK(why(Inputs().add("a", number(-200))) == "a below -100 is not covered");
    CHECK(why(Inputs().add("a", number(-95))) == "a below -90 is out of range");
    CHECK(why(Inputs().add("a", number(1001))) == "a of 1001 is outside -1000 to 1000");
    CHECK(why(Inputs().add("a", number(1)).add("c", number(0))) == "ratio has no finite value for these inputs");
    CHECK(figures::run(model, Inputs().add("a", number(1000 * (1 + 1e-12))))
              .computed()); // a rounding beyond the limit is none
}

TEST_CASE("doubt that reaches outside of the model is noted", "[figures][not-computed]")
{
    // a = -80 ± 10: the share below -90 is that beyond one sigma, 15.9 % of 255 points.
    auto const model = model_of();
    Figure const f = figures::run(model, Inputs().add("a", number(-80, 10)).add("b", number(2)));
    REQUIRE(f.computed());
    CHECK(f.note == "part of the readings' doubt (15 %) lies outside what the model covers");
    CHECK(f.output("product").low >= -180);
    CHECK(figures::run(model, Inputs().add("a", number(-80, 1)).add("b", number(2))).note.empty());
    CHECK(figures::run(model, Inputs().add("a", number(-80, 3.9)).add("b", number(2))).note.find("(1 %)") !=
          std::string::npos);
}

TEST_CASE("mistakes of the program are not answers", "[figures]")
{
    auto const model = model_of();
    CHECK_THROWS_AS(figures::run(model, Inputs().add("wombat", number(1))), std::logic_error);
    CHECK_THROWS_AS(figures::run(model, Inputs().add("a", Reading{Measure::ph, 7, 0, {}, false})), std::logic_error);
    CHECK_THROWS_AS(figures::run(model, Inputs().add("a", number(1)).add_words("way", "sideways")), std::logic_error);
    CHECK_THROWS_AS(figures::run(model, Inputs().add("a", number(999))), std::invalid_argument);
}

TEST_CASE("the same from what a person wrote", "[figures][written]")
{
    auto const model = model_of();
    Figure const f = figures::run_written(model, written({{"a", "50 ± 1"}, {"way", "plain"}}));
    REQUIRE(f.computed());
    CHECK(*f.output("sum").value == 52);
    CHECK_THAT(f.inputs[0].reading.doubt, WithinRel(0.5, 1e-12));
    CHECK(f.inputs[0].words.empty());
    CHECK(f.inputs[1].words == "plain");
    CHECK(f.inputs[2].assumed);
    Figure const run = figures::run(model, Inputs().add("a", number(50, 0.5)).add_words("way", "plain"));
    CHECK(f.output("sum").low == run.output("sum").low); // both doors lead to the same figure

    Node blank = written({{"a", "50"}});
    blank.entries.push_back({"b", {2, 1}, Node{}});
    Figure const left = figures::run_written(model, blank);
    CHECK(*left.output("product").value == 100); // a blank is as if it were not there
    CHECK(left.inputs[1].assumed);

    try
    {
        static_cast<void>(figures::run_written(model, written({{"a", "5 psi"}, {"wombat", "1"}, {"b", "11"}})));
        FAIL("was read");
    }
    catch (fields::InputProblems const& bad)
    {
        CHECK(bad.list().size() == 3);
    }
    CHECK_THROWS_AS(figures::run_written(model, written({{"b", "1"}})), fields::InputProblems);
    CHECK_THROWS_AS(figures::run_written(model, Node::scalar("5")), fields::InputProblems);
}

TEST_CASE("the catalogue is by name, and each name stands once", "[figures][catalogue]")
{
    figures::Catalogue catalogue;
    auto named = [](std::string name)
    {
        figures::Model model = model_of();
        model.name = std::move(name);
        return model;
    };
    catalogue.add({named("zebra"), named("ant")});
    catalogue.add({named("mole")});
    CHECK(catalogue.names() == std::vector<std::string>{"ant", "mole", "zebra"});
    CHECK(catalogue.at("mole").name == "mole");
    CHECK(catalogue.find("wombat") == nullptr);
    CHECK_THROWS_AS(catalogue.at("wombat"), std::logic_error);
    CHECK_THROWS_AS(catalogue.add({named("ant")}), std::logic_error);
}

TEST_CASE("GUM 5.1: each input's part in a figure's variance is (df/dx u) squared", "[figures][gum-2008]")
{
    auto const model = model_of();
    // sum = 2 a + b with u(a) = 0.3 and u(b) = 0.8: variances 0.36 and 0.64, by hand
    Figure const f = figures::run(model, Inputs().add("a", number(5, 0.3)).add("b", number(4, 0.8)));
    auto const shares = figures::doubt_shares(f, "sum");
    REQUIRE(shares.size() == 2);
    CHECK(shares[0].input == "b");
    CHECK_THAT(shares[0].share, WithinRel(0.64, 1e-12));
    CHECK_THAT(shares[1].share, WithinRel(0.36, 1e-12));
    CHECK_FALSE(shares[0].assumed);
    // an assumed doubt has its part too, and a choice that was made stays made
    Figure const g = figures::run(model, Inputs().add("a", number(5, 0.3)).add_words("way", "plain"));
    auto const with_assumed = figures::doubt_shares(g, "sum");
    REQUIRE(with_assumed.size() == 2);
    CHECK(with_assumed[0].input == "a");
    CHECK_THAT(with_assumed[0].share, WithinRel(0.9, 1e-9)); // 0.3^2 to 0.1^2
    CHECK(with_assumed[1].assumed);
    CHECK(figures::doubt_shares(figures::run(model, Inputs().add("a", number(5)).add("b", number(1))), "sum").empty());
    CHECK_THROWS_AS(figures::doubt_shares(f, "nothing"), std::out_of_range);
}
