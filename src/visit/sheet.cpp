#include "padwalk/visit/sheet.hpp"

#include "padwalk/visit/visit.hpp"
#include "sheet_parts.hpp"

#include <algorithm>

namespace padwalk::visit
{
namespace
{

using fields::FieldShape;
using fields::RecordShape;
using Form = FieldShape::Form;

constexpr std::size_t columns = 100;
constexpr std::size_t comment_column = 34;

/// Writes records as YAML, each field with its comment.
class Sheet
{
public:
    void comment(std::size_t indent, std::string_view text) { put(std::string(indent, ' ') + "# ", text, indent); }
    void raw(std::string line) { out_ += std::move(line) + "\n"; }
    void record(RecordShape const& shape, std::size_t indent, Start const& start, bool in_list = false);
    [[nodiscard]] std::string take() { return std::move(out_); }

private:
    std::string out_;
    std::set<RecordShape const* (*)()> shown_;

    void put(std::string const& lead, std::string_view text, std::size_t further);
    void field(std::string const& lead, FieldShape const& field, std::size_t indent, Start const& start);
    void examples(FieldShape const& field, std::size_t indent);
};

std::size_t characters(std::string_view text)
{
    return static_cast<std::size_t>(std::count_if(
        text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

// The text behind the lead, wrapped; further lines are comments that start in column `further`.
void Sheet::put(std::string const& lead, std::string_view text, std::size_t further)
{
    std::string line = lead;
    bool fresh = true;
    while (!text.empty())
    {
        std::size_t const end = text.find(' ');
        std::string_view const word = text.substr(0, end);
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        if (!fresh && characters(line) + 1 + characters(word) > columns)
        {
            raw(std::exchange(line, std::string(further, ' ') + "# "));
            fresh = true;
        }
        line += (fresh ? "" : " ") + std::string(word);
        fresh = false;
    }
    raw(std::move(line));
}

std::string said_of(FieldShape const& field)
{
    switch (field.form)
    {
    case Form::quantity: return field.meaning + "; e.g. " + field.sample();
    case Form::choice: return field.meaning + ": " + field.describe(units::System::us);
    case Form::yes_no: return field.meaning + ": yes | no";
    case Form::moment:
    case Form::curve: return field.meaning + "; e.g. " + field.sample();
    default: return field.meaning + (field.example.empty() ? "" : "; e.g. " + field.example);
    }
}

std::string sample_line(FieldShape const& field)
{
    return field.name + ": " +
           (field.form == Form::text && field.example.empty() ? std::string("in your words") : field.sample());
}

bool any_required(RecordShape const& shape)
{
    return std::any_of(shape.fields.begin(), shape.fields.end(), [](FieldShape const& f) { return f.required; });
}

// How an entry of a list or of a group is written, in commented lines to copy; once on a sheet for each kind of entry.
void Sheet::examples(FieldShape const& field, std::size_t indent)
{
    if (field.inner == nullptr || !shown_.insert(field.inner).second)
        return;
    RecordShape const& inner = *field.inner();
    FieldShape const* in_short = inner.find(inner.short_form);
    std::string const lead = field.form == Form::list ? "- " : "your name for it: ";
    std::string fields, more; // what does not fit the line that is copied stands below it
    auto add = [](std::string& list, std::string const& entry) { list += (list.empty() ? "" : ", ") + entry; };
    for (auto const& f : inner.fields)
    {
        bool const in_words = f.form == Form::text && f.name != inner.short_form;
        if (!f.required && !in_words && in_short != nullptr)
            continue;
        auto const sample = sample_line(f);
        constexpr std::size_t around = 8; // braces, marks and a comma
        bool const fits = indent + characters(lead) + characters(fields) + characters(sample) + around <= columns;
        add(more.empty() && (f.required || fits) ? fields : more, sample);
    }
    if (in_short != nullptr)
        comment(indent, lead + in_short->sample());
    if (!fields.empty() && (in_short == nullptr || field.form == Form::list))
        comment(indent, lead + "{" + fields + "}");
    if (!more.empty())
        comment(indent, "also " + more);
}

void Sheet::field(std::string const& lead, FieldShape const& f, std::size_t indent, Start const& start)
{
    std::string line = lead + f.name + ":";
    for (auto const& [name, value] : start.known)
        if (name == f.name)
            line += " " + value;
    std::size_t const column = std::max(comment_column, indent + 2);
    line += std::string(line.size() < column ? column - line.size() : 1, ' ') + "# ";
    put(line, said_of(f), column);
    bool const named_records = f.form == Form::named && f.inner != nullptr;
    auto const begun = named_records ? starts(f.name, start.parts) : std::vector<Start>{};
    for (auto const& item : begun)
    {
        raw(std::string(indent + 2, ' ') + item.name + ":");
        record(*f.inner(), indent + 4, item);
    }
    bool const expanded = f.form == Form::list && is_gated(f.name) &&
                          !any_required(*f.inner()); // a blank does not pass for what is required
    if (f.form == Form::record)
        record(*f.inner(), indent + 2, {{}, {}, start.parts});
    else if (expanded)
        record(*f.inner(), indent + 4, {{}, {}, start.parts}, true);
    else if (begun.empty())
        examples(f, indent + 2);
}

void Sheet::record(RecordShape const& shape, std::size_t indent, Start const& start, bool in_list)
{
    bool first = in_list;
    bool after_group = false;
    for (auto const& f : shape.fields)
    {
        if (!is_wanted(shape.name, f.name, start.parts) || f.name == "found") // comes after the walk
            continue;
        bool const group = indent == 0 && (f.form == Form::named || f.form == Form::record);
        if (group || after_group)
            raw("");
        after_group = group;
        field(first ? std::string(indent - 2, ' ') + "- " : std::string(indent, ' '), f, indent, start);
        first = false;
    }
}

void write_head(Sheet& sheet, Parts const& parts)
{
    sheet.comment(0, "A walk around the equipment pad. Fill in what you saw and measured, each number with its unit.");
    sheet.comment(0, "Leave the rest blank: blank is 'not looked at', never 'fine'. Copy a group to add another, under "
                     "another name.");
    sheet.comment(0, "Doubt you know of is written '18 psi ± 1 psi'; otherwise the instrument's usual doubt is taken.");
    sheet.comment(0, "What a technician really found later stands at its item: 'found: [{was: motor bearings worn}, "
                     "{was_not: shaft seal leaking}]'.");
    sheet.comment(0, "Look, listen and measure from outside. What takes a licence stays shut: open, adjust, reset and "
                     "relight nothing.");
    bool const burns = parts.contains("heater") || parts.contains("gas_heater") || parts.contains("vent");
    if (burns)
        sheet.comment(
            0, "Smell of gas, or a carbon monoxide alarm: everybody out at once, touch no switch, call from outside.");
    bool const shocks =
        parts.contains("pump") || parts.contains("electrical") || parts.contains("pool") || parts.contains("spa");
    if (shocks)
        sheet.comment(0, "A tingle from water or metal: out and away, power off at the breaker by someone dry, call an "
                         "electrician.");
    if (parts.contains("drain"))
        sheet.comment(0, "A drain cover that is broken, loose or missing: pump off, everybody out of the water, nobody "
                         "goes back in.");
    sheet.raw("");
}

} // namespace

std::string field_sheet(std::vector<std::string> const& parts)
{
    Parts const chosen = chosen_parts(parts);
    Sheet sheet;
    write_head(sheet, chosen);
    sheet.record(Visit::declaration().shape(), 0, {{}, {}, chosen});
    return sheet.take();
}

} // namespace padwalk::visit
