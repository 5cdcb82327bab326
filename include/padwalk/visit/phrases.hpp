#pragma once
/// Plain words to findings: what a person wrote is matched to the phrases that the knowledge holds.

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
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

/// How a note, or one part of it, was read.
struct PhraseReading
{
    enum class Result
    {
        understood,
        denied,     ///< says that it was looked for and is not there
        not_tested, ///< says that it could not be told
        several,    ///< fits more than one finding, or not surely: a question back
        none        ///< fits nothing: a question back
    };
    Result result = Result::none;
    std::vector<std::string> findings; ///< one, or those it may mean; the nearest ones where it fits nothing
    std::string why;                   ///< of a question, in words
    std::string part;                  ///< what of the note was read so
    std::vector<std::string> stems;    ///< of the note's words that made it fit, without denials and the item's kind
    unsigned score = 0;                ///< how much of the note the phrase explains; to compare two readings
};

/// All the phrases, prepared for matching.
class Vocabulary
{
public:
    explicit Vocabulary(std::vector<Phrase> phrases);

    /// Matches a note about an item of this kind; with an empty kind, among all. Only the first 300 characters count.
    ///
    /// A finding fits when all content words of one of its phrases occur in the note, by their stems, at least one of
    /// them said in the note and no name of the kind itself. The phrase with the most words said wins; a tie between
    /// findings is a question back, and so is a hedge. A single denial of what a phrase says ('no bubbles', 'cover not
    /// missing') is read as looked for and not there; a denial that can be taken otherwise is a question. A finding's
    /// own id is taken as it is. A word of six letters or more may be one letter off.
    [[nodiscard]] PhraseReading match(std::string_view note, std::string_view item) const;

    /// As `match`, for each thing that the note says: 'grinding noise and a drip at the seal' are two.
    [[nodiscard]] std::vector<PhraseReading> read(std::string_view note, std::string_view item) const;

private:
    struct Entry
    {
        std::string finding, item;
        std::vector<int> kind; ///< stems of the kind's name
    };
    struct Held
    {
        std::size_t entry = 0;
        std::vector<int> content; ///< stems, each once
        bool denies = false;
    };
    struct Token;
    struct Fit;
    std::vector<Entry> entries_;
    std::vector<Held> held_;
    std::unordered_map<std::string, int> ids_;
    std::vector<std::string> stems_;
    std::vector<std::vector<std::uint32_t>> holding_; ///< by stem: places in held_

    int id_of(std::string const& stem);
    [[nodiscard]] int known(std::string const& word) const;
    [[nodiscard]] std::vector<Token> tokens(std::string_view note) const;
    [[nodiscard]] Fit fit(Held const& phrase, std::vector<Token> const& note, bool any_kind) const;
};

/// The stems of the content words of a text, in order: lower case, endings and filler words off; every denial ('not',
/// 'without', 'missing', "n't") as 'no'.
[[nodiscard]] std::vector<std::string> content_stems(std::string_view text);

/// Words that speak of danger to people: gas, carbon monoxide, shock, fire, a drain that holds or lies open.
struct Danger
{
    std::string finding;            ///< the finding to read it as
    std::string item;               ///< kind of item that finding is about
    std::string sentence;           ///< where it was said
    std::vector<std::string> words; ///< the words themselves, lower case
    bool denied = false;            ///< 'no gas smell'
};

/// Every danger that a text speaks of, hedged or not; `item` is the kind of item it was written at, or empty.
[[nodiscard]] std::vector<Danger> dangers(std::string_view text, std::string_view item = {});

/// What in any text speaks of danger and is not denied there: 'gas smell', each once. For a text that can't be read
/// otherwise.
[[nodiscard]] std::vector<std::string> danger_in(std::string_view text);

} // namespace padwalk::visit
