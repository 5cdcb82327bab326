#include "matching.hpp"

#include <algorithm>
#include <array>

namespace padwalk::assess
{
namespace
{

template <class T> bool field_of(fields::FieldShape const* shape)
{
    auto const& all = T::declaration().shape().fields;
    return std::any_of(all.begin(), all.end(), [shape](fields::FieldShape const& field) { return &field == shape; });
}

std::string in_plain(std::string text)
{
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}

// '2026-05-14 10:30' of 'test 2026-05-14 10:30, ph'.
std::string date_in(std::string const& label, std::string const& field)
{
    constexpr std::string_view before = "test ", after = ", ";
    if (!label.starts_with(before) || label.size() < before.size() + after.size() + field.size())
        return {};
    return label.substr(before.size(), label.size() - before.size() - after.size() - field.size());
}

} // namespace

ReadingKey key_of(ReadingTaken const& taken)
{
    if (field_of<visit::LevelMark>(taken.shape))
        return {ReadingOf::level_mark, taken.label, {}};
    if (!field_of<visit::WaterTest>(taken.shape))
        return {ReadingOf::item, taken.label, {}};
    std::string field = in_plain(taken.shape->name);
    std::string date = date_in(taken.label, field);
    return {ReadingOf::water_test, std::move(field), std::move(date)};
}

bool of_the_visit(ReadingTaken const& taken)
{
    constexpr std::array names{"by",      "on", "electricity price", "gas price", "gas price per", "propane price",
                               "licences"};
    return taken.item == 0 &&
           std::any_of(names.begin(), names.end(), [&](char const* name) { return taken.label == name; });
}

std::optional<figures::OutputValue> main_output(figures::Figure const& figure)
{
    std::optional<figures::OutputValue> first;
    if (!figure.computed())
        return first;
    for (auto const& out : figure.outputs)
    {
        if (!out.value || !out.shape->measure)
            continue;
        if (first && out.shape->name == "doubt") // one standard uncertainty, of what stands before it
        {
            first->low = *first->value - units::coverage * *out.value;
            first->high = *first->value + units::coverage * *out.value;
            return first;
        }
        if (out.high > out.low)
            return out;
        if (!first)
            first = out;
    }
    return first;
}

void Looked::add(FindingEntryOf const& finding)
{
    auto& state = finding.computed ? computed_ : noted_;
    contrary_ = contrary_ || (!finding.computed && noted_ && *noted_ != finding.state);
    if (!finding.computed || !noted_)
        from = finding.from;
    name = finding.name;
    state = finding.state;
}

FindingState Looked::state() const
{
    if (contrary_)
        return FindingState::unclear;
    return noted_ ? *noted_ : computed_.value_or(FindingState::unclear);
}

} // namespace padwalk::assess
