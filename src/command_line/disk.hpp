#pragma once
// The disk as a World shows it, as far as tests look at it on a real one.

#include <string>

namespace padwalk::command_line
{

/// As World::read_bytes. Pipes, devices and folders are no files here: they might never end.
[[nodiscard]] std::string read_bytes(std::string const& path);

/// As World::real_path.
[[nodiscard]] std::string real_path(std::string const& path);

} // namespace padwalk::command_line
