#include "sweep_plan.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <span>
#include <string>
#include <utility>

namespace padwalk::diagnosis
{
namespace
{

constexpr double cheap = 4096.0;        // entries below which no better plan is looked for; judgement
constexpr double largest = 16777216.0;  // 2^24 entries, of which each takes some 8 bytes and 10 ns; judgement
constexpr std::size_t most_bits = 1000; // far beyond the largest; keeps 2^bits a finite number

using Act = SweepStep::Act;
using Vertex = std::size_t; // the tied causes, then the ties

/// How the next vertex is chosen.
struct Choice
{
    enum class Among
    {
        all,
        causes,
        findings
    };

    enum class Equals ///< breadth first or, better where much hangs on little, depth first
    {
        earliest,
        latest
    };

    Among among;
    Equals equals;
};

constexpr auto first_choice = Choice{Choice::Among::all, Choice::Equals::earliest};
constexpr auto other_choices = std::array{
    Choice{Choice::Among::all, Choice::Equals::latest}, Choice{Choice::Among::causes, Choice::Equals::earliest},
    Choice{Choice::Among::findings, Choice::Equals::earliest}, Choice{Choice::Among::causes, Choice::Equals::latest},
    Choice{Choice::Among::findings, Choice::Equals::latest}};

struct Edge
{
    Vertex cause;
    Vertex finding;
    double weight;
};

/// Tied causes and ties as the two sides of a graph, the links as its edges.
class Graph
{
public:
    Graph(std::vector<Tie> const& ties, std::vector<std::size_t> const& tied_causes, std::size_t causes)
        : causes_{tied_causes.size()}, first_(causes_ + ties.size() + 1, 0)
    {
        auto vertex_of = std::vector<Vertex>(causes, 0);
        for (Vertex cause = 0; cause < causes_; ++cause)
        {
            vertex_of[tied_causes[cause]] = cause;
        }
        for (std::size_t tie = 0; tie < ties.size(); ++tie)
        {
            for (auto const& link : ties[tie].parents)
            {
                edges_.push_back(Edge{vertex_of[link.cause], causes_ + tie, link.weight});
                ++first_[edges_.back().cause + 1];
                ++first_[edges_.back().finding + 1];
            }
        }
        std::partial_sum(first_.begin(), first_.end(), first_.begin());
        at_.resize(2 * edges_.size());
        auto next = first_;
        for (std::size_t edge = 0; edge < edges_.size(); ++edge)
        {
            at_[next[edges_[edge].cause]++] = edge;
            at_[next[edges_[edge].finding]++] = edge;
        }
    }

    [[nodiscard]] std::size_t causes() const { return causes_; }
    [[nodiscard]] std::size_t vertices() const { return first_.size() - 1; }
    [[nodiscard]] std::size_t edges() const { return edges_.size(); }
    [[nodiscard]] Edge const& edge(std::size_t number) const { return edges_[number]; }
    [[nodiscard]] bool is_cause(Vertex vertex) const { return vertex < causes_; }

    [[nodiscard]] Vertex other(std::size_t number, Vertex end) const
    {
        return is_cause(end) ? edges_[number].finding : edges_[number].cause;
    }

    /// The edges at a vertex.
    [[nodiscard]] std::span<std::size_t const> at(Vertex vertex) const
    {
        return std::span{at_}.subspan(first_[vertex], first_[vertex + 1] - first_[vertex]);
    }

private:
    std::size_t causes_;
    std::vector<Edge> edges_;
    std::vector<std::size_t> first_; // per vertex, into at_
    std::vector<std::size_t> at_;
};

/// Goes through the graph vertex by vertex and writes down the steps.
class Walk
{
public:
    /// Stops on the way once it is as dear as `bound`.
    Walk(Graph const& graph, Choice choice, double bound)
        : graph_{graph}, choice_{choice}, done_(graph.edges(), 0), at_(graph.vertices())
    {
        for (Vertex vertex = 0; vertex < graph.vertices(); ++vertex)
        {
            at_[vertex].left = graph.at(vertex).size();
            if (may_be_taken(vertex))
            {
                all_.push_back(vertex);
            }
        }
        steps_.reserve(graph.edges() + 2 * graph.vertices());
        for (auto left = graph.edges(); left > 0 && entries_ < bound;)
        {
            auto const vertex = next();
            left -= at_[vertex].left;
            go_through(vertex);
        }
    }

    [[nodiscard]] double entries() const { return entries_; }
    [[nodiscard]] std::vector<SweepStep> take_steps() { return std::move(steps_); }

private:
    struct State
    {
        std::size_t left = 0; ///< edges not yet done
        bool is_open = false;
        bool is_near = false;
        bool is_stale = true; ///< the growth is to be worked out again
        std::ptrdiff_t growth = 0;
    };

    [[nodiscard]] bool may_be_taken(Vertex vertex) const
    {
        return choice_.among == Choice::Among::all ||
               graph_.is_cause(vertex) == (choice_.among == Choice::Among::causes);
    }

    /// How many more are open when all that is left of the vertex has been gone through.
    [[nodiscard]] std::ptrdiff_t growth(Vertex vertex)
    {
        auto& state = at_[vertex];
        if (state.is_stale)
        {
            state.growth = state.is_open ? -1 : 0;
            for (auto const edge : graph_.at(vertex))
            {
                auto const& end = at_[graph_.other(edge, vertex)];
                auto const opens = done_[edge] == 0 && !end.is_open;
                auto const closes = done_[edge] == 0 && end.left == 1;
                state.growth += (opens ? 1 : 0) - (closes ? 1 : 0);
            }
            state.is_stale = false;
        }
        return state.growth;
    }

    [[nodiscard]] bool is_better(Vertex later, Vertex earlier)
    {
        return choice_.equals == Choice::Equals::latest ? growth(later) <= growth(earlier)
                                                        : growth(later) < growth(earlier);
    }

    /// The least growth among those near what is open, or among all where nothing is.
    [[nodiscard]] Vertex next()
    {
        auto& candidates = open_.empty() ? all_ : near_;
        auto const is_finished = [&](Vertex vertex) { return at_[vertex].left == 0; };
        candidates.erase(std::remove_if(candidates.begin(), candidates.end(), is_finished), candidates.end());
        auto best = candidates.front();
        for (auto const candidate : candidates)
        {
            if (is_better(candidate, best))
            {
                best = candidate;
            }
        }
        return best;
    }

    /// All that is left of a vertex: first what closes at the other end, last what stays open there.
    void go_through(Vertex vertex)
    {
        open(vertex);
        for (int turn = 0; turn < 4; ++turn)
        {
            for (auto const edge : graph_.at(vertex))
            {
                auto const end = graph_.other(edge, vertex);
                auto const its_turn = (at_[end].left == 1 ? 0 : 2) + (at_[end].is_open ? 0 : 1);
                if (done_[edge] == 0 && its_turn == turn)
                {
                    open(end);
                    link(edge);
                    close_if_finished(end);
                }
            }
        }
        close_if_finished(vertex);
    }

    void link(std::size_t number)
    {
        auto const& [cause, finding, weight] = graph_.edge(number);
        steps_.push_back(
            SweepStep{Act::link, cause, finding - graph_.causes(), bit_of(cause), bit_of(finding), weight});
        done_[number] = 1;
        one_less(cause);
        one_less(finding);
    }

    void one_less(Vertex vertex)
    {
        auto& state = at_[vertex];
        --state.left;
        state.is_stale = true;
        if (state.left == 1) // from now on whoever takes the last edge closes it
        {
            for (auto const edge : graph_.at(vertex))
            {
                at_[graph_.other(edge, vertex)].is_stale = true;
            }
        }
    }

    void open(Vertex vertex)
    {
        if (at_[vertex].is_open)
        {
            return;
        }
        at_[vertex].is_open = true;
        open_.push_back(vertex);
        entries_ += std::ldexp(1.0, static_cast<int>(std::min(open_.size(), most_bits)));
        concern(vertex, graph_.is_cause(vertex) ? Act::open_cause : Act::open_finding);
        bring_near(vertex);
        for (auto const edge : graph_.at(vertex))
        {
            bring_near(graph_.other(edge, vertex));
        }
    }

    void bring_near(Vertex vertex)
    {
        auto& state = at_[vertex];
        state.is_stale = true;
        if (!state.is_near && may_be_taken(vertex))
        {
            state.is_near = true;
            near_.push_back(vertex);
        }
    }

    void close_if_finished(Vertex vertex)
    {
        if (at_[vertex].left == 0)
        {
            concern(vertex, graph_.is_cause(vertex) ? Act::close_cause : Act::close_finding);
            open_.erase(std::find(open_.begin(), open_.end(), vertex));
        }
    }

    /// A step that concerns one vertex.
    void concern(Vertex vertex, Act act)
    {
        auto const cause = graph_.is_cause(vertex);
        auto const number = cause ? vertex : vertex - graph_.causes();
        auto const bit = bit_of(vertex);
        steps_.push_back(SweepStep{act, cause ? number : 0, cause ? 0 : number, cause ? bit : 0, cause ? 0 : bit, 0.0});
    }

    [[nodiscard]] unsigned bit_of(Vertex vertex) const
    {
        return static_cast<unsigned>(std::find(open_.begin(), open_.end(), vertex) - open_.begin());
    }

    Graph const& graph_;
    Choice choice_;
    std::vector<char> done_;   // per edge, 0 or 1
    std::vector<State> at_;    // per vertex
    std::vector<Vertex> all_;  // that may be taken and are not finished
    std::vector<Vertex> near_; // of these: open, or tied to what is or was
    std::vector<Vertex> open_; // by bit
    std::vector<SweepStep> steps_;
    double entries_ = 0.0;
};

std::vector<std::size_t> causes_in(std::vector<Tie> const& ties)
{
    auto found = std::vector<std::size_t>{};
    for (auto const& tie : ties)
    {
        for (auto const& link : tie.parents)
        {
            found.push_back(link.cause);
        }
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

void require_feasible(double entries)
{
    if (entries > largest)
    {
        throw TooEntangled{"too many findings with evidence share too many causes for an exact answer: it would take "
                           "tables of about 2^" +
                           std::to_string(std::lround(std::log2(entries))) + " entries, and the limit is 2^24"};
    }
}

} // namespace

SweepPlan plan_sweep(std::vector<Tie> ties, std::size_t causes)
{
    auto plan = SweepPlan{std::move(ties), {}, {}, 0.0};
    plan.tied_causes = causes_in(plan.ties);
    auto const graph = Graph{plan.ties, plan.tied_causes, causes};
    auto first = Walk{graph, first_choice, std::numeric_limits<double>::infinity()};
    plan.entries = first.entries();
    plan.steps = first.take_steps();
    for (auto choice = other_choices.begin(); choice != other_choices.end() && plan.entries > cheap; ++choice)
    {
        auto other = Walk{graph, *choice, plan.entries};
        if (other.entries() < plan.entries)
        {
            plan.entries = other.entries();
            plan.steps = other.take_steps();
        }
    }
    require_feasible(plan.entries);
    return plan;
}

} // namespace padwalk::diagnosis
