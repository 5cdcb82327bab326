#include "solver.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::chemistry
{
namespace
{

constexpr double ln10 = 2.302585092994046;
constexpr double freezing = 273.15;
constexpr double davies_slope = 0.3;
constexpr double water_activity_slope = 0.017; ///< per mol/kg of solutes, as the database's program has it
constexpr int most_steps = 60;
constexpr int guess_steps = 11;        ///< halvings of a range of 13 powers of ten, to 2 %
constexpr double longest_step = 2.0;   ///< in ln activity
constexpr double last_step = 1e-7;     ///< in ln activity: the error left is its square
constexpr double close_enough = 1e-11; ///< of what Newton's method does not see: water's activity, acid added
constexpr double vanished = -55.0;     ///< ln activity of carbonate below which none is there
constexpr std::size_t strength = component_count;     ///< column of ionic strength
constexpr std::size_t residual = component_count + 1; ///< column of the right side

} // namespace

Solver::Solver(SpeciesTable const& table, Totals const& totals, double kelvin)
    : table_(table), celsius_(kelvin - freezing), a_(table.debye_huckel_a(celsius_)),
      b_(table.debye_huckel_b(celsius_)), terms_(kelvin)
{
    total_[calcium] = totals.calcium.value();
    total_[magnesium] = totals.magnesium.value();
    total_[sodium] = totals.sodium.value();
    total_[chloride] = totals.chloride.value();
    total_[sulfate] = totals.sulfate.value();
    total_[carbonate] = totals.carbonate.value();
    total_[boric_acid] = totals.boron.value();
    total_[cyanuric_acid] = totals.cyanurate.value();
    total_[hypochlorous_acid] = totals.chlorine.value();
    alkalinity_ = totals.alkalinity.value();
    for (std::size_t c = 0; c < component_count; ++c)
        there_[c] = total_[c] > 0;
    there_[hydrogen] = true;
}

// ---- a first guess: no ion pairs, activity coefficients from the totals

/// Molality of a species for each unit of its components' activities.
double Solver::per_activity(std::size_t species) const
{
    return std::exp(log_k_[species] - law_log_gamma_[table_.species[species].law]);
}

double Solver::guessed_alkalinity(double h, Closure const& closure) const
{
    double const oh = per_activity(table_.hydroxide) / h, free_h = h * per_activity(hydrogen);
    auto share = [&](std::size_t anion) { return 1 / (1 + h / per_activity(anion)); };
    double sum =
        oh - free_h + total_[boric_acid] * share(table_.borate) + total_[cyanuric_acid] * share(table_.cyanurate);
    if (!there_[cyanuric_acid]) // held chlorine is no hypochlorite
        sum += total_[hypochlorous_acid] * share(table_.hypochlorite);
    if (closure.kind != Closure::Kind::ph_alkalinity && there_[carbonate])
        sum += guessed_carbonate(h, closure) * (2 * per_activity(carbonate) + per_activity(table_.bicarbonate) * h);
    return sum;
}

/// Activity of carbonate at this activity of hydrogen.
double Solver::guessed_carbonate(double h, Closure const& closure) const
{
    double const c0 = per_activity(carbonate), c1 = per_activity(table_.bicarbonate) * h,
                 c2 = per_activity(table_.dissolved_co2) * h * h;
    if (closure.kind == Closure::Kind::gas)
        return std::exp(closure.given - log_k_[table_.dissolved_co2]) / (h * h);
    if (closure.kind != Closure::Kind::ph_alkalinity)
        return total_[carbonate] / (c0 + c1 + c2);
    double const left = alkalinity_ - guessed_alkalinity(h, closure);
    return std::max(left, 0.02 * std::abs(alkalinity_) + 1e-9) / (2 * c0 + c1);
}

void Solver::guess_hydrogen(Closure const& closure)
{
    double low = 1e-14, high = 1e-1; // activity; alkalinity falls as it grows
    for (int i = 0; i < guess_steps; ++i)
    {
        double const middle = std::sqrt(low * high);
        (guessed_alkalinity(middle, closure) > alkalinity_ ? low : high) = middle;
    }
    now_.log_activity[hydrogen] = 0.5 * std::log(low * high);
}

// Chlorine and cyanurate lean on each other; alone they are one equation in the activity of hypochlorous acid.
void Solver::guess_chlorine()
{
    std::array<double, 4> by_chlorine{}; // cyanurate species by chlorine atoms, per activity of the ring
    double free_forms = 0;               // without a ring, per activity of the acid
    for (std::size_t p = 0; p < present_count_; ++p)
    {
        Species const& s = table_.species[present_[p]];
        int const atoms = s.makeup.nu[hypochlorous_acid], rings = s.makeup.nu[cyanuric_acid];
        if (atoms == 0 && rings == 0)
            continue;
        double const each = std::exp(s.makeup.nu[hydrogen] * now_.log_activity[hydrogen]) * per_activity(present_[p]);
        (rings > 0 ? by_chlorine.at(static_cast<std::size_t>(atoms)) : free_forms) += each;
    }
    double const cl = total_[hypochlorous_acid], cy = total_[cyanuric_acid];
    auto rings = [&](double f)
    { return by_chlorine[0] + f * (by_chlorine[1] + f * (by_chlorine[2] + f * by_chlorine[3])); };
    double f = 0;
    if (there_[hypochlorous_acid])
    {
        double high = cl / free_forms, low = high * 1e-12;
        for (int i = 0; i < guess_steps && there_[cyanuric_acid]; ++i)
        {
            f = std::sqrt(low * high);
            double const held = f * (by_chlorine[1] + f * (2 * by_chlorine[2] + f * 3 * by_chlorine[3]));
            (f * free_forms + cy * held / rings(f) > cl ? high : low) = f;
        }
        f = there_[cyanuric_acid] ? std::sqrt(low * high) : high;
        now_.log_activity[hypochlorous_acid] = std::log(f);
    }
    if (there_[cyanuric_acid])
        now_.log_activity[cyanuric_acid] = std::log(cy / rings(f));
}

void Solver::guess(Closure const& closure)
{
    double i = std::abs(alkalinity_);
    for (std::size_t c : {calcium, magnesium, sulfate})
        i += 4 * total_[c];
    now_.ionic_strength = 0.5 * (i + total_[sodium] + total_[chloride]) + 1e-7;
    now_.log_water = 0;
    activities();
    bool const given = closure.kind == Closure::Kind::ph_alkalinity || closure.kind == Closure::Kind::ph_carbonate;
    if (given)
        now_.log_activity[hydrogen] = closure.given;
    else
        guess_hydrogen(closure);
    if (there_[carbonate])
        now_.log_activity[carbonate] = std::log(guessed_carbonate(std::exp(now_.log_activity[hydrogen]), closure));
    for (std::size_t c : {calcium, magnesium, sodium, chloride, sulfate, boric_acid})
        if (there_[c])
        {
            double const anion =
                c == boric_acid ? per_activity(table_.borate) * std::exp(-now_.log_activity[hydrogen]) : 0.0;
            now_.log_activity[c] = std::log(total_[c] / (per_activity(c) + anion));
        }
    guess_chlorine();
}

// ---- the equations

void Solver::choose_unknowns(Closure const& closure)
{
    using K = Closure::Kind;
    bool const given = closure.kind == K::ph_alkalinity || closure.kind == K::ph_carbonate;
    there_[carbonate] = total_[carbonate] > 0 || closure.kind == K::ph_alkalinity || closure.kind == K::gas ||
                        closure.kind == K::calcite;
    if (closure.kind == K::calcite && !there_[calcium])
        there_[calcium] = true, total_[calcium] = 1e-9;
    if (closure.kind == K::calcite && !(total_[carbonate] > 0))
        total_[carbonate] = 1e-9;
    unknowns_ = 0;
    for (std::size_t c = 0; c < component_count; ++c)
        if (there_[c] && c != chloride && !(c == hydrogen && given))
            unknown_[unknowns_++] = c;
    present_count_ = 0;
    for (std::size_t s = 0; s < table_.species.size(); ++s)
    {
        Walk const& walk = table_.walk[s];
        bool all = true;
        for (std::size_t p = 0; p < walk.parts; ++p)
            all = all && there_[walk.component[p]];
        if (!all)
            continue;
        present_[present_count_++] = s;
        log_k_[s] = table_.species[s].log_k.at(terms_);
    }
    for (std::size_t s : {table_.hydroxide, table_.bicarbonate, table_.dissolved_co2, table_.borate, table_.cyanurate,
                          table_.hypochlorite})
        log_k_[s] = table_.species[s].log_k.at(terms_); // the guess asks for all of them
}

void Solver::activities()
{
    double const i = now_.ionic_strength, root = std::sqrt(i);
    for (std::size_t l = 0; l < table_.laws.size(); ++l)
    {
        ActivityLaw const& law = table_.laws[l];
        double const z2a = a_ * law.charge * law.charge;
        double const size = law.sized ? law.size * b_ : 1.0;
        double const slope = law.sized || law.charge == 0 ? law.slope : davies_slope * z2a;
        double const under = 1 + size * root;
        law_log_gamma_[l] = ln10 * (-z2a * root / under + slope * i);
        law_slope_[l] = ln10 * (-z2a / (2 * root * under * under) + slope);
    }
}

void Solver::speciate()
{
    sums_ = {};
    strength_ = {};
    double solutes = 0;
    if (there_[chloride])
        now_.log_activity[chloride] = std::log(total_[chloride]) + law_log_gamma_[table_.species[chloride].law];
    for (std::size_t p = 0; p < present_count_; ++p)
    {
        std::size_t const s = present_[p];
        Walk const& one = table_.walk[s];
        double log_m = log_k_[s] + one.water * now_.log_water - law_log_gamma_[one.law];
        for (std::size_t k = 0; k < one.parts; ++k)
            log_m += one.count[k] * now_.log_activity[one.component[k]];
        double const m = std::exp(log_m);
        now_.molality[s] = m;
        solutes += m;
        bool const fixed = s == chloride; // its total is its molality
        double const by_strength = fixed ? 0.0 : -m * law_slope_[one.law];
        double const in_strength = one.half_square_charge * m;
        strength_[residual] += in_strength;
        strength_[strength] += one.half_square_charge * by_strength;
        for (std::size_t j = 0; j < one.parts; ++j)
        {
            double* const row = sums_[one.component[j]].data();
            double const nu = one.count[j], nu_m = nu * m;
            row[residual] += nu_m;
            row[strength] += nu * by_strength;
            strength_[one.component[j]] += nu * in_strength;
            for (std::size_t k = 0; k < one.parts; ++k)
                row[one.component[k]] += nu_m * one.count[k];
        }
    }
    for (std::size_t c = 0; c < component_count; ++c)
        now_.held[c] = sums_[c][residual];
    now_.log_water = std::log1p(-water_activity_slope * solutes);
}

Solver::Row Solver::combined(double of_carbonate, double of_hydrogen, double of_calcium, double wanted) const
{
    Row out;
    for (std::size_t k = 0; k < out.size(); ++k)
        out[k] = of_carbonate * sums_[carbonate][k] + of_hydrogen * sums_[hydrogen][k] + of_calcium * sums_[calcium][k];
    out[residual] = wanted - out[residual];
    return out;
}

void Solver::lay_rows(Closure const& closure)
{
    using K = Closure::Kind;
    for (std::size_t n = 0; n < unknowns_; ++n)
    {
        std::size_t const c = unknown_[n];
        Row& row = rows_[n];
        bool const keeps_alkalinity =
            (c == carbonate && closure.kind == K::ph_alkalinity) || (c == hydrogen && closure.kind != K::calcite);
        if (keeps_alkalinity)
            row = combined(2, -1, 0, alkalinity_);
        else if (c == carbonate && closure.kind == K::gas)
        {
            row = {};
            row[hydrogen] = 2, row[carbonate] = 1;
            row[residual] = closure.given - (log_k_[table_.dissolved_co2] + 2 * now_.log_activity[hydrogen] +
                                             now_.log_activity[carbonate] - now_.log_water);
        }
        else if (c == carbonate && closure.kind == K::calcite)
        {
            row = {};
            row[calcium] = 1, row[carbonate] = 1;
            row[residual] = closure.given - now_.log_activity[calcium] - now_.log_activity[carbonate];
        }
        else if (c == calcium && closure.kind == K::calcite)
            row = combined(-1, 0, 1, total_[calcium] - total_[carbonate]);
        else if (c == hydrogen)
            row = combined(0, -1, 0, alkalinity_ - 2 * total_[carbonate]);
        else
        {
            row = sums_[c];
            row[residual] = total_[c] - row[residual];
            if (c == sodium && added_acid_ < 0)
                row[residual] -= added_acid_;
        }
    }
    rows_[unknowns_] = strength_;
    rows_[unknowns_][strength] -= 1;
    rows_[unknowns_][residual] = now_.ionic_strength - strength_[residual];
}

// Gauss with partial pivoting, each row weighed by its largest entry; the steps come to stand in delta_, by unknown.
bool Solver::eliminate()
{
    std::size_t const n = unknowns_ + 1;
    std::array<Row, most_unknowns> dense;
    std::array<double, most_unknowns> weight;
    std::array<std::size_t, most_unknowns> order;
    for (std::size_t r = 0; r < n; ++r)
    {
        Row const& from = rows_[r];
        Row& to = dense[r];
        double largest = 0;
        for (std::size_t k = 0; k < unknowns_; ++k)
        {
            to[k] = from[unknown_[k]];
            largest = std::max(largest, std::abs(to[k]));
        }
        to[unknowns_] = from[strength];
        to[n] = from[residual];
        largest = std::max(largest, std::abs(to[unknowns_]));
        if (!(largest > 0) || !(largest < 1e300))
            return false;
        weight[r] = 1 / largest;
        order[r] = r;
    }
    for (std::size_t k = 0; k < n; ++k)
    {
        std::size_t best = k;
        double most = -1;
        for (std::size_t r = k; r < n; ++r)
        {
            double const size = std::abs(dense[order[r]][k]) * weight[order[r]];
            if (size > most)
                best = r, most = size;
        }
        std::swap(order[k], order[best]);
        Row const& pivot_row = dense[order[k]];
        if (pivot_row[k] == 0)
            return false;
        double const over_pivot = 1 / pivot_row[k];
        for (std::size_t r = k + 1; r < n; ++r)
        {
            Row& row = dense[order[r]];
            if (row[k] == 0)
                continue;
            double const factor = row[k] * over_pivot;
            for (std::size_t q = k + 1; q <= n; ++q)
                row[q] -= factor * pivot_row[q];
        }
    }
    for (std::size_t k = n; k-- > 0;)
    {
        Row const& row = dense[order[k]];
        double sum = row[n];
        for (std::size_t q = k + 1; q < n; ++q)
            sum -= row[q] * delta_[q];
        delta_[k] = sum / row[k];
    }
    return true;
}

// Takes the step, shortened where it is long; returns its length.
double Solver::step()
{
    double longest = 0;
    for (std::size_t k = 0; k < unknowns_; ++k)
        longest = std::max(longest, std::abs(delta_[k]));
    double const part = longest > longest_step ? longest_step / longest : 1.0;
    for (std::size_t k = 0; k < unknowns_; ++k)
        now_.log_activity[unknown_[k]] += part * delta_[k];
    double const i = now_.ionic_strength;
    now_.ionic_strength = std::clamp(i + part * delta_[unknowns_], 0.2 * i, 5 * i);
    return std::max(longest, std::abs(now_.ionic_strength - i) / i);
}

Solution Solver::newton(Closure const& closure)
{
    double const chloride_of_water = total_[chloride];
    double last = 1;
    for (int n = 0; n < most_steps; ++n)
    {
        activities();
        double const water_before = now_.log_water;
        speciate();
        double lag = std::abs(now_.log_water - water_before); // what Newton's method does not see
        if (closure.kind == Closure::Kind::ph_carbonate)
        {
            double const acid = alkalinity_ - now_.alkalinity();
            lag = std::max(lag, std::abs(acid - added_acid_) / now_.ionic_strength);
            added_acid_ = acid;
            total_[chloride] = chloride_of_water + std::max(acid, 0.0);
            there_[chloride] = total_[chloride] > 0;
        }
        if (last < last_step && lag < close_enough)
        {
            now_.converged = true;
            break;
        }
        lay_rows(closure);
        if (!eliminate())
            break;
        last = step();
        if (there_[carbonate] && now_.log_activity[carbonate] < vanished)
        {
            now_.carbonate_vanished = true;
            break;
        }
        if (!std::isfinite(last))
            break;
    }
    total_[chloride] = chloride_of_water;
    for (std::size_t s = 0; s < table_.species.size(); ++s)
        now_.log_gamma[s] = law_log_gamma_[table_.species[s].law];
    return now_;
}

Solution Solver::solve(Closure const& closure)
{
    now_ = {};
    added_acid_ = 0;
    choose_unknowns(closure);
    guess(closure);
    return newton(closure);
}

Solution Solver::solve(Closure const& closure, Solution const& near)
{
    now_ = near;
    now_.converged = now_.carbonate_vanished = false;
    now_.molality = {};
    added_acid_ = 0;
    choose_unknowns(closure);
    if (closure.kind == Closure::Kind::ph_alkalinity || closure.kind == Closure::Kind::ph_carbonate)
        now_.log_activity[hydrogen] = closure.given;
    return newton(closure);
}

} // namespace padwalk::chemistry
