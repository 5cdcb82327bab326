#include "padwalk/report/tuning.hpp"

#include "plain.hpp"
#include "wording.hpp"

#include "padwalk/report/json.hpp"
#include "padwalk/units/print.hpp"

#include <cmath>
#include <utility>

namespace padwalk::report
{
namespace
{

using fields::Tree;

double rounded(double value)
{
    if (value == 0 || !std::isfinite(value))
        return value;
    constexpr double digits = 3;
    double const step = std::pow(10.0, std::floor(std::log10(std::abs(value))) - digits + 1);
    return std::round(value / step) * step;
}

std::string share(double value) // small ones too: '0.15 %'
{
    return units::show_significant(100 * value, 2) + " %";
}

std::string count(std::size_t n, std::string const& one, std::string const& many)
{
    return std::to_string(n) + " " + (n == 1 ? one : many);
}

std::string moved(assess::TunedChance const& c)
{
    return "from " + share(c.old) + " to " + share(c.now) + " (95 %: " + share(c.low) + " to " + share(c.high) + ")";
}

std::string judged_lies(assess::ProposedChange const& change)
{
    return change.outside() ? "; the judged number lies outside the interval."
                            : "; the judged number lies within the interval, so there is no haste.";
}

std::string rate_sentence(assess::ProposedChange const& change)
{
    auto const& found = change.found;
    return "The base rate of '" + change.cause_name + "' would go " + moved(change.chance) + ": found at " +
           std::to_string(found.there) + " of " +
           count(found.there + found.ruled_out + found.not_spoken, "item", "items") + " looked into, ruled out at " +
           std::to_string(found.ruled_out) + ", where what was seen made " +
           units::show_significant(found.expected, 2) + " likely" + judged_lies(change);
}

std::string weight_sentence(assess::ProposedChange const& change)
{
    auto const& looked = change.looked;
    return "The chance that '" + change.cause_name + "' alone shows '" + change.finding_name + "' would go " +
           moved(change.chance) + ": where it was confirmed, this was seen " + std::to_string(looked.seen) + " of " +
           count(looked.seen + looked.not_seen, "time", "times") + " that it was looked for" + judged_lies(change);
}

std::vector<std::string> about(assess::TuningProposal const& p)
{
    auto const& record = p.record;
    std::vector<std::string> out{
        "Proposed changes to the judged numbers of the knowledge, from what technicians found. For review: nothing is "
        "changed by itself, and nobody but you writes into the data."};
    if (record.visits == 0)
        out.emplace_back("No visit that was read has a `found:`, so there is nothing to learn from and nothing is "
                         "proposed.");
    out.push_back(
        "A visit with a `found:` is one to which somebody was called, so these are visits with complaints, and the "
        "plain share of a cause among them is no base rate. Corrected for: what was seen. Each item counts against "
        "the chance that the assessment gave the cause from what was seen there, so that a cause found as often as "
        "expected leaves its base rate as it is. Not corrected for: reasons to call that stand in no visit (a "
        "complaint not written down, worry, "
        "price, a sale), items that nobody looked into, errors of the technician, and errors of the weights by which "
        "the assessment judged.");
    out.push_back("A cause that was not spoken of counts for " + percent(p.rules.silence.value()) +
                  " of one that was ruled out. A judged base rate stands for " +
                  units::show_significant(p.rules.base_rate_cases.value(), 2) +
                  " items with the cause, a judged weight for " +
                  units::show_significant(p.rules.weight_cases.value(), 2) +
                  " looks of its rarer outcome (data/assess/tuning.yaml; judgement).");
    out.emplace_back("A link's weight is that of the cause alone: what the leak and other causes show is taken off. "
                     "Each number is tuned with all others kept; two that move together are not told apart.");
    return out;
}

void add_chances(Tree& to, assess::ProposedChange const& change)
{
    to.add("old", change.chance.old)
        .add("new", rounded(change.chance.now))
        .add("low", rounded(change.chance.low))
        .add("high", rounded(change.chance.high))
        .add("outside", change.outside());
}

Tree change_tree(assess::ProposedChange const& change)
{
    Tree out = Tree::map();
    out.add("cause", change.cause).add("name", change.cause_name);
    if (!change.finding.empty())
        out.add("finding", change.finding).add("finding_name", change.finding_name);
    add_chances(out, change);
    Tree counts = Tree::map();
    if (change.finding.empty())
        counts.add("there", change.found.there)
            .add("ruled_out", change.found.ruled_out)
            .add("not_spoken_of", change.found.not_spoken)
            .add("expected", rounded(change.found.expected));
    else
        counts.add("seen", change.looked.seen).add("not_seen", change.looked.not_seen);
    out.add("counts", std::move(counts));
    return std::move(out.add("would_change", change.finding.empty() ? rate_sentence(change) : weight_sentence(change)));
}

Tree changes(std::vector<assess::ProposedChange> const& list)
{
    Tree out = Tree::list();
    for (auto const& change : list)
        out.push(change_tree(change));
    return out;
}

Tree scores(assess::FoundScores const& s)
{
    double const judged = static_cast<double>(s.judged);
    auto mean = [&](double sum) { return s.judged == 0 ? Tree() : Tree(rounded(sum / judged)); };
    return std::move(Tree::map()
                         .add("causes_confirmed", s.confirmed)
                         .add("told_first", s.first)
                         .add("told_in_first_three", s.in_three)
                         .add("not_told", s.not_told)
                         .add("causes_judged", s.judged)
                         .add("brier_score", mean(s.squares))
                         .add("brier_score_before_anything_was_seen", mean(s.squares_before)));
}

void add_body(Tree& to, assess::TuningProposal const& p)
{
    auto const& record = p.record;
    Tree visits = Tree::map();
    visits.add("with_found", record.visits)
        .add("without_found", record.without)
        .add("not_read", p.not_read.size())
        .add("items_looked_into", record.items)
        .add("found_not_in_the_knowledge", record.not_known)
        .add("found_not_understood", record.unclear);
    Tree not_read = Tree::list();
    for (auto const& file : p.not_read)
        not_read.push(std::move(Tree::map().add("file", file.file).add("error", file.error)));
    to.add("visits", std::move(visits))
        .add("scores", scores(record.scores))
        .add("base_rates", changes(p.base_rates))
        .add("link_weights", changes(p.weights))
        .add("not_read", std::move(not_read));
}

// A text in quotes as JSON has them is one in YAML too.
void write_yaml(std::string& out, Tree const& tree, std::size_t indent, bool behind_dash)
{
    auto entry = [&](std::string const& lead, Tree const& child, bool dash)
    {
        out += lead;
        auto const* map = std::get_if<Tree::Map>(&child.value());
        auto const* list = std::get_if<Tree::List>(&child.value());
        bool const nested = (map != nullptr && !map->empty()) || (list != nullptr && !list->empty());
        if (!nested)
            out += " " + json_of(child, false) + "\n";
        else
        {
            out += dash ? " " : "\n";
            write_yaml(out, child, indent + 2, dash);
        }
    };
    bool first = behind_dash;
    auto pad = [&] { return std::exchange(first, false) ? std::string() : std::string(indent, ' '); };
    if (auto const* map = std::get_if<Tree::Map>(&tree.value()))
        for (auto const& [key, child] : *map)
            entry(pad() + key + ":", child, false);
    else if (auto const* list = std::get_if<Tree::List>(&tree.value()))
        for (auto const& child : *list)
            entry(pad() + "-", child, true);
}

} // namespace

Tree tuning_tree(assess::TuningProposal const& p)
{
    Tree said = Tree::list();
    for (auto const& sentence : about(p))
        said.push(sentence);
    Tree out = Tree::map();
    out.add("about", std::move(said));
    add_body(out, p);
    return out;
}

std::string tuning_yaml(assess::TuningProposal const& p)
{
    constexpr std::size_t columns = 116;
    std::string out;
    for (auto const& sentence : about(p))
        for (auto const& line : wrapped(sentence, columns, columns))
            out += "# " + line + "\n";
    Tree body = Tree::map();
    add_body(body, p);
    write_yaml(out, body, 0, false);
    return out;
}

} // namespace padwalk::report
