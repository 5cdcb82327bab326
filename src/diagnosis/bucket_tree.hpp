#pragma once

#include "elimination_order.hpp"
#include "scaled.hpp"

#include <cstdint>
#include <vector>

namespace padwalk::diagnosis::elimination
{

/// A number for "absent" and one for "present": a table over one yes/no variable.
struct Pair
{
    Scaled absent;
    Scaled present;
};

/// Values of a function of several variables; bit k of the position is the state of the k-th variable of its scope.
using Values = std::vector<Scaled>;

/// What is summed: the product of one pair per variable and one table per scope. Nothing is negative.
struct Factors
{
    std::vector<Pair> pairs;
    std::vector<Values> tables;
};

struct Sums
{
    Scaled total;             ///< the product, summed over all states of all variables
    std::vector<Pair> shares; ///< per variable: the same with that variable held absent or present, up to a factor
};

/// A plan that sums products of tables with these scopes, whatever the values in them.
///
/// Each variable has a bucket: the tables that mention it and none eliminated earlier. Its sum is a message to the
/// bucket of the next variable it depends on. One pass up gives the total, one pass down every share, without
/// dividing (a message may be zero).
class BucketTree
{
public:
    /// Requires: steps is an order for these scopes
    BucketTree(std::vector<Scope> const& scopes, std::vector<Step> const& steps);

    [[nodiscard]] Scaled total(Factors const& factors) const;
    [[nodiscard]] Sums sums(Factors const& factors) const;

    /// For each position in the bucket's own table, the position in a smaller one.
    using Places = std::vector<std::uint32_t>;

    struct Incoming
    {
        std::size_t from; ///< a table, or a bucket
        Places places;
    };

    /// Position bit 0 is the bucket's variable, so that neighbours in memory are what is summed.
    struct Bucket
    {
        Variable variable;
        std::size_t size; ///< entries, 2^(1 + neighbours)
        std::vector<Incoming> tables;
        std::vector<Incoming> messages;
    };

private:
    std::vector<Bucket> buckets_; // in order of elimination: messages go to later ones only
};

} // namespace padwalk::diagnosis::elimination
