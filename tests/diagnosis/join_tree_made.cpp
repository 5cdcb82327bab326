#include "join_tree_made.hpp"

// dlib's own check that a program links its library of the same build: here only its headers are used.
#define DLIB_TEST_FOR_ODR_VIOLATIONS_H_
#define DLIB_NO_GUI_SUPPORT
#include <dlib/bayes_utils.h>
#include <dlib/directed_graph.h>
#include <dlib/graph.h>
#include <dlib/graph_utils.h>

#include <algorithm>
#include <numeric>

namespace padwalk::tests
{
namespace
{

using diagnosis::Evidence;
using diagnosis::Finding;
using diagnosis::Network;

using BayesNetwork = dlib::directed_graph<dlib::bayes_node>::kernel_1a_c;
using Places = dlib::set<unsigned long>::compare_1b_c;
using JoinTree = dlib::graph<Places, Places>::kernel_1a_c;

/// A yes/no variable: P(yes | parents), the state of parent k in bit k of the row; and what was observed of it.
struct Node
{
    std::vector<std::size_t> parents;
    std::vector<double> yes;
    std::optional<bool> observed = {};
};

/// The network as plain nodes: the causes first, then the findings with what belongs to them.
struct Nodes
{
    std::vector<Node> all;
    std::vector<std::optional<std::size_t>> of_finding;

    std::size_t add(Node node)
    {
        all.push_back(std::move(node));
        return all.size() - 1;
    }
};

/// P(there | parents) row by row.
std::size_t add_as_table(Nodes& nodes, Finding const& finding)
{
    Node node;
    for (auto const& link : finding.parents)
        node.parents.push_back(link.cause);
    for (std::size_t row = 0; row < std::size_t{1} << finding.parents.size(); ++row)
    {
        double absent = 1 - finding.leak;
        for (std::size_t k = 0; k < finding.parents.size(); ++k)
            if ((row >> k & 1U) != 0)
                absent *= 1 - finding.parents[k].weight;
        node.yes.push_back(1 - absent);
    }
    return nodes.add(std::move(node));
}

/// Parent after parent: it has fired by now if it had before, or if this parent is present and brings it about.
std::size_t add_as_chain(Nodes& nodes, Finding const& finding)
{
    std::size_t by_now = nodes.add({{}, {finding.leak}});
    for (auto const& link : finding.parents)
        by_now = nodes.add({{by_now, link.cause}, {0, 1, link.weight, 1}});
    return by_now;
}

/// A child that was observed, with chances that are to each other as the likelihoods.
void add_observed_child(Nodes& nodes, std::size_t parent, double if_yes, double if_no)
{
    double const larger = std::max(if_yes, if_no);
    nodes.add({{parent}, {if_no / larger, if_yes / larger}, true});
}

bool surely_absent(Network const& network, std::span<Evidence const> evidence, std::size_t finding)
{
    return !network.findings[finding].parents.empty() &&
           std::any_of(evidence.begin(), evidence.end(),
                       [&](Evidence const& e) { return e.finding == finding && e.if_present <= 0; });
}

bool is_observed(std::span<Evidence const> evidence, std::size_t finding)
{
    return std::any_of(evidence.begin(), evidence.end(), [&](Evidence const& e) { return e.finding == finding; });
}

void observe(Nodes& nodes, std::span<Evidence const> evidence)
{
    for (auto const& item : evidence)
    {
        if (!nodes.of_finding[item.finding])
            continue;
        std::size_t const node = *nodes.of_finding[item.finding];
        if (item.if_absent <= 0 || item.if_present <= 0)
            nodes.all[node].observed = item.if_absent <= 0;
        else
            add_observed_child(nodes, node, item.if_present, item.if_absent);
    }
}

Nodes nodes_of(Network const& network, std::span<Evidence const> evidence, JoinTreeWay const& way)
{
    Nodes out;
    for (auto const& cause : network.causes)
        out.add({{}, {cause.prior}});
    std::vector<double> absence(network.causes.size(), 1.0); // P(what is surely absent | this cause, alone)
    for (std::size_t f = 0; f < network.findings.size(); ++f)
    {
        auto const& finding = network.findings[f];
        out.of_finding.emplace_back();
        if (way.only_observed && !is_observed(evidence, f))
            continue;
        if (way.absent_by_parent && surely_absent(network, evidence, f))
            for (auto const& link : finding.parents)
                absence[link.cause] *= 1 - link.weight;
        else
            out.of_finding.back() =
                finding.parents.size() > way.most_parents ? add_as_chain(out, finding) : add_as_table(out, finding);
    }
    for (std::size_t c = 0; c < absence.size(); ++c)
        if (absence[c] < 1)
            add_observed_child(out, c, absence[c], 1.0);
    observe(out, evidence);
    return out;
}

/// Nodes that hang together, each group in their order. A join tree holds one such group.
std::vector<std::vector<std::size_t>> connected(std::vector<Node> const& nodes)
{
    std::vector<std::size_t> root(nodes.size());
    std::iota(root.begin(), root.end(), 0U);
    auto const top = [&](std::size_t i)
    {
        while (root[i] != i)
            i = root[i] = root[root[i]];
        return i;
    };
    for (std::size_t i = 0; i < nodes.size(); ++i)
        for (std::size_t const parent : nodes[i].parents)
            root[top(i)] = top(parent);
    std::vector<std::vector<std::size_t>> groups(nodes.size());
    for (std::size_t i = 0; i < nodes.size(); ++i)
        groups[top(i)].push_back(i);
    groups.erase(std::remove_if(groups.begin(), groups.end(), [](auto const& g) { return g.empty(); }), groups.end());
    return groups;
}

void fill_table(BayesNetwork& network, unsigned long place, Node const& node,
                std::vector<unsigned long> const& place_of)
{
    namespace of_node = dlib::bayes_node_utils;
    for (std::size_t row = 0; row < node.yes.size(); ++row)
    {
        dlib::assignment parents;
        for (std::size_t k = 0; k < node.parents.size(); ++k)
            parents.add(place_of[node.parents[k]], row >> k & 1U);
        of_node::set_node_probability(network, place, 1, parents, node.yes[row]);
        of_node::set_node_probability(network, place, 0, parents, 1 - node.yes[row]);
    }
}

/// P(yes | what was observed) of every node of one group, into `out`; false where its tree is too large.
bool solve(std::vector<Node> const& nodes, std::vector<std::size_t> const& group, std::size_t most_together,
           std::vector<double>& out)
{
    namespace of_node = dlib::bayes_node_utils;
    std::vector<unsigned long> place_of(nodes.size());
    BayesNetwork network;
    network.set_number_of_nodes(group.size());
    for (std::size_t i = 0; i < group.size(); ++i)
    {
        place_of[group[i]] = i;
        of_node::set_node_num_values(network, i, 2);
    }
    for (std::size_t i = 0; i < group.size(); ++i)
        for (std::size_t const parent : nodes[group[i]].parents)
            network.add_edge(place_of[parent], i);
    for (std::size_t i = 0; i < group.size(); ++i)
    {
        Node const& node = nodes[group[i]];
        fill_table(network, i, node, place_of);
        if (node.observed)
        {
            of_node::set_node_value(network, i, *node.observed ? 1 : 0);
            of_node::set_node_as_evidence(network, i);
        }
    }
    JoinTree tree;
    dlib::create_moral_graph(network, tree);
    dlib::create_join_tree(tree, tree);
    for (unsigned long i = 0; i < tree.number_of_nodes(); ++i)
        if (tree.node(i).data.size() > most_together)
            return false;
    dlib::bayesian_network_join_tree const solution(network, tree);
    for (std::size_t i = 0; i < group.size(); ++i)
        out[group[i]] = solution.probability(i)(1);
    return true;
}

} // namespace

std::optional<JoinTreeAnswer> join_tree_answer(Network const& network, std::span<Evidence const> evidence,
                                               JoinTreeWay const& way)
{
    auto const nodes = nodes_of(network, evidence, way);
    std::vector<double> yes(nodes.all.size());
    for (auto const& group : connected(nodes.all))
    {
        Node const& first = nodes.all[group.front()];
        if (group.size() == 1)
            yes[group.front()] = first.observed ? (*first.observed ? 1.0 : 0.0) : first.yes[0];
        else if (!solve(nodes.all, group, way.most_together, yes))
            return std::nullopt;
    }
    JoinTreeAnswer out;
    out.causes.assign(yes.begin(), yes.begin() + static_cast<std::ptrdiff_t>(network.causes.size()));
    if (!way.only_observed && !way.absent_by_parent)
        for (auto const& node : nodes.of_finding)
            out.findings.push_back(yes[*node]);
    return out;
}

} // namespace padwalk::tests
