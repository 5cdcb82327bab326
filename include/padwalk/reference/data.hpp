#pragma once
/// The facts in data/, compiled in. A table is an argument of a model, not a global.

#include "padwalk/fields/record.hpp"

#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace padwalk::reference
{

/// A data file that is not as declared. The built-in data never is: a test reads all of it.
class DataProblems : public std::runtime_error
{
public:
    DataProblems(std::string file, std::string source, std::vector<fields::Problem> problems);
    std::string file;
    std::string source;
    std::vector<fields::Problem> problems;
};

/// Whether a file of this name is one of data/: YAML, a template (.html) or a style sheet (.css).
[[nodiscard]] bool is_data_file(std::string_view path);
/// What the file holds: a tree of its YAML, or its text in one scalar. Throws fields::InputProblems.
[[nodiscard]] fields::Node tree_of_file(std::string_view path, std::string const& text);

/// The files of data/ as trees, by their path below it: 'water/saturation_index.yaml'.
class Data
{
public:
    /// What was compiled in.
    [[nodiscard]] static Data built_in();
    /// From the texts of files (path, text); throws DataProblems.
    [[nodiscard]] static Data from_texts(std::vector<std::pair<std::string, std::string>> const& files);

    /// Throws DataProblems naming the file where there is none.
    [[nodiscard]] fields::Node const& file(std::string const& path) const;
    /// The paths that start so, sorted.
    [[nodiscard]] std::vector<std::string> files(std::string_view prefix = {}) const;

private:
    std::map<std::string, fields::Node> files_;
};

/// Reads a declared record from a file; throws DataProblems.
template <fields::Declared T> [[nodiscard]] T read_table(Data const& data, std::string const& path)
{
    T out{};
    fields::ReadContext context;
    fields::read_record(data.file(path), out, context);
    if (!context.problems.empty())
        throw DataProblems(path, {}, context.problems);
    return out;
}

/// One tree as text that `unpack` reads fast, for compiling in.
[[nodiscard]] std::string pack(fields::Node const& node);
/// Throws std::runtime_error on a text that `pack` did not make.
[[nodiscard]] fields::Node unpack(std::string_view packed);

} // namespace padwalk::reference
