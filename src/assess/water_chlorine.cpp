// How much of the free chlorine is at work, and what the water may do to copper.
#include "water_doubts.hpp"

namespace padwalk::assess
{

void assess_chlorine_at_work(WaterBench& b, Trust const& trust)
{
    auto const& t = *b.test;
    if (!trust.use_chlorine || !trust.use_ph || !t.free_chlorine || !t.ph || !b.temperature ||
        !(t.free_chlorine->value.value() > 0))
        return;
    figures::Inputs in;
    in.add("free_chlorine", t.free_chlorine).add("ph", t.ph).add("temperature", b.temperature);
    if (t.cyanurate && trust.use_cyanurate)
        in.add("cyanurate", t.cyanurate);
    else
    {
        auto const usual = b.w.rules.limit<units::AsCyanuricAcid>("usual_cyanurate");
        in.add("cyanurate", usual);
        b.w.out.assumptions.push_back(
            {"cyanurate of " + b.w.show(usual) + " for the chlorine at work in " + b.w.name(b.item),
             "not tested, or not to be trusted; usual in pools (judgement)"});
    }
    in.add("salt", trust.use_salt && t.salt ? *t.salt : b.w.rules.limit<units::AsSodiumChloride>("usual_salt"));
    b.w.figure(b.item, "hypochlorous", in, "chlorine at work in " + b.w.name(b.item));
}

} // namespace padwalk::assess
