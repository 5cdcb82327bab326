#pragma once
#include "page.hpp"

namespace padwalk::report
{

/// A cause as it is to be drawn. Names come in the reader's language.
struct CauseBar
{
    struct Evidence
    {
        std::string name;
        double log_odds = 0.0; ///< natural log; its size alone counts
    };

    std::string name;
    std::string chance_words; ///< 'likely, 82 %'
    double chance = 0.0;
    std::vector<Evidence> for_it, against_it;
};

/// All other words of the drawing.
struct LikelihoodWords
{
    std::string title = "How likely each cause is";
    std::string against = "against", speaks_for = "for";
    std::string for_it = "For it", against_it = "Against it";
    std::string nothing = "No sign here speaks for or against it.";
    std::string caption = "How likely each cause is: a full bar is certain. Under it the strongest signs: to the right "
                          "(+) what speaks for it, to the left (−) what speaks against it; the longer, the stronger.";
    std::string cut = "The picture holds the first causes and signs only.";
};

/// The causes in the order given, each with its chance as a bar and under it the strongest three signs for it and two
/// against it, as bars to either side. What would make the picture taller than a page is left out from the end, signs
/// first. No svg without causes. `id` is unique on the page.
[[nodiscard]] Drawing likelihood_drawing(std::vector<CauseBar> const& causes, std::string const& id,
                                         LikelihoodWords const& words = {});

} // namespace padwalk::report
