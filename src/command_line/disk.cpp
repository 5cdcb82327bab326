#include "disk.hpp"

#include "padwalk/command_line/program.hpp"

#include <cstdint>
#include <filesystem>
#include <fstream>

namespace padwalk::command_line
{
namespace
{

namespace fs = std::filesystem;

FileProblem problem(std::string const& path, std::string const& words)
{
    return FileProblem("'" + path + "' " + words);
}

} // namespace

std::string read_bytes(std::string const& path)
{
    std::error_code error;
    auto const status = fs::status(path, error);
    if (!fs::exists(status))
        throw problem(path, "is not there");
    if (fs::is_directory(status))
        throw problem(path, "is a folder");
    if (!fs::is_regular_file(status))
        throw problem(path, "is no file of the usual kind");
    constexpr std::uintmax_t most = 50'000'000;
    auto const size = fs::file_size(path, error);
    if (!error && size > most)
        throw problem(path, "is larger than 50 MB");
    std::string bytes(error ? 0 : static_cast<std::size_t>(size), '\0');
    std::ifstream stream(path, std::ios::binary);
    stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (error || !stream)
        throw problem(path, "can't be read");
    return bytes;
}

std::string real_path(std::string const& path)
{
    std::error_code error;
    auto const full = fs::absolute(path, error);
    auto const real = error ? fs::path() : fs::weakly_canonical(full, error);
    if (error)
        throw problem(path, "can't be followed");
    return real.string();
}

} // namespace padwalk::command_line
