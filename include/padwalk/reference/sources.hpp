#pragma once
/// One bibliography: every fact names a key of it and says how the source was seen.

#include "padwalk/reference/data.hpp"

namespace padwalk::reference
{

/// How a figure is known.
enum class Seen
{
    read,      ///< in the document itself, often an excerpt
    quoted,    ///< a reprint or a second source repeats it
    computed,  ///< worked out from a formula that is itself cited
    judgement, ///< our own
    memory     ///< not confirmed; shown as such, never as a citation
};

/// The source of one row of data.
struct Cited
{
    std::string key;
    std::string where;
    Seen seen = Seen::memory;
    static fields::Record<Cited> const& declaration();
};

/// One work.
struct Source
{
    std::string title;
    std::string by;
    std::string year;
    std::string seen; ///< what of it was seen, in words
    static fields::Record<Source> const& declaration();
};

/// All `sources:` of all data files, by key. A key that stands in two files is a DataProblems.
[[nodiscard]] std::map<std::string, Source> bibliography(Data const& data);

/// What an instrument's readings are worth when no doubt is written.
struct Instrument
{
    std::string name;
    std::optional<std::string> doubt;     ///< standard uncertainty, as a reading's difference: '1 psi', '0.2'
    std::optional<units::Fraction> share; ///< or this part of the reading, whichever is more
    Cited source;
    static fields::Record<Instrument> const& declaration();
};

/// data/instruments.yaml as the function that reading a record asks. A record's `kit` (strip, drops, …) chooses among
/// the rows 'free_chlorine/strip', 'free_chlorine/drops'; without it the row 'free_chlorine' holds.
/// Throws DataProblems where the file is not as declared; std::logic_error for a row that is not there.
[[nodiscard]] fields::Instruments instruments(Data const& data);

} // namespace padwalk::reference

template <> struct padwalk::fields::words_of<padwalk::reference::Seen>
{
    static std::vector<std::string> words() { return {"read", "quoted", "computed", "judgement", "memory"}; }
};
