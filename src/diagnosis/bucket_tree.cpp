#include "bucket_tree.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace padwalk::diagnosis::elimination
{
namespace
{

using Bucket = BucketTree::Bucket;
using Places = BucketTree::Places;

/// Set when a product fell out of the range in which a `double` keeps all its digits.
using Lost = bool;

double times(double a, double b, Lost& lost)
{
    auto const product = a * b;
    lost |= product < std::numeric_limits<double>::min() && a != 0.0 && b != 0.0;
    return product;
}

Scaled times(Scaled a, Scaled b, Lost& /*never*/)
{
    return a * b;
}

void take(Scaled from, double& to, Lost& lost)
{
    to = from.value();
    lost |= !from.is_zero() && !(to >= std::numeric_limits<double>::min() && std::isfinite(to));
}

void take(Scaled from, Scaled& to, Lost& /*never*/)
{
    to = from;
}

/// Divides by the power of two just above the largest value, and returns its exponent.
std::int64_t level(std::vector<double>& values, Lost& lost)
{
    int exponent = 0;
    std::frexp(*std::max_element(values.begin(), values.end()), &exponent);
    auto const factor = std::ldexp(1.0, -exponent);
    for (auto& value : values)
    {
        value = times(value, factor, lost);
    }
    return exponent;
}

std::int64_t level(std::vector<Scaled>& /*need it not*/, Lost& /*never*/)
{
    return 0;
}

/// One pass up the tree and, if asked for, one down, in numbers of one kind.
template <class Number> class Pass
{
public:
    Pass(std::vector<Bucket> const& buckets, Factors const& factors) : buckets_{buckets}, factors_{factors}
    {
        messages_.resize(buckets.size());
    }

    [[nodiscard]] bool lost() const { return lost_; }

    Scaled up()
    {
        auto total = Scaled{1.0};
        for (std::size_t b = 0; b < buckets_.size(); ++b)
        {
            auto product = own(buckets_[b]);
            for (auto const& incoming : buckets_[b].messages)
            {
                multiply(product, messages_[incoming.from], incoming.places);
            }
            auto& message = messages_[b];
            message.resize(product.size() / 2);
            for (std::size_t i = 0; i < message.size(); ++i)
            {
                message[i] = product[2 * i] + product[2 * i + 1];
            }
            total = total * Scaled{1.0, level(message, lost_)};
            if (message.size() == 1) // nothing left that it depends on
            {
                total = total * Scaled{message.front()};
            }
        }
        return total;
    }

    std::vector<Pair> down()
    {
        auto shares = std::vector<Pair>(buckets_.size());
        auto from_above = std::vector<std::vector<Number>>(buckets_.size());
        for (std::size_t b = buckets_.size(); b-- > 0;)
        {
            auto const& bucket = buckets_[b];
            auto others = own(bucket);
            for (std::size_t i = 0; i < bucket.size && !from_above[b].empty(); ++i)
            {
                others[i] = times(others[i], from_above[b][i / 2], lost_);
            }
            pass_down(bucket, others, from_above);
            shares[bucket.variable] = share(others);
        }
        return shares;
    }

private:
    using Numbers = std::vector<Number>;

    /// The pair of the bucket's variable times its tables.
    Numbers own(Bucket const& bucket)
    {
        Number absent{};
        Number present{};
        take(factors_.pairs[bucket.variable].absent, absent, lost_);
        take(factors_.pairs[bucket.variable].present, present, lost_);
        auto product = Numbers(bucket.size, absent);
        for (std::size_t i = 1; i < bucket.size; i += 2)
        {
            product[i] = present;
        }
        for (auto const& table : bucket.tables)
        {
            auto const& values = factors_.tables[table.from];
            auto numbers = Numbers(values.size());
            for (std::size_t i = 0; i < values.size(); ++i)
            {
                take(values[i], numbers[i], lost_);
            }
            multiply(product, numbers, table.places);
        }
        return product;
    }

    void multiply(Numbers& product, Numbers const& by, Places const& places)
    {
        for (std::size_t i = 0; i < product.size(); ++i)
        {
            product[i] = times(product[i], by[places[i]], lost_);
        }
    }

    /// Tells each bucket below what all others say; afterwards `others` is the product of everything.
    void pass_down(Bucket const& bucket, Numbers& others, std::vector<Numbers>& from_above)
    {
        auto const& messages = bucket.messages;
        auto later = std::vector<Numbers>(messages.size()); // product of the messages after each
        for (std::size_t m = messages.size(); m-- > 1;)
        {
            later[m - 1] = m == messages.size() - 1 ? Numbers(bucket.size, Number{1.0}) : later[m];
            multiply(later[m - 1], messages_[messages[m].from], messages[m].places);
        }
        for (std::size_t m = 0; m < messages.size(); ++m)
        {
            auto const& places = messages[m].places;
            auto const& message = messages_[messages[m].from];
            auto& told = from_above[messages[m].from];
            told.assign(message.size(), Number{});
            for (std::size_t i = 0; i < bucket.size; ++i)
            {
                auto const rest = later[m].empty() ? others[i] : times(others[i], later[m][i], lost_);
                told[places[i]] = told[places[i]] + rest;
            }
            level(told, lost_);
            multiply(others, message, places);
        }
    }

    [[nodiscard]] Pair share(Numbers const& product) const
    {
        auto absent = Number{};
        auto present = Number{};
        for (std::size_t i = 0; i < product.size(); i += 2)
        {
            absent = absent + product[i];
            present = present + product[i + 1];
        }
        return Pair{Scaled{absent}, Scaled{present}};
    }

    std::vector<Bucket> const& buckets_;
    Factors const& factors_;
    std::vector<Numbers> messages_;
    Lost lost_ = false;
};

/// Positions of a table over `scope` for all positions of a bucket's table over `all`.
Places places_in(Scope const& all, Scope const& scope)
{
    auto places = Places{0};
    for (auto const variable : all)
    {
        auto const found = std::find(scope.begin(), scope.end(), variable);
        auto const bit = found == scope.end() ? 0U : 1U << (found - scope.begin());
        auto const half = places.size();
        for (std::size_t i = 0; i < half; ++i)
        {
            places.push_back(places[i] + bit);
        }
    }
    return places;
}

} // namespace

BucketTree::BucketTree(std::vector<Scope> const& scopes, std::vector<Step> const& steps)
{
    auto rank = std::vector<std::size_t>(steps.size());
    for (std::size_t b = 0; b < steps.size(); ++b)
    {
        rank[steps[b].variable] = b;
    }
    auto const earlier = [&](Variable a, Variable b) { return rank[a] < rank[b]; };
    auto members = std::vector<Scope>{}; // the bucket's variable, then its neighbours as they are eliminated
    for (auto const& step : steps)
    {
        members.push_back(step.neighbours);
        members.back().push_back(step.variable);
        std::sort(members.back().begin(), members.back().end(), earlier);
        buckets_.push_back(Bucket{step.variable, std::size_t{1} << members.back().size(), {}, {}});
    }
    for (std::size_t table = 0; table < scopes.size(); ++table)
    {
        auto const b = rank[*std::min_element(scopes[table].begin(), scopes[table].end(), earlier)];
        buckets_[b].tables.push_back(Incoming{table, places_in(members[b], scopes[table])});
    }
    for (std::size_t b = 0; b < steps.size(); ++b)
    {
        auto const message = Scope(members[b].begin() + 1, members[b].end());
        if (!message.empty())
        {
            auto const to = rank[message.front()];
            buckets_[to].messages.push_back(Incoming{b, places_in(members[to], message)});
        }
    }
}

Scaled BucketTree::total(Factors const& factors) const
{
    auto quick = Pass<double>{buckets_, factors};
    auto const total = quick.up();
    return quick.lost() ? Pass<Scaled>{buckets_, factors}.up() : total;
}

Sums BucketTree::sums(Factors const& factors) const
{
    auto quick = Pass<double>{buckets_, factors};
    auto sums = Sums{quick.up(), {}};
    sums.shares = quick.down();
    if (quick.lost())
    {
        auto wide = Pass<Scaled>{buckets_, factors};
        sums.total = wide.up();
        sums.shares = wide.down();
    }
    return sums;
}

} // namespace padwalk::diagnosis::elimination
