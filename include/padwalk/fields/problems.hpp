#pragma once
/// What is wrong with a text, all of it at once, and how it is shown.

#include "padwalk/fields/node.hpp"

#include <stdexcept>
#include <string>
#include <vector>

namespace padwalk::fields
{

struct Problem
{
    Place place;
    std::size_t length = 0; ///< bytes to underline, 0 where nothing can be pointed at
    std::string message;
    std::string advice; ///< what would pass; may be empty
    std::string path;   ///< 'loops/spa loop/pump/current'

    friend bool operator==(Problem const& a, Problem const& b)
    {
        return a.place.line == b.place.line && a.place.column == b.place.column && a.message == b.message;
    }
};

/// A text that can't be used. Carries every problem, in the order of the text.
class InputProblems : public std::runtime_error
{
public:
    explicit InputProblems(std::vector<Problem> problems);
    [[nodiscard]] std::vector<Problem> const& list() const { return problems_; }

private:
    std::vector<Problem> problems_;
};

/// 'file:line:column: error: …' with the line, a caret and the advice, for each problem, as compilers write it, so
/// that editors jump to the place. Columns are counted in characters. `source` is the whole text.
[[nodiscard]] std::string as_text(std::vector<Problem> const& problems, std::string_view file, std::string_view source,
                                  std::string_view severity = "error");

} // namespace padwalk::fields
