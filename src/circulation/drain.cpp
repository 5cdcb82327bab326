#include "padwalk/circulation/drain.hpp"

#include "padwalk/figures/model.hpp"

#include <cmath>

namespace padwalk::circulation
{

using fields::Record;

Record<CoverRule> const& CoverRule::declaration()
{
    static Record<CoverRule> const record = Record<CoverRule>("cover rule", "what a rule asks of suction outlets")
                                                .field("where", &CoverRule::where, "place or rule")
                                                .required()
                                                .field("says", &CoverRule::says, "what it asks")
                                                .required()
                                                .field("source", &CoverRule::source, "where it stands")
                                                .required();
    return record;
}

namespace
{

struct CoverFile
{
    std::vector<CoverRule> rows;
    fields::Named<reference::Source> sources;
    static Record<CoverFile> const& declaration()
    {
        static Record<CoverFile> const record = Record<CoverFile>("file", "rules on drain covers")
                                                    .field("rows", &CoverFile::rows, "the rules")
                                                    .required()
                                                    .field("sources", &CoverFile::sources, "works cited");
        return record;
    }
};

constexpr char const* close_the_water =
    ": close the water: pump off, everyone out, and a licensed pool contractor puts it right before it opens again";

std::optional<std::string> bad_cover(std::optional<CoverState> state)
{
    if (!state)
        return std::nullopt;
    switch (*state)
    {
    case CoverState::sound: return std::nullopt;
    case CoverState::missing: return "a cover is missing";
    case CoverState::broken_or_loose: return "a cover is broken or loose";
    case CoverState::expired: return "a cover is past its stamped life";
    case CoverState::not_listed: return "a cover carries no listing";
    }
    return std::nullopt;
}

} // namespace

CoverFlow cover_flow(DrainCovers const& drains)
{
    double const n = drains.outlets.value();
    if (!(n >= 1) || std::abs(n - std::round(n)) > 1e-9)
        throw figures::NotComputed("the number of outlets must be a whole number, one or more");
    CoverFlow out;
    out.each = drains.flow / n;
    bool const single = n < 1.5;
    if (!single)
        out.each_one_blocked = drains.flow / (n - 1);
    if (drains.rating)
    {
        out.of_rating = units::of_si<units::Fraction>(units::in_si(out.each / *drains.rating));
        if (!single)
            out.of_rating_one_blocked =
                units::of_si<units::Fraction>(units::in_si(*out.each_one_blocked / *drains.rating));
    }
    return out;
}

std::string cover_flow_in_words(CoverFlow const& flow, std::optional<CoverState> state, bool unblockable)
{
    if (auto const bad = bad_cover(state))
        return *bad + close_the_water;
    if (!flow.of_rating)
        return std::string("no flow rating of the cover is known, and an unrated cover is no cover") + close_the_water;
    if (flow.of_rating->value() > 1)
        return std::string("more flow than a cover is rated for") + close_the_water;
    if (flow.of_rating_one_blocked && flow.of_rating_one_blocked->value() > 1)
        return std::string("with one outlet blocked the others carry more than their covers are rated for") +
               close_the_water;
    std::string const looked = state ? "" : "; look whether each cover is whole, fast, listed and within its life";
    if (!flow.each_one_blocked && !unblockable)
        return "within the rating, but it is the only outlet: blocked, the pump's whole suction is on whatever blocks "
               "it; have a licensed pool contractor confirm a second outlet or a back-up that lets go, and keep people "
               "away from it until then" +
               looked;
    if (!flow.each_one_blocked)
        return "within the rating of a single outlet said to be too large to block" + looked;
    return "within the rating, with one outlet blocked too" + looked;
}

std::vector<CoverRule> cover_rules(reference::Data const& data)
{
    return reference::read_table<CoverFile>(data, "circulation/drain_covers.yaml").rows;
}

std::string cover_rules_in_words(std::vector<CoverRule> const& rules)
{
    std::string out;
    for (auto const& rule : rules)
        out += (out.empty() ? "" : "; ") + rule.where + ": " + rule.says +
               (rule.source.seen == reference::Seen::memory ? " (from memory)" : "");
    return out;
}

} // namespace padwalk::circulation
