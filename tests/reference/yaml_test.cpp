#include "catch_compat.hpp"
#include "padwalk/reference/data.hpp"
#include "padwalk/reference/yaml.hpp"

#include <chrono>

using namespace padwalk;
using namespace std::string_literals;
using fields::Node;
using reference::read_yaml;

namespace
{

/// The one problem of a text that can't be read.
fields::Problem refused(std::string_view text)
{
    try
    {
        Node const node = read_yaml(text);
        FAIL("was read");
    }
    catch (fields::InputProblems const& bad)
    {
        REQUIRE(bad.list().size() == 1);
        return bad.list().front();
    }
    return {};
}

struct Row
{
    std::string text;
    std::size_t line, column;
    std::string message;
};

void check(std::vector<Row> const& rows)
{
    for (auto const& row : rows)
    {
        INFO("text:\n" << row.text);
        auto const bad = refused(row.text);
        CHECK(bad.message == row.message);
        CHECK(bad.place.line == row.line);
        CHECK(bad.place.column == row.column);
        CHECK_FALSE(bad.advice.empty());
    }
}

/// A tree as one line, places aside.
std::string shape_of(Node const& node)
{
    std::string out;
    switch (node.kind)
    {
    case Node::Kind::nothing: return "~";
    case Node::Kind::scalar: return node.quoted ? "'" + node.text + "'" : node.text;
    case Node::Kind::list:
        for (auto const& item : node.items)
            out += (out.empty() ? "" : ", ") + shape_of(item);
        return "[" + out + "]";
    case Node::Kind::map: break;
    }
    for (auto const& entry : node.entries)
        out += (out.empty() ? "" : ", ") + entry.key + ": " + shape_of(entry.value);
    return "{" + out + "}";
}

std::string read_shape(std::string_view text)
{
    return shape_of(read_yaml(text));
}

} // namespace

TEST_CASE("plain YAML becomes a tree that knows its places", "[reference][yaml]")
{
    Node const node = read_yaml("# a walk\nby: inspector\nloops:\n  spa loop:\n    flow: 42 gal   # read twice\n    "
                                "serves: [spa, 'the pool']\nnotes:\n");
    CHECK(shape_of(node) == "{by: inspector, loops: {spa loop: {flow: 42 gal, serves: [spa, 'the pool']}}, notes: ~}");
    Node const& loop = node.at("loops").at("spa loop");
    CHECK(loop.at("flow").place.line == 5);
    CHECK(loop.at("flow").place.column == 11);
    CHECK(loop.entries[0].place.column == 5);
    CHECK(loop.at("serves").items[1].place.column == 19);
    CHECK(node.at("notes").place.line == 7); // the library puts it at the next token; we at its key
    CHECK(read_yaml("½½: {x: 1}").at("½½").at("x").place.column == 11); // columns are bytes here
}

TEST_CASE("an empty file, or one of comments only, is an empty map", "[reference][yaml]")
{
    for (std::string const text : {"", "\n\n", "   ", "# nothing\n", "# nothing\n\n# at all", "\xEF\xBB\xBF", "\r\n"})
    {
        INFO("text '" << text << "'");
        Node const node = read_yaml(text);
        CHECK(node.kind == Node::Kind::map);
        CHECK(node.entries.empty());
    }
}

TEST_CASE("line ends of other systems and a mark at the start change nothing", "[reference][yaml]")
{
    CHECK(read_shape("a: 1\r\nb:\r\n  c: 2\r\n") == "{a: 1, b: {c: 2}}");
    CHECK(read_shape("\xEF\xBB\xBF"
                     "a: 1\n") == "{a: 1}");
    CHECK(read_yaml("\xEF\xBB\xBF"
                    "a: 1\n")
              .at("a")
              .place.column == 4);
    CHECK(read_yaml("a: 1\r\nb: 2\r\n").at("b").place.line == 2);
}

TEST_CASE("values are texts: no octal, hex, infinity, null word or yes becomes something else", "[reference][yaml]")
{
    CHECK(read_shape("a: 010\nb: 0x10\nc: .inf\nd: .nan\ne: 1e-400\nf: yes\ng: off\nh: 08\n") ==
          "{a: 010, b: 0x10, c: .inf, d: .nan, e: 1e-400, f: yes, g: off, h: 08}");
    CHECK(read_shape("a: <5 ppm\nb: ~5 ppm\nc: 6\"\nd: 5' 6\"\ne: n/a\nf: -4 inHg\ng: 1,200 gal\nh: 5 ppm # note\n") ==
          "{a: <5 ppm, b: ~5 ppm, c: 6\", d: 5' 6\", e: n/a, f: -4 inHg, g: 1,200 gal, h: 5 ppm}");
    CHECK(read_shape("a: ~\nb: null\n") == "{a: ~, b: ~}");
    CHECK(read_shape("a: 'it''s'\nb: \"a \\\"b\\\" c\"\n") == "{a: 'it's', b: 'a \"b\" c'}");
    CHECK(read_shape("notes: |\n  one\n  two\nmore: >\n  three\n  four\n") ==
          "{notes: one\ntwo\n, more: three four}");  // white space at the end goes
    CHECK(read_shape("a: [1 2]\n") == "{a: [1 2]}"); // one value; the field that wanted two says so
    CHECK(read_shape("a: one\n   two\n") == "{a: one two}");
}

TEST_CASE("duplicate keys are kept, for the record to refuse by line", "[reference][yaml]")
{
    CHECK(read_shape("a: 1\na: 2\n") == "{a: 1, a: 2}");
    CHECK(read_shape("<<: 1\n") == "{<<: 1}"); // no merging: an unknown key like any other
}

TEST_CASE("a scalar where a map was meant stays one, for the record to refuse", "[reference][yaml]")
{
    CHECK(read_shape("a:1") == "a:1");
    CHECK(read_shape("a: 1\nfoo") == "{a: 1, foo: ~}");
    CHECK(read_shape("a: 1\nfoo\n") == "{a: 1, foo: ~}");
    CHECK(read_shape("~") == "~");
    CHECK(read_shape("---\n") == "~");
}

TEST_CASE("a second document, which a wrong indent makes too, is refused where it starts", "[reference][yaml][trap]")
{
    check({{"  a: 1\nb: 2", 2, 1, "a second document starts here"},
           {"- a\nb: 1", 2, 1, "a second document starts here"},
           {"a: 1\n---\nb: 2", 2, 1, "a second document starts here"},
           {"a: 1\n...\nb: 2", 3, 1, "a second document starts here"}});
    CHECK(refused("  a: 1\nb: 2").advice ==
          "check how far this line is set in: lines of one group start in the same column");
}

TEST_CASE("a misplaced comma or bracket is refused and never loops", "[reference][yaml][trap]")
{
    check({{",", 1, 1, "',' does not belong here"},
           {"\n,", 2, 1, "',' does not belong here"},
           {"]", 1, 1, "not readable as YAML: illegal flow end"},
           {"}", 1, 1, "not readable as YAML: illegal flow end"},
           {"a: ]", 1, 4, "not readable as YAML: illegal flow end"},
           {"a: 1\n,", 2, 1, "not readable as YAML: end of map not found"}});
}

TEST_CASE("a quote that is not closed does not swallow the file", "[reference][yaml][trap]")
{
    std::string const said = "this quote does not close on its line";
    check({{"a: \"x\nb: 2\n", 1, 4, said},
           {"a: 'x\nb: 2\n", 1, 4, said},
           {"a:\n  b: \"open\nc: 1\nd: 2", 2, 6, said},
           {"- \"a", 1, 3, said},
           {"a: [1, \"b, 2]\nc: 3", 1, 8, said},
           {"ok: \"yes\" # it's fine\nnot ok: \"no\nb: 2", 2, 9, said},
           {"it's: 5' 6\"\nb: \"x", 2, 4, said},
           {"a: \"x\\\"\nb: 1", 1, 4, said},
           {"a: \"x\\\nb: 1", 1, 4, said},
           {"a: \"x\n  y\"\nb: 2\n", 1, 4, said}, // closes on a later line
           {"a: \"x\nb: \"2\"\n", 1, 4, said}});
}

TEST_CASE("a bracket that is not closed is shown where it opens", "[reference][yaml][trap]")
{
    check({{"a: [1, 2\nb: 3", 1, 4, "this bracket is not closed"},
           {"x: 1\na: {b: 1", 2, 4, "this bracket is not closed"}});
}

TEST_CASE("anchors, aliases, tags and merges are not taken", "[reference][yaml][trap]")
{
    check({{"a: &x 5\nb: *x", 1, 4, "'&' names a place to refer to; that is not taken here"},
           {"b: *x", 1, 4, "'*' refers to another place; that is not taken here"},
           {"x: &a {self: *a}", 1, 4, "'&' names a place to refer to; that is not taken here"}, // a tree with no end
           {"base: &base {a: 1}\nb:\n  <<: *base", 1, 7, "'&' names a place to refer to; that is not taken here"},
           {"a: !int 5", 1, 4, "'!' starts a type name; that is not taken here"},
           {"a: !!str 5", 1, 4, "'!' starts a type name; that is not taken here"},
           {"a: ! 5", 1, 4, "'!' starts a type name; that is not taken here"},
           {"a: !", 1, 4, "'!' starts a type name; that is not taken here"},
           {"a: !x [1]", 1, 4, "'!' starts a type name; that is not taken here"},
           {"a: !x \"5\"", 1, 4, "'!' starts a type name; that is not taken here"}});
    std::string bomb = "a0: &a0 [x, x]\n";
    for (int i = 1; i <= 60; ++i)
        bomb += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [*a" + std::to_string(i - 1) + ", *a" +
                std::to_string(i - 1) + "]\n";
    CHECK(refused(bomb).place.line == 1);
}

TEST_CASE("bytes that are no text are refused at their place", "[reference][yaml][trap]")
{
    check({{"a: ok\0bad"s, 1, 6, "a control character (byte 0) stands here"},
           {"a: 1\nb: \x1b[31m", 2, 4, "a control character (byte 27) stands here"},
           {"a: \x7f", 1, 4, "a control character (byte 127) stands here"},
           {"a: \xc2\x9b", 1, 4, "a control character (byte 194) stands here"}, // CSI, which terminals obey
           {"a: \xff", 1, 4, "this is not UTF-8 text"},
           {"a: \xc0\xaf", 1, 4, "this is not UTF-8 text"},
           {"a: \xed\xa0\x80", 1, 4, "this is not UTF-8 text"},
           {"a: 5 \xb0", 1, 6, "this is not UTF-8 text"}, // a degree sign of an old code page
           {"\xff\xfe"s + "a\0:\0"s, 1, 1, "this is not UTF-8 text"},
           {"\xfe\xff"s + "\0a\0:"s, 1, 1, "this is not UTF-8 text"},
           {"a\0:\0 \0"s, 1, 2, "a control character (byte 0) stands here"},
           {"a: 1\rb: 2\r", 1, 5, "a carriage return stands alone here"},
           {"a: \"\\0\"", 1, 4, "an escape in this text stands for a control character"},
           {"a: \"\\e[31m\"", 1, 4, "an escape in this text stands for a control character"},
           {"\"\\x07\": 1", 1, 1, "an escape in this text stands for a control character"}});
}

TEST_CASE("what the library can't read is said in one line with advice", "[reference][yaml][trap]")
{
    check({{"a: >5 ppm", 1, 7, "not readable as YAML: unexpected character in block scalar"},
           {"a: %5", 1, 4, "not readable as YAML: unknown token"},
           {"a: @5", 1, 4, "not readable as YAML: unknown token"},
           {"a: - 4 inHg", 1, 4, "not readable as YAML: illegal block entry"},
           {"a: b: c", 1, 5, "not readable as YAML: illegal map value"},
           {"a: 1\n  b: 2", 2, 4, "not readable as YAML: illegal map value"},
           {"\ta: 1", 1, 3, "not readable as YAML: illegal map value"},
           {"a:\n\tb: 1", 2, 3, "not readable as YAML: illegal map value"},
           {"a: \"x\" y", 1, 8, "not readable as YAML: end of map not found"},
           {"%YAML 3.0\n---\na: 1", 1, 1, "not readable as YAML: YAML major version too large"}});
    CHECK(refused("a: >5 ppm").advice == "if a value starts with one of > | % @ ` , put quotes round it");
    CHECK(refused("a:\n\tb: 1").advice == "set lines in with spaces, not tabs");
    CHECK(refused("a: b: c").advice ==
          "write 'name: value', one per line, lines of one group in the same column; quote text that holds ': '");
}

TEST_CASE("keys are single values", "[reference][yaml][trap]")
{
    check({{"? [a]\n: b", 1, 3, "a key must be one plain value"},
           {"{[a]: b}", 1, 2, "a key must be one plain value"},
           {"? {a: 1}\n: b", 1, 3, "a key must be one plain value"},
           {": 5", 1, 1, "a key is missing here"},
           {"~: 5", 1, 1, "a key is missing here"}});
}

TEST_CASE("files that are too long, too deep or too many are refused in time", "[reference][yaml][trap]")
{
    auto const start = std::chrono::steady_clock::now();
    auto deep = [](std::size_t n) { return "a: " + std::string(n, '[') + std::string(n, ']'); };
    CHECK(read_yaml(deep(31)).entries.size() == 1);
    CHECK(refused(deep(32)).message == "nested more than 32 deep");
    CHECK(refused(deep(32)).place.column == 35);
    for (char const bracket : {'[', '{'})
        CHECK(refused(std::string(100000, bracket)).place.line ==
              1); // as one of the rules above, whichever comes first
    std::string indented;
    for (std::size_t i = 0; i < 40; ++i)
        indented += std::string(i, ' ') + "a:\n";
    CHECK(refused(indented + std::string(40, ' ') + "b: 1").message == "nested more than 32 deep");

    auto many = [](std::size_t n) // one list and n values
    {
        std::string text;
        for (std::size_t i = 0; i < n; ++i)
            text += "- a\n";
        return text;
    };
    CHECK(read_yaml(many(19999)).items.size() == 19999);
    auto const too_many = refused(many(20000));
    CHECK(too_many.message == "more than 20000 values");
    CHECK(too_many.place.line == 20000);

    CHECK(read_yaml("# " + std::string((1U << 20) - 2, 'x')).entries.empty());
    auto const too_long = refused("# " + std::string((1U << 20) - 1, 'x'));
    CHECK(too_long.message == "the file has 1048577 bytes; at most 1048576 are read");
    CHECK(too_long.place.line == 0);
    CHECK(read_yaml("a: " + std::string(1000000, 'x')).at("a").text.size() == 1000000);
    CHECK(refused(std::string(1000000, ' ') + "\x01").place.column == 1000001);
    CHECK(std::chrono::steady_clock::now() - start <
          std::chrono::seconds(20)); // sanitizers and a busy machine included
}

TEST_CASE("all texts of one to three odd characters end, read or refused", "[reference][yaml][trap]")
{
    std::string const odd = "a1 \n\t\r,:;-?!&*#|>'\"%@`[]{}~<=.\\";
    std::vector<std::string> texts{""};
    std::size_t from = 0;
    int count = 0;
    for (int length = 1; length <= 3; ++length)
    {
        std::size_t const end = texts.size();
        for (std::size_t i = from; i < end; ++i)
            for (char const c : odd)
            {
                texts.push_back(texts[i] + c);
                try
                {
                    static_cast<void>(read_yaml(texts.back()));
                }
                catch (fields::InputProblems const& bad)
                {
                    REQUIRE(bad.list().size() == 1);
                    ++count;
                }
            }
        from = end;
    }
    CHECK(texts.size() > 30000);
    CHECK(count > 1000);
}
