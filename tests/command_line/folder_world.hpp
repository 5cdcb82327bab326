#pragma once
// Runs the program on files and one folder in memory.

#include "padwalk/command_line/program.hpp"

#include <algorithm>
#include <map>
#include <sstream>

namespace padwalk::tests
{

using Files = std::map<std::string, std::string>;

struct RanOnFolder
{
    int status = -1;
    std::string out, err;
    Files files; ///< that were there and that were written
};

/// Text wherever its lines break.
inline std::string in_one_line(std::string text)
{
    std::replace(text.begin(), text.end(), '\n', ' ');
    for (std::size_t at = text.find("  "); at != std::string::npos; at = text.find("  ", at))
        text.erase(at, 1);
    return text;
}

inline bool has(std::string const& text, std::string const& what)
{
    return in_one_line(text).find(what) != std::string::npos;
}

/// `folder` is the content of the folder 'visits', listed in the order given.
inline RanOnFolder run_on_folder(std::vector<std::string> const& arguments,
                                 std::vector<std::pair<std::string, std::string>> const& folder, Files there = {})
{
    std::istringstream in;
    std::ostringstream out, err;
    RanOnFolder ran;
    ran.files = std::move(there);
    command_line::World world{in,
                              out,
                              err,
                              false,
                              80,
                              [&ran](std::string const& path) -> std::string
                              {
                                  if (!ran.files.contains(path))
                                      throw command_line::FileProblem("there is no file '" + path + "'");
                                  return ran.files.at(path);
                              },
                              [&ran](std::string const& path, std::string const& text, bool replace)
                              {
                                  if (!replace && ran.files.contains(path))
                                      throw command_line::FileProblem("'" + path + "' is there already");
                                  ran.files[path] = text;
                              },
                              [&folder](std::string const& path, std::function<bool(std::string_view)> const& wanted)
                                  -> std::vector<std::pair<std::string, std::string>>
                              {
                                  if (path != "visits")
                                      throw command_line::FileProblem("there is no folder '" + path + "'");
                                  std::vector<std::pair<std::string, std::string>> listed;
                                  for (auto const& file : folder)
                                      if (wanted(file.first))
                                          listed.push_back(file);
                                  return listed;
                              }};
    ran.status = command_line::run(arguments, world);
    ran.out = out.str();
    ran.err = err.str();
    return ran;
}

} // namespace padwalk::tests
