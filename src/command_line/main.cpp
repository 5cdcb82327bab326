#include "disk.hpp"
#include "padwalk/command_line/program.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <sstream>

namespace
{

namespace fs = std::filesystem;
using padwalk::command_line::FileProblem;

constexpr std::size_t most_bytes =
    (std::size_t{1} << 20) + 1; // one more than is taken: enough to see that it is too much

std::string up_to_limit(std::istream& stream)
{
    std::string text(most_bytes, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(std::max<std::streamsize>(stream.gcount(), 0)));
    return text;
}

std::string read_file(std::string const& path)
{
    if (path == "-")
        return up_to_limit(std::cin);
    std::error_code error;
    auto const status = fs::status(path, error);
    if (!fs::exists(status))
        throw FileProblem("there is no file '" + path + "'");
    if (fs::is_directory(status))
        throw FileProblem("'" + path + "' is a folder; name the visit file in it");
    std::ifstream stream(path, std::ios::binary);
    if (!stream)
        throw FileProblem("'" + path + "' can't be read: " + std::strerror(errno));
    return up_to_limit(stream);
}

void write_file(std::string const& path, std::string const& text, bool replace)
{
    std::error_code error;
    if (fs::is_directory(path, error))
        throw FileProblem("'" + path + "' is a folder; name a file");
    if (!replace && fs::exists(path, error))
        throw FileProblem("'" + path + "' is there already; give --force to replace it");
    std::string const unfinished = path + ".part" + std::to_string(::getpid());
    {
        std::ofstream stream(unfinished, std::ios::binary);
        stream << text;
        stream.close();
        if (!stream)
        {
            fs::remove(unfinished, error);
            throw FileProblem("'" + path + "' can't be written");
        }
    }
    fs::rename(unfinished, path, error);
    if (error)
    {
        fs::remove(unfinished, error);
        throw FileProblem("'" + path + "' can't be written");
    }
}

std::vector<std::pair<std::string, std::string>> read_folder(std::string const& folder,
                                                             std::function<bool(std::string_view)> const& wanted)
{
    std::error_code error;
    if (!fs::is_directory(folder, error))
        throw FileProblem("there is no folder '" + folder + "'");
    std::vector<std::pair<std::string, std::string>> out;
    for (auto const& entry : fs::recursive_directory_iterator(folder))
        if (entry.is_regular_file(error) && wanted(entry.path().generic_string()))
            out.emplace_back(fs::relative(entry.path(), folder).generic_string(), read_file(entry.path().string()));
    std::sort(out.begin(), out.end());
    return out;
}

void write_files(std::vector<std::pair<std::string, std::string>> const& files, bool replace)
{
    std::error_code error;
    for (auto const& [path, text] : files)
        if (!replace && fs::exists(path, error))
            throw FileProblem("'" + path + "' is there already and nothing was written; give --force to replace it");
    for (auto const& [path, text] : files)
    {
        fs::path const folder = fs::path(path).parent_path();
        if (!folder.empty() && !fs::is_directory(folder, error) && !fs::create_directories(folder, error))
            throw FileProblem("the folder '" + folder.string() + "' can't be made");
        write_file(path, text, replace);
    }
}

std::size_t terminal_columns()
{
    winsize size{};
    if (::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
        return size.ws_col;
    return 80;
}

} // namespace

int main(int count, char** values)
{
    bool const terminal = ::isatty(STDOUT_FILENO) == 1;
    char const* const no_color = std::getenv("NO_COLOR");
    char const* const kind = std::getenv("TERM");
    bool const plain =
        (no_color != nullptr && *no_color != '\0') || kind == nullptr || std::string_view(kind) == "dumb";
    padwalk::command_line::World world{std::cin,
                                       std::cout,
                                       std::cerr,
                                       terminal && !plain,
                                       terminal ? std::min<std::size_t>(terminal_columns(), 100) : 80,
                                       read_file,
                                       write_file,
                                       read_folder,
                                       write_files,
                                       padwalk::command_line::read_bytes,
                                       padwalk::command_line::real_path};
    return padwalk::command_line::run(std::vector<std::string>(values + 1, values + count), world);
}
