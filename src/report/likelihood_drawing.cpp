#include "likelihood_drawing.hpp"

#include "plain.hpp"
#include "svg.hpp"

#include <algorithm>
#include <cmath>

namespace padwalk::report
{
namespace
{

using Evidence = CauseBar::Evidence;
using Lines = std::vector<std::string>;

constexpr double sheet_width = 360, left = 8, right = 352, tallest = 960;
constexpr double track_right = 208, track_height = 13, words_left = 218;
constexpr double zero = 52, reach = 42, sign_left = 102, names_left = 116, sign_height = 8;
constexpr std::size_t most_for = 3, most_against = 2, first_few = 3;
constexpr Lettering name_type{12.5, true, "word haloed"};
constexpr Lettering chance_type{12.5, false, "word haloed"};
constexpr Lettering sign_type{12, false, "word haloed"};
constexpr Lettering quiet_type{12, false, "word quiet haloed"};

/// The strongest first, those of the same strength in the order given.
std::vector<Evidence> strongest(std::vector<Evidence> list, std::size_t most)
{
    list.erase(std::remove_if(list.begin(), list.end(), [](Evidence const& e) { return std::isnan(e.log_odds); }),
               list.end());
    std::stable_sort(list.begin(), list.end(),
                     [](Evidence const& a, Evidence const& b) { return std::abs(a.log_odds) > std::abs(b.log_odds); });
    list.resize(std::min(list.size(), most));
    return list;
}

double share(double chance)
{
    return std::isnan(chance) ? 0.0 : std::clamp(chance, 0.0, 1.0);
}

/// A sign as it stands: its words in lines, and to which side it speaks.
struct Sign
{
    Lines lines;
    double size = 0.0; ///< of its log odds
    bool speaks_for = true;
    [[nodiscard]] double height() const
    {
        return sign_type.line_height() * std::max(1.0, static_cast<double>(lines.size())) + 2;
    }
};

/// A cause, broken into lines.
struct Row
{
    Lines name, chance_words, nothing;
    double chance = 0.0;
    std::vector<Sign> signs;

    [[nodiscard]] double bare_height() const
    {
        double const words = chance_type.line_height() * static_cast<double>(chance_words.size());
        return name_type.line_height() * static_cast<double>(name.size()) + std::max(track_height + 6, words) + 16;
    }
    [[nodiscard]] double signs_height() const
    {
        double out = 4 + quiet_type.line_height() * static_cast<double>(nothing.size());
        for (auto const& sign : signs)
            out += sign.height();
        return out;
    }
};

Row row_of(CauseBar const& cause, LikelihoodWords const& words)
{
    Row out;
    out.name = lines_within(capitalised(cause.name), right - left, name_type, 3);
    out.chance_words = lines_within(cause.chance_words, right - words_left, chance_type, 3);
    out.chance = share(cause.chance);
    auto take = [&](std::vector<Evidence> const& list, std::size_t most, bool speaks_for)
    {
        for (auto const& e : strongest(list, most))
            out.signs.push_back(
                {lines_within(e.name, right - names_left, sign_type, 3), std::abs(e.log_odds), speaks_for});
    };
    take(cause.for_it, most_for, true);
    take(cause.against_it, most_against, false);
    if (out.signs.empty())
        out.nothing = lines_within(words.nothing, right - left, quiet_type, 2);
    return out;
}

class LikelihoodPicture
{
public:
    LikelihoodPicture(std::vector<CauseBar> const& causes, LikelihoodWords const& words, std::string id)
        : words_(words), sheet_(std::move(id), sheet_width)
    {
        double height = 24; // with the names of the two sides
        for (std::size_t i = 0; i < causes.size(); ++i)
        {
            Row row = row_of(causes[i], words);
            bool const has_signs = i < first_few; // whatever else is left out
            double const needs = row.bare_height() + (has_signs ? row.signs_height() : 0.0);
            if (height + needs > tallest && i > 0)
                break;
            height += needs;
            with_signs_ += has_signs ? 1 : 0;
            rows_.push_back(std::move(row));
        }
        all_ = rows_.size() == causes.size();
        for (; with_signs_ < rows_.size(); ++with_signs_)
        {
            height += rows_[with_signs_].signs_height();
            if (height > tallest)
                break;
        }
        double const least = std::log(20), most = std::log(1000); // what strong means here; judgement
        for (std::size_t i = 0; i < with_signs_; ++i)
            for (auto const& sign : rows_[i].signs)
                strongest_ = std::max(strongest_, std::min(sign.size, most));
        strongest_ = std::max(strongest_, least);
    }

    [[nodiscard]] std::string drawn(std::vector<std::string> const& says)
    {
        double y = 4;
        for (std::size_t i = 0; i < rows_.size(); ++i)
        {
            y = bar(rows_[i], y);
            if (i < with_signs_)
                y = signs(rows_[i], y);
            y += 16;
        }
        return sheet_.svg(y - 8, words_.title, says);
    }

    [[nodiscard]] bool complete() const { return all_ && with_signs_ == rows_.size(); }

private:
    LikelihoodWords const& words_;
    SvgSheet sheet_;
    std::vector<Row> rows_;
    std::size_t with_signs_ = 0;
    double strongest_ = 0.0;
    bool all_ = true, sides_named_ = false;

    double bar(Row const& row, double y)
    {
        double const top = sheet_.write_lines({left, y + name_type.size}, row.name, name_type) - name_type.size + 2;
        constexpr double least = 1.5; // so that it can be seen
        sheet_.rectangle({left, top, track_right, top + track_height}, 0, "part thin");
        sheet_.rectangle(
            {left, top, std::max(left + least, left + (track_right - left) * row.chance), top + track_height}, 0,
            "solid");
        double const end = sheet_.write_lines({words_left, top + 11}, row.chance_words, chance_type);
        return std::max(top + track_height + 2, end - chance_type.size + 2);
    }

    double signs(Row const& row, double y)
    {
        y += 4;
        if (row.signs.empty())
            return sheet_.write_lines({left, y + quiet_type.size}, row.nothing, quiet_type) - quiet_type.size;
        if (!sides_named_)
        {
            sides_named_ = true;
            sheet_.write({zero - 4, y + quiet_type.size}, words_.against, quiet_type, Anchor::end);
            sheet_.write({zero + 4, y + quiet_type.size}, words_.speaks_for, quiet_type);
            y += quiet_type.line_height() + 2;
        }
        double const top = y;
        for (auto const& s : row.signs)
            y = sign(s, y);
        sheet_.line({zero, top}, {zero, y - 2}, "edge");
        return y;
    }

    double sign(Sign const& s, double y)
    {
        constexpr double least = 2;
        double const length = std::max(least, reach * std::min(1.0, s.size / strongest_));
        double const top = y + (sign_type.line_height() - sign_height) / 2;
        Box const box{s.speaks_for ? zero : zero - length, top, s.speaks_for ? zero + length : zero, top + sign_height};
        sheet_.rectangle(box, 0, s.speaks_for ? "solid" : "part thin");
        sheet_.write({sign_left, y + sign_type.size}, s.speaks_for ? "+" : "−", sign_type);
        sheet_.write_lines({names_left, y + sign_type.size}, s.lines, sign_type);
        return y + s.height();
    }
};

std::string names(std::vector<Evidence> const& list, std::size_t most)
{
    std::vector<std::string> out;
    for (auto const& e : strongest(list, most))
        out.push_back(e.name);
    return joined(out, "; ", "; ");
}

std::vector<std::string> said(std::vector<CauseBar> const& causes, LikelihoodWords const& words)
{
    std::vector<std::string> out;
    for (auto const& cause : causes)
    {
        std::string text =
            capitalised(cause.name) + (cause.chance_words.empty() ? "" : ": " + cause.chance_words) + ".";
        if (auto const list = names(cause.for_it, most_for); !list.empty())
            text += " " + words.for_it + ": " + list + ".";
        if (auto const list = names(cause.against_it, most_against); !list.empty())
            text += " " + words.against_it + ": " + list + ".";
        out.push_back(std::move(text));
    }
    return out;
}

} // namespace

Drawing likelihood_drawing(std::vector<CauseBar> const& causes, std::string const& id, LikelihoodWords const& words)
{
    Drawing out;
    if (causes.empty())
        return out;
    LikelihoodPicture picture(causes, words, id);
    out.svg = picture.drawn(said(causes, words));
    out.caption = words.caption + (picture.complete() ? "" : " " + words.cut);
    return out;
}

} // namespace padwalk::report
