// Declarations of the tables of heat lost, and reading them.
#include "padwalk/heating/heat_loss.hpp"

namespace padwalk::heating
{

using fields::Record;

Record<ShellRow> const& ShellRow::declaration()
{
    static Record<ShellRow> const record = Record<ShellRow>("shell", "heat through a kind of shell")
                                               .field("shell", &ShellRow::shell, "kind of shell")
                                               .required()
                                               .field("conductance", &ShellRow::conductance, "W/(m2 K)")
                                               .required()
                                               .field("doubt", &ShellRow::doubt, "one standard uncertainty, W/(m2 K)")
                                               .field("meaning", &ShellRow::meaning, "what it is")
                                               .required()
                                               .field("source", &ShellRow::source, "where it comes from")
                                               .required();
    return record;
}

Record<LossTable> const& LossTable::declaration()
{
    using L = LossTable;
    static Record<L> const record = Record<L>("heat_loss", "what a water loses besides evaporation")
                                        .field("bowen", &L::bowen, "convection over evaporation")
                                        .required()
                                        .field("thin_air", &L::thin_air, "evaporation in thin air")
                                        .required()
                                        .field("emissivity", &L::emissivity, "of water")
                                        .required()
                                        .field("sky_clear", &L::sky_clear, "clear sky")
                                        .required()
                                        .field("sky_dew", &L::sky_dew, "clear sky by its dew point")
                                        .required()
                                        .field("cloud_1", &L::cloud_1, "cloud")
                                        .required()
                                        .field("cloud_2", &L::cloud_2, "cloud, squared")
                                        .required()
                                        .field("cloud_3", &L::cloud_3, "cloud, cubed")
                                        .required()
                                        .field("sun_absorbed", &L::sun_absorbed, "sun that stays in the water")
                                        .required()
                                        .field("cover_cut", &L::cover_cut, "evaporation under a cover")
                                        .required()
                                        .field("outer_film", &L::outer_film, "air over a cover")
                                        .required()
                                        .field("shells", &L::shells, "shells")
                                        .required()
                                        .field("sources", &L::sources, "works cited");
    return record;
}

LossFacts loss_facts(reference::Data const& data)
{
    return {reference::read_table<LossTable>(data, "heating/heat_loss.yaml"), reference::evaporation_table(data)};
}

} // namespace padwalk::heating
