#include "sample.hpp"

#include <nlohmann/json.hpp>

using namespace padwalk;
using namespace padwalk::tests;

namespace
{

nlohmann::ordered_json json_of(fields::Tree const& tree)
{
    struct Visitor
    {
        nlohmann::ordered_json operator()(std::monostate) const { return nullptr; }
        nlohmann::ordered_json operator()(bool b) const { return b; }
        nlohmann::ordered_json operator()(double d) const { return d; }
        nlohmann::ordered_json operator()(std::string const& s) const { return s; }
        nlohmann::ordered_json operator()(fields::Tree::List const& list) const
        {
            auto out = nlohmann::ordered_json::array();
            for (auto const& item : list)
                out.push_back(json_of(item));
            return out;
        }
        nlohmann::ordered_json operator()(fields::Tree::Map const& map) const
        {
            auto out = nlohmann::ordered_json::object();
            for (auto const& [key, value] : map)
                out[key] = json_of(value);
            return out;
        }
    };
    return std::visit(Visitor{}, tree.value());
}

} // namespace

TEST_CASE("a record as a tree: what was given, in SI, in order, with unit, basis and doubt", "[fields][tree]")
{
    Sample const s = must_read({{"flow", text("10 ± 1 m3/h")},
                                {"temperature", text("40 ± 1 degC")},
                                {"runs", text("no")},
                                {"colour", text("light green")},
                                {"at", text("2026-05-14")},
                                {"curve", text("0 m3/h:20 m, 10 m3/h:15 m, 20 m3/h:5 m")},
                                {"noticed", list({text("noise")})},
                                {"names", list({text("spa")})},
                                {"parts", map({{"suction", map({{"length", text("2 m")}})}})},
                                {"counts", map({{"elbow", text("4")}})}});
    auto json = json_of(Sample::declaration().write(s));
    CHECK_THAT(json["gauge"]["value"].get<double>(), Catch::Matchers::WithinRel(18 * 6.894757293168361, 1e-14));
    json["gauge"]["value"] = 124.0; // its last digits are no business of the text below
    CHECK(json.dump() ==
          R"({"gauge":{"value":124.0,"unit":"kPa"},)"
          R"("flow":{"value":10.0,"unit":"m3/h","standard_uncertainty":0.5,"method":"written"},)"
          R"("temperature":{"value":40.0,"unit":"degC","standard_uncertainty":0.5,"method":"written"},)"
          R"("runs":false,"colour":"light_green","at":"2026-05-14",)"
          R"("curve":[{"flow":{"value":0.0,"unit":"L/day"},"head":{"value":20.0,"unit":"m"}},)"
          R"({"flow":{"value":10.0,"unit":"m3/h"},"head":{"value":15.0,"unit":"m"}},)"
          R"({"flow":{"value":20.0,"unit":"m3/h"},"head":{"value":5.0,"unit":"m"}}],)"
          R"("noticed":[{"seen":"noise"}],"names":["spa"],)"
          R"("parts":{"suction":{"length":{"value":2.0,"unit":"m"}}},"counts":{"elbow":{"value":4.0}}})");
}

TEST_CASE("a reading as a tree names its basis", "[fields][tree]")
{
    CHECK(json_of(fields::tree_of({units::Measure::as_calcium_carbonate, 0.090, 0.005, "drops", false})).dump() ==
          R"({"value":90.0,"unit":"mg/L","basis":"CaCO3","standard_uncertainty":5.0,"method":"drops"})");
    CHECK(json_of(fields::tree_of({units::Measure::ph, 7.5, 0, "given", false})).dump() == R"({"value":7.5})");
}

TEST_CASE("a field alone can be set, got and written by its number", "[fields][record]")
{
    Sample s;
    auto const& record = Sample::declaration();
    record.set(s, 1, 0.25);
    CHECK(record.get(s, 1) == 0.25);
    CHECK(record.get(s, 2) == std::nullopt);
    CHECK(record.get(s, 3) == std::nullopt); // words are no number
    CHECK(json_of(record.write_field(s, 3)).dump() == "\"\"");
    CHECK_THROWS_AS(record.set(s, 99, 1), std::out_of_range);
}
