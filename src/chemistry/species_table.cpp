#include "species_table.hpp"

#include "padwalk/reference/sources.hpp"

#include <algorithm>
#include <optional>

namespace padwalk::chemistry
{
namespace
{

using fields::Record;
using units::Number;

constexpr double ln10 = 2.302585092994046;
constexpr double gas_constant = 8.31470e-3; ///< kJ/(mol K), as the database's own program takes it
constexpr double reference_kelvin = 298.15;
constexpr double default_neutral_slope = 0.1;
constexpr char file[] = "chemistry/water_constants.yaml";

/// Which rows a choice of sets takes.
enum class InSet
{
    both,
    plummer_busenberg,
    phreeqc,
    obrien,
    wahman
};

} // namespace
} // namespace padwalk::chemistry

template <> struct padwalk::fields::words_of<padwalk::chemistry::InSet>
{
    static std::vector<std::string> words()
    {
        return {"both", "plummer_busenberg_1982", "phreeqc_3.8.8", "obrien_1974", "wahman_2019"};
    }
};

namespace padwalk::chemistry
{
namespace
{

struct Expression
{
    Number constant{}, per_kelvin{}, over_kelvin{}, log10_kelvin{}, over_square{}, per_square{};
    std::optional<Number> at_25;
    Number enthalpy{};
    static Record<Expression> const& declaration()
    {
        static Record<Expression> const record =
            Record<Expression>("log_k", "log10 K by temperature")
                .field("constant", &Expression::constant, "constant term")
                .field("per_kelvin", &Expression::per_kelvin, "times T")
                .field("over_kelvin", &Expression::over_kelvin, "over T")
                .field("log10_kelvin", &Expression::log10_kelvin, "times log10 T")
                .field("over_square", &Expression::over_square, "over T squared")
                .field("per_square", &Expression::per_square, "times T squared")
                .field("at_25", &Expression::at_25, "log10 K at 25 °C")
                .field("enthalpy", &Expression::enthalpy, "enthalpy of reaction, kJ/mol");
        return record;
    }

    [[nodiscard]] LogK log_k() const
    {
        LogK k;
        if (at_25)
        { // van 't Hoff
            double const over = enthalpy.value() / (ln10 * gas_constant);
            k.a = {at_25->value() + over / reference_kelvin, 0, -over, 0, 0, 0};
        }
        else
            k.a = {constant.value(),     per_kelvin.value(),  over_kelvin.value(),
                   log10_kelvin.value(), over_square.value(), per_square.value()};
        for (double& a : k.a)
            a *= ln10;
        return k;
    }
};

struct Row
{
    std::string name, written;
    InSet set = InSet::both;
    fields::Named<Number> made_of;
    Expression log_k;
    std::optional<Number> size, slope;
    reference::Cited source;
    static Record<Row> const& declaration()
    {
        static Record<Row> const record = Record<Row>("row", "a species, mineral or gas")
                                              .field("name", &Row::name, "its name")
                                              .required()
                                              .field("written", &Row::written, "as a formula, where it is a component")
                                              .field("set", &Row::set, "the set of constants it belongs to")
                                              .required()
                                              .field("made_of", &Row::made_of, "what it is formed from")
                                              .field("log_k", &Row::log_k, "its constant")
                                              .field("size", &Row::size, "ion size, angstrom")
                                              .field("slope", &Row::slope, "linear term of the activity coefficient")
                                              .field("source", &Row::source, "where it comes from")
                                              .required();
        return record;
    }
};

struct Quadratic
{
    Number constant{}, per_degree{}, per_square{};
    static Record<Quadratic> const& declaration()
    {
        static Record<Quadratic> const record = Record<Quadratic>("quadratic", "by degrees Celsius")
                                                    .field("constant", &Quadratic::constant, "constant term")
                                                    .required()
                                                    .field("per_degree", &Quadratic::per_degree, "times t")
                                                    .required()
                                                    .field("per_square", &Quadratic::per_square, "times t squared")
                                                    .required();
        return record;
    }
    [[nodiscard]] std::array<double, 3> terms() const
    {
        return {constant.value(), per_degree.value(), per_square.value()};
    }
};

struct DebyeHuckel
{
    Quadratic a, b;
    reference::Cited source;
    static Record<DebyeHuckel> const& declaration()
    {
        static Record<DebyeHuckel> const record =
            Record<DebyeHuckel>("debye_huckel", "coefficients of the activity law")
                .field("a", &DebyeHuckel::a, "A")
                .required()
                .field("b", &DebyeHuckel::b, "B, per angstrom")
                .required()
                .field("source", &DebyeHuckel::source, "where they come from")
                .required();
        return record;
    }
};

struct File
{
    DebyeHuckel debye_huckel;
    std::vector<Row> components, species, minerals, gases;
    fields::Named<reference::Source> sources;
    static Record<File> const& declaration()
    {
        static Record<File> const record = Record<File>("water constants", "equilibria of water")
                                               .field("debye_huckel", &File::debye_huckel, "activity law")
                                               .required()
                                               .field("components", &File::components, "free ions")
                                               .required()
                                               .field("species", &File::species, "what they form")
                                               .required()
                                               .field("minerals", &File::minerals, "solids")
                                               .required()
                                               .field("gases", &File::gases, "gases")
                                               .required()
                                               .field("sources", &File::sources, "works cited");
        return record;
    }
};

struct ComponentName
{
    std::string_view name, written;
    int charge;
};
constexpr std::array<ComponentName, component_count> component_names{{{"hydrogen", "H+", 1},
                                                                      {"calcium", "Ca+2", 2},
                                                                      {"magnesium", "Mg+2", 2},
                                                                      {"sodium", "Na+", 1},
                                                                      {"chloride", "Cl-", -1},
                                                                      {"sulfate", "SO4-2", -2},
                                                                      {"carbonate", "CO3-2", -2},
                                                                      {"boric_acid", "B(OH)3", 0},
                                                                      {"cyanuric_acid", "H3Cy", 0},
                                                                      {"hypochlorous_acid", "HOCl", 0}}};

[[noreturn]] void bad_data(std::string message)
{
    throw reference::DataProblems(file, {}, {{{}, 0, std::move(message), {}, {}}});
}

/// Gathers one choice of sets.
class Builder
{
public:
    Builder(File const& rows, CarbonateSet carbonate, CyanurateSet cyanurate)
        : rows_(rows),
          carbonate_(carbonate == CarbonateSet::plummer_busenberg ? InSet::plummer_busenberg : InSet::phreeqc),
          cyanurate_(cyanurate == CyanurateSet::obrien ? InSet::obrien : InSet::wahman)
    {
    }

    SpeciesTable build()
    {
        for (std::size_t i = 0; i < component_count; ++i)
            add_component(i);
        for (auto const& row : rows_.species)
            if (taken(row))
                add_species(row);
        for (std::size_t i = 0; i < table_.minerals.size(); ++i)
            table_.minerals[i] = reaction(rows_.minerals, std::array{"calcite", "aragonite", "gypsum"}[i]);
        table_.carbon_dioxide_gas = reaction(rows_.gases, "carbon_dioxide");
        table_.debye_a = rows_.debye_huckel.a.terms();
        table_.debye_b = rows_.debye_huckel.b.terms();
        table_.hydroxide = place("OH-");
        table_.bicarbonate = place("HCO3-");
        table_.dissolved_co2 = place("CO2");
        table_.borate = place("B(OH)4-");
        table_.cyanurate = place("H2Cy-");
        table_.hypochlorite = place("OCl-");
        if (table_.species.size() > most_species || table_.laws.size() > most_laws)
            bad_data("more species or activity laws than the solver has room for");
        return std::move(table_);
    }

private:
    [[nodiscard]] bool taken(Row const& row) const
    {
        return row.set == InSet::both || row.set == carbonate_ || row.set == cyanurate_;
    }

    std::size_t place(std::string_view name) const
    {
        std::size_t const found = table_.find(name);
        if (found == SpeciesTable::absent)
            bad_data("no species " + std::string(name) + " in this set");
        return found;
    }

    // Keeps a species with its parts laid out for the solver.
    void keep(Species s)
    {
        Walk w;
        for (std::size_t c = 0; c < component_count; ++c)
            if (s.makeup.nu[c] != 0)
            {
                if (w.parts == w.component.size())
                    bad_data(s.name + " is made of too many components");
                w.component[w.parts] = static_cast<std::uint8_t>(c);
                w.count[w.parts++] = s.makeup.nu[c];
            }
        w.half_square_charge = 0.5 * s.charge * s.charge;
        w.water = s.makeup.water;
        w.law = static_cast<std::uint8_t>(s.law);
        table_.walk.push_back(w);
        table_.species.push_back(std::move(s));
    }

    std::size_t law(int charge, Row const* row)
    {
        ActivityLaw wanted;
        wanted.charge = charge;
        wanted.sized = charge != 0 && row != nullptr && row->size.has_value();
        wanted.size = wanted.sized ? row->size->value() : 0.0;
        double const slope = row != nullptr && row->slope ? row->slope->value() : default_neutral_slope;
        wanted.slope = wanted.sized || charge == 0 ? slope : 0.0;
        auto const found = std::find(table_.laws.begin(), table_.laws.end(), wanted);
        if (found != table_.laws.end())
            return static_cast<std::size_t>(found - table_.laws.begin());
        table_.laws.push_back(wanted);
        return table_.laws.size() - 1;
    }

    void add_component(std::size_t index)
    {
        auto const& known = component_names.at(index);
        Row const* own = nullptr;
        for (auto const& row : rows_.components)
            if (row.name == known.name && taken(row))
                own = &row;
        if (known.charge != 0 && own == nullptr)
            bad_data("no component " + std::string(known.name) + " in this set");
        Species s;
        s.name = known.written;
        s.makeup.nu.at(index) = 1;
        s.charge = known.charge;
        s.law = law(s.charge, own);
        keep(std::move(s));
    }

    // Makeup and constant in terms of components, with those of the species it is formed from added.
    Reaction resolved(Row const& row)
    {
        Reaction out{row.name, {}, row.log_k.log_k()};
        for (auto const& [name, count] : row.made_of)
        {
            int const times = static_cast<int>(std::lround(count.value()));
            if (name == "water")
            {
                out.makeup.water += times;
                continue;
            }
            auto const component = std::find_if(component_names.begin(), component_names.end(),
                                                [&, &n = name](auto const& c) { return c.name == n; });
            if (component != component_names.end())
            {
                out.makeup.nu.at(static_cast<std::size_t>(component - component_names.begin())) += times;
                continue;
            }
            std::size_t const made = table_.find(name);
            if (made == SpeciesTable::absent)
                bad_data(row.name + " is made of '" + name + "', which is not there");
            out.makeup.add(table_.species[made].makeup, times);
            for (int i = 0; i < times; ++i)
                out.log_k += table_.species[made].log_k;
        }
        return out;
    }

    void add_species(Row const& row)
    {
        Reaction r = resolved(row);
        Species s{r.name, r.makeup, r.log_k, 0, r.makeup.charge()};
        s.law = law(s.charge, &row);
        keep(std::move(s));
    }

    // A mineral dissolves into what it is made of, so its K is that of dissolution; a gas likewise.
    Reaction reaction(std::vector<Row> const& among, std::string_view name)
    {
        for (auto const& row : among)
            if (row.name == name && taken(row))
            {
                Reaction out{row.name, {}, row.log_k.log_k()};
                out.makeup = resolved(row).makeup;
                return out;
            }
        bad_data("no " + std::string(name) + " in this set");
    }

    File const& rows_;
    InSet carbonate_, cyanurate_;
    SpeciesTable table_;
};

} // namespace

LogK& LogK::operator+=(LogK const& other)
{
    for (std::size_t i = 0; i < a.size(); ++i)
        a[i] += other.a[i];
    return *this;
}

void Makeup::add(Makeup const& other, int times)
{
    for (std::size_t i = 0; i < nu.size(); ++i)
        nu[i] += times * other.nu[i];
    water += times * other.water;
}

int Makeup::charge() const
{
    int sum = 0;
    for (std::size_t i = 0; i < nu.size(); ++i)
        sum += nu[i] * component_names[i].charge;
    return sum;
}

std::size_t SpeciesTable::find(std::string_view name) const
{
    for (std::size_t i = 0; i < species.size(); ++i)
        if (species[i].name == name)
            return i;
    return absent;
}

std::vector<SpeciesTable> species_tables(reference::Data const& data,
                                         std::vector<std::pair<CarbonateSet, CyanurateSet>> const& sets)
{
    auto const rows = reference::read_table<File>(data, file);
    std::vector<SpeciesTable> out;
    for (auto const& [carbonate, cyanurate] : sets)
        out.push_back(Builder(rows, carbonate, cyanurate).build());
    return out;
}

} // namespace padwalk::chemistry
