#include "padwalk/venting/combustion_air.hpp"

#include "padwalk/figures/model.hpp"

#include <algorithm>
#include <stdexcept>

namespace padwalk::venting
{

using fields::Record;

Record<VolumeRule> const& VolumeRule::declaration()
{
    static Record<VolumeRule> const record = Record<VolumeRule>("room", "the room that counts as large enough")
                                                 .field("volume", &VolumeRule::volume, "room")
                                                 .required()
                                                 .field("per", &VolumeRule::per, "for each such input")
                                                 .required()
                                                 .field("source", &VolumeRule::source, "where it comes from")
                                                 .required();
    return record;
}

Record<AirChangeRule> const& AirChangeRule::declaration()
{
    static Record<AirChangeRule> const record =
        Record<AirChangeRule>("air_changes", "room by known air changes")
            .field("natural", &AirChangeRule::natural, "over air changes an hour, natural draft")
            .required()
            .field("fan", &AirChangeRule::fan, "over air changes an hour, fan")
            .required()
            .field("per", &AirChangeRule::per, "for each such input")
            .required()
            .field("most", &AirChangeRule::most, "air changes an hour that count at most")
            .required()
            .field("source", &AirChangeRule::source, "where it comes from")
            .required();
    return record;
}

Record<OpeningRule> const& OpeningRule::declaration()
{
    static Record<OpeningRule> const record = Record<OpeningRule>("opening", "free area of each opening")
                                                  .field("air", &OpeningRule::air, "where the air comes from")
                                                  .required()
                                                  .field("area", &OpeningRule::area, "free area")
                                                  .required()
                                                  .field("per", &OpeningRule::per, "for each such input")
                                                  .required()
                                                  .field("least", &OpeningRule::least, "and never less than")
                                                  .field("note", &OpeningRule::note, "what else to know")
                                                  .field("source", &OpeningRule::source, "where it comes from")
                                                  .required();
    return record;
}

Record<LouvreShare> const& LouvreShare::declaration()
{
    static Record<LouvreShare> const record = Record<LouvreShare>("louvre", "share of an opening that stays free")
                                                  .field("louvre", &LouvreShare::louvre, "what stands in it")
                                                  .required()
                                                  .field("free", &LouvreShare::free, "free share")
                                                  .required()
                                                  .field("note", &LouvreShare::note, "what else to know")
                                                  .field("source", &LouvreShare::source, "where it comes from")
                                                  .required();
    return record;
}

Record<WordedRule> const& WordedRule::declaration()
{
    static Record<WordedRule> const record = Record<WordedRule>("rule", "a rule in words")
                                                 .field("rule", &WordedRule::rule, "what it asks")
                                                 .required()
                                                 .field("source", &WordedRule::source, "where it comes from")
                                                 .required();
    return record;
}

Record<CombustionAirRules> const& CombustionAirRules::declaration()
{
    static Record<CombustionAirRules> const record =
        Record<CombustionAirRules>("combustion_air", "air for burners in a room")
            .field("room", &CombustionAirRules::room, "room that needs no openings")
            .required()
            .field("air_changes", &CombustionAirRules::air_changes, "the same by known air changes")
            .required()
            .field("openings", &CombustionAirRules::openings, "free area of each opening")
            .required()
            .field("louvres", &CombustionAirRules::louvres, "what louvres leave free")
            .required()
            .field("also", &CombustionAirRules::also, "rules without a figure the model needs")
            .field("sources", &CombustionAirRules::sources, "works cited");
    return record;
}

OpeningRule const& CombustionAirRules::opening(AirSource air) const
{
    for (auto const& rule : openings)
        if (rule.air == air)
            return rule;
    throw std::logic_error("venting/combustion_air.yaml has no opening rule for an air source");
}

LouvreShare const& CombustionAirRules::louvre(Louvre kind) const
{
    for (auto const& row : louvres)
        if (row.louvre == kind)
            return row;
    throw std::logic_error("venting/combustion_air.yaml has no free share for a louvre");
}

CombustionAirRules combustion_air_rules(reference::Data const& data)
{
    return reference::read_table<CombustionAirRules>(data, "venting/combustion_air.yaml");
}

units::Volume volume_needed(units::Power input, VolumeRule const& rule)
{
    return rule.volume * (input / rule.per).value();
}

units::Volume volume_needed(units::Power input, units::Number changes_an_hour, bool by_fan, AirChangeRule const& rule)
{
    if (!(changes_an_hour.value() > 0))
        throw figures::NotComputed("no air changes: no room is large enough, the air must come from outdoors");
    double const changes = std::min(changes_an_hour.value(), rule.most.value());
    return (by_fan ? rule.fan : rule.natural) * ((input / rule.per).value() / changes);
}

units::Area opening_needed(units::Power input, OpeningRule const& rule)
{
    units::Area const area = rule.area * (input / rule.per).value();
    return rule.least ? std::max(area, *rule.least) : area;
}

} // namespace padwalk::venting
