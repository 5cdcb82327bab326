#include "padwalk/reference/data.hpp"

#include "built_in.hpp"
#include "padwalk/reference/yaml.hpp"

namespace padwalk::reference
{

DataProblems::DataProblems(std::string file_, std::string source_, std::vector<fields::Problem> problems_)
    : std::runtime_error("data file " + file_ + ": " +
                         (problems_.empty() ? "problem"
                                            : problems_.front().message + " (line " +
                                                  std::to_string(problems_.front().place.line) + ")")),
      file(std::move(file_)), source(std::move(source_)), problems(std::move(problems_))
{
}

Data Data::built_in()
{
    Data out;
    for (auto const& [path, packed] : built_in_files())
        out.files_.emplace(std::string(path), unpack(packed));
    return out;
}

Data Data::from_texts(std::vector<std::pair<std::string, std::string>> const& files)
{
    Data out;
    for (auto const& [path, text] : files)
    {
        try
        {
            out.files_.emplace(path, tree_of_file(path, text));
        }
        catch (fields::InputProblems const& bad)
        {
            throw DataProblems(path, text, bad.list());
        }
    }
    return out;
}

fields::Node const& Data::file(std::string const& path) const
{
    auto const found = files_.find(path);
    if (found == files_.end())
        throw DataProblems(
            path, {},
            {{{}, 0, "the file is missing", "a data folder holds every file that the built-in data has", {}}});
    return found->second;
}

std::vector<std::string> Data::files(std::string_view prefix) const
{
    std::vector<std::string> out;
    for (auto const& [path, node] : files_)
        if (std::string_view(path).starts_with(prefix))
            out.push_back(path);
    return out;
}

} // namespace padwalk::reference
