#pragma once
// Runs the whole program in this process, with files from a map in place of a disk.

#include "padwalk/command_line/program.hpp"

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

inline Ran run_program(std::vector<std::string> const& arguments, std::map<std::string, std::string> files = {},
                       std::string const& input = {})
{
    std::istringstream in(input);
    std::ostringstream out, err;
    Ran ran;
    ran.files = std::move(files);
    command_line::World world{in,
                              out,
                              err,
                              false,
                              80,
                              [&](std::string const& path)
                              {
                                  if (path == "-")
                                      return input;
                                  auto const found = ran.files.find(path);
                                  if (found == ran.files.end())
                                      throw command_line::FileProblem("there is no file '" + path + "'");
                                  return found->second;
                              },
                              [&](std::string const& path, std::string const& text, bool replace)
                              {
                                  if (!replace && ran.files.contains(path))
                                      throw command_line::FileProblem("'" + path +
                                                                      "' is there already; give --force to replace it");
                                  ran.files[path] = text;
                              },
                              [](std::string const&) -> std::vector<std::pair<std::string, std::string>>
                              { throw command_line::FileProblem("no folders here"); }};
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
