#include "property_network.hpp"

#include <algorithm>

namespace padwalk::assess
{
namespace
{

// The base rate with its odds multiplied by the factor of each context that holds. Where it was not said whether the
// cause can be here at all (which kind of shell, which fuel), it is as likely as any of the kinds.
double prior_at(diagnosis::CauseEntry const& cause, Thing const& thing)
{
    double odds = cause.base_rate.value() / (1 - cause.base_rate.value());
    for (auto const& [context, factor] : cause.raised_by)
        if (thing.holds.contains(context))
            odds *= factor.value();
    double prior = odds / (1 + odds);
    for (auto const& context : cause.only_if)
        if (!thing.holds.contains(context))
            prior *= Property::share_when_not_said(context);
    return prior;
}

} // namespace

PropertyNetwork::PropertyNetwork(Property const& property, diagnosis::Knowledge const& knowledge)
    : something_else_(std::make_shared<diagnosis::CauseEntry const>(knowledge.something_else.as_cause())),
      property_(property), knowledge_(knowledge)
{
    static std::string const unknown_id = "something_else";
    for (std::size_t item = 1; item < property.things().size(); ++item)
    {
        Thing const& thing = property.at(item);
        for (auto const& [id, cause] : knowledge.causes)
        {
            bool const can_be = cause.item == thing.entry.kind &&
                                std::all_of(cause.only_if.begin(), cause.only_if.end(),
                                            [&](std::string const& c) { return thing.possible.contains(c); });
            if (!can_be)
                continue;
            double const prior = prior_at(cause, thing);
            causes_.push_back({&id, &cause, item, prior});
            network_.causes.push_back({id + " at " + thing.entry.name, prior});
        }
        double const rate = something_else_->base_rate.value();
        causes_.push_back({&unknown_id, something_else_.get(), item, rate});
        network_.causes.push_back({unknown_id + " at " + thing.entry.name, rate});
    }
}

std::size_t PropertyNetwork::finding(std::string const& id, std::size_t item)
{
    auto const [place, fresh] = places_.try_emplace({id, item}, network_.findings.size());
    if (!fresh)
        return place->second;
    auto const& entry = *knowledge_.finding(id);
    diagnosis::Finding finding{id + " at " + property_.at(item).entry.name, entry.leak.value(), {}};
    for (std::size_t c = 0; c < causes_.size(); ++c)
        if (double const shown = weight(c, id, item); shown > 0)
            finding.parents.push_back({c, shown});
    network_.findings.push_back(std::move(finding));
    return place->second;
}

double PropertyNetwork::weight(std::size_t cause, std::string const& id, std::size_t item) const
{
    CauseAt const& at = causes_[cause];
    if (unknown(cause))
        return at.item == item ? knowledge_.something_else.weight.value() : 0;
    for (auto const& link : at.entry->shows)
        if (link.finding == id &&
            (at.item == item || (at.entry->item != knowledge_.finding(id)->item && property_.related(at.item, item))))
            return link.weight.value();
    return 0;
}

std::size_t PropertyNetwork::own_finding(diagnosis::Finding finding)
{
    network_.findings.push_back(std::move(finding));
    return network_.findings.size() - 1;
}

} // namespace padwalk::assess
