#include "padwalk/chemistry/drift_rates.hpp"

namespace padwalk::chemistry
{

using fields::Record;

Record<TransferRow> const& TransferRow::declaration()
{
    static Record<TransferRow> const record =
        Record<TransferRow>("transfer", "velocity of carbon dioxide through a surface")
            .field("aeration", &TransferRow::aeration, "what stirs the surface")
            .required()
            .field("velocity", &TransferRow::velocity, "at a Schmidt number of 600")
            .required()
            .within("0 cm/h", "1000 cm/h")
            .field("spread", &TransferRow::spread, "standard uncertainty of its natural logarithm")
            .required()
            .within("0", "2")
            .field("source", &TransferRow::source, "where it comes from")
            .required();
    return record;
}

Record<SunRow> const& SunRow::declaration()
{
    static Record<SunRow> const record = Record<SunRow>("sun", "sun on the water, of a clear summer day's")
                                             .field("sun", &SunRow::sun, "how it lies")
                                             .required()
                                             .field("share", &SunRow::share, "share")
                                             .required()
                                             .within("0 %", "100 %")
                                             .field("source", &SunRow::source, "where it comes from")
                                             .required();
    return record;
}

Record<ShieldRow> const& ShieldRow::declaration()
{
    static Record<ShieldRow> const record = Record<ShieldRow>("shield", "what cyanurate leaves of the loss to sun")
                                                .field("cyanurate", &ShieldRow::cyanurate, "cyanurate")
                                                .required()
                                                .field("factor", &ShieldRow::factor, "share of bare chlorine's loss")
                                                .required()
                                                .within("0.00001", "1")
                                                .field("source", &ShieldRow::source, "where it comes from")
                                                .required();
    return record;
}

Record<Sunlight> const& Sunlight::declaration()
{
    static Record<Sunlight> const record =
        Record<Sunlight>("sunlight", "sun on chlorine without cyanurate")
            .field("hypochlorous_per_second", &Sunlight::hypochlorous_per_second, "rate of hypochlorous acid, 1/s")
            .required()
            .field("hypochlorite_per_second", &Sunlight::hypochlorite_per_second, "rate of hypochlorite, 1/s")
            .required()
            .field("source", &Sunlight::source, "of the rates")
            .required()
            .field("day_length", &Sunlight::day_length, "from sunrise to sunset")
            .required()
            .within("1 h", "24 h")
            .field("light_depth", &Sunlight::light_depth, "depth over which ultraviolet falls to 1/e")
            .required()
            .within("0.01 m", "100 m")
            .field("spread", &Sunlight::spread, "standard uncertainty of the logarithm of the loss")
            .required()
            .within("0", "2")
            .field("depth_source", &Sunlight::depth_source, "of day, depth and spread")
            .required()
            .field("sun", &Sunlight::sun, "how much sun")
            .required()
            .field("shield", &Sunlight::shield, "by cyanurate, none first")
            .required();
    return record;
}

Record<StandingLoss> const& StandingLoss::declaration()
{
    static Record<StandingLoss> const record =
        Record<StandingLoss>("standing loss", "chlorine that clean dark water uses up")
            .field("per_day", &StandingLoss::per_day, "share of what there is, as a rate")
            .required()
            .within("0", "10")
            .field("at", &StandingLoss::at, "water temperature")
            .required()
            .field("doubling", &StandingLoss::doubling, "warmth that doubles it")
            .required()
            .field("spread", &StandingLoss::spread, "standard uncertainty of its natural logarithm")
            .required()
            .within("0", "2")
            .field("source", &StandingLoss::source, "where it comes from")
            .required();
    return record;
}

Record<Cover> const& Cover::declaration()
{
    static Record<Cover> const record = Record<Cover>("cover", "what a shut floating cover lets through")
                                            .field("gas", &Cover::gas, "of the exchange of gas")
                                            .required()
                                            .field("light", &Cover::light, "of the light")
                                            .required()
                                            .field("source", &Cover::source, "where it comes from")
                                            .required();
    return record;
}

Record<DriftTable> const& DriftTable::declaration()
{
    static Record<DriftTable> const record =
        Record<DriftTable>("drift", "how fast pool water changes by itself")
            .field("carbon_dioxide", &DriftTable::carbon_dioxide, "carbon dioxide in the air")
            .required()
            .field("carbon_dioxide_source", &DriftTable::carbon_dioxide_source, "where it comes from")
            .required()
            .field("transfer", &DriftTable::transfer, "by what stirs the surface")
            .required()
            .field("wind_factor", &DriftTable::wind_factor, "cm/h per (m/s)2 at a Schmidt number of 660")
            .required()
            .field("wind_source", &DriftTable::wind_source, "where it comes from")
            .required()
            .field("sunlight", &DriftTable::sunlight, "sun on chlorine")
            .required()
            .field("standing_loss", &DriftTable::standing_loss, "loss in the dark")
            .required()
            .field("cover", &DriftTable::cover, "a floating cover")
            .required()
            .field("sources", &DriftTable::sources, "works cited");
    return record;
}

DriftTable drift_table(reference::Data const& data)
{
    return reference::read_table<DriftTable>(data, "chemistry/drift.yaml");
}

} // namespace padwalk::chemistry
