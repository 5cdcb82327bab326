#include "sweep.hpp"

#include "frontier.hpp"

namespace padwalk::diagnosis
{
namespace
{

using Act = SweepStep::Act;

/// One pass forwards and, if asked for, one backwards, in numbers of one kind.
template <class Number> class Sweep
{
public:
    Sweep(SweepPlan const& plan, SweepTerms const& terms) : plan_{plan}, terms_{terms} {}

    [[nodiscard]] bool lost() const { return lost_ || forwards_.lost() || backwards_.lost(); }

    /// Keeps the table before each cause closes, if asked to.
    Scaled forwards(bool keep)
    {
        kept_.reserve(keep ? static_cast<std::size_t>(plan_.entries) : 0); // each opening has its closing, as large
        auto exponent = std::int64_t{0};
        for (auto const& step : plan_.steps)
        {
            if (keep && step.act == Act::close_cause)
            {
                kept_.insert(kept_.end(), forwards_.values().begin(), forwards_.values().end());
            }
            go_forwards(step);
            if (step.act == Act::close_cause || step.act == Act::close_finding)
            {
                exponent += forwards_.level();
            }
        }
        return Scaled{forwards_.values().front()} * Scaled{1.0, exponent};
    }

    /// Requires: forwards(true)
    std::vector<Pair> backwards()
    {
        auto shares = std::vector<Pair>(plan_.tied_causes.size());
        for (auto step = plan_.steps.rbegin(); step != plan_.steps.rend(); ++step)
        {
            go_backwards(*step);
            if (step->act == Act::close_cause)
            {
                shares[step->cause] = share(step->cause_bit);
            }
            if (step->act == Act::open_cause || step->act == Act::open_finding)
            {
                backwards_.level();
            }
        }
        return shares;
    }

private:
    void go_forwards(SweepStep const& step)
    {
        auto const [no, yes] = numbers(step);
        switch (step.act)
        {
        case Act::open_cause: return forwards_.insert(step.cause_bit, no, yes);
        case Act::open_finding: return forwards_.insert(step.finding_bit, no, yes);
        case Act::link: return forwards_.fire(step.cause_bit, step.finding_bit, no, yes);
        case Act::close_finding: return forwards_.remove(step.finding_bit, no, yes);
        case Act::close_cause: return forwards_.remove(step.cause_bit, no, yes);
        }
    }

    void go_backwards(SweepStep const& step)
    {
        auto const [no, yes] = numbers(step);
        switch (step.act)
        {
        case Act::open_cause: return backwards_.remove(step.cause_bit, no, yes);
        case Act::open_finding: return backwards_.remove(step.finding_bit, no, yes);
        case Act::link: return backwards_.fire_back(step.cause_bit, step.finding_bit, no, yes);
        case Act::close_finding: return backwards_.insert(step.finding_bit, no, yes);
        case Act::close_cause: return backwards_.insert(step.cause_bit, no, yes);
        }
    }

    struct NoYes
    {
        Number no;
        Number yes;
    };

    /// What a step multiplies by: the cause absent or present, the finding not fired or fired.
    NoYes numbers(SweepStep const& step)
    {
        switch (step.act)
        {
        case Act::open_cause: return taken(terms_.causes[step.cause].absent, terms_.causes[step.cause].present);
        case Act::open_finding:
        {
            auto const& leak = plan_.ties[step.finding].leak;
            return NoYes{Number{leak.not_yet}, Number{leak.by_now}};
        }
        case Act::link: return NoYes{Number{1.0 - step.weight}, Number{step.weight}};
        case Act::close_finding: return taken(terms_.ties[step.finding].absent, terms_.ties[step.finding].present);
        case Act::close_cause: break;
        }
        return NoYes{Number{1.0}, Number{1.0}};
    }

    NoYes taken(Scaled no, Scaled yes)
    {
        auto numbers = NoYes{};
        take(no, numbers.no, lost_);
        take(yes, numbers.yes, lost_);
        return numbers;
    }

    /// The table kept last, then forgotten, times what follows.
    Pair share(unsigned bit)
    {
        auto const& follows = backwards_.values();
        auto const first = kept_.size() - follows.size();
        auto absent = Number{};
        auto present = Number{};
        for (std::size_t i = 0; i < follows.size(); ++i)
        {
            auto& sum = (i >> bit & 1U) == 0 ? absent : present;
            sum = sum + times(kept_[first + i], follows[i], lost_);
        }
        kept_.resize(first);
        return Pair{Scaled{absent}, Scaled{present}};
    }

    SweepPlan const& plan_;
    SweepTerms const& terms_;
    Frontier<Number> forwards_;
    Frontier<Number> backwards_;
    std::vector<Number> kept_; // tables, one behind the other
    Lost lost_ = false;
};

} // namespace

Scaled swept_total(SweepPlan const& plan, SweepTerms const& terms)
{
    auto quick = Sweep<double>{plan, terms};
    auto const total = quick.forwards(false);
    return quick.lost() ? Sweep<Scaled>{plan, terms}.forwards(false) : total;
}

Sums swept_sums(SweepPlan const& plan, SweepTerms const& terms)
{
    auto quick = Sweep<double>{plan, terms};
    auto sums = Sums{quick.forwards(true), {}};
    sums.shares = quick.backwards();
    if (quick.lost())
    {
        auto wide = Sweep<Scaled>{plan, terms};
        sums.total = wide.forwards(true);
        sums.shares = wide.backwards();
    }
    return sums;
}

} // namespace padwalk::diagnosis
