#include "padwalk/circulation/models.hpp"

#include "models_parts.hpp"

namespace padwalk::circulation
{

std::vector<figures::Model> models(reference::Data const& data)
{
    Rules const read = rules(data);
    std::vector<figures::Model> all;
    add_water_models(all, read);
    add_head_models(all);
    add_pump_models(all);
    add_pipe_models(all);
    add_suction_models(all, read);
    add_motor_models(all, read);
    return all;
}

} // namespace padwalk::circulation
