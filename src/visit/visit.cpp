#include "padwalk/visit/visit.hpp"

#include "padwalk/reference/yaml.hpp"

#include <algorithm>

namespace padwalk::visit
{

Record<Visit> const& Visit::declaration()
{
    static Record<Visit> const record =
        Record<Visit>("visit", "one walk: who, when, and what was met")
            .field("by", &Visit::by, "who walked")
            .field("on", &Visit::on, "when")
            .field("property", &Visit::property, "the property, in your words")
            .like("blue house, back yard")
            .field("altitude", &Visit::altitude, "height above the sea")
            .within("-1500 ft", "20000 ft")
            .usual("-300 ft", "10000 ft")
            .read_by("altitude")
            .like("1200 ft")
            .field("air_temperature", &Visit::air_temperature, "air temperature")
            .within("-60 degF", "140 degF")
            .usual("-20 degF", "120 degF")
            .read_by("weather")
            .like("72 degF")
            .field("humidity", &Visit::humidity, "relative humidity")
            .within("0 %", "100 %")
            .read_by("humidity")
            .like("40 %")
            .field("wind", &Visit::wind, "wind over the water")
            .within("0 mph", "150 mph")
            .usual("0 mph", "40 mph")
            .read_by("wind")
            .shown_in("mph", "m/s")
            .like("3 mph")
            .field("cloud", &Visit::cloud, "share of the sky under cloud")
            .within("0 %", "100 %")
            .read_by("sky")
            .like("30 %")
            .field("weather", &Visit::weather, "weather, in your words")
            .field("freezing_winters", &Visit::freezing_winters, "winters freeze pipes here")
            .field("expansive_soil", &Visit::expansive_soil, "the soil swells and shrinks")
            .field("electricity_price", &Visit::electricity_price, "price of 1 kWh, in any money")
            .within("0", "1000")
            .like("0.17")
            .field("gas_price", &Visit::gas_price, "price of natural gas, in the same money")
            .within("0", "1000")
            .like("1.60")
            .field("gas_price_per", &Visit::gas_price_per, "what that price is for; a therm where left out")
            .field("propane_price", &Visit::propane_price, "price of 1 US gallon of propane, in the same money")
            .within("0", "1000")
            .like("3")
            .field("licences", &Visit::licences, "state whose licence classes are named at each trade that is sent")
            .field("waters", &Visit::waters, "pools and spas, each under a name of your own")
            .field("loops", &Visit::loops, "circulations, each under a name of your own")
            .field("heaters", &Visit::heaters, "heaters, each under a name of your own")
            .field("fill_valves", &Visit::fill_valves, "fill valves, each under a name of your own")
            .field("electrical", &Visit::electrical, "electrical protection seen")
            .field("noticed", &Visit::noticed, "things noticed that belong to none of these")
            .field("not_tested", &Visit::not_tested, "what was not tested, and why")
            .field("photos", &Visit::photos, "pictures, with a caption")
            .field("notes", &Visit::notes, "anything else, for the report");
    return record;
}

namespace
{

using fields::Node;

template <class T> std::vector<std::string> names_of(Named<T> const& list)
{
    std::vector<std::string> out;
    for (auto const& [name, item] : list)
        out.push_back(name);
    return out;
}

// A name that stands where another item is meant must be one.
void refers(Node const& node, std::vector<std::string> const& known, std::string const& what,
            fields::ReadContext& context)
{
    if (node.kind != Node::Kind::scalar || std::find(known.begin(), known.end(), node.text) != known.end())
        return;
    std::string const near = fields::nearest(node.text, known);
    std::string all;
    for (auto const& name : known)
        all += (all.empty() ? "" : ", ") + name;
    fields::problem(context, node, "there is no " + what + " called '" + node.text + "'",
                    !near.empty()   ? "did you mean '" + near + "'?"
                    : known.empty() ? "add it under " + what + "s"
                                    : "this visit has: " + all);
}

void check_references(Node const& root, Visit const& visit, fields::ReadContext& context)
{
    auto const waters = names_of(visit.waters);
    auto const loops = names_of(visit.loops);
    auto each = [&](std::string_view group, std::string_view field, auto&& check)
    {
        for (auto const& list : root.entries)
            for (auto const& entry : list.value.entries)
                for (auto const& inner : entry.value.entries)
                    if (fields::normal_key(list.key) == group && fields::normal_key(inner.key) == field)
                    {
                        context.path = std::string(group) + "/" + entry.key + "/" + std::string(field);
                        check(inner.value);
                    }
    };
    each("loops", "serves",
         [&](Node const& list)
         {
             for (auto const& item : list.items)
                 refers(item, waters, "water", context);
         });
    each("heaters", "loop", [&](Node const& name) { refers(name, loops, "loop", context); });
    each("fill_valves", "fills", [&](Node const& name) { refers(name, waters, "water", context); });
}

Node const* entry_of(Node const& map, std::string_view name)
{
    for (auto const& entry : map.entries)
        if (fields::normal_key(entry.key) == name)
            return &entry.value;
    return nullptr;
}

// Level marks stand in order of time: a fall is what lies between two of them.
void check_marks(Node const& history, fields::ReadContext& context)
{
    fields::FieldShape field;
    field.name = "at";
    std::optional<fields::Moment> before;
    for (auto const& mark : history.items)
    {
        Node const* at = entry_of(mark, "at");
        fields::ReadContext unheard; // what is no date was said when the field was read
        auto const when = at != nullptr ? fields::read_moment_node(*at, field, unheard) : std::nullopt;
        if (!when)
            continue;
        if (before && when->hours <= before->hours)
            fields::problem(context, *at,
                            "the mark of '" + when->text + "' is not later than the one before it, '" + before->text +
                                "'",
                            "write the marks in order of time; of two on one day both need the time of day");
        before = when;
    }
}

void check_level_histories(Node const& root, fields::ReadContext& context)
{
    Node const* waters = entry_of(root, "waters");
    if (waters == nullptr)
        return;
    for (auto const& water : waters->entries)
        if (Node const* history = entry_of(water.value, "level_history"))
        {
            context.path = "waters/" + water.key + "/level_history";
            check_marks(*history, context);
        }
}

} // namespace

ReadVisit read_visit(std::string_view text, fields::Instruments const& instruments)
{
    Node const root = reference::read_yaml(text);
    ReadVisit out;
    fields::ReadContext context;
    context.instruments = instruments;
    fields::read_record(root, out.visit, context);
    check_references(root, out.visit, context);
    check_level_histories(root, context);
    if (root.kind == Node::Kind::map && root.entries.empty())
        context.problems.push_back(
            {{1, 1},
             0,
             "the file says nothing",
             "three lines are enough: 'loops:', '  spa loop:', '    pump: {noticed: [grinding noise]}'",
             {}});
    if (!context.problems.empty())
        throw fields::InputProblems(std::move(context.problems));
    out.oddities = std::move(context.oddities);
    out.blanks = std::move(context.blanks);
    return out;
}

} // namespace padwalk::visit
