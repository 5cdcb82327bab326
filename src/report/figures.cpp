#include "padwalk/report/figures.hpp"

#include "paper.hpp"
#include "plain.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

std::size_t label_width(std::vector<std::string> const& labels, std::size_t columns)
{
    std::size_t widest = 8;
    for (auto const& label : labels)
        widest = std::max(widest, width(label));
    return std::min(widest, columns * 2 / 5);
}

std::size_t label_width(fields::RecordShape const& shape, std::size_t columns)
{
    std::vector<std::string> names;
    for (auto const& field : shape.fields)
        names.push_back(field.name);
    return label_width(names, columns);
}

std::string about_input(fields::FieldShape const& field, units::System system)
{
    std::string out = field.meaning + "\n" + field.describe(system) + "; for example " +
                      (field.measure ? glued(field.sample()) : field.sample());
    if (field.required)
        out += "; must be given";
    else if (!field.otherwise.empty())
        out += "\nleft out: " + glued(field.otherwise) + ", because " + field.because;
    else
        out += "; may be left out";
    return out;
}

void write_inputs(Paper& paper, fields::RecordShape const& shape, units::System system)
{
    paper.heading("What it needs");
    for (auto const& field : shape.fields)
        paper.pair(field.name, about_input(field, system), 0, label_width(shape, paper.columns()), Ink::strong);
}

void write_outputs(Paper& paper, fields::RecordShape const& shape, units::System system)
{
    paper.heading("What it gives");
    for (auto const& field : shape.fields)
    {
        std::string const unit = units::printed(stable_unit(field, system));
        std::string const kind = field.measure ? std::string(units::info(*field.measure).noun) : field.describe(system);
        paper.pair(field.name, field.meaning + " (" + kind + (unit.empty() ? "" : ", in JSON in " + unit) + ")", 0,
                   label_width(shape, paper.columns()), Ink::strong);
    }
}

void write_sources(Paper& paper, figures::Model const& model,
                   std::map<std::string, reference::Source> const& bibliography)
{
    if (model.sources.empty())
        return;
    paper.heading("Sources");
    for (auto const& key : model.sources)
    {
        auto const found = bibliography.find(key);
        if (found == bibliography.end())
        {
            paper.write("[" + key + "]", 0, "- ");
            continue;
        }
        auto const& s = found->second;
        paper.write("[" + key + "] " + s.title + (s.by.empty() ? "" : ", " + s.by) +
                        (s.year.empty() ? "" : ", " + s.year) + (s.seen.empty() ? "" : "\nseen: " + s.seen),
                    0, "- ");
    }
}

void write_cautions(Paper& paper, figures::Model const& model, CautionLookup const& caution)
{
    std::vector<std::string> sentences;
    for (auto const& id : model.cautions)
        if (std::string sentence = caution ? caution(id) : std::string(); !sentence.empty())
            sentences.push_back(std::move(sentence));
    if (sentences.empty())
        return;
    paper.heading("Take care", Ink::danger);
    for (auto const& sentence : sentences)
        paper.write(sentence, 0, "!  ");
}

std::string input_value(figures::UsedInput const& input, units::System system)
{
    if (!input.shape->measure)
        return input.words.empty() ? "given" : input.words;
    return glued(units::show_with_doubt(input.reading.measure, input.reading.value, input.reading.doubt,
                                        input.shape->style(system)));
}

std::string output_value(figures::OutputValue const& output, units::System system)
{
    if (!output.value || !output.shape->measure)
        return output.words.empty() ? "none" : output.words;
    return glued(units::show_interval(*output.shape->measure, *output.value, output.low, output.high,
                                      output.shape->style(system)));
}

} // namespace

std::string figure_list(figures::Catalogue const& catalogue, std::size_t columns)
{
    Paper paper(columns, false);
    std::size_t const label = label_width(catalogue.names(), paper.columns());
    for (auto const& model : catalogue.models())
        paper.pair(model.name, model.title, 0, label);
    return paper.take();
}

std::string figure_about(figures::Model const& model, std::map<std::string, reference::Source> const& bibliography,
                         CautionLookup const& caution, units::System system, std::size_t columns)
{
    Paper paper(columns, false);
    paper.write(model.name + ": " + model.title);
    write_cautions(paper, model, caution);
    paper.heading("Equation");
    paper.write(model.equation);
    write_inputs(paper, model.kernel->inputs(), system);
    write_outputs(paper, model.kernel->outputs(), system);
    paper.heading("Where it holds");
    paper.write(model.valid);
    if (model.own_doubt > 0)
        paper.write("The equation itself is taken to be off by " +
                    units::show_significant(100 * units::coverage * model.own_doubt, 2) +
                    "\u00a0% either way, 19 times in 20.");
    write_sources(paper, model, bibliography);
    return paper.take();
}

std::string figure_text(figures::Figure const& figure, units::System system, std::size_t columns,
                        CautionLookup const& caution)
{
    Paper paper(columns, false);
    paper.write(figure.model->name + ": " + figure.model->title);
    paper.gap();
    std::size_t const label = std::max(label_width(figure.model->kernel->inputs(), paper.columns()),
                                       label_width(figure.model->kernel->outputs(), paper.columns()));
    for (auto const& input : figure.inputs)
        paper.pair(input.shape->name,
                   input_value(input, system) + (input.assumed ? " (assumed: " + input.shape->because + ")" : ""), 2,
                   label);
    paper.gap();
    if (!figure.computed())
        paper.write("Not computed: " + figure.why_not);
    for (auto const& output : figure.outputs)
        paper.pair(output.shape->name, output_value(output, system), 2, label);
    bool const ranged = std::any_of(figure.outputs.begin(), figure.outputs.end(),
                                    [](auto const& o) { return o.value && o.high > o.low; });
    if (ranged)
        paper.write("In brackets what it may be, 19 times in 20.");
    if (!figure.note.empty())
        paper.write("Note: " + figure.note);
    write_cautions(paper, *figure.model, caution);
    return paper.take();
}

} // namespace padwalk::report
