#include "loop_drawing.hpp"

#include "loop_symbols.hpp"
#include "loop_words.hpp"
#include "plain.hpp"
#include "wording.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using assess::LoopPlace;

// The sheet is as wide as a phone; one unit there is about one pixel.
constexpr double sheet_width = 360, branch_x = 22, pipe_x = 62, mark_x = 102, text_left = 122, text_right = 354;
constexpr double text_room = text_right - text_left;
constexpr double gap = 32; ///< between the parts, where the pipe shows its direction
constexpr std::size_t most_faults = 3;

constexpr Lettering name_type{14, true, "word"};
constexpr Lettering word_type{12.5, false, "word"};
constexpr Lettering value_type{13, true, "word"};
constexpr Lettering quiet_type{12.5, false, "word quiet"};
constexpr Lettering fault_type{13, true, "word alert"};

bool is_branch(PlaceOnLoop const& place)
{
    return place.part != nullptr && (place.part->place == LoopPlace::roof || place.part->place == LoopPlace::bypass);
}

bool is_heater(PlaceOnLoop const& place)
{
    return place.part != nullptr && place.part->place == LoopPlace::heater;
}

class LoopPicture
{
public:
    LoopPicture(assess::Assessment const& a, assess::LoopEntry const& loop, units::System system, std::string id)
        : a_(a), loop_(loop), system_(system), places_(places_on(a, loop)), sheet_(std::move(id), sheet_width),
          spans_(places_.size())
    {
    }

    [[nodiscard]] std::string drawn(std::string const& title, std::vector<std::string> const& says)
    {
        y_ = 8;
        water("From the water");
        double const from = 8 + 28; // the floor of the water
        for (std::size_t i = 0; i < places_.size(); ++i)
            if (places_[i].part != nullptr)
                part(i);
        branches();
        y_ += gap;
        draw_arrow(sheet_, {pipe_x, y_});
        sheet_.line({pipe_x, from}, {pipe_x, y_ - 6}, "pipe", Layer::ground);
        y_ += 6;
        water("Back to the water");
        if (!places_.empty() && places_.back().part == nullptr)
            elsewhere(places_.back());
        return sheet_.svg(y_ + 6, title, says);
    }

private:
    assess::Assessment const& a_;
    assess::LoopEntry const& loop_;
    units::System system_;
    std::vector<PlaceOnLoop> places_;
    SvgSheet sheet_;
    double y_ = 0.0;
    std::vector<Box> spans_; ///< of the places, from above to below

    void water(std::string_view what)
    {
        draw_water(sheet_, {pipe_x, y_ + 16});
        double next = sheet_.write_lines({text_left, y_ + 20}, lines_within(what, text_room, name_type), name_type);
        if (loop_.flow && y_ < gap)
            next = sheet_.write_lines({text_left, next},
                                      lines_within("flow " + flow_text(*loop_.flow, system_), text_room, word_type),
                                      word_type);
        y_ = std::max(y_ + 36, next - 6);
    }

    void part(std::size_t i)
    {
        PlaceOnLoop const& place = places_[i];
        y_ += gap;
        draw_arrow(sheet_, {pipe_x, y_ - 12});
        spans_[i].top = y_ - 6;
        double const x = is_branch(place) ? branch_x : pipe_x;
        draw_symbol(sheet_, place.part->place, {x, y_ + symbol_half}, place.part->assumed);
        name_of(*place.part);
        belongings(place, x);
        spans_[i].bottom = y_ + 6;
    }

    // A bypass takes in the heater beside it.
    void branches()
    {
        for (std::size_t i = 0; i < places_.size(); ++i)
        {
            if (!is_branch(places_[i]))
                continue;
            std::size_t first = i, last = i;
            if (places_[i].part->place == LoopPlace::bypass)
            {
                if (i > 0 && is_heater(places_[i - 1]))
                    first = i - 1;
                else if (i + 1 < places_.size() && is_heater(places_[i + 1]))
                    last = i + 1;
            }
            double const top = spans_[first].top, bottom = spans_[last].bottom;
            sheet_.curve({{pipe_x, top}, {branch_x, top}, {branch_x, bottom}, {pipe_x, bottom}}, "pipe", Layer::ground);
        }
    }

    void name_of(assess::LoopPart const& part)
    {
        std::string const name = capitalised(part.name.empty() ? std::string(place_word(part.place)) : part.name);
        auto const lines = lines_within(name, text_room, name_type);
        double next = sheet_.write_lines({text_left, y_ + 14}, lines, name_type);
        std::string const about = part.detail + (part.assumed ? (part.detail.empty() ? "assumed" : ", assumed") : "");
        next = sheet_.write_lines({text_left, next}, lines_within(about, text_room, quiet_type), quiet_type);
        y_ = std::max(y_ + 2 * symbol_half, next - 9);
    }

    void belongings(PlaceOnLoop const& place, double from_x)
    {
        for (auto const* r : place.readings)
            reading(*r, place.part != nullptr ? from_x : mark_x);
        for (std::size_t i = 0; i < std::min(most_faults, place.faults.size()); ++i)
            fault(*place.faults[i], place.part != nullptr ? from_x : mark_x);
        if (place.faults.size() > most_faults)
        {
            std::size_t const left = place.faults.size() - most_faults;
            y_ =
                sheet_.write_lines({text_left, y_ + 19}, {"and " + std::to_string(left) + " less likely"}, quiet_type) -
                9;
        }
    }

    /// A label, and at the right the value; below each other where they don't fit. Returns the next base line.
    double pair(double base, std::string_view label, Lettering const& label_type, std::string_view value,
                Lettering const& type)
    {
        double const room = text_room - text_width(value, type) - 10;
        constexpr double too_narrow = 84;
        bool const beside = room >= too_narrow && lines_within(label, room, label_type).size() <= 2;
        double next = sheet_.write_lines({text_left, base}, lines_within(label, beside ? room : text_room, label_type),
                                         label_type);
        if (beside)
        {
            sheet_.write({text_right, base}, value, type, Anchor::end);
            return next;
        }
        for (auto const& line : lines_within(value, text_room, type, 3))
        {
            sheet_.write({text_right, next}, line, type, Anchor::end);
            next += type.line_height();
        }
        return next;
    }

    void reading(assess::ReadingAgainstSound const& r, double from_x)
    {
        y_ += 12;
        Spot const mark{mark_x, y_ + 9};
        if (from_x < mark_x)
        {
            sheet_.line({from_x, mark.y}, {mark_x - 10, mark.y}, "fine", Layer::ground);
            sheet_.circle({from_x, mark.y}, 2.5, "solid");
        }
        draw_instrument(sheet_, mark, r.reading.measure);
        double next = pair(y_ + 13, r.label, word_type, taken_text(r, system_), value_type);
        next = pair(next, "a sound loop", quiet_type, expected_text(r, system_), quiet_type);
        constexpr double scale_width = 76;
        next += 3;
        draw_scale(sheet_, {text_left, next - 10, text_left + scale_width, next}, r.off, r.odd);
        Lettering const& type = r.odd || !(std::abs(r.off) <= doubts_allowed) ? fault_type : word_type;
        double const left = text_left + scale_width + 10;
        next = sheet_.write_lines({left, next - 1}, lines_within(off_words(r), text_right - left, type, 4), type);
        y_ = next - 10;
    }

    void fault(assess::LoopFault const& f, double from_x)
    {
        auto const& cause = a_.causes.at(f.cause);
        constexpr double inset = 10;
        auto const name = lines_within(capitalised(cause.name), text_room - 2 * inset, fault_type, 4);
        auto const odds = lines_within(chance(cause.probability), text_room - 2 * inset, word_type);
        y_ += 10;
        Box box{text_left, y_, text_right, y_};
        double next = sheet_.write_lines({text_left + inset, y_ + 19}, name, fault_type);
        next = sheet_.write_lines({text_left + inset, next}, odds, word_type);
        box.bottom = next - 6;
        double const foot = (box.top + box.bottom) / 2 + 11;
        sheet_.rectangle(box, 4, "box alert", Layer::ground);
        sheet_.line({from_x, foot}, {text_left, foot}, "edge alert broken", Layer::ground);
        if (from_x < mark_x)
            for (double const way : {-1.0, 1.0})
                sheet_.line({from_x - 5, foot - 5 * way}, {from_x + 5, foot + 5 * way}, "edge alert");
        draw_flag(sheet_, {mark_x - 4, foot});
        y_ = box.bottom;
    }

    void elsewhere(PlaceOnLoop const& place)
    {
        y_ += gap;
        draw_symbol(sheet_, LoopPlace::gauge, {pipe_x, y_ + symbol_half}, false);
        y_ = sheet_.write_lines({text_left, y_ + 21}, {"Not tied to one part"}, name_type);
        belongings(place, pipe_x);
    }
};

std::string faults_text(assess::Assessment const& a, PlaceOnLoop const& place)
{
    std::vector<std::string> names;
    for (auto const* fault : place.faults)
        names.push_back(fault_text(a, *fault));
    return joined(names, "; ", "; ");
}

std::string place_name(PlaceOnLoop const& place)
{
    return place.part == nullptr
               ? "not tied to one part"
               : (place.part->name.empty() ? std::string(place_word(place.part->place)) : place.part->name);
}

std::vector<std::string> way_in_words(assess::Assessment const& a, std::vector<PlaceOnLoop> const& places)
{
    std::vector<std::string> way, out;
    for (auto const& place : places)
        if (place.part != nullptr)
            way.push_back(part_text(*place.part));
    out.push_back("The way of the water: " + (way.empty() ? "" : joined(way, " → ", " → ") + " → ") +
                  "back to the water.");
    for (auto const& place : places)
        if (!place.faults.empty())
            out.push_back("What may be wrong, " + place_name(place) + ": " + faults_text(a, place) + ".");
    return out;
}

std::string caption_for(assess::LoopEntry const& loop)
{
    bool const assumed =
        std::any_of(loop.parts.begin(), loop.parts.end(), [](assess::LoopPart const& part) { return part.assumed; });
    std::string out = "As the water runs, from top to bottom.";
    if (assumed)
        out += " Dashed outlines are assumed.";
    if (!loop.faults.empty())
        out += " A flag stands where a cause named here would sit.";
    if (!loop.readings.empty())
        out +=
            " Small scales: the middle is a sound loop, the mark the reading (low to the left), the shaded part what "
            "the doubts allow.";
    return out;
}

} // namespace

Drawing loop_drawing(assess::Assessment const& a, assess::LoopEntry const& loop, units::System system,
                     std::string const& id)
{
    auto const places = places_on(a, loop);
    Drawing out;
    out.in_words = way_in_words(a, places);
    auto says = out.in_words;
    for (auto const& reading : loop.readings)
        says.push_back(reading.label + ": " + taken_text(reading, system) + ", a sound loop " +
                       expected_text(reading, system) + ", " + off_words(reading) + ".");
    std::string const name = loop.item < a.items.size() ? a.items[loop.item].name : std::string("the loop");
    out.svg = LoopPicture(a, loop, system, id).drawn("The way of the water: " + name, says);
    out.caption = caption_for(loop);
    return out;
}

} // namespace padwalk::report
