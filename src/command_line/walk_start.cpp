#include "walk_start.hpp"

#include "padwalk/visit/written.hpp"

#include <algorithm>

namespace padwalk::command_line
{
namespace
{

enum Thing : std::size_t
{
    pool,
    spa,
    own_spa,
    gas,
    electric,
    heat_pump,
    pool_drain,
    spa_drain,
    fill
};

/// What was chosen, with how many of what there may be several of.
class Start
{
public:
    Start(std::string text, std::vector<std::size_t> chosen) : text_(std::move(text)), chosen_(std::move(chosen))
    {
        has_pool_ = count(pool) > 0 || count(pool_drain) > 0;
        has_spa_ = count(spa) > 0 || count(own_spa) > 0 || count(spa_drain) > 0;
        two_loops_ = has_pool_ && count(own_spa) > 0;
    }

    [[nodiscard]] std::string write()
    {
        if (!has_pool_ && !has_spa_)
            return {};
        waters();
        loops();
        heaters(gas, "gas heater", "");
        heaters(electric, "electric heater", "electric_element");
        heaters(heat_pump, "heat pump", "heat_pump");
        if (count(fill) > 0)
            text_ = visit::with_value(text_, {"fill_valves", "fill valve", "fills"}, has_pool_ ? "pool" : "spa");
        return std::move(text_);
    }

private:
    std::string text_;
    std::vector<std::size_t> chosen_;
    bool has_pool_ = false, has_spa_ = false, two_loops_ = false;

    [[nodiscard]] std::size_t count(Thing thing) const
    {
        return static_cast<std::size_t>(std::count(chosen_.begin(), chosen_.end(), static_cast<std::size_t>(thing)));
    }
    [[nodiscard]] std::string pool_loop() const
    {
        return has_pool_ && has_spa_ && !two_loops_ ? "main loop" : has_pool_ ? "pool loop" : "spa loop";
    }
    [[nodiscard]] std::string spa_loop() const { return two_loops_ ? "spa loop" : pool_loop(); }

    void waters()
    {
        for (auto const* water : {"pool", "spa"})
            if (std::string(water) == "pool" ? has_pool_ : has_spa_)
                text_ = visit::with_value(text_, {"waters", water, "kind"}, water);
    }
    void loops()
    {
        if (has_pool_)
            text_ = visit::with_entry(text_, {"loops", pool_loop(), "serves"}, {{"", "pool"}});
        if (has_spa_)
            text_ = visit::with_entry(text_, {"loops", spa_loop(), "serves"}, {{"", "spa"}});
        drains(pool_loop(), has_spa_ ? "pool drain" : "main drain", count(pool_drain));
        drains(spa_loop(), has_pool_ ? "spa drain" : "main drain", count(spa_drain));
    }
    void drains(std::string const& loop, std::string const& name, std::size_t many)
    {
        for (std::size_t i = 1; i <= many; ++i)
            text_ = visit::with_value(text_, {"loops", loop, "drains", numbered(name, i, many)}, "");
    }
    void heaters(Thing kind, std::string const& name, std::string const& energy)
    {
        std::size_t const many = count(kind);
        for (std::size_t i = 1; i <= many; ++i)
        {
            visit::Keys const heater{"heaters", numbered(name, i, many)};
            auto const field = [&](char const* key) { return visit::Keys{heater[0], heater[1], key}; };
            text_ = visit::with_value(text_, heater, "");
            if (!two_loops_)
                text_ = visit::with_value(text_, field("loop"), pool_loop());
            if (!energy.empty())
                text_ = visit::with_value(text_, field("energy"), energy);
        }
    }
    [[nodiscard]] static std::string numbered(std::string const& name, std::size_t i, std::size_t many)
    {
        return many < 2 ? name : name + " " + std::to_string(i);
    }
};

} // namespace

std::vector<std::string> const& things_shown()
{
    static std::vector<std::string> const list{"pool",
                                               "spa on the pool's pump, or a spa alone",
                                               "spa beside the pool with a pump of its own",
                                               "gas heater",
                                               "electric heater",
                                               "heat pump",
                                               "drain in the pool, once for each cover",
                                               "drain in the spa, once for each cover",
                                               "fill valve"};
    return list;
}

std::vector<std::string> const& things_typed()
{
    static std::vector<std::string> const list{"pool",      "spa",   "own spa",   "gas", "electric",
                                               "heat pump", "drain", "spa drain", "fill"};
    return list;
}

std::string with_things(std::string text, std::vector<std::size_t> const& chosen)
{
    return Start(std::move(text), chosen).write();
}

} // namespace padwalk::command_line
