#pragma once
#include "padwalk/visit/items.hpp"

namespace padwalk::visit
{

/// The fields that every item has, added to its record.
template <class T> Record<T>&& with_item_fields(Record<T>&& record)
{
    return std::move(record)
        .field("where", static_cast<std::string T::*>(&Item::where), "where it is, in your words")
        .like("behind the hedge")
        .field("age", static_cast<Taken<units::Duration> T::*>(&Item::age), "how old it is")
        .within("0 year", "100 year")
        .like("9 years")
        .field("noticed", static_cast<std::vector<Noticed> T::*>(&Item::noticed),
               "what was seen, heard or felt, or looked for and not found")
        .field("found", static_cast<std::vector<Found> T::*>(&Item::found),
               "what a technician really found, later; it changes no chance")
        .field("not_tested", static_cast<std::vector<NotTested> T::*>(&Item::not_tested),
               "what was not tested, and why")
        .field("photos", static_cast<std::vector<Photo> T::*>(&Item::photos), "pictures, with a caption")
        .field("notes", static_cast<std::string T::*>(&Item::notes), "anything else, for the report");
}

} // namespace padwalk::visit
