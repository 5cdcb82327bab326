#pragma once
/// What one referral says, section by section: page_referral.cpp what is asked and of whom, referral_evidence.cpp what
/// it rests on.

#include "document_pages.hpp"
#include "spoken.hpp"

#include <set>

namespace padwalk::report
{

using assess::Assessment;

/// Judgement: a cause less likely than this is named and no more.
inline constexpr double worth_a_line = 0.05;

class ReferralPage
{
public:
    ReferralPage(Assessment const& a, assess::Referral const& referral, Lexicon const& words,
                 DocumentOptions const& options)
        : a_(a), referral_(referral), words_(words), say_(a, words), options_(options)
    {
        for (std::size_t const i : referral.alarms)
            comes_to_.insert(a.alarms.at(i).item);
        for (std::size_t const i : referral.causes)
            comes_to_.insert(a.causes.at(i).item);
        around_ = comes_to_;
        for (std::size_t const item : comes_to_)
            add_around(item);
    }

    [[nodiscard]] Page page() const;

private:
    Assessment const& a_;
    assess::Referral const& referral_;
    Lexicon const& words_;
    Spoken say_;
    DocumentOptions const& options_;
    std::set<std::size_t> comes_to_; ///< items
    std::set<std::size_t> around_;   ///< and those whose readings bear on them: of the same loop, heater or water

    void add_around(std::size_t item)
    {
        auto const group = [](std::string const& path)
        {
            std::size_t const first = path.find('/');
            return first == std::string::npos ? path : path.substr(0, path.find('/', first + 1));
        };
        std::string const own = group(a_.items.at(item).path);
        if (!own.empty())
            for (std::size_t i = 1; i < a_.items.size(); ++i)
                if (group(a_.items[i].path) == own)
                    around_.insert(i);
    }

    [[nodiscard]] Section danger() const;
    [[nodiscard]] Section asked() const;
    void ask_for_alarms(Section& out, std::size_t& number) const;
    [[nodiscard]] Section where() const;
    [[nodiscard]] Section seen() const;
    [[nodiscard]] Section readings() const;
    [[nodiscard]] Section figures() const;
    [[nodiscard]] Section likely() const;
    [[nodiscard]] Section to_do() const;
    [[nodiscard]] Section care() const;
    [[nodiscard]] Section found() const;
    [[nodiscard]] Section pictures() const;
    [[nodiscard]] std::string sign(assess::CauseEntryOf const& cause, std::size_t place) const;
    [[nodiscard]] Drawing bars() const;
    [[nodiscard]] std::vector<std::string> reasons(assess::CauseEntryOf const& cause) const;
    [[nodiscard]] std::vector<std::string> evidence(assess::CauseEntryOf const& cause,
                                                    std::vector<assess::WeightEntry> const& weights) const;
};

} // namespace padwalk::report
