#include "padwalk/heating/fired_heater.hpp"

#include <stdexcept>

namespace padwalk::heating
{

using fields::Record;

Record<HeaterRule> const& HeaterRule::declaration()
{
    static Record<HeaterRule> const record = Record<HeaterRule>("rule", "a judged or cited figure")
                                                 .field("value", &HeaterRule::value, "the figure")
                                                 .required()
                                                 .field("meaning", &HeaterRule::meaning, "what it is")
                                                 .required()
                                                 .field("source", &HeaterRule::source, "where it comes from")
                                                 .required();
    return record;
}

Record<PlateState> const& PlateState::declaration()
{
    static Record<PlateState> const record = Record<PlateState>("plate", "where the figures on a plate hold")
                                                 .field("air", &PlateState::air, "air into the burner")
                                                 .required()
                                                 .field("inlet", &PlateState::inlet, "water going in")
                                                 .required()
                                                 .field("rise", &PlateState::rise, "outlet less inlet")
                                                 .required()
                                                 .field("source", &PlateState::source, "where it comes from")
                                                 .required();
    return record;
}

Record<MonoxideRule> const& MonoxideRule::declaration()
{
    using M = MonoxideRule;
    static Record<M> const record =
        Record<M>("monoxide", "rise of carbon monoxide, air free")
            .field("sound", &M::sound, "of a sound burner")
            .required()
            .field("most", &M::most, "where it levels off")
            .required()
            .field("short_below", &M::short_below, "excess air under which it rises")
            .required()
            .field("short_tenfold", &M::short_tenfold, "less excess air for ten times as much")
            .required()
            .field("recirculated_tenfold", &M::recirculated_tenfold, "flue gas in the air for ten times as much")
            .required()
            .field("over_fired_tenfold", &M::over_fired_tenfold, "input over the plate's for ten times as much")
            .required()
            .field("source", &M::source, "where it comes from")
            .required();
    return record;
}

Record<HeaterFaultRule> const& HeaterFaultRule::declaration()
{
    using F = HeaterFaultRule;
    static Record<F> const record = Record<F>("fault", "what one fault does at its worst")
                                        .field("fault", &F::fault, "which")
                                        .required()
                                        .field("side", &F::side, "the side it belongs to")
                                        .required()
                                        .field("name", &F::name, "in words")
                                        .required()
                                        .field("worst", &F::worst, "at severity 1")
                                        .required()
                                        .field("mildest", &F::mildest, "severity from which it is called a fault")
                                        .required()
                                        .field("meaning", &F::meaning, "what the worst is")
                                        .required()
                                        .field("source", &F::source, "where it comes from")
                                        .required();
    return record;
}

Record<HeaterDoubtRule> const& HeaterDoubtRule::declaration()
{
    using D = HeaterDoubtRule;
    static Record<D> const record = Record<D>("doubt", "how badly something is known of a heater")
                                        .field("what", &D::what, "of what")
                                        .required()
                                        .field("spread", &D::spread, "of its natural logarithm")
                                        .required()
                                        .field("source", &D::source, "where it comes from")
                                        .required();
    return record;
}

Record<HeaterGaugeFailure> const& HeaterGaugeFailure::declaration()
{
    using F = HeaterGaugeFailure;
    static Record<F> const record = Record<F>("failure", "how far off a broken instrument may read")
                                        .field("gauge", &F::gauge, "which instrument")
                                        .required()
                                        .field("by", &F::by, "one standard deviation")
                                        .field("share", &F::share, "the same as a share of what it should show")
                                        .field("source", &F::source, "where it comes from")
                                        .required();
    return record;
}

Record<FiredHeaterTable> const& FiredHeaterTable::declaration()
{
    using T = FiredHeaterTable;
    static Record<T> const record = Record<T>("fired heater", "how a gas heater burns and gives heat")
                                        .field("plate", &T::plate, "where a plate's figures hold")
                                        .required()
                                        .field("excess_air_natural", &T::excess_air_natural, "with natural draft")
                                        .required()
                                        .field("excess_air_fan", &T::excess_air_fan, "with a fan")
                                        .required()
                                        .field("jacket", &T::jacket, "lost through the casing")
                                        .required()
                                        .field("gas_exponent", &T::gas_exponent, "of gas flow")
                                        .required()
                                        .field("water_exponent", &T::water_exponent, "of water flow")
                                        .required()
                                        .field("water_share", &T::water_share, "of the resistance")
                                        .required()
                                        .field("bypass", &T::bypass, "water beside the tubes")
                                        .required()
                                        .field("soot_air", &T::soot_air, "air that soot keeps out")
                                        .required()
                                        .field("least_air", &T::least_air, "for a flame")
                                        .required()
                                        .field("monoxide", &T::monoxide, "carbon monoxide")
                                        .required()
                                        .field("oxygen_low", &T::oxygen_low, "in the dry gas: short of air below")
                                        .required()
                                        .field("oxygen_high", &T::oxygen_high, "in the dry gas: too much air above")
                                        .required()
                                        .field("doubts", &T::doubts, "of a heater that someone walks up to")
                                        .required()
                                        .field("faults", &T::faults, "one for each kind")
                                        .required()
                                        .field("model_error", &T::model_error, "of the computed figure")
                                        .required()
                                        .field("fault_shape", &T::fault_shape, "of what a fault changes")
                                        .required()
                                        .field("failures", &T::failures, "of broken instruments, one for each")
                                        .required();
    return record;
}

HeaterFaultRule const& FiredHeaterTable::fault(HeaterFaultKind kind) const
{
    for (auto const& row : faults)
        if (row.fault == kind)
            return row;
    throw std::logic_error("data/heating/fired_heater.yaml has no row for a fault");
}

double FiredHeaterTable::excess_air(Draft draft) const
{
    return (draft == Draft::fan ? excess_air_fan : excess_air_natural).value.value();
}

namespace
{

struct File
{
    FiredHeaterTable table;
    static Record<File> const& declaration()
    {
        static Record<File> const record =
            Record<File>("file", "the table").field("table", &File::table, "the table").required();
        return record;
    }
};

} // namespace

FiredHeaterTable fired_heater_table(reference::Data const& data)
{
    return reference::read_table<File>(data, "heating/fired_heater.yaml").table;
}

} // namespace padwalk::heating
