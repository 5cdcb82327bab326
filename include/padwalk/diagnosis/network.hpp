#pragma once

#include <cstddef>
#include <stdexcept>
#include <string>
#include <vector>

namespace padwalk::diagnosis
{

/// Something that may be the matter. Causes are independent of one another before anything is seen.
struct Cause
{
    std::string name;
    double prior; ///< P(present) before any evidence, 0 to 1
};

/// "This cause, alone, brings about the finding with that chance."
struct Link
{
    std::size_t cause; ///< position in Network::causes, from 0
    double weight;     ///< 0 to 1
};

/// Something that can be seen or not seen.
///
///     P(not there | causes) = (1 − leak) · Π over the present parents (1 − weight)          (noisy-OR)
///
/// The leak stands for every cause that the network does not name. Source: this definition; the name noisy-OR is used
/// from memory, no text was consulted.
struct Finding
{
    std::string name;
    double leak; ///< P(there | no parent is present), 0 to 1
    std::vector<Link> parents;
};

/// Causes above, findings below; several causes may be present at once.
struct Network
{
    std::vector<Cause> causes;
    std::vector<Finding> findings;
};

/// The network, or a question put to it, makes no sense. `what()` has one line per problem and names the entry.
class NetworkProblem : public std::invalid_argument
{
public:
    using std::invalid_argument::invalid_argument;
};

/// Refuses a network with a probability that is NaN or outside 0 to 1, a link to a cause that does not exist, or
/// a finding that lists the same parent twice. All problems are reported together.
///
/// Throws: NetworkProblem
void check(Network const& network);

} // namespace padwalk::diagnosis
