#include "transport.hpp"

#include <cmath>
#include <cstddef>

namespace padwalk::physics::transport
{
namespace
{

constexpr double critical_temperature = 647.096; // K
constexpr double critical_density = 322.0;       // kg/m3

// Rows: powers of (1/T̄ - 1); columns: powers of (ρ̄ - 1).
constexpr double viscosity_terms[6][7] = {
    {5.20094e-1, 2.22531e-1, -2.81378e-1, 1.61913e-1, -3.25372e-2, 0, 0},
    {8.50895e-2, 9.99115e-1, -9.06851e-1, 2.57399e-1, 0, 0, 0},
    {-1.08374, 1.88797, -7.72479e-1, 0, 0, 0, 0},
    {-2.89555e-1, 1.26613, -4.89837e-1, 0, 6.98452e-2, 0, -4.35673e-3},
    {0, 0, -2.57040e-1, 0, 0, 8.72102e-3, 0},
    {0, 1.20573e-1, 0, 0, 0, 0, -5.93264e-4},
};

constexpr double conductivity_terms[5][6] = {
    {1.60397357, -0.646013523, 0.111443906, 0.102997357, -0.0504123634, 0.00609859258},
    {2.33771842, -2.78843778, 1.53616167, -0.463045512, 0.0832827019, -0.00719201245},
    {2.19650529, -4.54580785, 3.55777244, -1.40944978, 0.275418278, -0.0205938816},
    {-1.21051378, 1.60812989, -0.621178141, 0.0716373224, 0, 0},
    {-2.7203370, 4.57586331, -3.18369245, 1.1168348, -0.19268305, 0.012913842},
};

template <std::size_t n> double polynomial(double const (&coefficients)[n], double x)
{
    double sum = 0;
    for (std::size_t k = n; k-- > 0;)
        sum = sum * x + coefficients[k];
    return sum;
}

/// exp(ρ̄ Σ_i (1/T̄ - 1)^i Σ_j c_ij (ρ̄ - 1)^j), the shape of μ̄1 and of λ̄1.
template <std::size_t rows, std::size_t columns>
double density_factor(double const (&terms)[rows][columns], double temperature, double density)
{
    double sum = 0;
    for (std::size_t i = rows; i-- > 0;)
        sum = sum * (1 / temperature - 1) + polynomial(terms[i], density - 1);
    return std::exp(density * sum);
}

} // namespace

double viscosity(double kelvin, double density)
{
    double const t = kelvin / critical_temperature;
    double const dilute = 100 * std::sqrt(t) / polynomial({1.67752, 2.20462, 0.6366564, -0.241605}, 1 / t);
    return 1e-6 * dilute * density_factor(viscosity_terms, t, density / critical_density);
}

double conductivity(double kelvin, double density)
{
    double const t = kelvin / critical_temperature;
    double const dilute =
        std::sqrt(t) / polynomial({2.443221e-3, 1.323095e-2, 6.770357e-3, -3.454586e-3, 4.096266e-4}, 1 / t);
    return 1e-3 * dilute * density_factor(conductivity_terms, t, density / critical_density);
}

} // namespace padwalk::physics::transport
