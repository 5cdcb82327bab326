#pragma once
/// What everything that is met on a walk has.

#include "padwalk/fields/record.hpp"

namespace padwalk::visit
{

using fields::Named;
using fields::Record;

/// A reading that may or may not have been taken.
template <class Q> using Taken = std::optional<units::Measured<Q>>;

/// One thing noticed, in plain words.
struct Noticed
{
    std::string seen;
    std::string not_seen;
    std::string where;
    static Record<Noticed> const& declaration();
};

/// What a technician really found, later: a cause by its name or id, or free words.
struct Found
{
    std::string was;
    std::string was_not; ///< looked at, and it was not that
    static Record<Found> const& declaration();
};

/// Something that was not tested, with the reason.
struct NotTested
{
    std::string what;
    std::string because;
    static Record<NotTested> const& declaration();
};

struct Photo
{
    std::string file;
    std::string caption;
    static Record<Photo> const& declaration();
};

/// What every item has.
struct Item
{
    std::string where;
    Taken<units::Duration> age;
    std::vector<Noticed> noticed;
    std::vector<Found> found;
    std::vector<NotTested> not_tested;
    std::vector<Photo> photos;
    std::string notes;
};

} // namespace padwalk::visit
