#include "figure_words.hpp"

#include "plain.hpp"
#include "wording.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

constexpr std::size_t outputs_shown = 2; // the others stand in JSON and in 'padwalk figure'

bool has_doubt(figures::OutputValue const& out)
{
    return out.value && out.high > out.low;
}

} // namespace

std::vector<figures::OutputValue const*> worth_showing(figures::Figure const& figure)
{
    bool const any_doubt = std::any_of(figure.outputs.begin(), figure.outputs.end(), has_doubt);
    std::vector<figures::OutputValue const*> out;
    std::size_t quantities = 0;
    for (auto const& o : figure.outputs)
    {
        bool const quantity = o.value && o.shape->measure;
        // A plain number that is always the same, such as a factor, says nothing of this place.
        bool const constant =
            quantity && any_doubt && !has_doubt(o) &&
            (*o.shape->measure == units::Measure::number || *o.shape->measure == units::Measure::fraction);
        if (quantity ? !constant && quantities++ < outputs_shown : !o.words.empty())
            out.push_back(&o);
    }
    return out;
}

std::string output_text(figures::OutputValue const& out, units::System system)
{
    if (!out.value || !out.shape->measure)
        return out.words;
    return glued(units::show_interval(*out.shape->measure, *out.value, out.low, out.high, out.shape->style(system)));
}

std::string values_text(assess::FigureEntry const& entry, units::System system)
{
    std::vector<std::string> values, words;
    auto const shown = worth_showing(entry.figure);
    for (auto const* out : shown)
    {
        std::string const text = output_text(*out, system);
        bool const in_words = !out->value || !out->shape->measure;
        bool const unlabelled = shown.size() == 1 || out->shape->name == "in_words";
        (in_words ? words : values)
            .push_back(unlabelled ? text
                       : in_words ? plain_name(out->shape->name) + ": " + text
                       : shown.front() == out && entry.label.find(plain_name(out->shape->name)) == 0
                           ? text
                           : plain_name(out->shape->name) + " " + text);
    }
    values.insert(values.end(), words.begin(), words.end());
    return joined(values, "; ", "; ");
}

std::string reading_text(assess::ReadingTaken const& taken, units::System system)
{
    if (!taken.words.empty())
        return taken.words;
    units::Style const style = taken.shape != nullptr ? taken.shape->style(system) : units::Style{system, {}, {}};
    return glued(units::show_with_doubt(taken.reading.measure, taken.reading.value, taken.reading.doubt, style));
}

std::string instrument_of(assess::ReadingTaken const& taken)
{
    if (!taken.words.empty())
        return {};
    if (taken.reading.doubt_written)
        return "doubt as written";
    return taken.reading.method == "given" ? std::string() : taken.reading.method;
}

} // namespace padwalk::report
