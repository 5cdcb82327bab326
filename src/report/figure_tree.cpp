#include "padwalk/report/figures.hpp"

#include "quantity_tree.hpp"

#include "padwalk/units/print.hpp"

namespace padwalk::report
{

using fields::Tree;

Tree figure_list_tree(figures::Catalogue const& catalogue)
{
    Tree out = Tree::list();
    for (auto const& model : catalogue.models())
        out.push(std::move(Tree::map().add("figure", model.name).add("title", model.title)));
    return out;
}

Tree figure_tree(figures::Figure const& figure, units::System system)
{
    Tree out = Tree::map();
    out.add("figure", figure.model->name);
    if (!figure.computed())
        return std::move(out.add("error", std::move(Tree::map().add("message", figure.why_not))));
    Tree outputs = Tree::map();
    for (auto const& output : figure.outputs)
        outputs.add(output.shape->name, output_tree(output, system));
    out.add("outputs", std::move(outputs));
    Tree assumed = Tree::map();
    bool any = false;
    for (auto const& input : figure.inputs)
        if (input.assumed)
        {
            any = true;
            assumed.add(input.shape->name,
                        input.shape->measure
                            ? units::show(input.reading.measure, input.reading.value, 0, input.shape->style(system))
                            : input.words);
        }
    if (any)
        out.add("assumed", std::move(assumed));
    if (!figure.note.empty())
        out.add("note", figure.note);
    return out;
}

Tree error_tree(std::string_view figure, fields::InputProblems const& problems)
{
    auto described = [](fields::Problem const& p)
    {
        Tree out = Tree::map();
        out.add("message", p.message).add("field", p.path).add("advice", p.advice);
        if (p.place.column > 0)
            out.add("column", p.place.column);
        return out;
    };
    Tree error = Tree::map();
    auto const& list = problems.list();
    std::string const first = list.empty() ? std::string(problems.what()) : list.front().message;
    std::string const more = list.size() > 1 ? " (and " + std::to_string(list.size() - 1) + " more)" : std::string();
    error.add("message", first.substr(0, first.find("; ")) + more);
    if (!list.empty())
        error.add("field", list.front().path).add("advice", list.front().advice);
    Tree all = Tree::list();
    for (auto const& problem : list)
        all.push(described(problem));
    error.add("problems", std::move(all));
    Tree out = Tree::map();
    out.add("figure", figure).add("error", std::move(error));
    return out;
}

} // namespace padwalk::report
