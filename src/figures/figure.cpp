#include "padwalk/figures/figure.hpp"

#include "padwalk/numerics/quasi_random.hpp"
#include "padwalk/numerics/statistics.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace padwalk::figures
{
namespace
{

using Form = fields::FieldShape::Form;

// After 2^8 - 1 points of the sequence every input alone has visited each multiple of 1/256 between 0 and 1 once, so
// an interval of a linear figure is exact but for interpolation, and symmetric.
constexpr int sample_points = 255;

/// The value below which the share p of the distribution lies that the samples were spread over evenly: the k-th of n
/// ordered samples stands for k/(n + 1), as the points of the sequence do (type 6 of [hyndman-fan-1996]).
double share_of(std::vector<double> const& samples, double p)
{
    auto const n = static_cast<double>(samples.size());
    return numerics::quantile(samples, std::clamp((p * (n + 1) - 1) / (n - 1), 0.0, 1.0));
}

// A model's "can't be computed here"; anything else that is thrown is a mistake of the program.
bool is_answer(std::exception const& e)
{
    return dynamic_cast<std::logic_error const*>(&e) == nullptr ||
           dynamic_cast<std::domain_error const*>(&e) != nullptr;
}

bool is_quantity(fields::FieldShape const& field)
{
    return field.form == Form::quantity;
}

bool outside(fields::FieldShape const& field, double value)
{
    double const slack = 1e-9 * std::max(std::abs(field.low.value_or(0)), std::abs(field.high.value_or(0)));
    return (field.low && value < *field.low - slack) || (field.high && value > *field.high + slack);
}

std::string span_of(fields::FieldShape const& field)
{
    auto const style = field.style(units::System::us);
    return units::show(*field.measure, *field.low, 0, style) + " to " +
           units::show(*field.measure, *field.high, 0, style);
}

std::size_t index_of(fields::RecordShape const& shape, std::string const& name)
{
    for (std::size_t i = 0; i < shape.fields.size(); ++i)
        if (shape.fields[i].name == name)
            return i;
    throw std::logic_error("model has no input '" + name + "'");
}

/// The kernel with what was given and assumed, and a note of each.
struct Prepared
{
    std::unique_ptr<Kernel> kernel;
    std::vector<std::size_t> input; ///< field of each entry of figure.inputs
};

// Choices, curves and the like, from this program's own words.
void read_words(Prepared& p, fields::Node const& words, std::string const& model)
{
    if (words.entries.empty())
        return;
    fields::ReadContext context;
    context.partial = true;
    p.kernel->read(words, context);
    if (!context.problems.empty())
        throw std::logic_error("words for " + model + ": " + context.problems.front().message);
}

void assume_the_rest(Figure& figure, Prepared& p, std::vector<bool> const& given)
{
    auto const& shape = p.kernel->inputs();
    fields::Node words = fields::Node::map();
    for (std::size_t i = 0; i < shape.fields.size(); ++i)
    {
        auto const& field = shape.fields[i];
        if (given[i] || field.otherwise.empty())
            continue;
        p.input.push_back(i);
        if (!is_quantity(field))
        {
            figure.inputs.push_back({&field, {}, field.otherwise, true});
            words.entries.push_back({field.name, {}, fields::Node::scalar(field.otherwise)});
            continue;
        }
        auto const read = units::read_quantity(field.otherwise, *field.measure, field.name);
        if (auto const* bad = std::get_if<units::TextProblem>(&read))
            throw std::logic_error("declaration of " + field.name + ": " + bad->message);
        units::Reading assumed = std::get<units::Reading>(read);
        assumed.method = "assumed";
        p.kernel->set(i, assumed.value);
        figure.inputs.push_back({&field, assumed, {}, true});
    }
    read_words(p, words, figure.model->name);
}

bool evaluate(Figure& figure, Kernel& kernel)
{
    auto const& shape = kernel.outputs();
    try
    {
        kernel.evaluate();
        kernel.describe();
    }
    catch (std::exception const& e)
    {
        if (!is_answer(e))
            throw;
        figure.why_not = e.what();
        return false;
    }
    for (std::size_t i = 0; i < shape.fields.size(); ++i)
    {
        OutputValue out{&shape.fields[i], kernel.output(i), 0, 0, kernel.output_text(i)};
        if (out.value && !std::isfinite(*out.value))
        {
            figure.why_not = shape.fields[i].name + " has no finite value for these inputs";
            figure.outputs.clear();
            return false;
        }
        out.low = out.high = out.value.value_or(0);
        figure.outputs.push_back(std::move(out));
    }
    return true;
}

struct Doubted
{
    std::size_t field;
    units::Reading reading;
    double low, high;
};

std::vector<Doubted> doubted_inputs(Figure const& figure, Prepared const& p)
{
    constexpr double unlimited = std::numeric_limits<double>::infinity();
    std::vector<Doubted> out;
    for (std::size_t k = 0; k < figure.inputs.size(); ++k)
    {
        auto const& used = figure.inputs[k];
        if (is_quantity(*used.shape) && used.reading.doubt > 0)
            out.push_back(
                {p.input[k], used.reading, used.shape->low.value_or(-unlimited), used.shape->high.value_or(unlimited)});
    }
    return out;
}

void carry_doubt(Figure& figure, Prepared& p)
{
    auto const doubted = doubted_inputs(figure, p);
    double const own = figure.model->own_doubt;
    if (doubted.empty() && own <= 0)
        return;
    numerics::QuasiRandom sequence(doubted.size() + (own > 0 ? 1 : 0));
    std::vector<std::vector<double>> samples(figure.outputs.size());
    int failed = 0;
    for (int n = 0; n < sample_points; ++n)
    {
        auto const u = sequence.next();
        for (std::size_t k = 0; k < doubted.size(); ++k)
            p.kernel->set(doubted[k].field,
                          numerics::truncated_normal_quantile(u[k], doubted[k].reading.value, doubted[k].reading.doubt,
                                                              doubted[k].low, doubted[k].high));
        double const factor = own > 0 ? 1 + own * numerics::standard_normal_quantile(u.back()) : 1.0;
        try
        {
            p.kernel->evaluate();
        }
        catch (std::exception const& e)
        {
            if (!is_answer(e))
                throw;
            ++failed;
            continue;
        }
        for (std::size_t i = 0; i < samples.size(); ++i)
            if (auto const value = p.kernel->output(i); value && std::isfinite(*value))
                samples[i].push_back(*value * factor);
    }
    if (2 * failed > sample_points)
    {
        // An interval from what is left would look like knowledge.
        figure.why_not = "most of the readings' doubt lies outside what the model covers; a better reading is needed";
        figure.outputs.clear();
        return;
    }
    if (failed > 0)
        figure.note = "part of the readings' doubt (" + std::to_string(std::max(1, 100 * failed / sample_points)) +
                      " %) lies outside what the model covers";
    double const p_low = numerics::standard_normal_cdf(-units::coverage);
    for (std::size_t i = 0; i < samples.size(); ++i)
        if (figure.outputs[i].value && samples[i].size() >= 2)
        {
            figure.outputs[i].low = share_of(samples[i], p_low);
            figure.outputs[i].high = share_of(samples[i], 1 - p_low);
        }
}

void finish(Figure& figure, Prepared& p, std::vector<bool> const& given)
{
    assume_the_rest(figure, p, given);
    if (evaluate(figure, *p.kernel))
        carry_doubt(figure, p);
}

} // namespace

Inputs& Inputs::add(std::string name, units::Reading reading)
{
    items_.push_back({std::move(name), std::move(reading)});
    return *this;
}

Inputs& Inputs::add_words(std::string name, std::string words)
{
    return add_node(std::move(name), fields::Node::scalar(std::move(words)));
}

Inputs& Inputs::add_node(std::string name, fields::Node node)
{
    items_.push_back({std::move(name), std::move(node)});
    return *this;
}

units::Reading OutputValue::reading() const
{
    return {shape->measure.value_or(units::Measure::number), value.value_or(0), (high - low) / (2 * units::coverage),
            "computed", false};
}

OutputValue const& Figure::output(std::string_view name) const
{
    for (auto const& out : outputs)
        if (out.shape->name == name)
            return out;
    throw std::out_of_range("figure has no output '" + std::string(name) + "'");
}

Figure run(Model const& model, Inputs const& inputs)
{
    Figure figure;
    figure.model = &model;
    Prepared p{model.kernel->fresh(), {}};
    auto const& shape = p.kernel->inputs();
    std::vector<bool> given(shape.fields.size(), false);
    fields::Node words = fields::Node::map();
    for (auto const& item : inputs.items())
    {
        std::size_t const i = index_of(shape, item.name);
        auto const& field = shape.fields[i];
        given[i] = true;
        if (auto const* node = std::get_if<fields::Node>(&item.value))
        {
            words.entries.push_back({item.name, {}, *node});
            figure.inputs.push_back({&field, {}, node->text, false});
            p.input.push_back(i);
            continue;
        }
        auto const& reading = std::get<units::Reading>(item.value);
        if (field.measure != reading.measure)
            throw std::logic_error("input '" + item.name + "' of " + model.name + " is of another measure");
        if (outside(field, reading.value))
            figure.why_not =
                item.name + " of " +
                units::show(reading.measure, reading.value, reading.doubt, field.style(units::System::us)) +
                " is outside " + span_of(field);
        p.kernel->set(i, reading.value);
        figure.inputs.push_back({&field, reading, {}, false});
        p.input.push_back(i);
    }
    for (std::size_t i = 0; i < shape.fields.size(); ++i)
        if (shape.fields[i].required && !given[i])
            figure.why_not = "needs " + shape.fields[i].name + ": " + shape.fields[i].meaning;
    if (!figure.why_not.empty())
        return figure;
    read_words(p, words, model.name);
    finish(figure, p, given);
    return figure;
}

std::vector<DoubtShare> doubt_shares(Figure const& figure, std::string_view output)
{
    auto const kernel = figure.model->kernel->fresh();
    auto const& outputs = kernel->outputs().fields;
    auto const place = std::find_if(outputs.begin(), outputs.end(), [&](auto const& f) { return f.name == output; });
    if (place == outputs.end())
        throw std::out_of_range("figure has no output '" + std::string(output) + "'");
    auto const out = static_cast<std::size_t>(place - outputs.begin());
    Prepared p{figure.model->kernel->fresh(), {}};
    fields::Node words = fields::Node::map();
    for (auto const& used : figure.inputs)
    {
        p.input.push_back(index_of(p.kernel->inputs(), used.shape->name));
        if (is_quantity(*used.shape))
            p.kernel->set(p.input.back(), used.reading.value);
        else if (!used.words.empty())
            words.entries.push_back({used.shape->name, {}, fields::Node::scalar(used.words)});
    }
    read_words(p, words, figure.model->name);
    // At the end of a range, or of the model, the other side alone must do.
    auto at = [&](Doubted const& input, double value) -> std::optional<double>
    {
        p.kernel->set(input.field, std::clamp(value, input.low, input.high));
        try
        {
            p.kernel->evaluate();
            return p.kernel->output(out);
        }
        catch (std::exception const& e)
        {
            if (!is_answer(e))
                throw;
            return std::nullopt;
        }
    };
    std::vector<DoubtShare> shares;
    double sum = 0;
    for (auto const& input : doubted_inputs(figure, p))
    {
        auto const& r = input.reading;
        auto const middle = at(input, r.value);
        auto const up = at(input, r.value + r.doubt), down = at(input, r.value - r.doubt);
        p.kernel->set(input.field, r.value);
        if (!(up || down) || !(middle || (up && down)))
            continue;
        double const effect = up.value_or(middle.value_or(0)) - down.value_or(middle.value_or(0));
        auto const used =
            std::find_if(figure.inputs.begin(), figure.inputs.end(),
                         [&](auto const& u) { return u.shape->name == p.kernel->inputs().fields[input.field].name; });
        shares.push_back({used->shape->name, effect * effect, used->assumed});
        sum += effect * effect;
    }
    if (!(sum > 0))
        return {};
    for (auto& s : shares)
        s.share /= sum;
    std::stable_sort(shares.begin(), shares.end(), [](auto const& a, auto const& b) { return a.share > b.share; });
    return shares;
}

Figure run_written(Model const& model, fields::Node const& record)
{
    Figure figure;
    figure.model = &model;
    Prepared p{model.kernel->fresh(), {}};
    auto const& shape = p.kernel->inputs();
    std::vector<std::pair<std::string, units::Reading>> readings;
    fields::ReadContext context;
    context.readings = &readings;
    p.kernel->read(record, context);
    if (!context.problems.empty())
        throw fields::InputProblems(context.problems);
    std::vector<bool> given(shape.fields.size(), false);
    for (auto const& entry : record.entries)
    {
        if (entry.value.kind == fields::Node::Kind::nothing)
            continue; // left blank: as if it were not there
        std::size_t const i = index_of(shape, fields::normal_key(entry.key));
        given[i] = true;
        bool const quantity = is_quantity(shape.fields[i]);
        figure.inputs.push_back({&shape.fields[i], {}, quantity ? std::string() : entry.value.text, false});
        p.input.push_back(i);
        for (auto const& [name, reading] : readings)
            if (quantity && name == shape.fields[i].name)
                figure.inputs.back().reading = reading;
    }
    finish(figure, p, given);
    return figure;
}

} // namespace padwalk::figures
