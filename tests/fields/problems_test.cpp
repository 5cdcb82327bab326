#include "catch_compat.hpp"
#include "padwalk/fields/problems.hpp"

using namespace padwalk::fields;

TEST_CASE("a problem is shown as compilers do: file, line, column, the line, a caret, advice", "[fields][problems]")
{
    std::string const source = "by: inspector\nloops:\n  spa loop:\n    flow: 42 gal\n";
    CHECK(
        as_text({{{4, 14}, 3, "'42 gal' is a volume; flow is a flow", "write it like '45 gpm'", "loops/spa loop/flow"}},
                "visit.yaml", source) == "visit.yaml:4:14: error: '42 gal' is a volume; flow is a flow\n"
                                         "    4 |     flow: 42 gal\n"
                                         "      |              ^^^\n"
                                         "  write it like '45 gpm'\n");
}

TEST_CASE("columns are characters, and the caret stands under text with more bytes than characters",
          "[fields][problems]")
{
    //                        bytes: n o t e : ␠ ½ ½ ␠ 4 5
    std::string const source = "note: ½½ 45 °F\n";
    CHECK(as_text({{{1, 12}, 6, "odd", "", ""}}, "v.yaml", source, "warning") == "v.yaml:1:10: warning: odd\n"
                                                                                 "    1 | note: ½½ 45 °F\n"
                                                                                 "      |          ^^^^^\n");
}

TEST_CASE("problems without a place, several, and lines of every kind", "[fields][problems]")
{
    CHECK(as_text({{{}, 0, "the file is too long", "one file is one visit", ""}}, "v.yaml", "a: 1\n") ==
          "v.yaml: error: the file is too long\n  one file is one visit\n");
    CHECK(as_text({{{1, 1}, 1, "one", "", ""}, {{2, 4}, 1, "two", "", ""}}, "v.yaml", "a: 1\r\nb: 2\r\n") ==
          "v.yaml:1:1: error: one\n    1 | a: 1\n      | ^\n"
          "v.yaml:2:4: error: two\n    2 | b: 2\n      |    ^\n");
    CHECK(as_text({{{9, 9}, 3, "beyond the end", "", ""}}, "v.yaml", "a: 1\n") ==
          "v.yaml:9:1: error: beyond the end\n");
    CHECK(as_text({{{1, 99}, 3, "beyond the line", "", ""}}, "v.yaml", "a: 1\n") ==
          "v.yaml:1:5: error: beyond the line\n    1 | a: 1\n      |     ^\n");
    CHECK(as_text({{{123456, 1}, 1, "far", "", ""}}, "v.yaml", std::string(123455, '\n') + "x") ==
          "v.yaml:123456:1: error: far\n123456 | x\n      | ^\n");
    CHECK(as_text({}, "v.yaml", "a") == "");
}

TEST_CASE("a mark at the start of the file does not shift the caret", "[fields][problems]")
{
    CHECK(as_text({{{1, 4}, 1, "odd", "", ""}}, "v.yaml",
                  "\xEF\xBB\xBF"
                  "a: 1\n") == "v.yaml:1:4: error: odd\n    1 | a: 1\n      |    ^\n");
}

TEST_CASE("control characters and broken text of a hostile file never reach the terminal",
          "[fields][problems][hostile]")
{
    std::string const source = "a: \x1b[31m\xff\xc2\x9b\tx\n";
    CHECK(as_text({{{1, 4}, 1, "bad \x1b byte", "say \x07 it", ""}}, "v.yaml", source) ==
          "v.yaml:1:4: error: bad ? byte\n"
          "    1 | a: ?[31m?? x\n"
          "      |    ^\n"
          "  say ? it\n");
    std::string const far = as_text({{{1, 5000}, 1, "far", "", ""}}, "v.yaml", std::string(10000, 'x'));
    CHECK(far == "v.yaml:1:5000: error: far\n");
    std::string const wide = as_text({{{1, 1}, 9000, "wide", "", ""}}, "v.yaml", std::string(10000, 'x'));
    CHECK(wide ==
          "v.yaml:1:1: error: wide\n    1 | " + std::string(160, 'x') + "…\n      | " + std::string(100, '^') + "\n");
}

TEST_CASE("problems are thrown in the order of the text", "[fields][problems]")
{
    InputProblems const thrown(
        {{{3, 1}, 0, "third", "", ""}, {{1, 5}, 0, "second", "", ""}, {{1, 2}, 0, "first", "", ""}});
    CHECK(thrown.list()[0].message == "first");
    CHECK(thrown.list()[1].message == "second");
    CHECK(thrown.list()[2].message == "third");
}
