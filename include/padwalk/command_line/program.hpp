#pragma once
/// The whole program as a function of its arguments and its world, so that a test can run it.

#include <functional>
#include <iosfwd>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace padwalk::command_line
{

/// What the program may touch outside itself.
struct World
{
    std::istream& in;
    std::ostream& out;
    std::ostream& err;
    bool colour = false;      ///< out is a terminal that shows colour
    std::size_t columns = 80; ///< width of the terminal
    /// The text of a file ('-' is standard input); throws FileProblem.
    std::function<std::string(std::string const& path)> read_file;
    /// Writes a file whole or not at all; an existing one only if allowed. Throws FileProblem.
    std::function<void(std::string const& path, std::string const& text, bool replace)> write_file;
    /// The files below a folder whose names are wanted, as (path below it, text), sorted; throws FileProblem.
    std::function<std::vector<std::pair<std::string, std::string>>(
        std::string const& folder, std::function<bool(std::string_view path)> const& wanted)>
        read_folder;
    /// Writes files of one folder, which is made if need be: all of them, or none where one is there and may not be
    /// replaced. Throws FileProblem.
    std::function<void(std::vector<std::pair<std::string, std::string>> const& files, bool replace)> write_files = {};
    /// The whole of a file, up to 50 MB; throws FileProblem, whose message begins with the path in quotes.
    std::function<std::string(std::string const& path)> read_bytes = {};
    /// Where a path leads once '..' and links are followed, also where nothing is; throws FileProblem.
    std::function<std::string(std::string const& path)> real_path = {};
};

/// A file that can't be read or written; the message is one clear line.
class FileProblem : public std::runtime_error
{
public:
    using std::runtime_error::runtime_error;
};

/// Whether a file of this name may be a visit.
[[nodiscard]] inline bool is_visit_file(std::string_view path)
{
    return path.ends_with(".yaml");
}

/// Exit status. `figure`, `schema` and `sheet` end with done or input_problem.
enum Exit : int
{
    nothing_to_refer = 0,
    done = 0,
    something_to_refer = 1,
    unsafe = 2,
    input_problem = 3
};

/// Runs the program; `arguments` without the program's name. Never throws.
[[nodiscard]] int run(std::vector<std::string> const& arguments, World& world);

} // namespace padwalk::command_line
