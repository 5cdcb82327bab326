#include "catch_compat.hpp"

#include "padwalk/report/text.hpp"
#include "report/sample.hpp"

#include <regex>

using namespace padwalk;
using tests::count;
using tests::lines_of;

namespace
{

std::string const long_word(200, 'w');

// Markup, terminal codes, C1 and direction marks, bytes that are no UTF-8, a word no line holds, and other scripts.
std::string const nasty = "<b onclick=\"x()\">a & b</b> \x1b[31mred\x1b]0;title\x07 \xc2\x9b"
                          "31m \xe2\x80\xae"
                          "evil \xff\xc0\x80 \x7f 'q' "
                          "水の温度は四十度です Ünïcödé naïveté\ttab\r\nnext line " +
                          long_word + " end";

std::string const plain_words = "some ordinary words of a note that goes on for a while, as notes do, and then stops";

// Columns of a terminal: the Chinese and Japanese characters of these tests take three bytes and two columns.
std::size_t shown_columns(std::string const& line)
{
    std::size_t out = 0;
    for (std::size_t i = 0; i < line.size(); ++i)
    {
        auto const byte = static_cast<unsigned char>(line[i]);
        if ((byte & 0xC0U) != 0x80U)
            out += byte >= 0xE3U && byte <= 0xEDU ? 2 : 1;
    }
    return out;
}

std::string in_one_line(std::string const& text)
{
    std::string out;
    for (auto const& line : lines_of(text))
    {
        std::istringstream words(line);
        for (std::string word; words >> word;)
            out += (out.empty() ? "" : " ") + word;
    }
    return out;
}

std::string without_colour(std::string const& text)
{
    return std::regex_replace(text, std::regex("\x1b\\[[0-9;]*m"), "");
}

} // namespace

TEST_CASE("a chance has one word, by the number printed beside it", "[report][text]")
{
    using report::probability_word;
    CHECK(probability_word(1.0) == "almost certain");
    CHECK(probability_word(0.95) == "almost certain");
    CHECK(probability_word(0.944) == "likely");
    CHECK(probability_word(0.70) == "likely");
    CHECK(probability_word(0.694) == "more likely than not");
    CHECK(probability_word(0.50) == "more likely than not");
    CHECK(probability_word(0.494) == "possible");
    CHECK(probability_word(0.20) == "possible");
    CHECK(probability_word(0.194) == "less likely");
    CHECK(probability_word(0.05) == "less likely");
    CHECK(probability_word(0.044) == "unlikely");
    CHECK(probability_word(0.0) == "unlikely");
}

TEST_CASE("no line is wider than the paper, whatever is written", "[report][text]")
{
    auto const model = tests::sample_model();
    std::string wide; // 60 characters of two columns each, without a blank
    for (int i = 0; i < 60; ++i)
        wide += "水";
    for (std::size_t columns = 32; columns <= 120; columns += columns < 64 ? 1 : 7)
        for (auto const& assessment :
             {tests::sample(model), tests::hostile(model, plain_words), tests::hostile(model, nasty),
              tests::hostile(model, wide + " " + long_word + " 水" + long_word)})
            for (auto const& line : lines_of(report::as_text(assessment, {units::System::us, columns, false})))
            {
                INFO(columns << " columns: " << line);
                REQUIRE(shown_columns(line) <= columns);
            }
    CHECK(report::as_text(tests::sample(model), {units::System::us, 5, false}) ==
          report::as_text(tests::sample(model), {units::System::us, 32, false}));
}

TEST_CASE("a word that no line holds is broken and nothing of it is lost", "[report][text]")
{
    auto const model = tests::sample_model();
    auto assessment = tests::sample(model);
    assessment.summary = long_word + " 水の温度は四十度です水の温度は四十度です水の温度は四十度です end";
    auto const text = report::as_text(assessment, {units::System::us, 40, false});
    std::string together;
    for (char const c : text)
        if (c != '\n' && c != ' ')
            together += c;
    CHECK(together.find(long_word + "水の温度は四十度です水の温度は四十度です水の温度は四十度ですend") !=
          std::string::npos);
    CHECK(count(text, "水") == 3);
    CHECK(text.find("end") != std::string::npos);
}

TEST_CASE("what a terminal would obey never reaches it", "[report][text]")
{
    auto const model = tests::sample_model();
    auto const text = report::as_text(tests::hostile(model, nasty), {units::System::us, 80, false});
    for (char const c : text)
        CHECK((static_cast<unsigned char>(c) >= 0x20 || c == '\n'));
    CHECK(text.find('\x7f') == std::string::npos);
    CHECK(text.find("\xc2\x9b") == std::string::npos);
    CHECK(text.find("\xe2\x80\xae") == std::string::npos);
    CHECK(text.find('\xff') == std::string::npos);
    CHECK(text.find("四十度です") != std::string::npos);
    CHECK(text.find("<b onclick=\"x()\">a & b</b>") != std::string::npos); // plain text keeps markup as it is
}

TEST_CASE("colour adds codes and nothing else", "[report][text]")
{
    auto const model = tests::sample_model();
    for (auto const& assessment : {tests::sample(model), tests::hostile(model, nasty)})
    {
        auto const plain = report::as_text(assessment, {units::System::us, 70, false});
        auto const coloured = report::as_text(assessment, {units::System::us, 70, true});
        CHECK(plain.find('\x1b') == std::string::npos);
        CHECK(coloured.find("\x1b[1;31m") != std::string::npos);
        CHECK(without_colour(coloured) == plain);
        CHECK(count(coloured, "\x1b[0m") * 2 == count(coloured, "\x1b["));
    }
}

TEST_CASE("what is unsafe comes first, in full, at every width", "[report][text]")
{
    auto const model = tests::sample_model();
    auto const assessment = tests::sample(model);
    for (std::size_t const columns : {32U, 80U, 120U})
    {
        auto const text = in_one_line(report::as_text(assessment, {units::System::us, columns, false}));
        std::size_t at = 0;
        for (auto const* next :
             {"Danger: act on this first", "Someone felt a tingle (spa)", "kid says the rail bites",
              "Everyone out of the water. Power off at the breaker by someone dry.", "licensed electrician",
              "Keep out of the water and off wet metal while this is unexplained.",
              "What may be behind it can hurt people",
              "Flue blocked (gas heater), possible, 31 %: Leave the heater off.",
              "Carbon monoxide can't be seen or smelled. On an alarm, headache or dizziness: everyone into fresh air.",
              "In short", "Keep everyone out of the spa until an electrician has been."})
        {
            INFO(columns << " columns: " << next);
            std::size_t const found = text.find(next, at);
            REQUIRE(found != std::string::npos);
            at = found;
        }
    }
}

TEST_CASE("the sections of a text come in the order in which they are acted on", "[report][text]")
{
    auto const model = tests::sample_model();
    auto const text = report::as_text(tests::sample(model), {});
    std::size_t at = 0;
    for (auto const* heading : {"Danger: act on this first",
                                "In short",
                                "Notes that were not understood",
                                "Whom to call, in this order",
                                "Item by item",
                                "What may be behind it",
                                "What you could check next",
                                "Until it is put right",
                                "Figures",
                                "What the figures say",
                                "Readings taken",
                                "Notes and pictures",
                                "How your notes were read",
                                "Values worth a second look",
                                "What does not fit together",
                                "Not tested, and why",
                                "Left blank on the sheet",
                                "Assumed",
                                "Sources",
                                "Chances in words"})
    {
        INFO(heading);
        std::size_t const found = text.find("\n" + std::string(heading), at);
        REQUIRE(found != std::string::npos);
        at = found;
    }
}

TEST_CASE("causes, figures and notes say what they rest on", "[report][text]")
{
    auto const model = tests::sample_model();
    auto const text = in_one_line(report::as_text(tests::sample(model), {units::System::us, 120, false}));
    for (auto const* said : {"likely, 82 %",
                             "possible, 31 %; can hurt people",
                             "very strongly pump grinds (noted)",
                             "noticed: \"grinding noise, worse when warm\": pump grinds (pump of spa loop)",
                             "strongly bubbles at the returns (spa) – not there (noted)",
                             "clearly flow below what the pump's curve allows (computed, 93 %)",
                             "so, 93 %",
                             "45 gpm against 62 gpm",
                             "3. Licensed pool and spa contractor or service: within days",
                             "filter gauge 18 ± 2 psi (pressure gauge)",
                             "assumed: share 100 %",
                             "needs flow: flow of the loop",
                             "it goes wub wub",
                             "no word of this is known",
                             "line 14, loops/spa loop/filter/gauge",
                             "gas was shut off at the meter",
                             "'serves' was not given",
                             "[gum-2008]",
                             "seen: from memory",
                             "spa: tests/1/borate"})
    {
        INFO(said);
        CHECK(text.find(said) != std::string::npos);
    }
    // 16,000 gal / 45 gpm = 355.6 min; one standard doubt is 8 % of it, so the last digit shown is the tens
    CHECK(text.find("time 360 min (300 to 420)") != std::string::npos);
}

TEST_CASE("a name keeps a capital of its own", "[report][text]")
{
    auto const model = tests::sample_model();
    auto assessment = tests::sample(model);
    assessment.causes[1].name = "pH too high";
    auto const text = report::as_text(assessment, {});
    CHECK(text.find("\npH too high (pump of spa loop)") != std::string::npos);
    CHECK(text.find("PH too") == std::string::npos);
}

TEST_CASE("sections without content are left out", "[report][text]")
{
    assess::Assessment empty;
    empty.summary = "Nothing was found.";
    empty.items.push_back({"property", "the property", "", "", "", {}});
    std::string rule; // to the end of 80 columns, behind 'In short '
    for (int i = 0; i < 71; ++i)
        rule += "─";
    CHECK(report::as_text(empty, {}) ==
          "Pool and spa equipment\n\nIn short " + rule +
              "\nNothing was found.\n\n"
              "What was not looked at is not said to be sound. Local code and the maker's\ninstructions decide.\n");
}

TEST_CASE("either system of units can be asked for", "[report][text]")
{
    auto const model = tests::sample_model();
    auto const si = report::as_text(tests::sample(model), {units::System::si, 100, false});
    CHECK(si.find("124 ± 14 kPa") != std::string::npos); // 18 psi is 124.1 kPa, 1 psi 6.9 kPa
    CHECK(si.find("time 5.9 h (5.0 to 7.0)") != std::string::npos);
    CHECK(si.find("mg/L as cyanuric acid") != std::string::npos);
}

TEST_CASE("words that may mean danger stand before all else", "[report][text]")
{
    auto const model = tests::sample_model();
    auto assessment = tests::sample(model);
    assessment.danger_words = {"rotten egg smell at the fence"};
    auto const text = in_one_line(report::as_text(assessment, {}));
    std::size_t const words = text.find("These words may mean danger: “rotten egg smell at the fence”");
    REQUIRE(words != std::string::npos);
    CHECK(words < text.find("Someone felt a tingle"));
    CHECK(text.find("Leave, keep others away, and call emergency services or the gas supplier from outside.") <
          text.find("Someone felt a tingle"));
    assessment.alarms.clear();
    assessment.referrals.clear();
    CHECK(in_one_line(report::as_text(assessment, {})).find("These words may mean danger") != std::string::npos);
}

TEST_CASE("each caution stands in full once, later uses point to it", "[report][text]")
{
    auto const model = tests::sample_model();
    auto const text = in_one_line(report::as_text(tests::sample(model), {}));
    for (auto const* sentence :
         {"Keep out of the water and off wet metal while this is unexplained.",
          "Carbon monoxide can't be seen or smelled.", "Keep hands, hair and loose clothes away"})
    {
        INFO(sentence);
        CHECK(count(text, sentence) == 1);
    }
    CHECK(text.find("Take care: as under Danger") != std::string::npos);
}

TEST_CASE("a cause under five per cent is named in one line, with its evidence", "[report][text]")
{
    auto const model = tests::sample_model();
    auto assessment = tests::sample(model);
    assessment.causes[1].probability = 0.03;
    auto const text = in_one_line(report::as_text(assessment, {}));
    CHECK(text.find("and less likely: motor bearings worn") != std::string::npos);
    CHECK(
        text.find("And less likely: motor bearings worn (pump of spa loop), unlikely, 3 %; for it: very strongly pump "
                  "grinds (noted)") != std::string::npos);
    CHECK(text.find("price a motor before bearings") == std::string::npos);
}

TEST_CASE("what was compared and is not so stands by item, without the comparison", "[report][text]")
{
    auto const model = tests::sample_model();
    auto assessment = tests::sample(model);
    using enum assess::FindingState;
    assessment.findings.push_back({"a", "gauge high", 4, not_seen, 0.03, true, "11 psi against 10 psi"});
    assessment.findings.push_back({"b", "gauge low", 4, not_seen, 0.02, true, "11 psi against 12 psi"});
    assessment.findings.push_back({"c", "rate high", 4, unclear, 0.5, true, "0.9 gpm/ft² against 1 gpm/ft²"});
    auto const text = in_one_line(report::as_text(assessment, {}));
    CHECK(text.find("filter of spa loop: gauge high, 3 %; gauge low, 2 %") != std::string::npos);
    CHECK(text.find("11 psi against 10 psi") == std::string::npos);
    CHECK(text.find("rate high (filter of spa loop): can't tell, 50 %; 0.9 gpm/ft² against 1 gpm/ft²") !=
          std::string::npos);
}

TEST_CASE("published limits that a reading breaks stand in one line, three bodies named, memory said and not cited",
          "[report][text]")
{
    auto const model = tests::sample_model();
    auto assessment = tests::sample(model);
    CHECK(report::as_text(assessment, {}).find("Published limits") == std::string::npos);
    std::vector<assess::BrokenLimit> const bodies{{"This State", "state-rule", "7.4 to 7.8", "", false, true},
                                                  {"That Council", "council-page", "at most 7.6", "", false, false},
                                                  {"Old Book", "book-memory", "at most 7.7", "", true, false},
                                                  {"Fourth", "fourth-rule", "at most 7.5", "", false, false}};
    assessment.limits_broken.push_back({1, "pH", "7.9 ± 0.2", bodies, 5, "This State", "above"});
    auto const text = in_one_line(report::as_text(assessment, {}));
    CHECK(text.find("pH 7.9 ± 0.2 (spa): broken: This State (7.4 to 7.8) [state-rule]; That Council (at most 7.6) "
                    "[council-page]; Old Book (at most 7.7, from memory, not confirmed); 1 more; kept: 5; above the "
                    "limit used here (This State)") != std::string::npos);
    CHECK(text.find("Fourth") == std::string::npos);
    CHECK(text.find("book-memory") == std::string::npos);
}

TEST_CASE("field names are said in words, pH with its capital", "[report][text]")
{
    auto const model = tests::sample_model();
    auto assessment = tests::sample(model);
    assessment.oddities[0].message = "carbon_monoxide_in_air of 14 ppm is unusual";
    assessment.readings[0].label = "ph";
    auto const text = in_one_line(report::as_text(assessment, {}));
    CHECK(text.find("carbon monoxide in air of 14 ppm is unusual") != std::string::npos);
    CHECK(text.find("filter of spa loop: pH 18") != std::string::npos);
}

TEST_CASE("a figure shows two quantities and its words, and how to get the rest", "[report][text]")
{
    auto const model = tests::sample_model();
    auto const text = in_one_line(report::as_text(tests::sample(model), {}));
    CHECK(text.find("turns 4") != std::string::npos);
    CHECK(text.find("ppm as Cl2") == std::string::npos); // the third
    CHECK(text.find("verdict: slow") != std::string::npos);
    CHECK(count(text, "padwalk figure") == 1);
}
