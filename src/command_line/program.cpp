#include "padwalk/command_line/program.hpp"

#include "compare.hpp"
#include "documents.hpp"
#include "history.hpp"
#include "padwalk/assess/assess.hpp"
#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/report/figures.hpp"
#include "padwalk/report/html.hpp"
#include "padwalk/report/json.hpp"
#include "padwalk/report/schema.hpp"
#include "padwalk/report/text.hpp"
#include "padwalk/units/definitions.hpp"
#include "padwalk/visit/phrases.hpp"
#include "sheet.hpp"
#include "tune.hpp"
#include "visit_read.hpp"
#include "walk.hpp"

#include <algorithm>
#include <cctype>
#include <istream>
#include <ostream>

namespace padwalk::command_line
{
namespace
{

int assess_visit(Arguments const& arguments, World& world)
{
    assess::Engine const engine(data_for(arguments, world));
    auto const read = visit_or_problems(world.read_file(arguments.visit), arguments, engine.instruments(), world);
    if (!read)
        return input_problem;
    auto const assessment = assess::assess(*read, engine, arguments.system);
    if (!arguments.html.empty())
        world.write_file(arguments.html, report::as_html(assessment, arguments.system, report::Layout(engine.data())),
                         arguments.force);
    if (arguments.json)
        world.out << report::as_json(assessment, arguments.system);
    else
        world.out << report::as_text(assessment, {arguments.system, world.columns, world.colour});
    if (!arguments.html.empty())
        world.err << "report written to " << arguments.html << "\n";
    return status_of(assessment);
}

/// The causes that were asked about, by words; asks back where too many fit.
std::vector<std::string> asked_about(assess::Engine const& engine, std::string const& words)
{
    constexpr std::size_t most = 6;
    auto meant = assess::causes_meant(engine, words);
    if (meant.empty())
        throw UsageProblem("no cause is called '" + words + "'; give some words of its name, as the report has it");
    if (meant.size() <= most)
        return meant;
    std::string names;
    for (auto const& id : meant)
        names += "\n  " + engine.knowledge().cause(id)->name;
    throw UsageProblem("'" + words + "' may mean " + std::to_string(meant.size()) +
                       " causes; add a word of one of these:" + names);
}

/// A part of the assessment alone: what to check next, or causes that were asked about.
int tell_part(Arguments const& arguments, World& world, report::Told told)
{
    assess::Engine const engine(data_for(arguments, world));
    auto const read = visit_or_problems(world.read_file(arguments.visit), arguments, engine.instruments(), world);
    if (!read)
        return input_problem;
    auto const about = told == report::Told::why ? asked_about(engine, arguments.cause) : std::vector<std::string>();
    auto const assessment = assess::assess(*read, engine, arguments.system, about);
    if (told == report::Told::why && assessment.asked.empty())
        throw UsageProblem("'" + engine.knowledge().cause(about.front())->name +
                           "' can't be at this property: nothing that could have it is in the file");
    if (arguments.json)
        world.out << report::as_json(assessment, arguments.system);
    else
        world.out << report::as_text(assessment, {arguments.system, world.columns, world.colour, told});
    return status_of(assessment);
}

bool has_field(fields::RecordShape const& shape, std::string const& name)
{
    return std::any_of(shape.fields.begin(), shape.fields.end(), [&](auto const& f) { return f.name == name; });
}

// Readings on the command line as the visit file they stand for.
std::string visit_of_readings(std::vector<std::string> const& given)
{
    std::string water, test;
    std::vector<fields::Problem> problems;
    for (auto const& pair : given)
    {
        std::size_t const equals = pair.find('=');
        std::string const key = equals == std::string::npos ? pair : fields::normal_key(pair.substr(0, equals));
        std::string value = equals == std::string::npos ? std::string() : pair.substr(equals + 1);
        bool const of_test = has_field(visit::WaterTest::declaration().shape(), key);
        bool const of_water = has_field(visit::Water::declaration().shape(), key);
        if (value.empty() || !(of_test || of_water))
        {
            std::vector<std::string> names;
            for (auto const* shape : {&visit::WaterTest::declaration().shape(), &visit::Water::declaration().shape()})
                for (auto const& f : shape->fields)
                    names.push_back(f.name);
            std::string const near = fields::nearest(key, names);
            problems.push_back({{},
                                0,
                                "'" + pair + "' is not a reading of a water",
                                near.empty() || near == key ? "write key=value, for example \"alkalinity=90 ppm\""
                                                            : "did you mean '" + near + "'?",
                                {}});
            continue;
        }
        std::string quoted;
        for (char const c : value)
            quoted += c == '"' || c == '\\' ? std::string("\\") + c : std::string(1, c);
        std::string const line = key + ": \"" + quoted + "\"\n";
        (of_test ? test : water) += (of_test ? "        " : "    ") + line;
    }
    if (!problems.empty())
        throw fields::InputProblems(problems);
    std::string const item = test.empty() ? std::string() : "    tests:\n      - " + test.substr(8);
    return "by: owner\nwaters:\n  water:\n" + water + item;
}

int water(Arguments const& arguments, World& world)
{
    assess::Engine const engine(data_for(arguments, world));
    Arguments named = arguments;
    std::string text;
    try
    {
        if (arguments.visit.empty())
        {
            named.visit = "readings";
            text = visit_of_readings(arguments.given);
        }
        else
            text = world.read_file(arguments.visit);
    }
    catch (fields::InputProblems const& bad)
    {
        world.err << fields::as_text(bad.list(), "padwalk water", {});
        return input_problem;
    }
    auto const read = visit_or_problems(text, named, engine.instruments(), world);
    if (!read)
        return input_problem;
    if (read->visit.waters.empty())
        throw UsageProblem("there is no water in " + named.visit + ": add a pool or spa under 'waters'");
    auto const ahead = units::of_si<units::Duration>(arguments.days * units::exact::day);
    auto const report = assess::assess_water(*read, engine, arguments.system, ahead);
    if (!arguments.html.empty())
        world.write_file(arguments.html, report::as_html(report, arguments.system, report::Layout(engine.data())),
                         arguments.force);
    if (arguments.json)
        world.out << report::as_json(report, arguments.system);
    else
        world.out << report::as_text(report, {arguments.system, world.columns, world.colour});
    if (!arguments.html.empty())
        world.err << "sheet written to " << arguments.html << "\n";
    if (report.assessment.outcome == assess::Outcome::unsafe)
        return unsafe;
    return report.something_to_do ? something_to_refer : nothing_to_refer;
}

int check_visit(Arguments const& arguments, World& world)
{
    auto const data = data_for(arguments, world);
    std::string const text = world.read_file(arguments.visit);
    auto const read = visit_or_problems(text, arguments, reference::instruments(data), world);
    if (!read)
        return input_problem;
    if (arguments.json)
    {
        world.out << report::json_of(fields::Tree::map().add("oddities", problem_tree(read->oddities)), true);
        return done;
    }
    world.out << fields::as_text(read->oddities, arguments.visit, text, "odd") << arguments.visit << ": readable; "
              << read->oddities.size() << " odd, " << read->blanks.size() << " left blank\n";
    return done;
}

int figure_lines(figures::Model const& model, Arguments const& arguments, World& world)
{
    std::string line;
    for (std::size_t number = 1; std::getline(world.in, line); ++number)
    {
        if (line.find_first_not_of(" \t\r") == std::string::npos)
            continue;
        fields::Tree result;
        try
        {
            auto const computed = figures::run_written(model, report::node_of_json(line));
            result = report::figure_tree(computed, arguments.system);
            if (!computed.computed())
                result.add("line", number);
        }
        catch (fields::InputProblems const& bad)
        {
            result = report::error_tree(model.name, bad);
            result.add("line", number);
        }
        world.out << report::json_of(result, false) << "\n";
    }
    return done;
}

fields::Node given_node(std::vector<std::string> const& given)
{
    fields::Node record = fields::Node::map();
    std::vector<fields::Problem> problems;
    for (auto const& pair : given)
    {
        std::size_t const equals = pair.find('=');
        if (equals == std::string::npos || equals == 0)
            problems.push_back({{},
                                0,
                                "'" + pair + "' is not key=value",
                                "quote values with spaces, for example \"flow=45 gpm\"",
                                {}});
        else
        {
            fields::Node value = fields::Node::scalar(pair.substr(equals + 1));
            if (value.text.empty())
                problems.push_back({{}, 0, pair.substr(0, equals) + " is empty", "leave it out, or give a value", {}});
            record.entries.push_back({pair.substr(0, equals), {}, std::move(value)});
        }
    }
    if (!problems.empty())
        throw fields::InputProblems(problems);
    return record;
}

int figure(Arguments const& arguments, World& world)
{
    auto const data = data_for(arguments, world);
    auto const catalogue = assess::catalogue(data);
    if (arguments.figure.empty())
    {
        world.out << (arguments.json ? report::json_of(report::figure_list_tree(catalogue), true)
                                     : report::figure_list(catalogue, world.columns));
        return done;
    }
    figures::Model const* model = catalogue.find(arguments.figure);
    if (model == nullptr)
    {
        std::string const near = fields::nearest(arguments.figure, catalogue.names());
        throw UsageProblem("no figure '" + arguments.figure + "'" +
                           (near.empty() ? "; 'padwalk figure' lists them" : "; did you mean '" + near + "'?"));
    }
    if (arguments.lines)
        return figure_lines(*model, arguments, world);
    auto const knowledge = diagnosis::read_knowledge(data);
    auto const caution = [&](std::string_view id)
    { return knowledge.caution(id) != nullptr ? knowledge.caution(id)->say : std::string(); };
    if (arguments.given.empty())
    {
        world.out << report::figure_about(*model, reference::bibliography(data), caution, arguments.system,
                                          world.columns);
        return done;
    }
    try
    {
        auto const result = figures::run_written(*model, given_node(arguments.given));
        world.out << (arguments.json ? report::json_of(report::figure_tree(result, arguments.system), true)
                                     : report::figure_text(result, arguments.system, world.columns, caution));
        return result.computed() ? done : input_problem;
    }
    catch (fields::InputProblems const& bad)
    {
        world.err << fields::as_text(bad.list(), "padwalk figure " + model->name, {});
        if (arguments.json)
            world.out << report::json_of(report::error_tree(model->name, bad), true);
        return input_problem;
    }
}

int sheet_of(Arguments const& arguments, World& world)
{
    auto const data = data_for(arguments, world);
    auto const read = [&]
    { return visit_or_problems(world.read_file(arguments.visit), arguments, reference::instruments(data), world); };
    return sheet(arguments, data, read, world);
}

/// What the file holds that is to be walked with; none where there is no such file.
std::optional<std::string> text_if_there(std::string const& path, World& world)
{
    try
    {
        return world.read_file(path);
    }
    catch (FileProblem const& problem)
    {
        if (std::string_view(problem.what()).starts_with("there is no file"))
            return std::nullopt;
        throw;
    }
}

int walk_visit(Arguments const& arguments, World& world)
{
    assess::Engine const engine(data_for(arguments, world));
    auto const text = text_if_there(arguments.visit, world);
    try
    {
        bool const blank = text && says_nothing(*text);
        if (text && !blank && !visit_or_problems(*text, arguments, engine.instruments(), world))
            return input_problem;
    }
    catch (fields::InputProblems const&)
    {
        static_cast<void>(visit_or_problems(*text, arguments, engine.instruments(), world));
        return input_problem;
    }
    return status_of(walk(arguments.visit, text, engine, arguments.system, world));
}

int dispatch(Arguments const& arguments, World& world)
{
    switch (arguments.command)
    {
    case Arguments::Command::help: world.out << arguments.help; return done;
    case Arguments::Command::version: world.out << "padwalk " PADWALK_VERSION "\n"; return done;
    case Arguments::Command::assess: return assess_visit(arguments, world);
    case Arguments::Command::next: return tell_part(arguments, world, report::Told::next);
    case Arguments::Command::why: return tell_part(arguments, world, report::Told::why);
    case Arguments::Command::client: return client(arguments, world);
    case Arguments::Command::refer: return refer(arguments, world);
    case Arguments::Command::documents: return documents(arguments, world);
    case Arguments::Command::walk: return walk_visit(arguments, world);
    case Arguments::Command::water: return water(arguments, world);
    case Arguments::Command::compare: return compare(arguments, assess::Engine(data_for(arguments, world)), world);
    case Arguments::Command::history: return history(arguments, assess::Engine(data_for(arguments, world)), world);
    case Arguments::Command::tune: return tune(arguments, assess::Engine(data_for(arguments, world)), world);
    case Arguments::Command::check: return check_visit(arguments, world);
    case Arguments::Command::figure: return figure(arguments, world);
    case Arguments::Command::schema:
        world.out << report::json_of(report::json_schema(visit::Visit::declaration().shape()), true);
        return done;
    case Arguments::Command::sheet: return sheet_of(arguments, world);
    }
    return input_problem;
}

} // namespace

int run(std::vector<std::string> const& arguments, World& world)
{
    try
    {
        int const status = dispatch(parse(arguments), world);
        world.out.flush();
        if (world.out)
            return status;
        world.err << "padwalk: the output could not be written\n";
    }
    catch (reference::DataProblems const& bad)
    {
        world.err << fields::as_text(bad.problems, bad.file, bad.source);
    }
    catch (std::exception const& e)
    {
        world.err << "padwalk: " << e.what() << "\n";
    }
    return input_problem;
}

} // namespace padwalk::command_line
