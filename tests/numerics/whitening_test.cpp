#include "catch_compat.hpp"

#include "padwalk/numerics/whitening.hpp"

#include <cmath>

using namespace padwalk::numerics;

TEST_CASE("whitening: products and the density at the mean agree with the density itself")
{
    Covariance v(3);
    v.add_together({1.0, 2.0, -0.5});
    v.add_together({0.3, 0.0, 0.7});
    for (std::size_t i = 0; i < 3; ++i)
        v.add_alone(i, 0.1 + 0.2 * static_cast<double>(i));
    std::vector<double> const r{0.4, -1.1, 0.9};
    Whitening const whiten(v);
    auto const w = whiten(r);
    double square = 0;
    for (double const x : w)
        square += x * x;
    auto const whole = departure(r, v);
    CHECK(std::abs(square - whole.square) <= 1e-12 * whole.square);
    CHECK(std::abs(whiten.log_peak() - square / 2 - whole.log_density) <= 1e-12);
}

TEST_CASE("whitening: of independent values each is divided by its own deviation, what can't be is refused")
{
    Covariance v(2);
    v.add_alone(0, 4.0);
    v.add_alone(1, 0.25);
    auto const w = Whitening(v)({1.0, 1.0});
    CHECK(std::abs(w[0] - 0.5) <= 1e-15);
    CHECK(std::abs(w[1] - 2.0) <= 1e-15);
    CHECK_THROWS_AS(Whitening(v)({1.0}), std::invalid_argument);
    Covariance flat(2);
    flat.add_together({1.0, 1.0});
    CHECK_THROWS_AS(Whitening(flat), std::invalid_argument);
}
