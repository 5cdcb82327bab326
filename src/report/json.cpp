#include "padwalk/report/json.hpp"

#include "padwalk/numerics/number_text.hpp"

#include <nlohmann/json.hpp>

#include <cmath>

namespace padwalk::report
{
namespace
{

using Json = nlohmann::ordered_json;

constexpr int digits = 10;

// Whole numbers without '.0'; others as the shortest text of what is left after rounding to ten digits.
Json number(double value)
{
    if (!std::isfinite(value))
        return nullptr;
    constexpr double exact_whole = 1e10;
    if (value == std::floor(value) && std::abs(value) < exact_whole)
        return static_cast<std::int64_t>(value);
    return Json::parse(numerics::number_text(value, digits));
}

Json json(fields::Tree const& tree)
{
    using fields::Tree;
    return std::visit(
        [](auto const& value) -> Json
        {
            using V = std::decay_t<decltype(value)>;
            if constexpr (std::is_same_v<V, std::monostate>)
                return nullptr;
            else if constexpr (std::is_same_v<V, double>)
                return number(value);
            else if constexpr (std::is_same_v<V, Tree::List>)
            {
                Json out = Json::array();
                for (auto const& item : value)
                    out.push_back(json(item));
                return out;
            }
            else if constexpr (std::is_same_v<V, Tree::Map>)
            {
                Json out = Json::object();
                for (auto const& [key, item] : value)
                    out[key] = json(item);
                return out;
            }
            else
                return value;
        },
        tree.value());
}

} // namespace

std::string json_of(fields::Tree const& tree, bool indented)
{
    Json const out = json(tree);
    return indented ? out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"
                    : out.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string as_json(assess::Assessment const& assessment, units::System system)
{
    return json_of(assessment_tree(assessment, system), true);
}

} // namespace padwalk::report
