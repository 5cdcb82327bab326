#pragma once
/// What to ask next on a walk: dangers first, then whether things run, then whatever tells most per minute.

#include "padwalk/assess/assess.hpp"

namespace padwalk::assess
{

/// One thing that a check may show, and what knowing it is expected to tell.
struct Sign
{
    std::string finding, name;
    std::size_t item = 0;     ///< where it would be
    double gain = 0.0;        ///< bits, weighed by what they decide
    double probability = 0.0; ///< of seeing it, by all that is known so far
};

/// A check or a reading that is open.
struct Telling
{
    std::string id, name, needs;
    std::size_t item = 0;
    double minutes = 0.0;
    double gain = 0.0; ///< of the most telling sign
    std::vector<std::string> cautions;
    std::vector<Sign> signs;                   ///< of a check, the most telling first
    fields::FieldShape const* field = nullptr; ///< of a reading or of something to tell, in place of signs
    bool of_test = false;                      ///< the field belongs to the item's newest water test
};

/// A danger that is asked about before everything else.
struct FirstDanger
{
    std::string finding, name; ///< as the knowledge has it
    std::string ask;           ///< in few words
    std::string say;           ///< what to do at once
    std::vector<std::string> cautions;
    std::vector<std::size_t> items; ///< where nothing was said of it yet
};

/// An assessment and what is still open.
struct Walked
{
    Assessment assessment;
    std::vector<FirstDanger> dangers; ///< those with items
    std::vector<Telling> telling;     ///< in the order to ask, empty where nothing would tell more that is worth asking
};

/// As assess, and with what to ask next of the one who walks, among what that person may safely do within a walk.
///
/// What decides is the expected gain per minute of `Assessment::next`; before there are causes it comes from the base
/// rates of what may be wrong with the items that are there. A sign is asked about under the quickest check that shows
/// it; of a check that was begun the other signs cost hardly a minute more.
[[nodiscard]] Walked assess_walk(visit::ReadVisit const& visit, Engine const& engine,
                                 units::System system = units::System::us);

/// The dangers to ask about where nothing is known yet, none with items.
[[nodiscard]] std::vector<FirstDanger> first_dangers(Engine const& engine);

} // namespace padwalk::assess
