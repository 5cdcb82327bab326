// The documents of every scenario: what each must say, in which order, and that nothing from a visit gets out as
// markup.

#include "assessed.hpp"
#include "catch_compat.hpp"
#include "report/layout.hpp"
#include "report/sample.hpp"

#include "padwalk/assess/water_sheet.hpp"
#include "padwalk/report/documents.hpp"

#include <filesystem>
#include <fstream>
#include <regex>
#include <set>
#include <sstream>

using namespace padwalk;

namespace
{

std::string text_of_file(std::filesystem::path const& path)
{
    std::ifstream stream(path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    return text.str();
}

std::vector<std::pair<std::string, assess::WaterReport>> const& scenarios()
{
    static auto const all = []
    {
        std::vector<std::pair<std::string, assess::WaterReport>> out;
        for (auto const& entry : std::filesystem::directory_iterator(std::string(PADWALK_SOURCE_FOLDER) + "/scenarios"))
            if (std::filesystem::exists(entry.path() / "visit.yaml"))
                out.emplace_back(entry.path().filename().string(),
                                 assess::assess_water(visit::read_visit(text_of_file(entry.path() / "visit.yaml"),
                                                                        tests::engine().instruments()),
                                                      tests::engine()));
        return out;
    }();
    return all;
}

/// Elements that do not close, or close another; empty where all is well.
std::string unbalanced(std::string const& html)
{
    static std::vector<std::string> const alone{"meta", "br",   "!doctype", "rect",     "col",    "img",
                                                "path", "line", "circle",   "polyline", "polygon"};
    std::vector<std::string> open;
    for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1))
    {
        std::size_t const end = html.find_first_of(" >\n/", at + 2);
        std::string const tag = html.substr(at + 1, end - at - 1);
        bool const closed = html[html.find('>', at) - 1] == '/';
        if (closed || std::find(alone.begin(), alone.end(), tag) != alone.end())
            continue;
        if (tag.front() != '/')
            open.push_back(tag);
        else if (open.empty() || open.back() != tag.substr(1))
            return tag + " closes " + (open.empty() ? std::string("nothing") : open.back());
        else
            open.pop_back();
    }
    return open.empty() ? std::string() : open.back() + " stays open";
}

report::DocumentOptions in(report::Language language)
{
    return {units::System::us, language, nullptr};
}

std::string spanish_of(assess::Assessment const& a, std::size_t referral)
{
    return report::referral_text(a, referral, tests::layout(), in(report::Language::spanish), {});
}

bool has(std::string const& text, std::string const& what)
{
    return text.find(what) != std::string::npos;
}

/// Text in which lines may break anywhere: with all white space as one blank.
std::string flat(std::string text)
{
    static std::regex const white("(\\s|\u00a0)+");
    return std::regex_replace(text, white, " ");
}

} // namespace

TEST_CASE("documents: the client's page, one for each trade, the owner's, and the record", "[report][documents]")
{
    for (auto const& [name, visit] : scenarios())
    {
        INFO(name);
        auto const all = report::documents(visit, tests::layout(), {});
        std::vector<std::string> names, wanted{"client"};
        for (auto const& document : all)
            names.push_back(document.name);
        for (auto const& referral : visit.assessment.referrals)
            wanted.push_back("refer-" + referral.trade);
        if (!visit.waters.empty())
            wanted.emplace_back("owner");
        wanted.emplace_back("record");
        CHECK(names == wanted);
        for (auto const& document : all)
        {
            INFO(document.name);
            CHECK(unbalanced(document.html).empty());
            for (auto const* what : {"<script", "http:", "https:", "url(", "@import", "<link", "{{", "}}"})
            {
                INFO(what);
                CHECK_FALSE(has(document.html, what));
            }
            CHECK(tests::count(document.html, "<h1>") == 1);
            CHECK(tests::count(document.html, "<h2 ") == tests::count(document.html, "<section "));
            std::regex const id(" id=\"([^\"]*)\"");
            std::set<std::string> ids;
            for (std::sregex_iterator i(document.html.begin(), document.html.end(), id), end; i != end; ++i)
                CHECK(ids.insert((*i)[1]).second); // each once
        }
    }
}

TEST_CASE("documents: what is unsafe stands before all else, and each item in its state", "[report][documents]")
{
    std::size_t unsafe = 0;
    for (auto const& [name, visit] : scenarios())
    {
        INFO(name);
        auto const& a = visit.assessment;
        auto const text = flat(report::client_text(visit, tests::layout(), {}, {}));
        std::size_t const danger = text.find("Danger: act on this first"), standing = text.find("How things stand");
        REQUIRE(standing != std::string::npos);
        if (a.outcome == assess::Outcome::unsafe)
        {
            ++unsafe;
            REQUIRE(danger < standing);
            for (auto const& alarm : a.alarms)
                if (alarm.urgency == assess::Urgency::stop_use)
                    CHECK(text.substr(0, standing).find(flat(a.findings[alarm.finding].name).substr(1)) !=
                          std::string::npos);
            for (auto const& alarm : a.alarms) // of none of them is left out what to do at once
                if (alarm.urgency == assess::Urgency::stop_use)
                    CHECK(has(text, flat(alarm.say.substr(0, 60))));
        }
        else
            CHECK(danger == std::string::npos);
        for (auto const& verdict : a.verdicts)
            CHECK(has(text, flat(a.items[verdict.item].name).substr(1)));
        for (auto const& referral : a.referrals)
            CHECK(has(text, flat(referral.name).substr(1)));
        for (auto const& source : a.sources) // a client looks up no keys
            CHECK_FALSE(has(text, "[" + source.first + "]"));
    }
    CHECK(unsafe >= 2);
}

TEST_CASE("documents: a trade's paper asks for every cause, shows its readings, and leaves room for what was found",
          "[report][documents]")
{
    std::size_t papers = 0;
    for (auto const& [name, visit] : scenarios())
    {
        auto const& a = visit.assessment;
        for (std::size_t i = 0; i < a.referrals.size(); ++i)
        {
            ++papers;
            INFO(name << ", " << a.referrals[i].trade);
            auto const text = flat(report::referral_text(a, i, tests::layout(), {}, {}));
            std::size_t const form = text.find("What was found");
            REQUIRE(form != std::string::npos);
            for (std::size_t const c : a.referrals[i].causes)
            {
                auto const& cause = a.causes[c];
                CHECK(has(text, flat(cause.name).substr(1)));
                CHECK(text.find(flat(cause.name).substr(1), form) != std::string::npos);
                if (cause.probability >= 0.05)
                    CHECK(has(text, flat(cause.ask)));
            }
            for (auto const& caution : a.cautions)
                if (std::find(a.referrals[i].cautions.begin(), a.referrals[i].cautions.end(), caution.first) !=
                    a.referrals[i].cautions.end())
                    CHECK(has(text, flat(caution.second)));
            for (std::size_t const alarm : a.referrals[i].alarms)
                if (a.alarms[alarm].urgency == assess::Urgency::stop_use)
                    CHECK(has(text, flat(a.alarms[alarm].say.substr(0, 60))));
            for (auto const& check : a.referrals[i].checks)
                CHECK(has(text, flat(check.name).substr(1)));
            // Of the items it comes for every reading is there.
            for (auto const& taken : a.readings)
                for (std::size_t const c : a.referrals[i].causes)
                    if (a.causes[c].item == taken.item && !taken.words.empty())
                        CHECK(has(text, flat(taken.words)));
        }
    }
    CHECK(papers >= 10);
}

TEST_CASE("documents: the place for what was found is read back as part of a visit", "[report][documents]")
{
    std::size_t tried = 0;
    for (auto const& [name, visit] : scenarios())
        for (std::size_t i = 0; i < visit.assessment.referrals.size(); ++i)
        {
            INFO(name);
            auto const html = report::referral_html(visit.assessment, i, tests::layout(), {});
            std::size_t const from = html.find("<pre>");
            if (from == std::string::npos)
                continue;
            std::string yaml = html.substr(from + 5, html.find("</pre>", from) - from - 5);
            for (std::size_t at = yaml.find("was: \n"); at != std::string::npos; at = yaml.find("was: \n", at + 1))
                yaml.insert(at + 5, "motor bearings worn");
            auto const read = visit::read_visit(yaml, tests::engine().instruments());
            auto const again = tests::assessed(yaml);
            CHECK_FALSE(again.found.empty());
            ++tried;
        }
    CHECK(tried >= 8);
}

TEST_CASE("documents: hostile text in every free field comes out as text", "[report][documents]")
{
    std::string const nasty =
        "</p></style><script>alert(1)</script><img src=x onerror='y'> \"&amp; \\ ; } @page{} \x1b[31m \xff {{style}} "
        "\xe2\x80\xae";
    auto const model = tests::sample_model();
    assess::WaterReport visit;
    visit.assessment = tests::hostile(model, nasty);
    visit.assessment.on = nasty;
    visit.assessment.items.at(1).photos.push_back({nasty, nasty});
    for (auto const language : {report::Language::english, report::Language::spanish})
        for (auto const& document : report::documents(visit, tests::layout(), in(language)))
        {
            INFO(document.name);
            CHECK(unbalanced(document.html).empty());
            for (auto const* what : {"<script", "<img", "onerror='", "\x1b", "\xff", "\xe2\x80\xae"})
            {
                INFO(what);
                CHECK_FALSE(has(document.html, what));
            }
            CHECK(tests::count(document.html, "</style>") == 1);
            CHECK(has(document.html, "&lt;script&gt;"));
            // The style names property and date; nothing in it ends the string.
            std::string const style = document.html.substr(0, document.html.find("</style>"));
            std::size_t const line = style.rfind("content: \"");
            REQUIRE(line != std::string::npos);
            std::string const rule = style.substr(line + 10);
            CHECK(rule.find('"') == rule.find("\"; } }"));
            CHECK(rule.find('<') == std::string::npos);
        }
}

TEST_CASE("documents: a photo that is there is shown, one that is not is named with its reason", "[report][documents]")
{
    auto const model = tests::sample_model();
    assess::WaterReport visit;
    visit.assessment = tests::sample(model);
    visit.assessment.items.at(1).photos = {{"pad.jpg", "the pad"}, {"gone.jpg", "the vent"}, {"never read.jpg", ""}};
    report::Photos const photos{
        {"pad.jpg", {"data:image/jpeg;base64,AAAA", 40, 30, {}, "only part of it could be read"}},
        {"gone.jpg", {{}, 0, 0, "there is no such file", {}}}};
    auto const html =
        report::client_html(visit, tests::layout(), {units::System::us, report::Language::english, &photos});
    CHECK(has(html, "<img src=\"data:image/jpeg;base64,AAAA\" alt=\"the pad\" width=\"40\" height=\"30\">"));
    CHECK(tests::count(html, "<img ") == 1);
    CHECK(has(html, "only part of it could be read"));
    CHECK(has(html, "gone.jpg: there is no such file"));
    CHECK(has(html, "never read.jpg"));
    auto const named = report::client_text(visit, tests::layout(), {}, {});
    CHECK(has(flat(named), "photo pad.jpg: the pad"));
}

TEST_CASE("documents: words of the trade are explained where they are used, and only there", "[report][documents]")
{
    auto const& glossary = tests::layout().glossary();
    REQUIRE(glossary.size() >= 30);
    std::set<std::string> explained;
    for (auto const& [name, visit] : scenarios())
    {
        INFO(name);
        auto const text = report::client_text(visit, tests::layout(), {}, {});
        std::size_t const words = text.find("Words of the trade");
        if (words == std::string::npos)
            continue;
        for (auto const& term : glossary)
        {
            INFO(term.name);
            std::string const means = flat(term.means).substr(0, 40);
            bool const told = flat(text.substr(words)).find(means) != std::string::npos;
            if (told)
                explained.insert(term.name);
            std::regex const whole("(^|[^A-Za-z0-9])" + term.name + "([^A-Za-z0-9]|$)", std::regex::icase);
            if (std::regex_search(flat(text.substr(0, words)), whole))
                CHECK(told);
        }
    }
    CHECK(explained.size() >= 20);
}

TEST_CASE("documents: the referral in Spanish holds no fixed English word", "[report][documents][spanish]")
{
    auto const& english = tests::layout().words(report::Language::english);
    auto const& spanish = tests::layout().words(report::Language::spanish);
    auto const& words = tests::engine().data().file("report/words.yaml");
    for (auto const& [name, visit] : scenarios())
        for (std::size_t i = 0; i < visit.assessment.referrals.size(); ++i)
        {
            INFO(name);
            auto const& a = visit.assessment;
            auto const text = flat(spanish_of(a, i));
            for (auto const& entry : words.entries)
            {
                std::string const en = english(entry.key), es = spanish(entry.key);
                bool const telling = en.size() > 9 && en.find("{}") == std::string::npos && !has(es, en);
                INFO(entry.key);
                if (telling)
                    CHECK_FALSE(has(text, flat(en)));
            }
            for (std::size_t const c : a.referrals[i].causes)
            {
                CHECK_FALSE(has(text, flat(a.causes[c].name)));
                CHECK(has(text, flat(spanish.said("causes/" + a.causes[c].id + "/name", {})).substr(2)));
            }
            for (auto const& finding : a.findings)
                if (!finding.computed && finding.name.size() > 12 &&
                    finding.from.find(finding.name) == std::string::npos)
                {
                    INFO(finding.name);
                    CHECK_FALSE(has(text, flat(finding.name)));
                }
        }
}

TEST_CASE("documents: the client's page has the safety cautions in Spanish where they are wanted",
          "[report][documents][spanish]")
{
    auto const& spanish = tests::layout().words(report::Language::spanish);
    std::size_t said = 0;
    for (auto const& [name, visit] : scenarios())
    {
        INFO(name);
        auto const& a = visit.assessment;
        auto const text = flat(report::client_text(visit, tests::layout(), in(report::Language::spanish), {}));
        for (auto const& caution : a.cautions)
        {
            CHECK(has(text, flat(spanish.said("cautions/" + caution.first, {}))));
            ++said;
        }
    }
    CHECK(said > 20);
}
