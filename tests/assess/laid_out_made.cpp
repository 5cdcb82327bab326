#include "laid_out_made.hpp"

#include "property_network.hpp" // of src/assess: the layout under test is the program's own
#include "rules.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::tests
{

using diagnosis::Evidence;
using diagnosis::Network;

LaidOut laid_out(std::string const& visit, assess::Engine const& engine, diagnosis::Knowledge const& knowledge)
{
    auto const read = visit::read_visit(visit, engine.instruments());
    std::vector<assess::Assumption> assumptions;
    assess::Property const property(read.visit, assumptions);
    assess::PropertyNetwork network(property, knowledge);
    LaidOut out;
    for (std::size_t item = 0; item < property.things().size(); ++item)
        for (auto const& [id, finding] : knowledge.findings)
            if (finding.item == property.at(item).entry.kind)
            {
                network.finding(id, item);
                out.findings.push_back({id, item});
            }
    for (auto const& cause : network.causes())
        out.causes.push_back({*cause.id, cause.item, cause.entry->trade,
                              cause.entry->hazard == diagnosis::Hazard::people,
                              cause.entry->urgency == diagnosis::Urgency::watch});
    out.network = network.network();
    return out;
}

diagnosis::Knowledge perturbed(diagnosis::Knowledge knowledge, double most, bool leaks_too, Chance& chance)
{
    auto const shift = [&](units::Fraction& value)
    {
        double const factor = std::exp(std::log(most) * (2 * chance.share() - 1));
        double const odds = value.value() / (1 - value.value()) * factor;
        if (value.value() < 1) // certainty has no odds
            value = units::of_si<units::Fraction>(odds / (1 + odds));
    };
    for (auto& [id, cause] : knowledge.causes)
    {
        shift(cause.base_rate);
        for (auto& shown : cause.shows)
            shift(shown.weight);
    }
    if (leaks_too)
        for (auto& [id, finding] : knowledge.findings)
            shift(finding.leak);
    return knowledge;
}

Truth drawn(Network const& network, Chance& chance)
{
    Truth out;
    for (auto const& cause : network.causes)
        out.causes.push_back(chance.happens(cause.prior));
    for (auto const& finding : network.findings)
    {
        bool there = chance.happens(finding.leak);
        for (auto const& link : finding.parents)
            if (out.causes[link.cause])
                there = chance.happens(link.weight) || there;
        out.findings.push_back(there);
    }
    return out;
}

std::vector<Evidence> looked_at(Truth const& truth, double share, Chance& chance)
{
    std::vector<Evidence> out;
    for (std::size_t f = 0; f < truth.findings.size(); ++f)
        if (chance.happens(share))
            out.push_back(truth.findings[f] ? diagnosis::seen(f) : diagnosis::not_seen(f));
    return out;
}

std::vector<Evidence> found_by(assess::Assessment const& assessment, LaidOut const& property,
                               assess::Engine const& engine)
{
    double const surely_not = 1 - assess::Rules(engine.data()).act("model_trust");
    std::vector<Evidence> out;
    for (auto const& found : assessment.findings)
        for (std::size_t f = 0; f < property.findings.size(); ++f)
            if (property.findings[f].id == found.id && property.findings[f].item == found.item)
                out.push_back(found.probability <= surely_not ? diagnosis::not_seen(f)
                                                              : diagnosis::likely(f, found.probability));
    return out;
}

SendingRule::SendingRule(assess::Engine const& engine)
{
    assess::Rules const rules(engine.data());
    named = rules.act("named");
    lifted = rules.act("lifted");
    referred = rules.act("referred");
    danger = rules.act("danger_referred");
}

Sending sending(LaidOut const& property, std::vector<double> const& posterior, SendingRule const& rule)
{
    std::map<std::string, double> none; // P(none of its named causes), as if independent, as there
    Sending out;
    for (std::size_t c = 0; c < posterior.size(); ++c)
    {
        auto const& cause = property.causes[c];
        if (posterior[c] < rule.named || posterior[c] < rule.lifted * property.network.causes[c].prior ||
            cause.watched || cause.trade == "none")
            continue;
        none.try_emplace(cause.trade, 1.0).first->second *= 1 - posterior[c];
        if (cause.dangerous && posterior[c] >= rule.danger)
            out.trades.insert(cause.trade);
    }
    double least = 1;
    for (auto const& [trade, without] : none)
    {
        if (1 - without >= rule.referred)
            out.trades.insert(trade);
        if (without < least)
            out.likeliest = trade;
        least = std::min(least, without);
    }
    return out;
}

} // namespace padwalk::tests
