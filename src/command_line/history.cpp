#include "history.hpp"

#include "padwalk/report/history.hpp"
#include "padwalk/report/json.hpp"

#include <algorithm>
#include <ostream>

namespace padwalk::command_line
{
namespace
{

int status_of(assess::History const& history)
{
    int worst = nothing_to_refer;
    for (auto const& log : history.properties)
    {
        bool const something = !log.alarms.empty() || log.visits.back().outcome != assess::Outcome::nothing_found;
        worst = std::max<int>(worst, log.unsafe ? unsafe : something ? something_to_refer : nothing_to_refer);
    }
    return worst;
}

} // namespace

int history(Arguments const& arguments, assess::Engine const& engine, World& world)
{
    auto const history = assess::history(world.read_folder(arguments.visit, is_visit_file), engine, arguments.system);
    for (auto const& file : history.not_read)
        world.err << file.error << file.file << " was left out; the others go on\n";
    if (!arguments.html.empty() && history.visits() > 0)
        world.write_file(arguments.html, report::as_html(history, arguments.system, report::Layout(engine.data())),
                         arguments.force);
    if (arguments.json)
        world.out << report::json_of(report::history_tree(history, arguments.system), true);
    else if (history.visits() > 0)
        world.out << report::as_text(history, {arguments.system, world.columns, world.colour});
    if (history.visits() == 0)
    {
        world.err << "no visit that could be read is in '" << arguments.visit << "'\n";
        return input_problem;
    }
    if (!arguments.html.empty())
        world.err << "log written to " << arguments.html << "\n";
    return status_of(history);
}

} // namespace padwalk::command_line
