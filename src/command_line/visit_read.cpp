#include "visit_read.hpp"

#include "padwalk/report/json.hpp"
#include "padwalk/visit/phrases.hpp"

#include <cctype>
#include <ostream>

namespace padwalk::command_line
{

reference::Data data_for(Arguments const& arguments, World& world)
{
    return arguments.data_folder.empty()
               ? reference::Data::built_in()
               : reference::Data::from_texts(world.read_folder(arguments.data_folder, reference::is_data_file));
}

fields::Tree problem_tree(std::vector<fields::Problem> const& problems)
{
    fields::Tree list = fields::Tree::list();
    for (auto const& p : problems)
        list.push(fields::Tree::map()
                      .add("line", p.place.line)
                      .add("column", p.place.column)
                      .add("message", p.message)
                      .add("advice", p.advice)
                      .add("path", p.path));
    return list;
}

namespace
{

// 'carbon_monoxide_in_air: 0 ppm' is a field and no alarm.
std::string without_field_names(std::string const& text)
{
    std::string out, word;
    for (char const c : text)
    {
        bool const of_name = std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_';
        if (of_name)
        {
            word += c;
            continue;
        }
        bool const field = c == ':' && word.find('_') != std::string::npos;
        out += (field ? std::string() : word) + c;
        word.clear();
    }
    return out + word;
}

// An emergency does not wait until the file is in order.
void warn_of_danger(std::string const& text, World& world)
{
    auto const words = visit::danger_in(without_field_names(text));
    if (words.empty())
        return;
    std::string said;
    for (auto const& word : words)
        said += (said.empty() ? "" : ", ") + word;
    world.err << "This file speaks of danger: " << said
              << ". If that is so: leave with everyone, touch no switch, and call emergency services or the gas "
                 "supplier from a safe distance. The file can wait.\n";
}

} // namespace

std::optional<visit::ReadVisit> visit_or_problems(std::string const& text, Arguments const& arguments,
                                                  fields::Instruments const& instruments, World& world)
{
    try
    {
        return visit::read_visit(text, instruments);
    }
    catch (fields::InputProblems const& bad)
    {
        std::size_t const count = bad.list().size();
        warn_of_danger(text, world);
        world.err << fields::as_text(bad.list(), arguments.visit, text) << count << (count == 1 ? " error" : " errors")
                  << "; nothing was calculated\n";
        if (arguments.json)
            world.out << report::json_of(
                fields::Tree::map().add("error", fields::Tree::map().add("problems", problem_tree(bad.list()))), true);
        return std::nullopt;
    }
}

int status_of(assess::Assessment const& assessment)
{
    switch (assessment.outcome)
    {
    case assess::Outcome::unsafe: return unsafe;
    case assess::Outcome::refer: return something_to_refer;
    case assess::Outcome::nothing_found: break;
    }
    return nothing_to_refer;
}

} // namespace padwalk::command_line
