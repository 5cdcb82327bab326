#include "tune.hpp"

#include "padwalk/report/json.hpp"
#include "padwalk/report/tuning.hpp"

#include <ostream>

namespace padwalk::command_line
{

int tune(Arguments const& arguments, assess::Engine const& engine, World& world)
{
    auto const files = world.read_folder(arguments.visit, is_visit_file);
    auto const proposal = assess::tune(files, engine);
    for (auto const& file : proposal.not_read)
        world.err << file.error << file.file << " was left out; the others go on\n";
    bool const any = proposal.record.visits > 0;
    if (!any)
        world.err << "no visit of '" << arguments.visit << "' that could be read has a 'found:'; nothing is proposed\n";
    std::string const text =
        arguments.json ? report::json_of(report::tuning_tree(proposal), true) : report::tuning_yaml(proposal);
    if (arguments.out_file.empty())
        world.out << text;
    else
    {
        world.write_file(arguments.out_file, text, arguments.force);
        world.err << "proposal written to " << arguments.out_file << "\n";
    }
    bool const all_bad = !files.empty() && proposal.not_read.size() == files.size();
    return all_bad ? input_problem : done;
}

} // namespace padwalk::command_line
