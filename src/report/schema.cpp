#include "padwalk/report/schema.hpp"

#include <algorithm>

namespace padwalk::report
{
namespace
{

using fields::FieldShape;
using fields::RecordShape;
using fields::Tree;
using Form = FieldShape::Form;

// The grammar of readings, loosely: sign, number, perhaps ± and its number, then a unit and whatever follows it.
constexpr std::string_view vulgar_pattern = "(?:½|¼|¾|⅛|⅜|⅝|⅞)";

std::string number_pattern()
{
    std::string const vulgar(vulgar_pattern);
    std::string const digits = "(?:[0-9][0-9,]*\\.?[0-9]*|\\.[0-9]+)(?:[eE][-+]?[0-9]+)?";
    return "(?:" + digits + "(?:[ -]?[0-9]+/[0-9]+|/[0-9]+|\\s?" + vulgar + ")?|" + vulgar + ")";
}

std::string quantity_pattern(bool unit_needed)
{
    std::string const sign = "(?:[-+]|−|–)?\\s*";
    std::string const doubt = "(?:\\s*(?:±|\\+/-)\\s*" + number_pattern() + ")?";
    std::string const unit = "\\s*(?:[A-Za-z%\"']|°|º|˚|µ|μ|Ω|″|′|”|“|’|℃|℉).*";
    return "^\\s*" + sign + number_pattern() + doubt + (unit_needed ? unit : "(?:" + unit + ")?\\s*") + "$";
}

bool unit_needed(units::Measure measure)
{
    auto const dimension = units::info(measure).dimension;
    return dimension != units::Dimension::none && dimension != units::Dimension::share;
}

Tree strings(std::vector<std::string> const& words)
{
    Tree out = Tree::list();
    for (auto const& word : words)
        out.push(word);
    return out;
}

Tree typed(std::string_view type)
{
    return std::move(Tree::map().add("type", type));
}

/// Collects the records met on the way, each under a name of its own.
class Definitions
{
public:
    [[nodiscard]] Tree reference(RecordShape const& shape)
    {
        for (auto const& [known, name] : names_)
            if (known == &shape)
                return pointer(name);
        std::string name = shape.name;
        for (int n = 2; std::any_of(names_.begin(), names_.end(), [&](auto const& e) { return e.second == name; }); ++n)
            name = shape.name + "_" + std::to_string(n);
        names_.emplace_back(&shape, name);
        return pointer(name);
    }
    /// Writes records until none is new; those that they refer to are met while they are written.
    [[nodiscard]] Tree all()
    {
        Tree out = Tree::map();
        for (std::size_t i = 0; i < names_.size(); ++i)
        {
            auto const [shape, name] = names_[i];
            out.add(name, definition(*shape));
        }
        return out;
    }
    [[nodiscard]] Tree object(RecordShape const& shape);

private:
    std::vector<std::pair<RecordShape const*, std::string>> names_;

    [[nodiscard]] static Tree pointer(std::string const& name)
    {
        return std::move(Tree::map().add("$ref", "#/$defs/" + name));
    }
    [[nodiscard]] Tree definition(RecordShape const& shape);
    [[nodiscard]] Tree alternatives(FieldShape const& field);
    [[nodiscard]] Tree property(FieldShape const& field);
};

Tree quantity(units::Measure measure)
{
    Tree text = typed("string");
    text.add("pattern", quantity_pattern(unit_needed(measure)));
    Tree out = Tree::list();
    if (!unit_needed(measure))
        out.push(typed("number"));
    return out.push(std::move(text));
}

Tree curve()
{
    Tree points = typed("array");
    points.add("items", std::move(Tree::map().add("type", strings({"string", "object"}))));
    return Tree::list().push(typed("string")).push(std::move(points)).push(typed("object"));
}

// What a value may be, blank aside.
Tree Definitions::alternatives(FieldShape const& field)
{
    Tree out = Tree::list();
    switch (field.form)
    {
    case Form::quantity: return quantity(*field.measure);
    case Form::choice: return out.push(std::move(Tree::map().add("enum", strings(field.words))));
    case Form::yes_no:
        return out.push(std::move(Tree::map().add("enum", Tree::list().push("yes").push("no").push(true).push(false))));
    case Form::moment:
        return out.push(
            std::move(typed("string").add("pattern", "^[0-9]{4}-[0-9]{2}-[0-9]{2}([ T][0-9]{2}:[0-9]{2})?$")));
    case Form::curve: return curve();
    case Form::record: return out.push(reference(*field.inner()));
    case Form::list:
    {
        FieldShape item = field;
        item.form = field.item;
        return out.push(
            std::move(typed("array").add("items", std::move(Tree::map().add("anyOf", alternatives(item))))));
    }
    case Form::named:
    {
        Tree each = field.inner != nullptr ? Tree::list().push(reference(*field.inner())) : quantity(*field.measure);
        each.push(typed("null"));
        return out.push(std::move(
            typed("object").add("additionalProperties", std::move(Tree::map().add("anyOf", std::move(each))))));
    }
    case Form::text: break;
    }
    return out.push(typed("string")).push(typed("number")).push(typed("boolean"));
}

std::string described(FieldShape const& field)
{
    std::string out = field.meaning;
    if (field.form == Form::quantity)
    {
        out += ". " + field.describe(units::System::us) + ", for example " + field.sample();
        if (unit_needed(*field.measure))
            out += ". Units: " + std::string(units::info(*field.measure).units);
    }
    else if (!field.example.empty())
        out += ", for example " + field.example;
    if (!field.otherwise.empty())
        out += ". Left out: " + field.otherwise + ", because " + field.because;
    return out + ".";
}

Tree Definitions::property(FieldShape const& field)
{
    Tree out = Tree::map();
    std::string title = field.name;
    std::replace(title.begin(), title.end(), '_', ' ');
    out.add("title", title).add("description", described(field));
    Tree choices = alternatives(field);
    choices.push(typed("null")); // a blank of the field sheet
    out.add("anyOf", std::move(choices));
    if (field.form == Form::quantity || field.form == Form::moment || field.form == Form::curve ||
        (field.form == Form::text && !field.example.empty()))
        out.add("examples", strings({field.sample()}));
    return out;
}

Tree Definitions::object(RecordShape const& shape)
{
    Tree out = Tree::map();
    out.add("title", shape.name)
        .add("description", shape.meaning)
        .add("type", "object")
        .add("additionalProperties", false);
    Tree properties = Tree::map();
    std::vector<std::string> required;
    for (auto const& field : shape.fields)
    {
        properties.add(field.name, property(field));
        if (field.required)
            required.push_back(field.name);
    }
    out.add("properties", std::move(properties));
    if (!required.empty())
        out.add("required", strings(required));
    return out;
}

Tree Definitions::definition(RecordShape const& shape)
{
    FieldShape const* in_short = shape.find(shape.short_form);
    if (in_short == nullptr)
        return object(shape);
    Tree out = Tree::map();
    out.add("title", shape.name).add("description", shape.meaning);
    out.add("oneOf",
            Tree::list().push(std::move(Tree::map().add("anyOf", alternatives(*in_short)))).push(object(shape)));
    return out;
}

} // namespace

Tree json_schema(RecordShape const& record)
{
    Definitions definitions;
    Tree out = Tree::map();
    out.add("$schema", "https://json-schema.org/draft/2020-12/schema");
    Tree root = definitions.object(record);
    for (auto const& [key, value] : std::get<Tree::Map>(root.value()))
        out.add(key, value);
    if (Tree all = definitions.all(); !std::get<Tree::Map>(all.value()).empty())
        out.add("$defs", std::move(all));
    return out;
}

} // namespace padwalk::report
