#include "padwalk/units/reading.hpp"

#include "padwalk/units/spelling.hpp"
#include "plain_text.hpp"
#include "unit_match.hpp"
#include "written_number.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace padwalk::units
{
namespace
{

using Wrong = std::optional<TextProblem>;

bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

bool same_but_for_case(std::string_view a, std::string_view b)
{
    return a.size() == b.size() && edits(a, b) == 0;
}

// '1 ft 6 in' is one length; '18 psi 20 psi' is two readings.
bool adds_up(Dimension dimension)
{
    using D = Dimension;
    return dimension == D::length || dimension == D::time || dimension == D::mass || dimension == D::volume;
}

std::string_view without_article(std::string_view noun)
{
    return noun.substr(noun.find(' ') + 1);
}

/// Walks one plain text from left to right; offsets are those of the plain text until a problem is made.
class Scanner
{
public:
    Scanner(std::string_view original, PlainText const& plain, MeasureInfo const& measure, std::string_view field)
        : original_(original), plain_(plain), text_(plain.text), measure_(measure), field_(field),
          dimensions_(dimensions_of(measure))
    {
    }

    std::variant<Reading, TextProblem> reading();

private:
    std::string_view original_;
    PlainText const& plain_;
    std::string_view text_;
    MeasureInfo const& measure_;
    std::string field_;
    std::vector<Dimension> dimensions_;
    std::size_t pos_ = 0;

    double value_ = 0;
    double sigma_ = 0;
    Unit const* unit_ = nullptr; ///< of the value's last term; null where only a number stands
    bool doubted_ = false;

    [[nodiscard]] bool at_end() const { return pos_ >= text_.size(); }
    [[nodiscard]] std::string_view rest() const { return text_.substr(pos_); }
    [[nodiscard]] bool pure() const { return measure_.dimension == Dimension::none; }
    void skip_space()
    {
        while (!at_end() && text_[pos_] == ' ')
            ++pos_;
    }

    [[nodiscard]] TextProblem problem(std::size_t from, std::size_t to, std::string message, std::string advice) const;
    [[nodiscard]] std::string quote(std::size_t from, std::size_t to) const;
    [[nodiscard]] std::string example() const { return "write it like '" + std::string(measure_.example) + "'"; }
    // 'suction is a pressure'; where the field is called what it is, 'flow is a flow' would say nothing.
    [[nodiscard]] std::string wants(std::string_view noun) const
    {
        return field_ == without_article(noun)
                   ? field_ + " wants " + std::string(noun) + ", such as " + std::string(measure_.example)
                   : field_ + " is " + std::string(noun);
    }
    [[nodiscard]] std::string example_and_units() const;
    [[nodiscard]] TextProblem not_a_number(std::size_t start) const;
    [[nodiscard]] TextProblem no_unit_here(std::size_t number_start) const;
    [[nodiscard]] TextProblem other_dimension(std::size_t number_start, UnitMatch const& other) const;
    [[nodiscard]] TextProblem leftover() const;
    [[nodiscard]] double to_si(Unit const& unit, double number, bool difference) const;

    Wrong amount(double& out, std::size_t start);
    Wrong value_part();
    Wrong term(std::size_t start, bool first, double sign, double& total);
    Wrong basis();
    Wrong doubt_part();
    Wrong doubt_then_unit();
    Wrong doubt_after_unit();
    [[nodiscard]] Wrong impossible() const;
};

TextProblem Scanner::problem(std::size_t from, std::size_t to, std::string message, std::string advice) const
{
    std::size_t const a = plain_.at[std::min(from, text_.size())];
    std::size_t const b = plain_.at[std::min(to, text_.size())];
    return {a, b > a ? b - a : 0, std::move(message), std::move(advice)};
}

std::string Scanner::quote(std::size_t from, std::size_t to) const
{
    std::size_t const a = plain_.at[std::min(from, text_.size())];
    std::size_t const b = plain_.at[std::min(to, text_.size())];
    std::string_view const raw = original_.substr(a, b > a ? b - a : 0);
    std::size_t const last = raw.find_last_not_of(" \t");
    return "'" + fit_to_show(raw.substr(0, last == std::string_view::npos ? 0 : last + 1), 40) + "'";
}

std::string Scanner::example_and_units() const
{
    return pure() ? example() : example() + " (" + std::string(measure_.units) + ")";
}

TextProblem Scanner::not_a_number(std::size_t start) const
{
    std::string_view const shown = text_.substr(start);
    if (shown.empty())
        return problem(0, text_.size(), field_ + " is empty", example());
    if (shown.front() == '<' || shown.front() == '>')
        return problem(start, text_.size(), quote(start, text_.size()) + " is a limit, not a reading",
                       "write a value with its doubt: half a limit ± the other half, say");
    if (shown.front() == '~')
        return problem(start, text_.size(), quote(start, text_.size()) + " does not start with a number",
                       "leave '~' out and write the doubt with ±");
    return problem(start, text_.size(), quote(start, text_.size()) + " does not start with a number", example());
}

TextProblem Scanner::other_dimension(std::size_t number_start, UnitMatch const& other) const
{
    Dimension const d = other.unit->dimension;
    std::string wanted(measure_.noun);
    if (d == Dimension::gauge_only || d == Dimension::absolute_only) // 'a pressure' would not tell them apart
        wanted = (measure_.name.front() == 'a' ? "an " : "a ") + std::string(measure_.name);
    return problem(number_start, pos_ + other.length,
                   quote(number_start, pos_ + other.length) + " is " + std::string(noun(d)) + "; " + wants(wanted),
                   example());
}

TextProblem Scanner::no_unit_here(std::size_t number_start) const
{
    bool const nothing_follows =
        at_end() || rest().starts_with("+/-") || (rest().starts_with("%") && text_.find("+/-") < pos_);
    if (nothing_follows)
        return problem(number_start, pos_, quote(number_start, pos_) + " has no unit; " + wants(measure_.noun),
                       example_and_units());
    if (UnitMatch const other = match_unit(rest(), {}); other.unit != nullptr && !other.folded)
        return other_dimension(number_start, other);
    std::size_t const end = std::min(text_.find(' ', pos_), text_.size());
    std::string_view const near = nearest_unit(text_.substr(pos_, end - pos_), dimensions_);
    return problem(pos_, end, quote(pos_, end) + " is not a unit of " + std::string(without_article(measure_.noun)),
                   near.empty() ? example_and_units() : "did you mean '" + std::string(near) + "'?");
}

TextProblem Scanner::leftover() const
{
    bool const range = text_[pos_] == '-' || rest().starts_with("to ");
    if (range)
        return problem(0, text_.size(), quote(0, text_.size()) + " is a range, not a reading",
                       "write the middle and half the width: 'value ± half'");
    return problem(pos_, text_.size(), quote(pos_, text_.size()) + " after the reading is not understood",
                   "give one value, with its doubt behind ± if you like; " + example());
}

double Scanner::to_si(Unit const& unit, double number, bool difference) const
{
    if (unit.dimension == Dimension::amount_concentration)
        return number * measure_.molar_mass; // mmol/L is mol/m3
    if (unit.dimension == Dimension::equivalent_concentration)
        return number * measure_.molar_mass / 2; // CaCO3 is two equivalents
    return difference ? number * unit.scale : (number + unit.zero) * unit.scale;
}

// The unsigned number here; `start` is where what a message shows begins.
Wrong Scanner::amount(double& out, std::size_t start)
{
    WrittenNumber const number = written_amount(rest());
    if (!number.problem.empty())
        return problem(pos_, pos_ + number.length, quote(pos_, pos_ + number.length) + " " + number.problem,
                       number.advice);
    if (!number.value)
        return not_a_number(start);
    out = *number.value;
    pos_ += number.length;
    return std::nullopt;
}

// The value before any doubt: one or more 'number unit' terms, or a number alone.
Wrong Scanner::value_part()
{
    skip_space();
    std::size_t const start = pos_;
    double sign = 1;
    if (!at_end() && !rest().starts_with("+/-") && (text_[pos_] == '-' || text_[pos_] == '+'))
        sign = text_[pos_++] == '-' ? -1 : 1;
    skip_space();
    double total = 0;
    for (bool first = true;; first = false)
    {
        if (auto bad = term(first ? start : pos_, first, sign, total))
            return bad;
        bool const hyphen = unit_ != nullptr && unit_->symbol == "'" && pos_ + 1 < text_.size() && text_[pos_] == '-' &&
                            is_digit(text_[pos_ + 1]);
        if (hyphen)
            ++pos_; // 5'-6"
        bool const more = !at_end() && is_digit(text_[pos_]) && unit_ != nullptr && adds_up(unit_->dimension);
        if (!more)
            break;
    }
    value_ = total;
    return std::nullopt;
}

Wrong Scanner::term(std::size_t start, bool first, double sign, double& total)
{
    double number = 0;
    if (auto bad = amount(number, start))
        return bad;
    skip_space();
    bool const alone =
        first && (pure() || (at_end() && measure_.measure == Measure::fraction) || rest().starts_with("+/-"));
    if (alone)
    {
        total = sign * number; // a unit may still follow the doubt: '18 ± 1 psi'
        return std::nullopt;
    }
    if (!at_end() && (text_[pos_] == '-' || rest().starts_with("to ")))
        return leftover();
    UnitMatch const match = match_unit(rest(), dimensions_);
    UnitMatch const longer = match_unit(rest(), {});
    if (match.unit == nullptr)
        return no_unit_here(start);
    if (longer.length > match.length && !longer.folded) // '42 gal/min' is no volume followed by '/min'
        return other_dimension(start, longer);
    pos_ += match.length;
    if (!first && match.unit->scale >= unit_->scale)
        return problem(start, pos_,
                       quote(start, pos_) + " after '" + std::string(unit_->symbol) + "' is not understood",
                       "units of one reading go from large to small: '1 ft 6 in'");
    skip_space();
    // A sign belongs to the reading of a scale with its own zero, and to the whole sum of an amount.
    total +=
        match.unit->zero != 0.0 ? to_si(*match.unit, sign * number, false) : sign * to_si(*match.unit, number, false);
    unit_ = match.unit;
    return std::nullopt;
}

Wrong Scanner::basis()
{
    skip_space();
    if (!rest().starts_with("as ") || pure())
        return std::nullopt;
    std::size_t const start = pos_;
    std::size_t end = std::min(text_.find("+/-", pos_), text_.size());
    while (text_[end - 1] == ' ')
        --end;
    std::string_view const written = text_.substr(std::min(start + 3, end), end - std::min(start + 3, end));
    pos_ = end;
    if (measure_.basis.empty())
        return problem(start, end, field_ + " takes no basis; " + quote(start, end) + " stands behind it",
                       "leave it out");
    if (!same_but_for_case(written, measure_.basis))
        return problem(start, end, field_ + " is read as " + std::string(measure_.basis) + ", not " + quote(start, end),
                       "convert it first; '" + std::string(measure_.example) + "' means as " +
                           std::string(measure_.basis) + " here");
    return std::nullopt;
}

Wrong Scanner::doubt_part()
{
    skip_space();
    if (at_end())
        return std::nullopt;
    if (pure() && !rest().starts_with("+/-") && text_[pos_] != '-' && !rest().starts_with("to "))
        return problem(pos_, text_.size(),
                       field_ + " is a pure number, but " + quote(pos_, text_.size()) + " follows it", example());
    if (!rest().starts_with("+/-"))
        return leftover();
    doubted_ = true;
    return unit_ == nullptr && !pure() ? doubt_then_unit() : doubt_after_unit();
}

// '18 ± 1 psi', '104 ± 2 degF': the unit at the end is that of both numbers. '0.82 ± 0.02' is a share without one.
Wrong Scanner::doubt_then_unit()
{
    std::size_t const start = pos_;
    pos_ += 3;
    skip_space();
    double half = 0;
    if (auto bad = amount(half, start))
        return bad;
    skip_space();
    if (at_end() && measure_.measure == Measure::fraction && value_ <= 1)
    {
        sigma_ = half / coverage;
        return std::nullopt;
    }
    UnitMatch const match = match_unit(rest(), dimensions_);
    if (match.unit == nullptr)
        return no_unit_here(0);
    pos_ += match.length;
    unit_ = match.unit;
    sigma_ = to_si(*unit_, half, true) / coverage;
    value_ = to_si(*unit_, value_, false);
    return basis();
}

// '18 psi ± 1', '18 psi ± 7 kPa', '45 gpm ± 5 %'
Wrong Scanner::doubt_after_unit()
{
    std::size_t const start = pos_;
    pos_ += 3;
    skip_space();
    double half = 0;
    if (auto bad = amount(half, start))
        return bad;
    skip_space();
    bool const share_of_itself =
        rest() == "%" && measure_.measure != Measure::fraction && !(unit_ != nullptr && unit_->symbol == "%");
    if (share_of_itself && measure_.dimension == Dimension::temperature)
        return problem(start, text_.size(),
                       quote(start, text_.size()) + " says nothing of a temperature: its zero is a convention",
                       "write the doubt in degrees: '104 ± 1 degF'");
    if (share_of_itself)
    {
        pos_ += 1;
        sigma_ = std::abs(value_) * half / 100 / coverage;
        return std::nullopt;
    }
    if (at_end())
    {
        sigma_ = (unit_ != nullptr ? to_si(*unit_, half, true) : half) / coverage;
        return std::nullopt;
    }
    if (pure())
        return problem(pos_, text_.size(),
                       field_ + " is a pure number, but " + quote(pos_, text_.size()) + " follows it", example());
    auto const differences =
        measure_.dimension == Dimension::temperature ? std::vector{Dimension::temperature_difference} : dimensions_;
    UnitMatch const match = match_unit(rest(), differences);
    if (match.unit == nullptr)
        return no_unit_here(start);
    pos_ += match.length;
    sigma_ = to_si(*match.unit, half, true) / coverage;
    return basis();
}

Wrong Scanner::impossible() const
{
    if (!std::isfinite(value_) || !std::isfinite(sigma_))
        return problem(0, text_.size(), quote(0, text_.size()) + " is too large a number",
                       "check the number and its exponent");
    if (measure_.measure == Measure::temperature && value_ < 0)
        return problem(0, text_.size(), quote(0, text_.size()) + " is below absolute zero",
                       "check the number and its unit");
    if (measure_.measure == Measure::absolute_pressure && value_ < 0)
        return problem(0, text_.size(),
                       quote(0, text_.size()) + " is below zero; " + field_ + " is an absolute pressure",
                       "an absolute pressure counts from vacuum: " + example());
    if (measure_.measure == Measure::fraction && unit_ == nullptr && value_ > 1)
        return problem(0, text_.size(), quote(0, text_.size()) + " is more than the whole; " + field_ + " is a share",
                       "write " + quote(0, text_.size()).insert(quote(0, text_.size()).size() - 1, " %") +
                           ", or a decimal from 0 to 1");
    return std::nullopt;
}

std::variant<Reading, TextProblem> Scanner::reading()
{
    if (auto bad = value_part())
        return *bad;
    if (auto bad = basis())
        return *bad;
    if (auto bad = doubt_part())
        return *bad;
    skip_space();
    if (!at_end())
        return leftover();
    if (auto bad = impossible())
        return *bad;
    return Reading{measure_.measure, value_, sigma_, doubted_ ? "written" : "", doubted_};
}

} // namespace

std::variant<Reading, TextProblem> read_quantity(std::string_view text, Measure measure, std::string_view field)
{
    PlainText const plain = make_plain(text);
    return Scanner(text, plain, info(measure), field).reading();
}

std::variant<double, TextProblem> read_number(std::string_view text, std::string_view field)
{
    auto const read = read_quantity(text, Measure::number, field);
    if (auto const* bad = std::get_if<TextProblem>(&read))
        return *bad;
    if (std::get<Reading>(read).doubt_written)
        return TextProblem{0, text.size(), std::string(field) + " takes a number without a doubt", "leave ± out"};
    return std::get<Reading>(read).value;
}

} // namespace padwalk::units
