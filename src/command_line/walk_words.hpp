#pragma once
/// A line as it is typed on a walk, with wet hands: what it means.

#include <cstdint>
#include <string>
#include <vector>

namespace padwalk::command_line
{

enum class Said
{
    nothing, ///< Enter alone
    yes,
    no,
    none, ///< of all that a check may show
    unsure,
    skip,
    cannot,
    back,
    leave,
    help,
    text ///< anything else
};

struct Typed
{
    Said said = Said::nothing;
    std::string text; ///< without blanks at its ends and without control characters
};

/// Capitals, blanks and a key that was hit twice don't matter: ' Y', 'yes', 'yy' are one.
[[nodiscard]] Typed read_typed(std::string const& line);

/// The places in a list of choices that a line names, from 0: '1 4 4', '144', or words of the choices in full or
/// begun, as far as they fit one only. Empty if any part fits none; a digit as often as it stands there.
[[nodiscard]] std::vector<std::size_t> choices_in(std::string const& text, std::vector<std::string> const& choices);

/// How many words of three letters and more a text has.
[[nodiscard]] std::size_t words_in(std::string const& text);

/// Text in lines of at most this width, each led by `lead`.
[[nodiscard]] std::string in_lines(std::string const& text, std::string const& lead, std::size_t columns);

} // namespace padwalk::command_line
