#pragma once
/// Plain words to findings: what a person wrote is matched to the phrases that the knowledge holds.

#include <string>
#include <string_view>
#include <vector>

namespace padwalk::visit
{

/// A finding and the ways people say it.
struct Phrase
{
    std::string finding;
    std::string item; ///< kind of item it is about
    std::vector<std::string> words;
};

/// How a note was read.
struct PhraseReading
{
    enum class Result
    {
        understood,
        several, ///< fits more than one finding: a question back
        none     ///< fits nothing: a question back
    };
    Result result = Result::none;
    std::vector<std::string> findings; ///< one, or those it may mean; the nearest ones where it fits nothing
    std::string why;                   ///< of a question, in words
};

/// All the phrases, prepared for matching.
class Vocabulary
{
public:
    explicit Vocabulary(std::vector<Phrase> phrases);

    /// Matches a note about an item of this kind; with an empty kind, among all.
    ///
    /// A finding fits when all content words of one of its phrases occur in the note, by their stems. The phrase with
    /// the most words wins (the item's own kind counts as said); a tie between findings is a question back, and so is a
    /// denial ('no bubbles') that the phrase does not hold itself. A finding's own id is taken as it is.
    [[nodiscard]] PhraseReading match(std::string_view note, std::string_view item) const;

private:
    struct Entry
    {
        std::string finding, item;
        std::vector<std::vector<std::string>> stems; ///< of each phrase
    };
    std::vector<Entry> entries_;
};

/// The stems of the content words of a text, in order: lower case, endings and filler words off; every denial ('not',
/// 'without', 'missing', "n't") as 'no'.
[[nodiscard]] std::vector<std::string> content_stems(std::string_view text);

} // namespace padwalk::visit
