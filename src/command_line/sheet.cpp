#include "sheet.hpp"

#include "padwalk/assess/telling.hpp"
#include "padwalk/report/sheet.hpp"
#include "padwalk/visit/sheet.hpp"

#include <ostream>

namespace padwalk::command_line
{
namespace
{

[[noreturn]] void ask_for_what()
{
    std::string all;
    for (auto const& part : visit::sheet_parts())
        all += (all.empty() ? "" : ",") + part;
    throw UsageProblem("say for what: padwalk sheet --for " + all +
                       "; or name a visit file: padwalk sheet visit.yaml; or --paper for all of it");
}

int print(visit::SheetForm form, Arguments const& arguments, reference::Data const& data, World& world)
{
    for (auto const& danger : assess::first_dangers(assess::Engine(data)))
        form.dangers.push_back(
            {danger.ask, danger.say.substr(0, danger.say.find(" Basis: "))}); // sources: in the report
    if (arguments.html.empty())
    {
        world.out << report::sheet_text(form);
        return done;
    }
    world.write_file(arguments.html, report::sheet_html(form, report::Layout(data)), arguments.force);
    world.err << "sheet written to " << arguments.html << "; print it, or open it in a browser and print from there\n";
    return done;
}

} // namespace

int sheet(Arguments const& arguments, reference::Data const& data,
          std::function<std::optional<visit::ReadVisit>()> const& read, World& world)
{
    bool const on_paper = arguments.paper || !arguments.html.empty();
    try
    {
        if (!arguments.visit.empty())
        {
            auto const walked = read();
            return walked ? print(visit::sheet_form(data, walked->visit, arguments.parts, arguments.system), arguments,
                                  data, world)
                          : input_problem;
        }
        if (on_paper)
            return print(visit::sheet_form(data, arguments.parts, arguments.system), arguments, data, world);
        if (arguments.parts.empty())
            ask_for_what();
        world.out << visit::field_sheet(arguments.parts);
    }
    catch (std::invalid_argument const& e)
    {
        throw UsageProblem(e.what());
    }
    return done;
}

} // namespace padwalk::command_line
