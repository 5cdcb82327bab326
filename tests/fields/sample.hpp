#pragma once
/// Records that use every form of field once, for the tests of this room.

#include "catch_compat.hpp"
#include "padwalk/fields/record.hpp"

#include <algorithm>

namespace padwalk::tests
{

enum class Colour
{
    clear,
    light_green,
    black
};

struct Note
{
    std::string seen;
    std::string not_seen;
    static fields::Record<Note> const& declaration();
};

struct Part
{
    std::optional<units::Measured<units::Length>> length;
    std::string where;
    static fields::Record<Part> const& declaration();
};

struct Sample
{
    units::GaugePressure gauge{};
    std::optional<units::Measured<units::VolumeFlow>> flow;
    std::optional<units::Measured<units::Temperature>> temperature;
    std::string words;
    std::optional<bool> runs;
    std::optional<Colour> colour;
    std::optional<fields::Moment> at;
    std::optional<std::vector<fields::CurvePoint>> curve;
    std::optional<Part> part;
    std::vector<Note> noticed;
    std::vector<std::string> names;
    std::vector<Colour> colours;
    fields::Named<Part> parts;
    fields::Named<units::Number> counts;
    static fields::Record<Sample> const& declaration();
};

} // namespace padwalk::tests

template <> struct padwalk::fields::words_of<padwalk::tests::Colour>
{
    static std::vector<std::string> words() { return {"clear", "light_green", "black"}; }
};

namespace padwalk::tests
{

inline fields::Record<Note> const& Note::declaration()
{
    static fields::Record<Note> const record = fields::Record<Note>("note", "one thing noticed")
                                                   .field("seen", &Note::seen, "what was seen")
                                                   .field("not_seen", &Note::not_seen, "what was not there")
                                                   .short_form("seen");
    return record;
}

inline fields::Record<Part> const& Part::declaration()
{
    static fields::Record<Part> const record = fields::Record<Part>("part", "a part")
                                                   .field("length", &Part::length, "its length")
                                                   .within("0 ft", "100 ft")
                                                   .read_by("tape")
                                                   .field("where", &Part::where, "where it is");
    return record;
}

inline fields::Record<Sample> const& Sample::declaration()
{
    static fields::Record<Sample> const record = fields::Record<Sample>("sample", "every form once")
                                                     .field("gauge", &Sample::gauge, "filter gauge")
                                                     .required()
                                                     .within("-15 psi", "150 psi")
                                                     .usual("2 psi", "40 psi")
                                                     .like("12 psi")
                                                     .field("flow", &Sample::flow, "flow")
                                                     .read_by("flow_meter")
                                                     .field("temperature", &Sample::temperature, "temperature")
                                                     .within("32 degF", "130 degF")
                                                     .field("words", &Sample::words, "words")
                                                     .field("runs", &Sample::runs, "whether it runs")
                                                     .field("colour", &Sample::colour, "its colour")
                                                     .field("at", &Sample::at, "when")
                                                     .field("curve", &Sample::curve, "the curve")
                                                     .field("part", &Sample::part, "a part")
                                                     .field("noticed", &Sample::noticed, "things noticed")
                                                     .field("names", &Sample::names, "names")
                                                     .field("colours", &Sample::colours, "colours")
                                                     .field("parts", &Sample::parts, "parts by name")
                                                     .field("counts", &Sample::counts, "counts by name")
                                                     .within("0", "200");
    return record;
}

/// A node by hand, so that this room's tests need no YAML: each scalar knows line and column.
inline fields::Node text(std::string words, std::size_t line = 1, std::size_t column = 1)
{
    return fields::Node::scalar(std::move(words), {line, column});
}

inline fields::Node blank()
{
    return {};
}

inline fields::Node list(std::vector<fields::Node> items)
{
    fields::Node out;
    out.kind = fields::Node::Kind::list;
    out.items = std::move(items);
    return out;
}

/// Entries stand on lines 1, 2, 3 …
inline fields::Node map(std::vector<std::pair<std::string, fields::Node>> entries)
{
    std::vector<fields::Entry> out;
    std::size_t line = 0;
    for (auto& [key, value] : entries)
        out.push_back({key, {++line, 1}, std::move(value)});
    return fields::Node::map(std::move(out));
}

/// Reads a sample that has a gauge and these fields besides.
inline Sample read_sample(std::vector<std::pair<std::string, fields::Node>> entries, fields::ReadContext& context)
{
    entries.insert(entries.begin(), {"gauge", text("18 psi")});
    Sample out;
    fields::read_record(map(std::move(entries)), out, context);
    return out;
}

inline Sample must_read(std::vector<std::pair<std::string, fields::Node>> entries)
{
    fields::ReadContext context;
    Sample out = read_sample(std::move(entries), context);
    for (auto const& p : context.problems)
        FAIL_CHECK(p.path << ": " << p.message);
    return out;
}

/// The one problem that these fields make.
inline fields::Problem must_refuse(std::vector<std::pair<std::string, fields::Node>> entries)
{
    fields::ReadContext context;
    read_sample(std::move(entries), context);
    for (auto const& p : context.problems)
        UNSCOPED_INFO(p.path << ": " << p.message);
    REQUIRE(context.problems.size() == 1);
    return context.problems.front();
}

} // namespace padwalk::tests
