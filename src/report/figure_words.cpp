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

namespace
{

bool in_words(figures::OutputValue const& out)
{
    return !out.value || !out.shape->measure;
}

// One output, named where the figure's own label does not name it.
std::string named_text(assess::FigureEntry const& entry, figures::OutputValue const& out, bool alone, bool first,
                       units::System system)
{
    std::string const text = output_text(out, system), name = plain_name(out.shape->name);
    if (alone || out.shape->name == "in_words")
        return text;
    if (in_words(out))
        return name + ": " + text;
    return first && entry.label.find(name) == 0 ? text : name + " " + text;
}

std::vector<std::string> texts_of(assess::FigureEntry const& entry, units::System system, bool words)
{
    std::vector<std::string> out;
    auto const shown = worth_showing(entry.figure);
    for (auto const* value : shown)
        if (in_words(*value) == words)
            out.push_back(named_text(entry, *value, shown.size() == 1, value == shown.front(), system));
    return out;
}

} // namespace

std::string values_text(assess::FigureEntry const& entry, units::System system)
{
    auto out = texts_of(entry, system, false);
    auto const words = texts_of(entry, system, true);
    out.insert(out.end(), words.begin(), words.end());
    return joined(out, "; ", "; ");
}

std::string numbers_text(assess::FigureEntry const& entry, units::System system)
{
    return joined(texts_of(entry, system, false), "; ", "; ");
}

std::string words_text(assess::FigureEntry const& entry)
{
    return joined(texts_of(entry, units::System::us, true), "; ", "; ");
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
