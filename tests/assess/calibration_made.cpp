#include "calibration_made.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::tests
{

using diagnosis::Evidence;
using diagnosis::Network;

double CalibrationBin::off() const
{
    return (there - stated) / std::sqrt(std::max(spread, met));
}

void Calibration::add(std::vector<double> const& stated, std::vector<bool> const& there)
{
    std::array<double, from.size()> beyond{}; // there − stated, of this property
    for (std::size_t c = 0; c < stated.size(); ++c)
    {
        double const p = stated[c], truly = there[c] ? 1 : 0;
        auto const place = static_cast<std::size_t>(std::upper_bound(from.begin(), from.end(), p) - from.begin()) - 1;
        auto& bin = bins_[place];
        bin.pairs += 1;
        bin.stated += p;
        bin.there += truly;
        bin.spread += p * (1 - p);
        beyond[place] += truly - p;
        squares_ += (truly - p) * (truly - p);
        pairs_ += 1;
    }
    for (std::size_t b = 0; b < beyond.size(); ++b)
        bins_[b].met += beyond[b] * beyond[b];
}

double Calibration::mean_gap() const
{
    double sum = 0, count = 0;
    for (auto const& bin : bins_)
        if (bin.counts())
        {
            sum += bin.gap();
            count += 1;
        }
    return sum / count;
}

double Calibration::largest_off() const
{
    double largest = 0;
    for (auto const& bin : bins_)
        if (bin.counts())
            largest = std::max(largest, std::abs(bin.off()));
    return largest;
}

std::pair<double, int> Calibration::off_squared() const
{
    std::pair<double, int> out{0, 0};
    for (auto const& bin : bins_)
        if (bin.counts())
        {
            out.first += bin.off() * bin.off();
            ++out.second;
        }
    return out;
}

namespace
{

std::size_t likeliest(std::vector<double> const& posterior)
{
    return static_cast<std::size_t>(std::max_element(posterior.begin(), posterior.end()) - posterior.begin());
}

void compare(LaidOut const& truth, LaidOut const& ours, std::vector<double> const& by_ours,
             std::vector<double> const& by_truth, SendingRule const& rule, Judged& into)
{
    into.same_cause += likeliest(by_ours) == likeliest(by_truth) ? 1 : 0;
    auto const sent_by_ours = sending(ours, by_ours, rule), sent_by_best = sending(truth, by_truth, rule);
    into.same_trade += sent_by_ours.likeliest == sent_by_best.likeliest ? 1 : 0;
    into.sent_by_ours += static_cast<int>(sent_by_ours.trades.size());
    into.sent_by_best += static_cast<int>(sent_by_best.trades.size());
    for (auto const& trade : sent_by_ours.trades)
        into.sent_by_both += sent_by_best.trades.contains(trade) ? 1 : 0;
    for (std::size_t c = 0; c < by_truth.size(); ++c)
        if (by_truth[c] >= 0.1)
        {
            into.moved += std::abs(by_ours[c] - by_truth[c]);
            ++into.likely;
        }
}

} // namespace

std::vector<double> one_cause_at_a_time(Network const& network, std::span<Evidence const> evidence)
{
    std::vector<double> odds;
    for (auto const& cause : network.causes)
        odds.push_back(cause.prior / (1 - cause.prior));
    for (auto const& item : evidence)
    {
        auto const& finding = network.findings[item.finding];
        double absent = 1 - finding.leak;
        for (auto const& link : finding.parents)
            absent *= 1 - network.causes[link.cause].prior * link.weight;
        for (auto const& link : finding.parents)
        {
            double const without = absent / (1 - network.causes[link.cause].prior * link.weight);
            double const with = without * (1 - link.weight);
            odds[link.cause] *= (item.if_present * (1 - with) + item.if_absent * with) /
                                (item.if_present * (1 - without) + item.if_absent * without);
        }
    }
    for (auto& o : odds)
        o = o / (1 + o);
    return odds;
}

void judge_drawn(int properties, LaidOut const& truth, LaidOut const& ours, SendingRule const& rule, Chance& chance,
                 Judged& into)
{
    std::vector<double> priors;
    for (auto const& cause : ours.network.causes)
        priors.push_back(cause.prior);
    for (int i = 0; i < properties; ++i)
    {
        auto const drawn_here = drawn(truth.network, chance);
        auto const evidence = looked_at(drawn_here, 1.0 / 3, chance);
        auto const by_ours = diagnosis::posterior(ours.network, evidence).causes;
        auto const by_truth = &truth == &ours ? by_ours : diagnosis::posterior(truth.network, evidence).causes;
        into.ours.add(by_ours, drawn_here.causes);
        into.best.add(by_truth, drawn_here.causes);
        into.priors.add(priors, drawn_here.causes);
        into.one_at_a_time.add(one_cause_at_a_time(ours.network, evidence), drawn_here.causes);
        into.ours_there += drawn_here.causes[likeliest(by_ours)] ? 1 : 0;
        into.best_there += drawn_here.causes[likeliest(by_truth)] ? 1 : 0;
        compare(truth, ours, by_ours, by_truth, rule, into);
        ++into.properties;
    }
}

} // namespace padwalk::tests
