#include "padwalk/numerics/quasi_random.hpp"

#include <boost/random/sobol.hpp>

#include <cstdint>
#include <stdexcept>
#include <string>

namespace padwalk::numerics
{
namespace
{

constexpr std::size_t most_dimensions = 3667; // as far as Boost's direction numbers reach

std::size_t require_dimensions(std::size_t dimensions)
{
    if (dimensions < 1 || dimensions > most_dimensions)
        throw std::invalid_argument("a quasi-random sequence has 1 to 3667 dimensions, not " +
                                    std::to_string(dimensions));
    return dimensions;
}

/// The middle of one of 2^52 equal cells. With one bit more the last middle would round to 1.
double inside_unit(std::uint64_t bits)
{
    return (static_cast<double>(bits >> 12) + 0.5) * 0x1p-52;
}

} // namespace

struct QuasiRandom::Sequence
{
    boost::random::sobol_engine<std::uint64_t, 64> engine;
};

QuasiRandom::QuasiRandom(std::size_t dimensions)
    : dimensions_(require_dimensions(dimensions)),
      sequence_(new Sequence{boost::random::sobol_engine<std::uint64_t, 64>(dimensions)})
{
}

QuasiRandom::QuasiRandom(QuasiRandom&&) noexcept = default;
QuasiRandom& QuasiRandom::operator=(QuasiRandom&&) noexcept = default;
QuasiRandom::~QuasiRandom() = default;

std::vector<double> QuasiRandom::next()
{
    std::vector<double> point(dimensions_);
    for (double& coordinate : point)
        coordinate = inside_unit(sequence_->engine());
    return point;
}

} // namespace padwalk::numerics
