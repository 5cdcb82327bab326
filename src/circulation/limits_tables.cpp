#include "padwalk/circulation/limits.hpp"

namespace padwalk::circulation
{

using fields::Record;
using reference::Cited;

Record<TurnoverLimit> const& TurnoverLimit::declaration()
{
    static Record<TurnoverLimit> const record =
        Record<TurnoverLimit>("turnover limit", "how long one turnover may take")
            .field("where", &TurnoverLimit::where, "place or rule")
            .required()
            .field("water", &TurnoverLimit::water, "whose water")
            .required()
            .field("longest", &TurnoverLimit::longest, "no turnover may take longer")
            .within("10 min", "48 h")
            .field("longest_per_foot", &TurnoverLimit::longest_per_foot, "longest turnover for each foot of mean depth")
            .within("0.1 h", "6 h")
            .field("shortest", &TurnoverLimit::shortest, "an energy rule: no faster")
            .within("1 h", "24 h")
            .field("flow_always_allowed", &TurnoverLimit::flow_always_allowed,
                   "a flow that is allowed however small the pool")
            .within("1 gpm", "200 gpm")
            .field("note", &TurnoverLimit::note, "what else the rule says")
            .field("source", &TurnoverLimit::source, "where it stands")
            .required();
    return record;
}

Record<VelocityLimit> const& VelocityLimit::declaration()
{
    static Record<VelocityLimit> const record =
        Record<VelocityLimit>("velocity limit", "how fast water may run in pipes and grates")
            .field("where", &VelocityLimit::where, "place or rule")
            .required()
            .field("residential", &VelocityLimit::residential, "speaks of homes")
            .required()
            .field("suction", &VelocityLimit::suction, "in suction pipes")
            .within("0.5 ft/s", "20 ft/s")
            .field("discharge", &VelocityLimit::discharge, "in return and pressure pipes")
            .within("0.5 ft/s", "20 ft/s")
            .field("copper", &VelocityLimit::copper, "in copper pipes")
            .within("0.5 ft/s", "20 ft/s")
            .field("grate", &VelocityLimit::grate, "through the openings of a drain grate")
            .within("0.1 ft/s", "10 ft/s")
            .field("note", &VelocityLimit::note, "what else the rule says")
            .field("source", &VelocityLimit::source, "where it stands")
            .required();
    return record;
}

Record<FilterRateLimit> const& FilterRateLimit::declaration()
{
    static Record<FilterRateLimit> const record =
        Record<FilterRateLimit>("filter rate", "flow that a filter's area may carry")
            .field("medium", &FilterRateLimit::medium, "what filters")
            .required()
            .field("kind", &FilterRateLimit::kind, "as the rule calls it")
            .required()
            .field("where", &FilterRateLimit::where, "place or rule")
            .required()
            .field("residential", &FilterRateLimit::residential, "speaks of homes")
            .required()
            .field("greatest_per_square_foot", &FilterRateLimit::greatest_per_square_foot,
                   "greatest flow through one square foot")
            .within("0.05 gpm", "50 gpm")
            .required()
            .field("backwash_per_square_foot", &FilterRateLimit::backwash_per_square_foot,
                   "backwash flow through one square foot")
            .within("1 gpm", "50 gpm")
            .field("note", &FilterRateLimit::note, "what else the rule says")
            .field("source", &FilterRateLimit::source, "where it stands")
            .required();
    return record;
}

Record<CleaningRise> const& CleaningRise::declaration()
{
    static Record<CleaningRise> const record =
        Record<CleaningRise>("cleaning rise", "pressure rise over the clean reading from which a filter wants cleaning")
            .field("where", &CleaningRise::where, "place or rule")
            .required()
            .field("medium", &CleaningRise::medium, "what filters; any if left out")
            .field("low", &CleaningRise::low, "from")
            .within("1 psi", "30 psi")
            .required()
            .field("high", &CleaningRise::high, "to")
            .within("1 psi", "30 psi")
            .required()
            .field("note", &CleaningRise::note, "what it means")
            .field("source", &CleaningRise::source, "where it stands")
            .required();
    return record;
}

Record<FullLoadCurrent> const& FullLoadCurrent::declaration()
{
    static Record<FullLoadCurrent> const record =
        Record<FullLoadCurrent>("full-load current", "single-phase motor current for sizing wire")
            .field("shaft", &FullLoadCurrent::shaft, "rated power")
            .within("0.1 hp", "10 hp")
            .required()
            .field("at_115_volt", &FullLoadCurrent::at_115_volt, "at 115 V")
            .within("0.1 A", "200 A")
            .required()
            .field("at_200_volt", &FullLoadCurrent::at_200_volt, "at 200 V")
            .within("0.1 A", "200 A")
            .required()
            .field("at_208_volt", &FullLoadCurrent::at_208_volt, "at 208 V")
            .within("0.1 A", "200 A")
            .required()
            .field("at_230_volt", &FullLoadCurrent::at_230_volt, "at 230 V")
            .within("0.1 A", "200 A")
            .required();
    return record;
}

Record<PipeBore> const& PipeBore::declaration()
{
    static Record<PipeBore> const record = Record<PipeBore>("bore", "inside diameter of plastic pipe")
                                               .field("nominal", &PipeBore::nominal, "trade size")
                                               .within("0.25 in", "12 in")
                                               .required()
                                               .field("schedule_40", &PipeBore::schedule_40, "bore")
                                               .within("0.2 in", "13 in")
                                               .required()
                                               .field("schedule_80", &PipeBore::schedule_80, "bore")
                                               .within("0.2 in", "13 in")
                                               .required();
    return record;
}

Record<Fitting> const& Fitting::declaration()
{
    static Record<Fitting> const record =
        Record<Fitting>("fitting", "loss of one fitting")
            .field("bores", &Fitting::bores, "equivalent length in bores, to be multiplied by fT")
            .within("0", "1000")
            .field("coefficient", &Fitting::coefficient, "or the loss coefficient itself")
            .within("0", "100")
            .field("source", &Fitting::source, "where it stands")
            .required();
    return record;
}

Record<TurbulentFactor> const& TurbulentFactor::declaration()
{
    static Record<TurbulentFactor> const record =
        Record<TurbulentFactor>("turbulent factor", "friction factor fT of one pipe size in full turbulence")
            .field("nominal", &TurbulentFactor::nominal, "trade size")
            .within("0.25 in", "12 in")
            .required()
            .field("factor", &TurbulentFactor::factor, "fT")
            .within("0.005", "0.1")
            .required();
    return record;
}

Record<Rule> const& Rule::declaration()
{
    static Record<Rule> const record = Record<Rule>("rule", "a number of the trade")
                                           .field("value", &Rule::value, "the number")
                                           .required()
                                           .field("meaning", &Rule::meaning, "what it is")
                                           .required()
                                           .field("source", &Rule::source, "where it comes from")
                                           .required();
    return record;
}

Record<Pipes> const& Pipes::declaration()
{
    static Record<Pipes> const record =
        Record<Pipes>("pipes", "bores and fittings of plastic pipe")
            .field("bores", &Pipes::bores, "by trade size")
            .required()
            .field("bores_source", &Pipes::bores_source, "where the bores stand")
            .required()
            .field("turbulent_factors", &Pipes::turbulent_factors, "fT by trade size")
            .required()
            .field("turbulent_factors_source", &Pipes::turbulent_factors_source, "where they stand")
            .required()
            .field("fittings", &Pipes::fittings, "by name")
            .required();
    return record;
}

Record<Rules> const& Rules::declaration()
{
    static Record<Rules> const record =
        Record<Rules>("rules", "numbers of the trade")
            .field("kidney_factor", &Rules::kidney_factor, "area of a kidney")
            .required()
            .field("good_suction_ratio", &Rules::good_suction_ratio, "suction head available over required")
            .required()
            .field("light_motor_load", &Rules::light_motor_load,
                   "share of rated current below which a motor is lightly loaded")
            .required();
    return record;
}

namespace
{

/// A file of this room holds tables of rows and may hold the works it cites.
template <class Row> struct File
{
    std::vector<Row> rows;
    fields::Named<reference::Source> sources;
    static Record<File> const& declaration()
    {
        static Record<File> const record = Record<File>("file", "rows and the works they cite")
                                               .field("rows", &File::rows, "the table")
                                               .required()
                                               .field("sources", &File::sources, "works cited");
        return record;
    }
};

struct FilterFile
{
    std::vector<FilterRateLimit> rates;
    std::vector<CleaningRise> cleaning;
    fields::Named<reference::Source> sources;
    static Record<FilterFile> const& declaration()
    {
        static Record<FilterFile> const record = Record<FilterFile>("file", "filter rates and cleaning rises")
                                                     .field("rates", &FilterFile::rates, "flow over area")
                                                     .required()
                                                     .field("cleaning", &FilterFile::cleaning, "when to clean")
                                                     .required()
                                                     .field("sources", &FilterFile::sources, "works cited");
        return record;
    }
};

struct CurrentFile
{
    Cited source;
    std::vector<FullLoadCurrent> rows;
    fields::Named<reference::Source> sources;
    static Record<CurrentFile> const& declaration()
    {
        static Record<CurrentFile> const record = Record<CurrentFile>("file", "full-load currents")
                                                      .field("source", &CurrentFile::source, "of all rows")
                                                      .required()
                                                      .field("rows", &CurrentFile::rows, "by rated power")
                                                      .required()
                                                      .field("sources", &CurrentFile::sources, "works cited");
        return record;
    }
};

template <class Inner> struct Whole
{
    Inner table;
    fields::Named<reference::Source> sources;
    static Record<Whole> const& declaration()
    {
        static Record<Whole> const record = Record<Whole>("file", "one table and the works it cites")
                                                .field("table", &Whole::table, "the table")
                                                .required()
                                                .field("sources", &Whole::sources, "works cited");
        return record;
    }
};

} // namespace

std::vector<TurnoverLimit> turnover_limits(reference::Data const& data)
{
    return reference::read_table<File<TurnoverLimit>>(data, "circulation/turnover.yaml").rows;
}

std::vector<VelocityLimit> velocity_limits(reference::Data const& data)
{
    return reference::read_table<File<VelocityLimit>>(data, "circulation/velocity.yaml").rows;
}

std::vector<FilterRateLimit> filter_rate_limits(reference::Data const& data)
{
    return reference::read_table<FilterFile>(data, "circulation/filters.yaml").rates;
}

std::vector<CleaningRise> cleaning_rises(reference::Data const& data)
{
    return reference::read_table<FilterFile>(data, "circulation/filters.yaml").cleaning;
}

std::vector<FullLoadCurrent> full_load_currents(reference::Data const& data)
{
    return reference::read_table<CurrentFile>(data, "circulation/motor_currents.yaml").rows;
}

Pipes pipes(reference::Data const& data)
{
    return reference::read_table<Whole<Pipes>>(data, "circulation/pipes.yaml").table;
}

Rules rules(reference::Data const& data)
{
    return reference::read_table<Whole<Rules>>(data, "circulation/rules.yaml").table;
}

} // namespace padwalk::circulation
