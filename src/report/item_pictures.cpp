#include "item_pictures.hpp"

#include "balance_drawing.hpp"
#include "chlorine_drawing.hpp"
#include "curve_drawing.hpp"
#include "level_drawing.hpp"
#include "loop_drawing.hpp"
#include "saturation_drawing.hpp"
#include "section_drawing.hpp"
#include "vent_drawing.hpp"
#include "warming_drawing.hpp"

namespace padwalk::report
{
namespace
{

void keep(std::vector<Drawing>& to, Drawing drawing)
{
    if (!drawing.svg.empty())
        to.push_back(std::move(drawing));
}

PhotoRow::One photo_of(visit::Photo const& photo, Photos const* photos, Lexicon const& words)
{
    std::string const name = photo.caption.empty() ? photo.file : photo.caption;
    PhotoRow::One out{name, {}, nullptr};
    auto const found = photos == nullptr ? Photos::const_iterator() : photos->find(photo.file);
    if (photos == nullptr || found == photos->end())
        out.caption = words.filled("photo_file", photo.file) + (photo.caption.empty() ? "" : ": " + photo.caption);
    else if (found->second.data_uri.empty())
    {
        out.caption = words.filled("photo_missing", name);
        out.remark = photo.file + ": " + found->second.why_not;
    }
    else
    {
        out.shown = &found->second;
        out.remark = found->second.remark;
    }
    return out;
}

} // namespace

std::vector<Drawing> pictures_of(assess::Assessment const& a, std::size_t item, units::System system)
{
    std::vector<Drawing> out;
    auto const id = [&](std::string const& kind, std::size_t i)
    { return "item-" + std::to_string(item) + "-" + kind + "-" + std::to_string(i + 1); };
    for (std::size_t i = 0; i < a.loops.size(); ++i)
        if (a.loops[i].item == item)
        {
            if (!a.loops[i].parts.empty())
                keep(out, loop_drawing(a, a.loops[i], system, id("way", i)));
            keep(out, curve_drawing(a.loops[i], system, id("head", i)));
        }
    for (std::size_t i = 0; i < a.heaters.size(); ++i)
        if (a.heaters[i].item == item && a.heaters[i].balance)
            keep(out, balance_drawing(*a.heaters[i].balance, system, id("heat", i)));
    for (std::size_t i = 0; i < a.vents.size(); ++i)
        if (a.vents[i].item == item)
            keep(out, vent_drawing(a, a.vents[i], system, id("vent", i)));
    for (std::size_t i = 0; i < a.levels.size(); ++i)
        if (a.levels[i].item == item)
        {
            keep(out, level_drawing(a.levels[i], system, id("level", i)));
            keep(out, section_drawing(a.levels[i], system, id("wall", i)));
        }
    for (std::size_t i = 0; i < a.warmings.size(); ++i)
        if (a.warmings[i].water == item)
            keep(out, warming_drawing(a, a.warmings[i], system, id("warming", i)));
    return out;
}

std::vector<Drawing> water_pictures_of(assess::WaterReport const& report, std::size_t item, units::System system)
{
    std::vector<Drawing> out;
    for (auto const& sheet : report.waters)
    {
        if (sheet.item != item)
            continue;
        std::string const id = "item-" + std::to_string(item);
        if (sheet.saturation)
            keep(out, saturation_drawing(*sheet.saturation, system, id + "-saturation"));
        if (sheet.chlorine)
            keep(out, chlorine_drawing(*sheet.chlorine, system, id + "-chlorine"));
    }
    return out;
}

std::optional<PhotoRow> photos_of(assess::Assessment const& a, std::size_t item, Photos const* photos,
                                  Lexicon const& words)
{
    PhotoRow out;
    for (auto const& photo : a.items.at(item).photos)
        out.photos.push_back(photo_of(photo, photos, words));
    return out.photos.empty() ? std::nullopt : std::optional(std::move(out));
}

} // namespace padwalk::report
