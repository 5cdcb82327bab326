#include "padwalk/chemistry/sanitizer.hpp"

#include "padwalk/figures/model.hpp"
#include "padwalk/numerics/number_text.hpp"
#include "padwalk/physics/range.hpp"
#include "padwalk/units/definitions.hpp"

#include <cmath>

namespace padwalk::chemistry
{

using fields::Record;

Record<IncidentRow> const& IncidentRow::declaration()
{
    static Record<IncidentRow> const record =
        Record<IncidentRow>("incident", "concentration times time against what got into the water")
            .field("incident", &IncidentRow::incident, "what happened")
            .required()
            .field("stabilized", &IncidentRow::stabilized, "with cyanurate in the water")
            .required()
            .field("organism", &IncidentRow::organism, "the germ it is reckoned for")
            .required()
            .field("logs", &IncidentRow::logs, "powers of ten by which it is reduced")
            .required()
            .field("ct", &IncidentRow::ct, "free chlorine times time, mg/L x min")
            .required()
            .field("free_chlorine", &IncidentRow::free_chlorine, "at least")
            .required()
            .field("source", &IncidentRow::source, "where it comes from")
            .required();
    return record;
}

Record<ContactTable> const& ContactTable::declaration()
{
    static Record<ContactTable> const record =
        Record<ContactTable>("contact time", "published times after an incident and where they hold")
            .field("incidents", &ContactTable::incidents, "by incident")
            .required()
            .field("ph_high", &ContactTable::ph_high, "pH at most")
            .required()
            .field("temperature_low", &ContactTable::temperature_low, "water at least so warm")
            .required()
            .field("cyanurate_high", &ContactTable::cyanurate_high, "cyanurate at most")
            .required()
            .field("conditions_source", &ContactTable::conditions_source, "where they come from")
            .required()
            .field("sources", &ContactTable::sources, "works cited");
    return record;
}

ContactTable contact_table(reference::Data const& data)
{
    return reference::read_table<ContactTable>(data, "chemistry/contact_time.yaml");
}

namespace
{

constexpr double mg_per_litre = 1e-3; // kg/m3

std::string ppm(double si)
{
    return numerics::number_text(si / mg_per_litre, 3) + " ppm";
}

void require_conditions(ChlorineReadings const& r, ContactTable const& table)
{
    std::string wrong;
    auto const add = [&](bool holds, std::string const& text)
    {
        if (!holds)
            wrong += (wrong.empty() ? "" : "; ") + text;
    };
    add(r.cyanurate <= table.cyanurate_high, "dilute with fresh water until cyanurate is at most " +
                                                 ppm(units::in_si(table.cyanurate_high)) +
                                                 ", as it holds the chlorine back; no published time holds above");
    add(r.ph <= table.ph_high, "bring pH to " + numerics::number_text(table.ph_high.value()) + " or less");
    add(r.temperature >= table.temperature_low,
        "the published times are for water of 77 °F (25 °C) or warmer; colder water takes longer");
    if (!wrong.empty())
        throw figures::NotComputed("first: " + wrong);
}

IncidentRow const& row_of(Incident incident, bool stabilized, ContactTable const& table)
{
    for (auto const& row : table.incidents)
        if (row.incident == incident && row.stabilized == stabilized)
            return row;
    throw std::logic_error("data/chemistry/contact_time.yaml lacks a row");
}

std::string time_text(units::Duration time)
{
    double const minutes = units::in_si(time) / units::exact::minute;
    if (minutes < 120)
        return numerics::number_text(std::ceil(minutes - 1e-9)) + " min";
    return numerics::number_text(std::ceil(minutes / 6 - 1e-9) / 10, 4) + " h";
}

} // namespace

ContactTime contact_time(Incident incident, ChlorineReadings const& r, ContactTable const& table)
{
    require_conditions(r, table);
    IncidentRow const& row = row_of(incident, units::in_si(r.cyanurate) > 0, table);
    if (r.free_chlorine < row.free_chlorine)
        throw figures::NotComputed("first: raise free chlorine to at least " + ppm(units::in_si(row.free_chlorine)));
    double const minutes = row.ct.value() / (units::in_si(r.free_chlorine) / mg_per_litre);
    return {row.ct, units::of_si<units::Duration>(minutes * units::exact::minute), row};
}

std::string contact_in_words(ContactTime const& time, ChlorineReadings const& r)
{
    std::string text = "close the pool to everyone; hold " + ppm(units::in_si(r.free_chlorine)) + " for " +
                       time_text(time.time) + " (" + numerics::number_text(time.ct.value()) + " mg/L x min, " +
                       time.row.organism + " down by " + numerics::number_text(time.row.logs.value()) +
                       " powers of ten), filter running; test at intervals and start again if it falls. Open when the "
                       "time is over and chlorine and pH are back in their range";
    if (r.free_chlorine > units::of_si<units::AsChlorine>(10 * mg_per_litre))
        text += "; above 10 ppm dilute the sample, as the colour of the usual test bleaches";
    if (time.row.source.seen == reference::Seen::memory)
        text += "; this figure is from memory, not confirmed";
    return text + ". The health department's rule for the place goes before this one: ask it";
}

units::Number giardia_contact(units::Number logs, units::AsChlorine free_chlorine, units::Ph ph,
                              units::Temperature water)
{
    double const c = units::in_si(free_chlorine) / mg_per_litre;
    double const t = water.value() - units::exact::celsius_zero;
    physics::require_within({6, 9, "", "smith-1995"}, ph.value(), "pH");
    physics::require_within({0.5, 25, "°C", "smith-1995"}, water, "water temperature");
    physics::require_within({0, 4, "mg/L", "smith-1995"}, c, "free chlorine");
    double const each = t < 12.5 ? 0.353 * (12.006 + std::exp(2.46 - 0.073 * t + 0.125 * c + 0.389 * ph.value()))
                                 : 0.361 * (-2.216 + std::exp(2.69 - 0.065 * t + 0.111 * c + 0.361 * ph.value()));
    return logs * each;
}

} // namespace padwalk::chemistry
