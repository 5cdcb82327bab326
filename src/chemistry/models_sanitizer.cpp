// The figures of chlorine at work: its forms, and its equal without cyanurate.
#include "models_sanitizer.hpp"
#include "model_groups.hpp"

#include "padwalk/chemistry/sanitizer.hpp"
#include "padwalk/numerics/number_text.hpp"

#include <algorithm>
#include <memory>

namespace padwalk::chemistry
{
namespace
{

using fields::Record;

std::string ppm(units::AsChlorine value)
{
    return numerics::number_text(units::in_si(value) * 1e3, 2) + " ppm";
}

/// Both sets of cyanurate's constants, made once.
struct Sets
{
    explicit Sets(reference::Data const& data)
        : obrien(data, CarbonateSet::plummer_busenberg, CyanurateSet::obrien),
          wahman(data, CarbonateSet::plummer_busenberg, CyanurateSet::wahman)
    {
    }
    [[nodiscard]] Equilibria const& of(CyanurateSet set) const { return set == CyanurateSet::wahman ? wahman : obrien; }
    [[nodiscard]] Equilibria const& other(CyanurateSet set) const
    {
        return set == CyanurateSet::wahman ? obrien : wahman;
    }
    Equilibria obrien, wahman;
};
using SharedSets = std::shared_ptr<Sets const>;

struct HypochlorousInput
{
    units::AsChlorine free_chlorine{};
    units::AsCyanuricAcid cyanurate{};
    units::Ph ph{};
    units::Temperature temperature{};
    units::AsSodiumChloride salt{};
    CyanurateSet cyanurate_constants = CyanurateSet::obrien;

    static Record<HypochlorousInput> const& declaration();
};

template <class T, class Member, class Base> Member T::*in(Member Base::*member)
{
    return static_cast<Member T::*>(member);
}

// The readings stand in two inputs; this names them once.
template <class In> Record<In> with_readings(Record<In>&& record)
{
    return std::move(record)
        .field("free_chlorine", in<In>(&HypochlorousInput::free_chlorine), "free chlorine as the kit reads it")
        .required()
        .within("0 ppm", "100 ppm")
        .field("cyanurate", in<In>(&HypochlorousInput::cyanurate), "cyanurate (stabilizer)")
        .required()
        .within("0 ppm", "1000 ppm")
        .field("ph", in<In>(&HypochlorousInput::ph), "pH of the water")
        .required()
        .within("6", "10")
        .field("temperature", in<In>(&HypochlorousInput::temperature), "temperature of the water")
        .required()
        .within("32 degF", "113 degF")
        .field("salt", in<In>(&HypochlorousInput::salt), "salt")
        .otherwise("1000 ppm ± 600 ppm",
                   "it counts little: 3000 ppm lower hypochlorous acid by 3 % with cyanurate, 6 % without")
        .within("0 ppm", "45000 ppm")
        .field("cyanurate_constants", in<In>(&HypochlorousInput::cyanurate_constants), "constants of cyanurate")
        .otherwise("obrien_1974",
                   "the set with all six chlorinated forms; it holds at 25 °C. The newer one gives less, "
                   "and knows temperature from 5 to 35 °C: the truth is taken to lie between");
}

Record<HypochlorousInput> const& HypochlorousInput::declaration()
{
    static Record<HypochlorousInput> const record =
        with_readings(Record<HypochlorousInput>("hypochlorous", "what free chlorine is made of, cyanurate counted"));
    return record;
}

struct HypochlorousOutput
{
    units::AsChlorine hocl{}, ocl{}, held{};
    units::Fraction hocl_share{}, ocl_share{}, held_share{};
    units::AsChlorine hocl_other_set{};
    std::string in_words;

    static Record<HypochlorousOutput> const& declaration()
    {
        using O = HypochlorousOutput;
        static Record<O> const record =
            Record<O>("hypochlorous", "the forms of free chlorine")
                .field("hocl", &O::hocl, "hypochlorous acid, as chlorine: what disinfects")
                .field("ocl", &O::ocl, "hypochlorite, as chlorine: hardly disinfects")
                .field("held", &O::held, "held by cyanurate, as chlorine: in store")
                .field("hocl_share", &O::hocl_share, "hypochlorous acid of the free chlorine")
                .field("ocl_share", &O::ocl_share, "hypochlorite of the free chlorine")
                .field("held_share", &O::held_share, "held by cyanurate of the free chlorine")
                .field("hocl_other_set", &O::hocl_other_set, "hypochlorous acid by the other set of constants")
                .field("in_words", &O::in_words, "how much of it is at work");
        return record;
    }
};

template <class In> ChlorineReadings readings(In const& in)
{
    return {in.free_chlorine, in.cyanurate, in.ph, in.temperature, in.salt};
}

constexpr char forms_equation[] =
    "mass action of hypochlorous acid, hypochlorite and the chlorinated cyanurates at the measured pH, with activity "
    "coefficients; both sets of cyanurate constants are computed and shown";
constexpr char forms_valid[] = "pH 6 to 10, 32 to 113 °F; O'Brien's cyanurate constants are those of 25 °C, Wahman's "
                               "hold from 5 to 35 °C. The two "
                               "differ by a third at 25 °C, and by more elsewhere";

figures::Model hypochlorous_model(SharedSets const& sets)
{
    return figures::model<HypochlorousInput, HypochlorousOutput>(
        {.name = "hypochlorous",
         .title = "how much of the free chlorine is at work, cyanurate counted",
         .equation = forms_equation,
         .valid = forms_valid,
         .sources = {"obrien-1974", "wahman-2018", "wahman-alexander-2019", "morris-1966"}},
        [sets](HypochlorousInput const& in)
        {
            auto const r = readings(in);
            auto const f = chlorine_forms(chlorine_state(sets->of(in.cyanurate_constants), r));
            auto const other = chlorine_forms(chlorine_state(sets->other(in.cyanurate_constants), r));
            return HypochlorousOutput{f.hypochlorous,
                                      f.hypochlorite,
                                      f.held,
                                      f.hypochlorous_share,
                                      f.hypochlorite_share,
                                      f.held_share,
                                      other.hypochlorous,
                                      forms_in_words(f) + "; " + ppm(other.hypochlorous) +
                                          " of acid by the other set of constants"};
        });
}

struct EqualInput : HypochlorousInput
{
    units::AsChlorine wanted{};

    static Record<EqualInput> const& declaration()
    {
        static Record<EqualInput> const record =
            with_readings(Record<EqualInput>("equal_chlorine", "free chlorine with and without cyanurate"))
                .field("wanted", &EqualInput::wanted, "free chlorine without cyanurate whose work is wanted")
                .otherwise("1 ppm", "what codes ask of a pool without cyanurate")
                .within("0.01 ppm", "100 ppm");
        return record;
    }
};

struct EqualOutput
{
    units::AsChlorine equivalent_chlorine{}, equivalent_other_set{}, needed_chlorine{}, needed_other_set{};
    std::string in_words;

    static Record<EqualOutput> const& declaration()
    {
        using O = EqualOutput;
        static Record<O> const record =
            Record<O>("equal_chlorine", "free chlorine of the same work")
                .field("equivalent_chlorine", &O::equivalent_chlorine,
                       "free chlorine that would disinfect as fast without cyanurate")
                .field("equivalent_other_set", &O::equivalent_other_set, "the same by the other set of constants")
                .field("needed_chlorine", &O::needed_chlorine,
                       "free chlorine needed with this cyanurate to do the work wanted")
                .field("needed_other_set", &O::needed_other_set, "the same by the other set of constants")
                .field("in_words", &O::in_words, "what that says");
        return record;
    }
};

EqualOutput equal(Sets const& sets, EqualInput const& in)
{
    auto const r = readings(in);
    auto const& mine = sets.of(in.cyanurate_constants);
    auto const& other = sets.other(in.cyanurate_constants);
    EqualOutput out;
    out.equivalent_chlorine = equivalent_chlorine(mine, r);
    out.equivalent_other_set = equivalent_chlorine(other, r);
    out.needed_chlorine = chlorine_needed(mine, r, in.wanted);
    out.needed_other_set = chlorine_needed(other, r, in.wanted);
    out.in_words = ppm(in.free_chlorine) + " disinfects about as fast as " + ppm(out.equivalent_chlorine) +
                   " without cyanurate (" + ppm(out.equivalent_other_set) +
                   " by the other set of constants); to do what " + ppm(in.wanted) + " does without it takes " +
                   ppm(out.needed_chlorine) + " (" + ppm(out.needed_other_set) + ")";
    if (std::max(out.needed_chlorine, out.needed_other_set) > units::of_si<units::AsChlorine>(10e-3))
        out.in_words += ". More than 10 ppm is above what codes let people swim in: less cyanurate, by fresh water, is "
                        "the way";
    return out;
}

figures::Model equal_model(SharedSets const& sets)
{
    return figures::model<EqualInput, EqualOutput>(
        {.name = "equal_chlorine",
         .title = "free chlorine that would disinfect as fast without cyanurate, and the other way round",
         .equation = "as much hypochlorous acid at the same pH, temperature and salt; " + std::string(forms_equation),
         .valid = forms_valid,
         .sources = {"obrien-1974", "wahman-2018", "wahman-alexander-2019", "morris-1966", "falk-2019"}},
        [sets](EqualInput const& in) { return equal(*sets, in); });
}

} // namespace

std::vector<figures::Model> sanitizer_models(reference::Data const& data)
{
    auto const sets = std::make_shared<Sets const>(data);
    return {hypochlorous_model(sets), equal_model(sets), contact_model(data), giardia_model(),
            conductivity_model(data)};
}

} // namespace padwalk::chemistry
