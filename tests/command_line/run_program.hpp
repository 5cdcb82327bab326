#pragma once
// Runs the whole program in this process, with files from a map in place of a disk.

#include "padwalk/command_line/program.hpp"

#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

namespace padwalk::tests
{

struct Ran
{
    int status = -1;
    std::string out, err;
    std::map<std::string, std::string> files; ///< those that were there and those that were written
};

/// A world whose files are those of a map.
inline command_line::World world_of(std::istream& in, std::ostream& out, std::ostream& err,
                                    std::map<std::string, std::string>& files, std::string const& input = {})
{
    return {in,
            out,
            err,
            false,
            80,
            [&files, input](std::string const& path)
            {
                if (path == "-")
                    return input;
                auto const found = files.find(path);
                if (found == files.end())
                    throw command_line::FileProblem("there is no file '" + path + "'");
                return found->second;
            },
            [&files](std::string const& path, std::string const& text, bool replace)
            {
                if (!replace && files.contains(path))
                    throw command_line::FileProblem("'" + path + "' is there already; give --force to replace it");
                files[path] = text;
            },
            [&files](std::string const& folder, std::function<bool(std::string_view)> const& wanted)
            {
                std::vector<std::pair<std::string, std::string>> listed;
                for (auto const& [path, text] : files)
                    if (path.starts_with(folder + "/") && wanted(path))
                        listed.emplace_back(path.substr(folder.size() + 1), text);
                if (listed.empty())
                    throw command_line::FileProblem("there is no folder '" + folder + "'");
                return listed;
            },
            [&files](std::vector<std::pair<std::string, std::string>> const& set, bool replace)
            {
                for (auto const& [path, text] : set)
                    if (!replace && files.contains(path))
                        throw command_line::FileProblem("'" + path + "' is there already");
                for (auto const& [path, text] : set)
                    files[path] = text;
            },
            [&files](std::string const& path)
            {
                auto const found = files.find(path);
                if (found == files.end())
                    throw command_line::FileProblem("'" + path + "' is not there");
                return found->second;
            },
            [](std::string const& path)
            {
                auto const normal = std::filesystem::path(path).lexically_normal().generic_string();
                return normal == "." ? std::string() : normal;
            }};
}

inline Ran run_program(std::vector<std::string> const& arguments, std::map<std::string, std::string> files = {},
                       std::string const& input = {})
{
    std::istringstream in(input);
    std::ostringstream out, err;
    Ran ran;
    ran.files = std::move(files);
    auto world = world_of(in, out, err, ran.files, input);
    ran.status = command_line::run(arguments, world);
    ran.out = out.str();
    ran.err = err.str();
    return ran;
}

inline std::string text_of_file(std::string const& path)
{
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

} // namespace padwalk::tests
