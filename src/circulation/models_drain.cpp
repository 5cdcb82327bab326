// The figures of drain covers, and of a filter's gauge since it was clean.
#include "models_parts.hpp"

#include "padwalk/circulation/filter.hpp"

namespace padwalk::circulation
{
namespace
{

using fields::Record;

struct CoverInput
{
    units::VolumeFlow flow{};
    units::Number outlets{};
    std::optional<units::VolumeFlow> cover_rating;
    std::optional<CoverState> cover_state;
    bool unblockable = false;

    static Record<CoverInput> const& declaration()
    {
        static Record<CoverInput> const record =
            Record<CoverInput>("drain_cover_flow", "the outlets that one pump draws from at once, and their covers")
                .field("flow", &CoverInput::flow,
                       "the most they can be asked for together: all of the pump's flow, as with the skimmers shut")
                .required()
                .within("0.1 gpm", "5000 gpm")
                .field("outlets", &CoverInput::outlets, "number of them, in parallel with no valve between")
                .required()
                .within("1", "20")
                .like("2")
                .field("cover_rating", &CoverInput::cover_rating,
                       "flow marked on one cover for its place, floor or wall; the smallest if they differ")
                .within("1 gpm", "5000 gpm")
                .field("cover_state", &CoverInput::cover_state, "how the worst of the covers is found")
                .field("unblockable", &CoverInput::unblockable, "the outlet is listed as too large for a body to block")
                .otherwise("no", "taken as blockable unless its listing says otherwise");
        return record;
    }
};

struct CoverOutput
{
    units::VolumeFlow flow_per_cover{};
    std::optional<units::Fraction> share_of_rating;
    std::optional<units::VolumeFlow> flow_one_blocked;
    std::optional<units::Fraction> share_one_blocked;
    std::string in_words, published;

    static Record<CoverOutput> const& declaration()
    {
        using Out = CoverOutput;
        static Record<Out> const record =
            Record<Out>("drain_cover_flow", "flow through a cover")
                .field("flow_per_cover", &Out::flow_per_cover, "flow through each cover")
                .shown_in("gpm", "m3/h")
                .field("share_of_rating", &Out::share_of_rating, "that flow over the cover's rating")
                .field("flow_one_blocked", &Out::flow_one_blocked,
                       "flow through each of the others with one blocked; none for a single outlet")
                .shown_in("gpm", "m3/h")
                .field("share_one_blocked", &Out::share_one_blocked, "that flow over the cover's rating")
                .field("in_words", &Out::in_words, "what it means")
                .field("published", &Out::published, "what published rules ask, and whose they are");
        return record;
    }
};

CoverFlow flow_of(CoverInput const& in)
{
    return cover_flow({in.flow, in.outlets, in.cover_rating});
}

CoverOutput drain_cover_flow(CoverInput const& in)
{
    CoverFlow const flow = flow_of(in);
    return {flow.each, flow.of_rating, flow.each_one_blocked, flow.of_rating_one_blocked, {}, {}};
}

struct LoadingInput
{
    units::GaugePressure clean_gauge{}, gauge{};
    std::optional<units::RotationSpeed> clean_speed, speed;
    units::Pressure cleaning_rise{};
    units::Number exponent{};

    static Record<LoadingInput> const& declaration()
    {
        using In = LoadingInput;
        static Record<In> const record =
            Record<In>("filter_loading", "the filter's gauge, clean and now")
                .field("clean_gauge", &In::clean_gauge, "what it showed when the filter had just been cleaned")
                .required()
                .within("-15 psi", "100 psi")
                .like("12 psi")
                .field("gauge", &In::gauge, "what it shows now, same valves")
                .required()
                .within("-15 psi", "100 psi")
                .like("20 psi")
                .field("clean_speed", &In::clean_speed, "speed of the pump at the clean reading")
                .within("100 rpm", "10000 rpm")
                .field("speed", &In::speed, "its speed now; both speeds left out: taken as the same")
                .within("100 rpm", "10000 rpm")
                .field("cleaning_rise", &In::cleaning_rise, "rise from which this filter wants cleaning, by its label")
                .otherwise("8 psi ± 3 psi", "US federal advice is 5 to 10 psi over clean, operator courses (from "
                                            "memory) 8 to 10; the filter's label goes before both")
                .within("2 psi", "30 psi")
                .field("exponent", &In::exponent, "power of the speed with which the gauge goes")
                .otherwise("2 ± 0.3", "a loop of friction goes with the square, the dirt's part with less; the doubt "
                                      "is our judgement and counts only where the speeds differ")
                .within("1", "2.3");
        return record;
    }
};

struct LoadingOutput
{
    units::Pressure rise{}, rise_at_clean_speed{};
    units::Fraction share_of_cleaning_rise{};
    std::string in_words, published;

    static Record<LoadingOutput> const& declaration()
    {
        using Out = LoadingOutput;
        static Record<Out> const record =
            Record<Out>("filter_loading", "how far the filter has loaded")
                .field("rise", &Out::rise, "gauge now less the clean reading")
                .shown_in("psi", "kPa")
                .field("rise_at_clean_speed", &Out::rise_at_clean_speed, "that rise at the speed of the clean reading")
                .shown_in("psi", "kPa")
                .field("share_of_cleaning_rise", &Out::share_of_cleaning_rise,
                       "the rise at that speed over the one from which it wants cleaning")
                .field("in_words", &Out::in_words, "what it means, and who cleans")
                .field("published", &Out::published, "published cleaning rises, and whose they are");
        return record;
    }
};

FilterLoad load_of(LoadingInput const& in)
{
    return filter_loading({in.clean_gauge, in.gauge, in.clean_speed, in.speed}, in.cleaning_rise, in.exponent);
}

LoadingOutput loading(LoadingInput const& in)
{
    FilterLoad const load = load_of(in);
    return {load.rise, load.rise_at_clean_speed, load.of_cleaning_rise, {}, {}};
}

} // namespace

void add_drain_models(std::vector<figures::Model>& models, std::vector<CoverRule> const& rules)
{
    models.push_back(figures::model<CoverInput, CoverOutput>(
        {.name = "drain_cover_flow",
         .title = "flow through each drain cover against its rating, with one drain blocked too",
         .equation = "q = Q / n;  one blocked: Q / (n - 1);  share = q / rating",
         .valid = "equal pipes to every outlet; of unequal ones the nearest takes more. A body on the only outlet has "
                  "the pump's whole suction on it: 25 inHg on an opening of 8 in holds with 617 lbf (computed). The "
                  "figure is no proof of safety: cover, sump, pipes and back-up are judged on site by a licensed pool "
                  "contractor. Local code and the maker's instructions decide",
         .sources = {"us-code-8003", "circ-cfr-1450", "utah-r392-302", "montana-37-115", "cpsc-pool-safely",
                     "circ-apsp-7"},
         .cautions = {"suction_entrapment"}},
        drain_cover_flow,
        [words = cover_rules_in_words(rules)](CoverInput const& in, CoverOutput& out)
        {
            out.in_words = cover_flow_in_words(flow_of(in), in.cover_state, in.unblockable);
            out.published = words;
        }));
}

void add_filter_models(std::vector<figures::Model>& models, std::vector<CleaningRise> const& rises)
{
    models.push_back(figures::model<LoadingInput, LoadingOutput>(
        {.name = "filter_loading",
         .title = "rise of the filter's gauge since it was clean, against the usual cleaning point",
         .equation = "rise = p - p0;  at the clean speed: p (n0/n)^e - p0, e = 2;  share = that / cleaning rise",
         .valid = "one gauge, same valve positions, speeds within a factor of 2; lift under the gauge doesn't follow "
                  "the square. The clean reading is the one marked after the last cleaning, not a label's. The "
                  "cleaning rise is one for a constant speed; doubt of it 3 psi",
         .sources = {"epa-watersense", "operator-knowledge", "hydraulic-institute", "judgement"},
         .cautions = {"pressurised_filter"}},
        loading,
        [words = cleaning_in_words(rises)](LoadingInput const& in, LoadingOutput& out)
        {
            out.in_words = filter_load_in_words(load_of(in));
            out.published = words;
        }));
}

} // namespace padwalk::circulation
