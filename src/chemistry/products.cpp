#include "padwalk/chemistry/products.hpp"

#include "padwalk/units/definitions.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <stdexcept>

namespace padwalk::chemistry
{

using fields::Record;

Record<AddsPerMol> const& AddsPerMol::declaration()
{
    static Record<AddsPerMol> const record =
        Record<AddsPerMol>("added totals", "what one mol adds, mol; below zero: takes away")
            .field("carbonate", &AddsPerMol::carbonate, "dissolved inorganic carbon")
            .field("alkalinity", &AddsPerMol::alkalinity, "equivalents")
            .field("calcium", &AddsPerMol::calcium, "calcium")
            .field("magnesium", &AddsPerMol::magnesium, "magnesium")
            .field("sodium", &AddsPerMol::sodium, "sodium")
            .field("chloride", &AddsPerMol::chloride, "chloride")
            .field("sulfate", &AddsPerMol::sulfate, "sulfate")
            .field("boron", &AddsPerMol::boron, "boron")
            .field("cyanurate", &AddsPerMol::cyanurate, "rings of cyanurate")
            .field("chlorine", &AddsPerMol::chlorine, "free chlorine");
    return record;
}

Record<Product> const& Product::declaration()
{
    static Record<Product> const record =
        Record<Product>("product", "a generic pool or spa product")
            .field("name", &Product::name, "generic name with its strength")
            .required()
            .field("kind", &Product::kind, "the substance")
            .required()
            .field("purpose", &Product::purpose, "what it is bought for")
            .required()
            .field("form", &Product::form, "liquid or granular")
            .required()
            .field("formula", &Product::formula, "of the pure active substance")
            .required()
            .field("strength", &Product::strength, "active substance by mass")
            .field("available_chlorine", &Product::available_chlorine, "chlorine by mass, in place of strength")
            .field("density", &Product::density, "of the liquid, or of the powder lying loose")
            .required()
            .field("adds", &Product::adds, "what one mol of the active substance adds")
            .required()
            .field("uncertain", &Product::uncertain, "its effect may be this many times more or less")
            .field("slow", &Product::slow, "dissolves over days; taken only where nothing else is at hand")
            .field("safe_dose", &Product::safe_dose, "most at one time, product per litre of water")
            .required()
            .field("wait", &Product::wait, "before the next product, pump running")
            .required()
            .field("swim", &Product::swim, "before anyone goes in")
            .required()
            .field("pool_rank", &Product::pool_rank, "in a pool the lower is taken first")
            .required()
            .field("spa_rank", &Product::spa_rank, "in a spa the lower is taken first")
            .required()
            .field("how", &Product::how, "how it is put in")
            .required()
            .field("cautions", &Product::cautions, "what to say about safety")
            .required()
            .field("source", &Product::source, "of strength and density")
            .required()
            .field("practice", &Product::practice, "of safe dose and waiting")
            .required();
    return record;
}

Record<Saying> const& Saying::declaration()
{
    static Record<Saying> const record = Record<Saying>("saying", "a sentence under an id")
                                             .field("say", &Saying::say, "the sentence")
                                             .required()
                                             .field("source", &Saying::source, "where it comes from");
    return record;
}

namespace
{

constexpr char path[] = "chemistry/products.yaml";
constexpr char people[] = "diagnosis/people.yaml";

struct WrittenProducts
{
    AddsPerMol when_used;
    fields::Named<Product> products;
    fields::Named<Saying> ways, cautions;
    fields::Named<reference::Source> sources;

    static Record<WrittenProducts> const& declaration()
    {
        static Record<WrittenProducts> const record =
            Record<WrittenProducts>("products", "generic products, how to use them and what to beware of")
                .field("when_used", &WrittenProducts::when_used, "one mol of chlorine as it is spent")
                .required()
                .field("products", &WrittenProducts::products, "by id")
                .required()
                .field("ways", &WrittenProducts::ways, "how they are put in")
                .required()
                .field("cautions", &WrittenProducts::cautions, "what to beware of")
                .required()
                .field("sources", &WrittenProducts::sources, "works cited");
        return record;
    }
};

[[noreturn]] void refuse(std::string const& id, std::string const& what)
{
    throw reference::DataProblems(path, {}, {{{}, 0, "product '" + id + "': " + what, "see the head of the file", {}}});
}

template <class List> auto find(List const& named, std::string_view id)
{
    return std::find_if(named.begin(), named.end(), [&](auto const& entry) { return entry.first == id; });
}

/// The sentence of a caution that the knowledge about people has; nothing where it has none.
std::optional<Saying> caution_for_people(reference::Data const& data, std::string_view id)
{
    for (auto const& section : data.file(people).entries)
        if (section.key == "cautions")
            for (auto const& entry : section.value.entries)
                if (entry.key == id)
                {
                    Saying out;
                    fields::ReadContext context;
                    if (fields::read_record(entry.value, out, context))
                        return out;
                }
    return std::nullopt;
}

void check(Product const& product, fields::Named<Saying> const& ways)
{
    if (product.strength.has_value() == product.available_chlorine.has_value())
        refuse(product.id, "it has either a strength or available chlorine");
    if (product.available_chlorine && product.adds.chlorine.value() <= 0.0)
        refuse(product.id, "it has available chlorine and adds none");
    if (find(ways, product.how) == ways.end())
        refuse(product.id, "the way '" + product.how + "' is not there");
    auto const left = charge_imbalance(added(product.adds, units::of_si<units::Molality>(1.0)));
    if (std::abs(left.value()) > 1e-9)
        refuse(product.id, "its charges do not cancel");
    try
    {
        (void)moles_in(product.formula);
    }
    catch (std::invalid_argument const& e)
    {
        refuse(product.id, e.what());
    }
}

struct Atom
{
    std::string_view symbol;
    double weight; ///< g/mol, abridged standard atomic weight [iupac-2021]
};
constexpr Atom atoms[] = {{"H", 1.008},   {"B", 10.81}, {"C", 12.011}, {"N", 14.007}, {"O", 15.999},
                          {"Na", 22.990}, {"S", 32.06}, {"Cl", 35.45}, {"Ca", 40.078}};

/// Reads formulas by descent: parts joined by '.', groups in brackets, each with a count.
class FormulaReader
{
public:
    explicit FormulaReader(std::string_view text) : text_(text) {}

    double whole()
    {
        double sum = part();
        while (at_ < text_.size() && text_[at_] == '.')
            ++at_, sum += part();
        if (at_ != text_.size())
            fail();
        return sum;
    }

private:
    [[noreturn]] void fail() const { throw std::invalid_argument("no formula: '" + std::string(text_) + "'"); }
    [[nodiscard]] bool is(int (*kind)(int)) const
    {
        return at_ < text_.size() && kind(static_cast<unsigned char>(text_[at_])) != 0;
    }

    double count()
    {
        double n = 0.0;
        while (is(std::isdigit))
            n = 10.0 * n + (text_[at_++] - '0');
        return n > 0.0 ? n : 1.0;
    }

    double part()
    {
        double const times = count();
        double sum = 0.0;
        while (is(std::isupper) || (at_ < text_.size() && text_[at_] == '('))
            sum += group();
        if (sum <= 0.0)
            fail();
        return times * sum;
    }

    double group()
    {
        double one = 0.0;
        if (text_[at_] == '(')
        {
            ++at_, one = part();
            if (at_ == text_.size() || text_[at_] != ')')
                fail();
            ++at_;
        }
        else
        {
            std::size_t const from = at_++;
            while (is(std::islower))
                ++at_;
            one = weight(text_.substr(from, at_ - from));
        }
        return one * count();
    }

    double weight(std::string_view symbol) const
    {
        for (auto const& atom : atoms)
            if (atom.symbol == symbol)
                return atom.weight;
        fail();
    }

    std::string_view text_;
    std::size_t at_ = 0;
};

constexpr double water_density = 1000.0; // kg/m3, one litre holds one kg as in Totals

} // namespace

ProductTable product_table(reference::Data const& data)
{
    auto written = reference::read_table<WrittenProducts>(data, path);
    ProductTable out;
    out.when_used = written.when_used;
    out.ways = std::move(written.ways);
    out.cautions = std::move(written.cautions);
    for (auto& [id, product] : written.products)
    {
        product.id = id;
        check(product, out.ways);
        for (auto const& caution : product.cautions)
            if (find(out.cautions, caution) == out.cautions.end())
            {
                auto said = caution_for_people(data, caution);
                if (!said)
                    refuse(id, "the caution '" + caution + "' is not there");
                out.cautions.emplace_back(caution, std::move(*said));
            }
        out.products.push_back(std::move(product));
    }
    if (auto draining = caution_for_people(data, "draining_shell"))
        out.cautions.emplace_back("draining_shell", std::move(*draining));
    return out;
}

Product const& ProductTable::product(std::string_view id) const
{
    for (auto const& one : products)
        if (one.id == id)
            return one;
    throw std::out_of_range("no product '" + std::string(id) + "'");
}

std::string const& ProductTable::way(std::string_view id) const
{
    auto const found = find(ways, id);
    if (found == ways.end())
        throw std::out_of_range("no way '" + std::string(id) + "'");
    return found->second.say;
}

std::string const& ProductTable::caution(std::string_view id) const
{
    auto const found = find(cautions, id);
    if (found == cautions.end())
        throw std::out_of_range("no caution '" + std::string(id) + "'");
    return found->second.say;
}

units::Molality moles_in(std::string_view formula)
{
    return units::of_si<units::Molality>(1e3 / FormulaReader(formula).whole());
}

units::Molality active_in(Product const& product)
{
    double const mol = product.strength ? product.strength->value() * moles_in(product.formula).value()
                                        : product.available_chlorine->value() /
                                              (product.adds.chlorine.value() * units::exact::chlorine_molar_mass);
    return units::of_si<units::Molality>(mol);
}

Totals added(AddsPerMol const& adds, units::Molality active)
{
    Totals out;
    out.carbonate = active * adds.carbonate.value();
    out.alkalinity = active * adds.alkalinity.value();
    out.calcium = active * adds.calcium.value();
    out.magnesium = active * adds.magnesium.value();
    out.sodium = active * adds.sodium.value();
    out.chloride = active * adds.chloride.value();
    out.sulfate = active * adds.sulfate.value();
    out.boron = active * adds.boron.value();
    out.cyanurate = active * adds.cyanurate.value();
    out.chlorine = active * adds.chlorine.value();
    return out;
}

Totals added(Product const& product, units::Mass dose, units::Volume water)
{
    return added(product.adds, active_in(product) * (dose.value() / (water.value() * water_density)));
}

units::Mass dose_of(Product const& product, units::Molality active, units::Volume water)
{
    return units::of_si<units::Mass>((active / active_in(product)) * water.value() * water_density);
}

units::Mass dose_for(Product const& product, units::Molality Totals::*total, units::Molality change,
                     units::Volume water)
{
    double const each = (added(product.adds, units::of_si<units::Molality>(1.0)).*total).value();
    if (!(each * change.value() > 0.0))
        throw std::invalid_argument(product.id + " does not change it so");
    return dose_of(product, change / each, water);
}

units::Volume volume_of(Product const& product, units::Mass amount)
{
    return amount / product.density;
}

units::Mass mass_of(Product const& product, units::Volume amount)
{
    return amount * product.density;
}

units::Mass safe_dose(Product const& product, units::Volume water)
{
    return units::of_si<units::Mass>(product.safe_dose.value() * water.value());
}

} // namespace padwalk::chemistry
