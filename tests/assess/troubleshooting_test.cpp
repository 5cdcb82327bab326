// Published troubleshooting tables against our own judgement: each symptom alone on a small visit, and where among all
// the causes that it raises the published ones come. tests/reference/diagnosis/troubleshooting.tsv says where from.

#include "assessed.hpp"
#include "catch_compat.hpp"

#include "../../src/assess/judge.hpp"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iomanip>
#include <iostream>
#include <sstream>

using namespace padwalk;
using tests::engine;

namespace
{

// As long as a long published list: the longest here has twelve causes. Who looks no further than ten finds it.
constexpr std::size_t looked_at = 10;

struct Pair
{
    std::string area, symptom, place, cause, source, seen, parts, findings, causes, stands, why;

    [[nodiscard]] bool compared() const { return stands != "-"; }
    [[nodiscard]] bool of_read() const { return seen == "read"; }
};

std::vector<Pair> pairs()
{
    std::ifstream file(PADWALK_TEST_REFERENCE "/diagnosis/troubleshooting.tsv");
    std::vector<Pair> out;
    bool columns_named = false;
    for (std::string line; std::getline(file, line);)
    {
        if (line.empty() || line.front() == '#')
            continue;
        std::istringstream fields(line);
        Pair p;
        for (std::string Pair::*const field :
             {&Pair::area, &Pair::symptom, &Pair::place, &Pair::cause, &Pair::source, &Pair::seen, &Pair::parts,
              &Pair::findings, &Pair::causes, &Pair::stands, &Pair::why})
            std::getline(fields, p.*field, '\t');
        if (columns_named)
            out.push_back(p);
        columns_named = true;
    }
    return out;
}

std::vector<std::string> words(std::string const& text)
{
    std::istringstream stream(text);
    std::vector<std::string> out;
    for (std::string word; stream >> word;)
        if (word != "+" && word != "-")
            out.push_back(word);
    return out;
}

struct Sign
{
    std::string id;
    bool there;
    [[nodiscard]] diagnosis::FindingEntry const& entry() const { return *engine().knowledge().finding(id); }
};

std::vector<Sign> signs(Pair const& pair)
{
    std::vector<Sign> out;
    for (auto const& word : words(pair.findings))
    {
        bool const denied = word.compare(0, 4, "not:") == 0;
        out.push_back({denied ? word.substr(4) : word, !denied});
    }
    return out;
}

// A visit that holds these parts, each described only as far as it must be.
std::string visit_with(std::string const& parts)
{
    auto const part_words = words(parts);
    auto has = [&](std::string const& part)
    { return std::find(part_words.begin(), part_words.end(), part) != part_words.end(); };
    std::string yaml;
    if (has("freezing_pool"))
        yaml += "freezing_winters: yes\n";
    if (has("pool") || has("spa") || has("new_pool") || has("freezing_pool"))
        yaml += std::string("waters:\n  body:\n    kind: ") + (has("spa") ? "spa" : "pool") +
                "\n    shell: {surface: plaster" + (has("new_pool") ? ", plastered: 21 days" : "") + "}\n";
    if (has("loop"))
        yaml += std::string("loops:\n  a:\n    pump: {}\n") + (has("drain") ? "    drains: {one: {}, two: {}}\n" : "");
    if (has("gas_heater"))
        yaml += "heaters: {h: {energy: natural_gas}}\n";
    if (has("heat_pump"))
        yaml += "heaters: {h: {energy: heat_pump}}\n";
    if (has("fill_valve"))
        yaml += "fill_valves: {f: {kind: float_valve}}\n";
    return yaml;
}

struct Raised
{
    std::string id;
    double prior, posterior;
    [[nodiscard]] double rise() const { return posterior / prior; }
};

std::size_t item_of(assess::Property const& property, std::string const& kind)
{
    for (std::size_t i = 0; i < property.things().size(); ++i)
        if (property.at(i).entry.kind == kind)
            return i;
    throw std::runtime_error("the visit has no " + kind);
}

// Every cause that the signs raised, likeliest first; weighed as on any visit, those that no report would name too.
std::vector<Raised> raised_by(std::string const& yaml, std::vector<Sign> const& noted)
{
    auto const read = visit::read_visit(yaml, engine().instruments());
    assess::Workbench bench(read, engine(), units::System::us);
    for (auto const& sign : noted)
        bench.noticed(item_of(bench.property, sign.entry().item), sign.id, sign.there, "noticed");
    auto const weighed = assess::weigh(bench);
    REQUIRE(weighed.all.possible);
    std::vector<Raised> out;
    auto const& causes = weighed.network.causes();
    for (std::size_t c = 0; c < causes.size(); ++c)
        if (weighed.all.causes[c] > 1.001 * causes[c].prior)
            out.push_back({*causes[c].id, causes[c].prior, weighed.all.causes[c]});
    std::stable_sort(out.begin(), out.end(),
                     [](Raised const& x, Raised const& y) { return x.posterior > y.posterior; });
    return out;
}

// The best place of any of these causes, from 1; 0 where none was raised.
std::size_t place_of(std::vector<std::string> const& ids, std::vector<Raised> const& raised)
{
    for (std::size_t i = 0; i < raised.size(); ++i)
        if (std::find(ids.begin(), ids.end(), raised[i].id) != ids.end())
            return i + 1;
    return 0;
}

std::vector<Raised> by_rise(std::vector<Raised> raised)
{
    std::stable_sort(raised.begin(), raised.end(),
                     [](Raised const& x, Raised const& y) { return x.rise() > y.rise(); });
    return raised;
}

struct Placed
{
    Pair pair;
    std::size_t place, place_by_rise, of;
};

constexpr std::size_t nowhere = 1000; ///< a cause that was not raised counts as worse than any place

std::vector<Placed> placed()
{
    std::vector<Placed> out;
    std::string last;
    std::vector<Raised> raised;
    for (auto const& pair : pairs())
    {
        if (!pair.compared())
            continue;
        INFO(pair.symptom << " / " << pair.cause << " / " << pair.source);
        if (pair.parts + pair.findings != last)
            raised = raised_by(visit_with(pair.parts), signs(pair));
        last = pair.parts + pair.findings;
        auto const ids = words(pair.causes);
        auto const place = place_of(ids, raised), rise = place_of(ids, by_rise(raised));
        out.push_back({pair, place == 0 ? nowhere : place, rise == 0 ? nowhere : rise, raised.size()});
    }
    return out;
}

std::size_t median(std::vector<std::size_t> places)
{
    REQUIRE_FALSE(places.empty());
    std::sort(places.begin(), places.end());
    return places[places.size() / 2];
}

std::string shown(std::size_t place)
{
    return place == nowhere ? "none" : std::to_string(place);
}

template <typename Which> std::vector<std::size_t> places(std::vector<Placed> const& all, Which const& which)
{
    std::vector<std::size_t> out;
    for (auto const& row : all)
        if (which(row))
            out.push_back(row.place);
    return out;
}

template <typename Which> void print_share(std::string const& what, std::vector<Placed> const& all, Which const& which)
{
    auto const chosen = places(all, which);
    auto within = [&](std::size_t n)
    { return std::count_if(chosen.begin(), chosen.end(), [n](std::size_t place) { return place <= n; }); };
    std::vector<std::size_t> rises;
    for (auto const& row : all)
        if (which(row))
            rises.push_back(row.place_by_rise);
    std::cout << what << ": " << chosen.size() << " pairs, first " << within(1) << ", in three " << within(3)
              << ", in five " << within(5) << ", in ten " << within(looked_at) << ", beyond "
              << static_cast<std::ptrdiff_t>(chosen.size()) - within(looked_at) << "; median place " << median(chosen)
              << ", by rise " << median(rises) << "\n";
}

void print_table(std::vector<Placed> const& all)
{
    for (auto const& row : all)
        std::cout << std::setw(5) << shown(row.place) << std::setw(5) << shown(row.place_by_rise) << " of "
                  << std::setw(2) << row.of << "  " << row.pair.stands << "  " << row.pair.symptom << " > "
                  << row.pair.cause << "  (" << row.pair.seen << ")\n";
}

} // namespace

TEST_CASE("troubleshooting: the table is whole and what is left out says why", "[assess]")
{
    auto const all = pairs();
    std::size_t compared = 0;
    for (auto const& pair : all)
    {
        INFO(pair.symptom << " / " << pair.cause);
        CHECK_FALSE(pair.why.empty());
        CHECK((pair.seen == "read" || pair.seen == "memory"));
        CHECK((pair.stands == "held" || pair.stands == "miss" || pair.stands == "-"));
        CHECK((pair.stands == "held") == (pair.why == "-"));
        for (auto const& sign : signs(pair))
            CHECK(engine().knowledge().finding(sign.id) != nullptr);
        for (auto const& id : words(pair.causes))
            CHECK(engine().knowledge().cause(id) != nullptr);
        compared += pair.compared() ? 1U : 0U;
    }
    CHECK(all.size() >= 265);
    CHECK(compared >= 228);
}

TEST_CASE("troubleshooting: published causes stand among the first that a symptom raises", "[assess]")
{
    auto const all = placed();
    print_share("published causes, sources read", all, [](Placed const& r) { return r.pair.of_read(); });
    print_share("the same from memory", all, [](Placed const& r) { return !r.pair.of_read(); });
    print_share("where more than five causes rise", all, [](Placed const& r) { return r.of > 5; });
    print_share("first of a published list", all, [](Placed const& r) { return r.pair.place == "1"; });
    if (std::getenv("PADWALK_SHOW_RANKS") != nullptr)
        print_table(all);
    std::size_t held = 0;
    for (auto const& row : all)
    {
        INFO(row.pair.symptom << " / " << row.pair.cause << ": place " << shown(row.place) << " of " << row.of);
        if (row.pair.stands == "held")
            CHECK(row.place <= looked_at);
        else if (row.place <= looked_at)
            std::cout << "no longer a miss: " << row.pair.symptom << " / " << row.pair.cause << "\n";
        held += row.pair.stands == "held" ? 1U : 0U;
    }
    CHECK(held >= 203);
    // Chosen before any place was known: a list of five causes in any order has its median at three.
    auto const read = places(all, [](Placed const& r) { return r.pair.of_read(); });
    CHECK(median(read) <= 3);
    auto const in_five = std::count_if(read.begin(), read.end(), [](std::size_t place) { return place <= 5; });
    CHECK(static_cast<double>(in_five) >= 0.7 * static_cast<double>(read.size()));
}
