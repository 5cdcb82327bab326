#include "catch_compat.hpp"
#include "data_folder.hpp"
#include "padwalk/reference/sources.hpp"
#include "padwalk/reference/yaml.hpp"

#include <set>

using namespace padwalk;
using Catch::Matchers::WithinRel;
using fields::Node;
using reference::Data;
using reference::pack;
using reference::unpack;

namespace
{

bool same(Node const& a, Node const& b)
{
    if (a.kind != b.kind || a.place.line != b.place.line || a.place.column != b.place.column || a.quoted != b.quoted ||
        a.text != b.text || a.items.size() != b.items.size() || a.entries.size() != b.entries.size())
        return false;
    for (std::size_t i = 0; i < a.items.size(); ++i)
        if (!same(a.items[i], b.items[i]))
            return false;
    for (std::size_t i = 0; i < a.entries.size(); ++i)
    {
        auto const &x = a.entries[i], &y = b.entries[i];
        if (x.key != y.key || x.place.line != y.place.line || x.place.column != y.place.column ||
            !same(x.value, y.value))
            return false;
    }
    return true;
}

// Every map under a key 'source' (or a list of them) is a citation.
void citations(Node const& node, std::string const& file, std::vector<std::pair<std::string, Node const*>>& out)
{
    for (auto const& entry : node.entries)
    {
        if (entry.key == "source" && entry.value.kind == Node::Kind::map)
            out.emplace_back(file, &entry.value);
        citations(entry.value, file, out);
    }
    for (auto const& item : node.items)
        citations(item, file, out);
}

Node const sample = reference::read_yaml("a: 1\n'b c': [x, 'y: z', ~, {}]\nd:\n  e: |\n    one\n    two\n  f:\n");

} // namespace

TEST_CASE("packing keeps the whole tree", "[reference][pack]")
{
    CHECK(same(unpack(pack(sample)), sample));
    CHECK(same(unpack(pack(Node{})), Node{}));
    Node const odd = Node::scalar(std::string("12 3\0q", 6), {7, 9});
    CHECK(same(unpack(pack(odd)), odd));
}

TEST_CASE("damaged packing is refused and nothing else happens", "[reference][pack]")
{
    std::string const good = pack(sample);
    CHECK_THROWS_AS(unpack(""), std::runtime_error);
    CHECK_THROWS_AS(unpack(good + " "), std::runtime_error);
    CHECK_THROWS_AS(unpack("n1 1"), std::runtime_error);
    CHECK_THROWS_AS(unpack("x1 1 "), std::runtime_error);
    CHECK_THROWS_AS(unpack("s1 1 z1 a"), std::runtime_error);
    CHECK_THROWS_AS(unpack("s1 1 p99999999999999999999 a"), std::runtime_error);
    CHECK_THROWS_AS(unpack("l1 1 18446744073709551615 "), std::runtime_error);
    std::string nested;
    for (int i = 0; i < 1000; ++i)
        nested += "l1 1 1 ";
    CHECK_THROWS_AS(unpack(nested), std::runtime_error);
    for (std::size_t cut = 0; cut < good.size(); ++cut) // every prefix
        CHECK_THROWS_AS(unpack(std::string_view(good).substr(0, cut)), std::runtime_error);
    for (std::size_t at = 0; at < good.size(); ++at) // every byte changed in turn: refused, or another tree
        for (char const c : {'9', ' ', 's', 'm', '\0'})
        {
            std::string damaged = good;
            damaged[at] = c;
            try
            {
                static_cast<void>(unpack(damaged));
            }
            catch (std::runtime_error const&)
            {
            }
        }
}

TEST_CASE("the built-in data is the data folder, file by file", "[reference][data]")
{
    Data const built_in = Data::built_in();
    Data const folder = tests::data_from_folder();
    REQUIRE(built_in.files() == folder.files());
    CHECK(built_in.files().size() >= 20);
    for (auto const& path : folder.files())
    {
        INFO(path);
        CHECK(same(built_in.file(path), folder.file(path)));
        // YAML as a tree, a template or a style sheet as its text
        CHECK(folder.file(path).kind == (path.ends_with(".yaml") ? Node::Kind::map : Node::Kind::scalar));
    }
}

TEST_CASE("a template is held as its text, whatever is in it, and other files are none of the data's",
          "[reference][data]")
{
    std::string const odd = "{{#a}}: [ \"\n\t- & {{/a}}\n";
    auto const data = Data::from_texts({{"report/x.html", odd}, {"report/y.css", "p { }"}});
    CHECK(data.file("report/x.html").text == odd);
    CHECK(reference::unpack(reference::pack(data.file("report/x.html"))).text == odd);
    CHECK(reference::is_data_file("a/b.css"));
    CHECK_FALSE(reference::is_data_file("a/b.txt"));
    CHECK_FALSE(reference::is_data_file("a/yaml"));
}

TEST_CASE("every citation of the data names a work of the bibliography", "[reference][data]")
{
    Data const data = Data::built_in();
    auto const works = reference::bibliography(data);
    CHECK(works.size() > 10);
    std::size_t count = 0;
    for (auto const& path : data.files())
    {
        std::vector<std::pair<std::string, Node const*>> cited;
        citations(data.file(path), path, cited);
        for (auto const& [file, node] : cited)
        {
            ++count;
            INFO(file << ":" << node->place.line);
            reference::Cited row;
            fields::ReadContext context;
            fields::read_record(*node, row, context);
            for (auto const& p : context.problems)
                FAIL_CHECK(p.message);
            INFO("key '" << row.key << "'");
            CHECK((row.key == "judgement" || works.count(row.key) == 1));
            bool const no_document = row.seen == reference::Seen::judgement || row.seen == reference::Seen::memory;
            CHECK((row.key != "judgement" || no_document)); // our own judgement can't have been read anywhere
        }
    }
    CHECK(count > 100);
}

TEST_CASE("data that is missing or not as declared is told with its file", "[reference][data]")
{
    CHECK_THROWS_AS(Data::built_in().file("no/such.yaml"), reference::DataProblems);
    try
    {
        static_cast<void>(Data::from_texts({{"good.yaml", "a: 1"}, {"bad.yaml", "a: 1\nb: \"x\nc: 2"}}));
        FAIL("was read");
    }
    catch (reference::DataProblems const& bad)
    {
        CHECK(bad.file == "bad.yaml");
        CHECK(std::string(bad.what()) == "data file bad.yaml: this quote does not close on its line (line 2)");
    }
    Data const data = Data::from_texts(
        {{"x/a.yaml", "key: k\nseen: read"}, {"x/b.yaml", "key: k\nseen: guessed"}, {"y.yaml", "a: 1"}});
    CHECK(data.files("x/") == std::vector<std::string>{"x/a.yaml", "x/b.yaml"});
    CHECK(reference::read_table<reference::Cited>(data, "x/a.yaml").seen == reference::Seen::read);
    CHECK_THROWS_AS(reference::read_table<reference::Cited>(data, "x/b.yaml"), reference::DataProblems);
}

TEST_CASE("one work may stand in one file only", "[reference][sources]")
{
    auto const one = "sources:\n  k: {title: T, seen: all of it}\n";
    CHECK(reference::bibliography(Data::from_texts({{"a.yaml", one}, {"b.yaml", "a: 1"}})).at("k").title == "T");
    CHECK_THROWS_AS(reference::bibliography(Data::from_texts({{"a.yaml", one}, {"b.yaml", one}})),
                    reference::DataProblems);
    CHECK_THROWS_AS(reference::bibliography(Data::from_texts({{"a.yaml", "sources:\n  k: {title: T}\n"}})),
                    reference::DataProblems);
}

TEST_CASE("an instrument's doubt is its own figure or its share of the reading, whichever is more",
          "[reference][instruments]")
{
    auto const source = ", source: {key: judgement, seen: judgement}}\n";
    Data const data = Data::from_texts(
        {{"instruments.yaml",
          std::string("instruments:\n") + "  gauge: {name: dial, doubt: 1 psi, share: 2 %" + source +
              "  thermometer: {name: thermometer, doubt: 1 degF" + source + "  ph: {name: comparator, doubt: \"0.1\"" +
              source + "  ph/strip: {name: strip, doubt: \"0.25\"" + source +
              "  humidity: {name: reported, doubt: 8 %" + source + "  meter: {name: meter, share: 5 %" + source}});
    auto const instruments = reference::instruments(data);
    constexpr double psi = 6894.757293168361;
    auto doubt = [&](units::Measure measure, double value, std::string const& row, std::string const& kit = {})
    {
        Node record = Node::map();
        if (!kit.empty())
            record.entries.push_back({"kit", {}, Node::scalar(kit)});
        return instruments({measure, value, 0, {}, false}, row, record);
    };
    CHECK_THAT(doubt(units::Measure::gauge_pressure, 18 * psi, "gauge").doubt, WithinRel(psi, 1e-12));
    CHECK_THAT(doubt(units::Measure::gauge_pressure, 100 * psi, "gauge").doubt, WithinRel(2 * psi, 1e-12));
    CHECK_THAT(doubt(units::Measure::gauge_pressure, -100 * psi, "gauge").doubt, WithinRel(2 * psi, 1e-12));
    CHECK_THAT(doubt(units::Measure::temperature, 313.15, "thermometer").doubt, WithinRel(1 / 1.8, 1e-12));
    CHECK_THAT(doubt(units::Measure::fraction, 0.4, "humidity").doubt, WithinRel(0.08, 1e-12));
    CHECK_THAT(doubt(units::Measure::volume_flow, 2e-3, "meter").doubt, WithinRel(1e-4, 1e-12));
    CHECK_THAT(doubt(units::Measure::ph, 7.5, "ph").doubt, WithinRel(0.1, 1e-12));
    CHECK_THAT(doubt(units::Measure::ph, 7.5, "ph", "strip").doubt, WithinRel(0.25, 1e-12));
    CHECK(doubt(units::Measure::ph, 7.5, "ph", "Strip").method == "strip"); // the kit's word is read case aside
    CHECK(doubt(units::Measure::ph, 7.5, "ph", "drops").method == "comparator");
    CHECK_THROWS_AS(doubt(units::Measure::ph, 7.5, "wombat"), std::logic_error);
}
