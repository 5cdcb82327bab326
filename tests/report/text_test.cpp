#include "catch_compat.hpp"

#include "padwalk/report/text.hpp"
#include "report/sample.hpp"

#include <regex>

using namespace padwalk;
using tests::code_points;
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

TEST_CASE("no line of ordinary words is wider than the paper", "[report][text]")
{
    auto const model = tests::sample_model();
    for (std::size_t const columns : {32U, 40U, 59U, 60U, 80U, 120U})
        for (auto const& assessment : {tests::sample(model), tests::hostile(model, plain_words)})
            for (auto const& line : lines_of(report::as_text(assessment, {units::System::us, columns, false})))
            {
                INFO(columns << " columns: " << line);
                CHECK(code_points(line) <= columns);
            }
    CHECK(report::as_text(tests::sample(model), {units::System::us, 5, false}) ==
          report::as_text(tests::sample(model), {units::System::us, 32, false}));
}

TEST_CASE("only a word that no line holds makes a line too wide", "[report][text]")
{
    auto const model = tests::sample_model();
    for (std::size_t const columns : {32U, 40U, 80U, 120U})
        for (auto const& line :
             lines_of(report::as_text(tests::hostile(model, nasty), {units::System::si, columns, false})))
        {
            INFO(columns << " columns: " << line);
            bool const fits = code_points(line) <= columns;
            CHECK((fits || line.find(long_word) != std::string::npos));
            CHECK((fits || line.find("end") == std::string::npos)); // the word after it starts a new line
        }
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
    CHECK(text.find("水の温度は四十度です") != std::string::npos);
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
    for (auto const* heading :
         {"Danger: act on this first", "In short", "Whom to call, in this order", "Item by item",
          "What may be behind it", "What you could check next", "Until it is put right", "Figures",
          "What the figures say", "Readings taken", "Notes and pictures", "How your notes were read",
          "Values worth a second look", "What does not fit together", "Not tested, and why", "Left blank on the sheet",
          "Assumed", "Sources", "Chances in words"})
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
    for (auto const* said :
         {"likely, 82 %", "possible, 31 %; can hurt people",
          "very strongly: pump grinds (noticed: \"grinding noise, worse when warm\")",
          "strongly: bubbles at the returns (spa) – not there (looked for: \"bubbles anywhere\")",
          "clearly: flow below what the pump's curve allows (computed, 93 %)", "so, 93 %", "45 gpm against 62 gpm",
          "3. Licensed pool and spa contractor or service within days", "18 ± 2 psi, pressure gauge",
          "assumed: share 100 %", "needs flow: flow of the loop", "it goes wub wub", "no word of this is known",
          "line 14, loops/spa loop/filter/gauge", "gas was shut off at the meter", "'serves' was not given",
          "[gum-2008]", "seen: from memory", "waters/spa/tests/1/borate"})
    {
        INFO(said);
        CHECK(text.find(said) != std::string::npos);
    }
    // 16,000 gal / 45 gpm = 355.6 min; one standard doubt is 8 % of it, so the last digit shown is the tens
    CHECK(text.find("time: 360 min (300 to 420)") != std::string::npos);
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
    CHECK(report::as_text(empty, {}) ==
          "Pool and spa equipment\n\nIn short\n────────\nNothing was found.\n\n"
          "What was not looked at is not said to be sound. Local code and the maker's\ninstructions decide.\n");
}

TEST_CASE("either system of units can be asked for", "[report][text]")
{
    auto const model = tests::sample_model();
    auto const si = report::as_text(tests::sample(model), {units::System::si, 100, false});
    CHECK(si.find("124 ± 14 kPa") != std::string::npos); // 18 psi is 124.1 kPa, 1 psi 6.9 kPa
    CHECK(si.find("time: 5.9 h (5.0 to 7.0)") != std::string::npos);
    CHECK(si.find("mg/L as cyanuric acid") != std::string::npos);
}
