#pragma once
/// Plain data on its way out: what is printed as JSON. Keys keep the order they were added in.

#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace padwalk::fields
{

class Tree
{
public:
    using List = std::vector<Tree>;
    using Map = std::vector<std::pair<std::string, Tree>>;
    using Value = std::variant<std::monostate, bool, double, std::string, List, Map>;

    Tree() = default;
    Tree(bool value) : value_(value) {}
    Tree(double value) : value_(value) {}
    Tree(int value) : value_(static_cast<double>(value)) {}
    Tree(std::size_t value) : value_(static_cast<double>(value)) {}
    Tree(std::string value) : value_(std::move(value)) {}
    Tree(std::string_view value) : value_(std::string(value)) {}
    Tree(char const* value) : value_(std::string(value)) {}
    Tree(List value) : value_(std::move(value)) {}
    Tree(Map value) : value_(std::move(value)) {}

    [[nodiscard]] Value const& value() const { return value_; }
    [[nodiscard]] bool nothing() const { return std::holds_alternative<std::monostate>(value_); }

    static Tree map() { return Tree(Map{}); }
    static Tree list() { return Tree(List{}); }

    /// Adds to a map.
    Tree& add(std::string key, Tree child)
    {
        std::get<Map>(value_).emplace_back(std::move(key), std::move(child));
        return *this;
    }
    /// Adds to a list.
    Tree& push(Tree child)
    {
        std::get<List>(value_).push_back(std::move(child));
        return *this;
    }

private:
    Value value_;
};

} // namespace padwalk::fields
