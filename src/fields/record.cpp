#include "padwalk/fields/record.hpp"

#include "padwalk/units/print.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace padwalk::fields
{
namespace
{

std::string_view called(Node::Kind kind)
{
    switch (kind)
    {
    case Node::Kind::list: return "a list";
    case Node::Kind::map: return "a group of fields";
    case Node::Kind::scalar: return "a single value";
    case Node::Kind::nothing: break;
    }
    return "nothing";
}

bool scalar_only(Node const& node, FieldShape const& field, ReadContext& context)
{
    if (node.kind == Node::Kind::scalar)
        return true;
    problem(context, node, field.name + " is one value, but " + std::string(called(node.kind)) + " stands here",
            "write '" + field.name + ": " + field.sample() + "'");
    return false;
}

std::string lowered(std::string text)
{
    for (char& c : text)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return text;
}

} // namespace

void problem(ReadContext& context, Node const& node, std::string message, std::string advice)
{
    context.problems.push_back(
        {node.place, node.text.size() + (node.quoted ? 2 : 0), std::move(message), std::move(advice), context.path});
}

double declared_value(std::string const& text, FieldShape const& field)
{
    auto const read = units::read_quantity(text, field.measure.value_or(units::Measure::number), field.name);
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
        throw std::logic_error("declaration of " + field.name + ": " + bad->message);
    return std::get<units::Reading>(read).value;
}

std::optional<units::Reading> read_quantity_node(Node const& node, FieldShape const& field, Node const& record,
                                                 ReadContext& context)
{
    if (!scalar_only(node, field, context))
        return std::nullopt;
    auto read = units::read_quantity(node.text, *field.measure, field.name);
    if (auto const* bad = std::get_if<units::TextProblem>(&read))
    {
        Place place = node.place;
        place.column += bad->offset + (node.quoted ? 1 : 0);
        context.problems.push_back({place, bad->length, bad->message, bad->advice, context.path});
        return std::nullopt;
    }
    auto reading = std::get<units::Reading>(std::move(read));
    double const slack = 1e-9 * std::max(std::abs(field.low.value_or(0)), std::abs(field.high.value_or(0)));
    if ((field.low && reading.value < *field.low - slack) || (field.high && reading.value > *field.high + slack))
    {
        problem(context, node, field.name + " of '" + node.text + "' can't be",
                "between " + field.bound(*field.low, field.low_text, units::System::us) + " and " +
                    field.bound(*field.high, field.high_text, units::System::us) +
                    " is possible; check the number and its unit");
        return std::nullopt;
    }
    if ((field.usual_low && reading.value < *field.usual_low) ||
        (field.usual_high && reading.value > *field.usual_high))
        context.oddities.push_back(
            {node.place, node.text.size(), field.name + " of " + node.text + " is unusual",
             "usual is " + field.bound(*field.usual_low, field.usual_low_text, units::System::us) + " to " +
                 field.bound(*field.usual_high, field.usual_high_text, units::System::us) +
                 "; look again at the reading and its unit",
             context.path});
    if (!reading.doubt_written && context.instruments && !field.instrument.empty())
    {
        auto const from = context.instruments(reading, field.instrument, record);
        reading.doubt = from.doubt;
        reading.method = from.method;
    }
    if (context.readings != nullptr)
        context.readings->emplace_back(field.name, reading);
    return reading;
}

std::optional<std::string> read_text_node(Node const& node, FieldShape const& field, ReadContext& context)
{
    if (!scalar_only(node, field, context))
        return std::nullopt;
    return node.text;
}

std::optional<std::size_t> read_choice_node(Node const& node, FieldShape const& field, ReadContext& context)
{
    if (!scalar_only(node, field, context))
        return std::nullopt;
    std::string const written = normal_key(lowered(node.text));
    for (std::size_t i = 0; i < field.words.size(); ++i)
        if (written == normal_key(lowered(field.words[i])))
            return i;
    std::string all;
    for (auto const& word : field.words)
        all += (all.empty() ? "" : ", ") + word;
    std::string const near = nearest(written, field.words);
    problem(context, node, "'" + node.text + "' is not a " + field.name + " I know",
            near.empty() ? "one of: " + all : "did you mean '" + near + "'? (" + all + ")");
    return std::nullopt;
}

std::optional<bool> read_yes_no_node(Node const& node, FieldShape const& field, ReadContext& context)
{
    if (!scalar_only(node, field, context))
        return std::nullopt;
    std::string const written = lowered(node.text);
    if (written == "yes" || written == "true" || written == "y" || written == "on")
        return true;
    if (written == "no" || written == "false" || written == "n" || written == "off")
        return false;
    problem(context, node, field.name + " is yes or no; '" + node.text + "' is neither",
            "leave the line out if it was not looked at");
    return std::nullopt;
}

std::optional<Moment> read_moment_node(Node const& node, FieldShape const& field, ReadContext& context)
{
    if (!scalar_only(node, field, context))
        return std::nullopt;
    std::string text = node.text;
    if (text.size() > 10 && text[10] == 'T')
        text[10] = ' ';
    if (text.size() == 15 && text[10] == ' ' && text[12] == ':')
        text.insert(11, "0"); // '2026-05-14 9:30'
    auto number = [&](std::size_t from, std::size_t count) -> int
    {
        int value = 0;
        for (std::size_t i = from; i < from + count; ++i)
        {
            if (i >= text.size() || text[i] < '0' || text[i] > '9')
                return -1;
            value = value * 10 + (text[i] - '0');
        }
        return value;
    };
    bool const dated = text.size() >= 10 && text[4] == '-' && text[7] == '-';
    bool const timed = text.size() == 16 && text[10] == ' ' && text[13] == ':';
    int const year = number(0, 4), month = number(5, 2), day = number(8, 2);
    int const hour = timed ? number(11, 2) : 0, minute = timed ? number(14, 2) : 0;
    static constexpr int days_in[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool const leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    bool const good = dated && (timed || text.size() == 10) && year >= 1900 && month >= 1 && month <= 12 && day >= 1 &&
                      day <= days_in[month - 1] && !(month == 2 && day == 29 && !leap) && hour >= 0 && hour < 24 &&
                      minute >= 0 && minute < 60;
    if (!good)
    {
        problem(context, node,
                "'" + node.text + "' is not a date; " + field.name + " wants year-month-day, with a time if you like",
                "write it like '2026-05-14' or '2026-05-14 10:30'");
        return std::nullopt;
    }
    // Days from the civil calendar, counting March as the first month so that leap days fall at a year's end.
    long const y = year - (month <= 2 ? 1 : 0);
    long const era_day =
        y * 365 + y / 4 - y / 100 + y / 400 + (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1 - 719468;
    return Moment{text, static_cast<double>(era_day) * 24 + hour + minute / 60.0};
}

namespace
{

std::optional<CurvePoint> curve_point(std::string_view text, std::string_view head_text, Node const& node,
                                      FieldShape const& field, ReadContext& context)
{
    CurvePoint point;
    bool good = true;
    auto part = [&](std::string_view what, units::Measure measure, std::string_view label) -> double
    {
        auto const read = units::read_quantity(what, measure, label);
        if (auto const* bad = std::get_if<units::TextProblem>(&read))
        {
            problem(context, node, bad->message, "write points as flow:head, for example '" + field.sample() + "'");
            good = false;
            return 0;
        }
        return std::get<units::Reading>(read).value;
    };
    point.flow = units::of_si<units::VolumeFlow>(part(text, units::Measure::volume_flow, "a curve point's flow"));
    if (good)
        point.head = units::of_si<units::Head>(part(head_text, units::Measure::head, "a curve point's head"));
    return good ? std::optional(point) : std::nullopt;
}

} // namespace

std::optional<std::vector<CurvePoint>> read_curve_node(Node const& node, FieldShape const& field, ReadContext& context)
{
    std::vector<std::pair<std::string, Node const*>> texts;
    if (node.kind == Node::Kind::scalar)
    {
        std::string part;
        for (std::size_t i = 0; i <= node.text.size(); ++i)
        {
            // ', ' parts points; the comma of '1,000 gpm' has no space behind it
            bool const cut = i == node.text.size() || node.text[i] == ';' ||
                             (node.text[i] == ',' && (i + 1 == node.text.size() || node.text[i + 1] == ' '));
            if (cut)
                texts.emplace_back(std::exchange(part, {}), &node);
            else if (!part.empty() || node.text[i] != ' ')
                part += node.text[i];
        }
    }
    else if (node.kind == Node::Kind::list)
        for (auto const& item : node.items)
        {
            if (item.kind == Node::Kind::map && item.entries.size() == 1 &&
                item.entries[0].value.kind == Node::Kind::scalar)
                texts.emplace_back(item.entries[0].key + ":" + item.entries[0].value.text, &item); // '- 0 gpm: 80 ft'
            else
                texts.emplace_back(item.text, &item);
        }
    else if (node.kind == Node::Kind::map)
        for (auto const& entry : node.entries)
            texts.emplace_back(entry.key + ":" + entry.value.text, &entry.value);

    std::vector<CurvePoint> points;
    bool good = true;
    for (auto const& [text, where] : texts)
    {
        std::size_t cut = text.find(':');
        std::size_t skip = 1;
        if (cut == std::string::npos)
            cut = text.find(" at "), skip = 4;
        if (cut == std::string::npos)
        {
            problem(context, *where, "'" + text + "' is not a point of a curve",
                    "write points as flow:head, for example '" + field.sample() + "'");
            good = false;
            continue;
        }
        if (auto const point = curve_point(std::string_view(text).substr(0, cut),
                                           std::string_view(text).substr(cut + skip), *where, field, context))
            points.push_back(*point);
        else
            good = false;
    }
    if (good && points.size() < 3)
    {
        problem(context, node, "a pump curve wants three or more points; " + std::to_string(points.size()) + " given",
                "write points as flow:head, for example '" + field.sample() + "'");
        good = false;
    }
    for (std::size_t i = 1; good && i < points.size(); ++i)
        if (!(points[i].flow > points[i - 1].flow) || !(points[i].head < points[i - 1].head))
        {
            problem(context, node, "the points of a pump curve must go up in flow and down in head",
                    "order them by flow; a healthy curve falls");
            good = false;
        }
    return good ? std::optional(std::move(points)) : std::nullopt;
}

bool check_form(Node const& node, Node::Kind kind, FieldShape const& field, ReadContext& context)
{
    if (node.kind == kind)
        return true;
    problem(context, node,
            field.name + " is " + std::string(called(kind)) + ", but " + std::string(called(node.kind)) +
                " stands here",
            kind == Node::Kind::list ? "start each line with '- '"
                                     : "write its fields on lines of their own, set in by two spaces");
    return false;
}

bool check_names(Node const& node, FieldShape const& field, ReadContext& context)
{
    std::size_t const before = context.problems.size();
    for (std::size_t i = 0; i < node.entries.size(); ++i)
    {
        auto const& entry = node.entries[i];
        if (entry.key.empty())
            context.problems.push_back(
                {entry.place, 0, "a name is empty under " + field.name, "give it a name of your own", context.path});
        for (std::size_t k = 0; k < i; ++k)
            if (node.entries[k].key == entry.key)
                context.problems.push_back({entry.place, entry.key.size(),
                                            "'" + entry.key + "' stands twice under " + field.name +
                                                ", first in line " + std::to_string(node.entries[k].place.line),
                                            "give each a name of its own", context.path});
    }
    return context.problems.size() == before;
}

bool check_map(Node const& node, RecordShape const& shape, ReadContext& context)
{
    if (node.kind != Node::Kind::map)
    {
        problem(context, node,
                (shape.name.empty() ? std::string("this") : shape.name) + " is a group of fields, but " +
                    std::string(called(node.kind)) + " stands here",
                "write 'field: value' lines; the fields are listed by 'padwalk sheet'");
        return false;
    }
    std::vector<std::string> names;
    for (auto const& f : shape.fields)
        names.push_back(f.name);
    std::vector<std::pair<std::string, Place>> met;
    std::vector<bool> blank;
    for (auto const& entry : node.entries)
    {
        std::string const key = normal_key(entry.key);
        auto const twice = std::find_if(met.begin(), met.end(), [&](auto const& m) { return m.first == key; });
        if (twice != met.end())
            context.problems.push_back(
                {entry.place, entry.key.size(),
                 "'" + entry.key + "' stands twice under " + shape.name +
                     (twice->second.line > 0 ? ", first in line " + std::to_string(twice->second.line) : std::string()),
                 "keep one of them", context.path});
        met.emplace_back(key, entry.place);
        blank.emplace_back(entry.value.kind == Node::Kind::nothing);
        if (std::find(names.begin(), names.end(), key) != names.end())
            continue;
        std::string const near = nearest(lowered(entry.key), names);
        std::string all;
        for (auto const& name : names)
            all += (all.empty() ? "" : ", ") + name;
        context.problems.push_back(
            {entry.place, entry.key.size(), "unknown key '" + entry.key + "' under " + shape.name,
             near.empty() ? "known here: " + all : "did you mean '" + near + "'?", context.path});
    }
    auto const given = [&](std::string const& name)
    {
        for (std::size_t i = 0; i < met.size(); ++i)
            if (met[i].first == name && !blank[i])
                return true;
        return false;
    };
    for (auto const& f : shape.fields)
        if (f.required && !context.partial && !given(f.name))
            problem(context, node, shape.name + " has no '" + f.name + "': " + f.meaning,
                    "add '" + f.name + ": " + f.sample() + "'");
    return true;
}

Tree tree_of(units::Reading const& reading)
{
    Tree out = Tree::map();
    std::string_view const unit = units::unit_for(reading.measure, reading.value, {units::System::si, {}, {}});
    double const scale = unit.empty() ? 1.0 : units::find_unit(unit, units::info(reading.measure).dimension)->scale;
    out.add("value", units::in_unit(reading.measure, reading.value, unit));
    if (!unit.empty())
        out.add("unit", unit);
    if (!units::info(reading.measure).basis.empty())
        out.add("basis", units::info(reading.measure).basis);
    if (reading.doubt > 0)
        out.add("standard_uncertainty", reading.doubt / scale);
    if (!reading.method.empty() && reading.method != "given")
        out.add("method", reading.method);
    return out;
}

} // namespace padwalk::fields
