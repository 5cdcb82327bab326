#pragma once
/// The words of the trade that a page uses, explained.

#include "page.hpp"

namespace padwalk::report
{

/// Those terms that the page uses, each with its meaning, in the order of the glossary.
[[nodiscard]] Section glossary_section(Page const& page, Glossary const& glossary, Lexicon const& words);

/// All that a page says, for what it cites or explains.
[[nodiscard]] std::string all_text(Page const& page);

} // namespace padwalk::report
