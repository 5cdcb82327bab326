#pragma once
/// An assessment's names and sentences in the language of a document.

#include "padwalk/assess/assessment.hpp"
#include "padwalk/report/layout.hpp"

namespace padwalk::report
{

class Spoken
{
public:
    Spoken(assess::Assessment const& a, Lexicon const& words) : a_(a), words_(words) {}

    [[nodiscard]] std::string cause(assess::CauseEntryOf const& cause) const;
    [[nodiscard]] std::string ask(assess::CauseEntryOf const& cause) const;
    [[nodiscard]] std::string meanwhile(assess::CauseEntryOf const& cause) const;
    [[nodiscard]] std::string finding(assess::FindingEntryOf const& finding) const;
    [[nodiscard]] std::string alarm(assess::Alarm const& alarm) const; ///< what to do at once
    [[nodiscard]] std::string caution(std::string const& id, std::string const& english) const;
    [[nodiscard]] std::string check(assess::TradeCheck const& check) const;
    [[nodiscard]] std::string needs(assess::TradeCheck const& check) const;
    [[nodiscard]] std::string trade(assess::Referral const& referral) const;
    [[nodiscard]] std::string licensed_for(assess::Referral const& referral) const;
    /// Names that people gave stay as they are: 'bomba de «spa loop»'.
    [[nodiscard]] std::string item(std::size_t item) const;
    [[nodiscard]] std::string at_item(std::string const& what, std::size_t item) const;
    [[nodiscard]] std::string reading(assess::ReadingTaken const& taken) const;
    [[nodiscard]] std::string reading_value(assess::ReadingTaken const& taken, units::System system) const;
    [[nodiscard]] std::string instrument(assess::ReadingTaken const& taken) const;
    [[nodiscard]] std::string figure(assess::FigureEntry const& entry) const;
    /// Its quantities; sentences are the figure's own and English.
    [[nodiscard]] std::string figure_values(assess::FigureEntry const& entry, units::System system) const;
    /// 'likely, 82 %'.
    [[nodiscard]] std::string chance(double probability) const;
    [[nodiscard]] std::string how_soon(assess::Urgency urgency) const;
    [[nodiscard]] std::string walker(visit::By by) const;

private:
    assess::Assessment const& a_;
    Lexicon const& words_;

    [[nodiscard]] std::string before(assess::ReadingTaken const& taken) const;
    [[nodiscard]] bool english() const { return words_.language() == Language::english; }
};

} // namespace padwalk::report
