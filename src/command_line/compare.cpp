#include "compare.hpp"

#include "padwalk/report/comparison.hpp"
#include "padwalk/report/json.hpp"
#include "visit_read.hpp"

#include <ostream>

namespace padwalk::command_line
{
namespace
{

std::optional<visit::ReadVisit> read(std::string const& file, std::string const& text, Arguments arguments,
                                     assess::Engine const& engine, World& world)
{
    arguments.visit = file;
    return visit_or_problems(text, arguments, engine.instruments(), world);
}

int status_of(assess::Left left)
{
    switch (left)
    {
    case assess::Left::unsafe: return unsafe;
    case assess::Left::something: return something_to_refer;
    case assess::Left::nothing: break;
    }
    return nothing_to_refer;
}

} // namespace

int compare(Arguments const& arguments, assess::Engine const& engine, World& world)
{
    auto const &then = arguments.visits.at(0), &now = arguments.visits.at(1);
    std::string const text_then = world.read_file(then), text_now = world.read_file(now);
    auto const read_then = read(then, text_then, arguments, engine, world),
               read_now = read(now, text_now, arguments, engine, world);
    if (!read_then || !read_now)
    {
        world.err << "nothing was compared\n";
        return input_problem;
    }
    auto const earlier = assess::assess(*read_then, engine, arguments.system);
    auto const later = assess::assess(*read_now, engine, arguments.system);
    auto comparison = assess::compare(earlier, later);
    if (text_then == text_now)
        comparison.notes.insert(comparison.notes.begin(), "both files are the same, so nothing can have changed");
    report::ComparedVisits const visits{comparison, earlier, later};
    if (!arguments.html.empty())
        world.write_file(arguments.html, report::as_html(visits, arguments.system, report::Layout(engine.data())),
                         arguments.force);
    if (arguments.json)
        world.out << report::json_of(report::comparison_tree(comparison, arguments.system), true);
    else
        world.out << report::as_text(visits, {arguments.system, world.columns, world.colour});
    if (!arguments.html.empty())
        world.err << "comparison written to " << arguments.html << "\n";
    return status_of(comparison.left);
}

} // namespace padwalk::command_line
