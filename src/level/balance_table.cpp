#include "padwalk/level/balance_table.hpp"

namespace padwalk::level
{
namespace
{

using Table = fields::Record<BalanceTable>;
using T = BalanceTable;

template <class Member> Table with(Table table, char const* name, Member member, char const* meaning)
{
    return std::move(table).field(name, member, meaning).required();
}

Table spreads(Table t)
{
    t = with(std::move(t), "form_spread", &T::form_spread, "of a published form of evaporation");
    t = with(std::move(t), "hour_spread", &T::hour_spread, "of one weather for all the time");
    t = with(std::move(t), "day_spread", &T::day_spread, "of a day under one weather for all the time");
    t = with(std::move(t), "day_spread_by_stretch", &T::day_spread_by_stretch, "of a day under a weather of its own");
    t = with(std::move(t), "usual_evaporation", &T::usual_evaporation, "where no weather is known");
    t = with(std::move(t), "usual_spread", &T::usual_spread, "of that");
    t = with(std::move(t), "bucket_spread", &T::bucket_spread, "of a bucket against the pool");
    t = with(std::move(t), "stirred_spread", &T::stirred_spread, "of the extra evaporation of stirred water");
    t = with(std::move(t), "cover_cut", &T::cover_cut, "share that a cover stops");
    t = with(std::move(t), "cover_spread", &T::cover_spread, "of that");
    t = with(std::move(t), "rain_spread", &T::rain_spread, "of rain");
    t = with(std::move(t), "bather_loss", &T::bather_loss, "by a person in an hour");
    t = with(std::move(t), "bather_spread", &T::bather_spread, "of that");
    return with(std::move(t), "most_fill", &T::most_fill, "by an open fill of unknown flow");
}

Table beforehand(Table t)
{
    t = with(std::move(t), "chance_of_leak", &T::chance_of_leak, "before the history is read");
    t = with(std::move(t), "least_leak", &T::least_leak, "least leak thought of");
    t = with(std::move(t), "most_leak", &T::most_leak, "greatest leak thought of");
    t = with(std::move(t), "chance_shell", &T::chance_shell, "the same with the pump on and off");
    t = with(std::move(t), "chance_pressure", &T::chance_pressure, "more with the pump on");
    t = with(std::move(t), "chance_suction", &T::chance_suction, "more with the pump off");
    t = with(std::move(t), "pressure_rest", &T::pressure_rest, "left with the pump off, at most");
    t = with(std::move(t), "suction_rest", &T::suction_rest, "left with the pump on, at most");
    t = with(std::move(t), "target_leak", &T::target_leak, "leak to be told from none");
    t = with(std::move(t), "longest_watch", &T::longest_watch, "longest further watch");
    t = with(std::move(t), "deepest", &T::deepest, "deepest place of a leak");
    return std::move(t).field("sources", &T::sources, "works cited");
}

} // namespace

Table const& BalanceTable::declaration()
{
    static Table const record = beforehand(spreads(Table("balance", "how well a falling level can be foretold")));
    return record;
}

BalanceFacts balance_facts(reference::Data const& data)
{
    return {reference::read_table<BalanceTable>(data, "level/balance.yaml"), reference::evaporation_table(data)};
}

} // namespace padwalk::level
