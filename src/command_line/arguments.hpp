#pragma once
#include "padwalk/report/layout.hpp"
#include "padwalk/units/measure.hpp"

#include <stdexcept>
#include <string>
#include <vector>

namespace padwalk::command_line
{

/// What was asked for, as plain data.
struct Arguments
{
    enum class Command
    {
        help,
        version,
        assess,
        next,
        why,
        client,
        refer,
        documents,
        walk,
        water,
        compare,
        history,
        tune,
        check,
        figure,
        schema,
        sheet
    };
    Command command = Command::help;
    std::string help;                ///< text to print, for Command::help
    std::string visit;               ///< path of the visit file, or of a folder of them
    std::vector<std::string> visits; ///< two visit files, to be compared
    std::string cause;               ///< that is asked about
    std::string figure;              ///< name; empty: list them
    std::vector<std::string> given;  ///< key=value
    int days = 30;                   ///< of the water's forecast
    bool json = false;
    bool lines = false;
    bool force = false;
    std::string html;
    std::string trade; ///< for whom a paper is wanted; empty: for each
    report::Language language = report::Language::english;
    std::string out_file;           ///< of what is proposed; or a folder of documents; empty: standard output
    std::vector<std::string> parts; ///< of the field sheet
    bool paper = false;             ///< the field sheet is to be written on with a pen
    std::string data_folder;
    units::System system = units::System::us;
};

/// The arguments make no sense; what() says which and what would pass.
class UsageProblem : public std::runtime_error
{
public:
    using std::runtime_error::runtime_error;
};

[[nodiscard]] Arguments parse(std::vector<std::string> const& arguments);

} // namespace padwalk::command_line
