#include "wording.hpp"

#include "padwalk/report/text.hpp"
#include "plain.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace padwalk::report
{
namespace
{

struct ChanceWord
{
    int from; ///< per cent, rounded
    std::string_view word;
};

constexpr std::array chance_words{ChanceWord{95, "almost certain"},       ChanceWord{70, "likely"},
                                  ChanceWord{50, "more likely than not"}, ChanceWord{20, "possible"},
                                  ChanceWord{5, "less likely"},           ChanceWord{0, "unlikely"}};

struct StrengthWord
{
    double times; ///< by how much the odds change, at least
    std::string_view word;
};

constexpr std::array strength_words{StrengthWord{20, "very strongly"}, StrengthWord{5, "strongly"},
                                    StrengthWord{2, "clearly"}, StrengthWord{0, "slightly"}};

// The word goes by the number that is printed beside it, so that the two never disagree.
int rounded_percent(double probability)
{
    return static_cast<int>(std::lround(100 * std::clamp(probability, 0.0, 1.0)));
}

} // namespace

std::string_view probability_word(double probability)
{
    int const p = rounded_percent(probability);
    return std::find_if(chance_words.begin(), chance_words.end(), [&](ChanceWord const& w) { return p >= w.from; })
        ->word;
}

std::string_view soon_word(assess::Urgency urgency)
{
    switch (urgency)
    {
    case assess::Urgency::stop_use: return "now; it stays out of use until then";
    case assess::Urgency::soon: return "within days";
    case assess::Urgency::plan: return "at the next planned visit";
    case assess::Urgency::watch: break;
    }
    return "nobody needs to come yet; look again";
}

std::string_view condition_word(assess::Condition condition)
{
    switch (condition)
    {
    case assess::Condition::unsafe: return "not safe to use";
    case assess::Condition::does_not_work: return "does not work";
    case assess::Condition::works_with_fault: return "works, with a fault";
    case assess::Condition::cannot_tell: return "can't tell from here";
    case assess::Condition::works: return "works, as far as it was tried";
    case assess::Condition::not_tested: break;
    }
    return "not tested";
}

std::string_view walker(visit::By by)
{
    switch (by)
    {
    case visit::By::inspector: return "an inspector";
    case visit::By::technician: return "a technician";
    case visit::By::owner: break;
    }
    return "the owner";
}

std::string percent(double probability)
{
    int const p = rounded_percent(probability);
    if (p == 0 || p == 100)
        return p == 0 ? "under 1\u00a0%" : "over 99\u00a0%";
    return std::to_string(p) + "\u00a0%";
}

std::string chance(double probability)
{
    return std::string(probability_word(probability)) + ", " + percent(probability);
}

std::string_view strength_word(double log_odds)
{
    double const size = std::abs(log_odds);
    for (auto const& w : strength_words)
        if (w.times > 0 && size >= std::log(w.times))
            return w.word;
    return strength_words.back().word;
}

std::string chance_footnote()
{
    return "Chances in words: almost certain from 95\u00a0%, likely from 70\u00a0%, more likely than not from "
           "50\u00a0%, possible from 20\u00a0%, less likely from 5\u00a0%, unlikely below. Causes may be present "
           "together, so they need not add up to 100\u00a0%.";
}

std::string strength_footnote()
{
    return "All else kept, what speaks slightly changes the odds of a cause less than 2 times, clearly 2 to 5 times, "
           "strongly 5 to 20 times, very strongly more.";
}

std::string quoted(std::string_view text)
{
    return "“" + std::string(text) + "”";
}

std::string plain_name(std::string_view name)
{
    std::string out, word;
    auto end_word = [&]
    {
        static constexpr std::pair<std::string_view, std::string_view> spelled[] = {
            {"ph", "pH"}, {"npsh", "NPSH"}, {"hocl", "HOCl"}, {"ocl", "OCl"}, {"co2", "CO2"}};
        auto const known =
            std::find_if(std::begin(spelled), std::end(spelled), [&](auto const& s) { return s.first == word; });
        out += known == std::end(spelled) ? word : std::string(known->second);
        word.clear();
    };
    for (char const c : name)
    {
        bool const letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
        if (letter)
        {
            word += c;
            continue;
        }
        end_word();
        out += c == '_' ? ' ' : c;
    }
    end_word();
    return out;
}

std::string brief(std::string_view text, std::size_t most)
{
    std::string const whole = clean(text);
    if (width(whole) <= most)
        return whole;
    std::size_t clause = 0, word = 0, taken = 0;
    for (std::size_t i = 0; i < whole.size(); ++i)
    {
        if ((static_cast<unsigned char>(whole[i]) & 0xC0U) != 0x80U && ++taken > most)
            break;
        if (whole[i] == ' ' || whole[i] == '\n')
            word = i;
        if (whole[i] == ';' || (whole[i] == ' ' && whole.compare(i, 3, " - ") == 0))
            clause = i;
    }
    std::size_t const cut = clause > 0 ? clause : word;
    return cut > 0 ? whole.substr(0, cut) + " …" : wrapped(whole, most, most).front() + "…";
}

std::vector<std::string> caution_sentences(assess::Assessment const& a, std::vector<std::string> const& ids)
{
    std::vector<std::string> out;
    for (auto const& id : ids)
        for (auto const& [known, sentence] : a.cautions)
            if (known == id)
                out.push_back(sentence);
    return out;
}

std::string trade_name(assess::Assessment const& a, std::string_view trade)
{
    if (trade.empty() || trade == "none")
        return {};
    for (auto const& referral : a.referrals)
        if (referral.trade == trade)
            return referral.name;
    std::string out(trade);
    std::replace(out.begin(), out.end(), '_', ' ');
    return out;
}

std::string at_item(assess::Assessment const& a, std::string_view what, std::size_t item)
{
    return item == 0 ? std::string(what) : std::string(what) + " (" + a.items.at(item).name + ")";
}

} // namespace padwalk::report
