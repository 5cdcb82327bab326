#pragma once
/// What a report says and in which order, before it is laid out: one content for the terminal and for HTML. Texts are
/// as they came; whoever lays them out cleans and escapes them.

#include "padwalk/report/layout.hpp"
#include "padwalk/report/photos.hpp"
#include "padwalk/report/text.hpp"

#include "padwalk/assess/water_sheet.hpp"

#include <map>

namespace padwalk::report
{

enum class Tone
{
    plain,
    danger,
    quiet
};

struct Paragraph
{
    std::string text;
    Tone tone = Tone::plain;
};

/// 'At once: keep everyone out'. Several texts are a list.
struct Part
{
    std::string label;
    std::vector<std::string> texts;
    Tone tone = Tone::plain;
    bool runs_on = false; ///< where lines are dear it goes on in the line of the part before
};

/// Something with a name and several things to say of it.
struct Card
{
    std::string title;
    std::string tag;             ///< 'likely, 82 %'
    std::optional<double> share; ///< to draw as a bar
    std::size_t number = 0;      ///< its place in an order that matters, else 0
    Tone tone = Tone::plain;
    std::vector<Part> parts;
    std::string tick = {}; ///< not empty: a box to tick when it is done, and what it stands for
};

struct Cell
{
    std::string text;
    std::vector<std::string> more; ///< smaller, below
    Tone tone = Tone::plain;
};

struct Table
{
    std::string caption;
    std::vector<std::string> heads;
    std::vector<std::vector<Cell>> rows; ///< the first cell names the row
    int second = 0;                      ///< of three columns, the width of the second in per cent; 0: as it comes
    bool needed = false;                 ///< the caption says what the headings do not
};

struct Points
{
    std::vector<std::string> texts;
    Tone tone = Tone::plain;
};

/// A picture where pages show one, and what it shows in words where they don't.
struct Drawing
{
    std::string svg; ///< one element, finished and escaped
    std::string caption;
    std::vector<std::string> in_words;
};

/// Photos with their captions. Where there are no pixels the file is named.
struct PhotoRow
{
    struct One
    {
        std::string caption, remark;
        PhotoShown const* shown = nullptr; ///< outlives the page; none: only named
    };
    std::vector<One> photos;
};

/// To be filled in with a pen: rows with boxes to tick, and ruled lines.
struct Form
{
    struct Row
    {
        std::string text;
        std::vector<std::string> choices;
    };
    std::vector<Row> rows;
    std::size_t lines = 0;
};

/// Text whose spaces and line ends matter: what goes into a file.
struct AsWritten
{
    std::string text;
};

using Block = std::variant<Paragraph, Card, Table, Points, Drawing, PhotoRow, Form, AsWritten>;

struct Section
{
    std::string id;
    std::string heading;
    std::vector<Block> blocks;
    Tone tone = Tone::plain;
};

struct Page
{
    std::string kind; ///< 'record', 'client' …: a class of the style sheet
    std::string language = "en";
    std::string title;
    std::string place; ///< the property, for the foot of each sheet of paper, where the title does not name it
    std::string on;    ///< date and time of the visit, as written
    std::vector<std::string> about; ///< when, by whom, the weather
    std::vector<Section> sections;
    std::vector<std::string> foot;
};

/// Cautions that were said, by id, and where: each stands in full once.
using Said = std::map<std::string, std::string>;

/// The sentences of those cautions that were not said yet, which now are said `here`; for the others where they were.
[[nodiscard]] std::vector<std::string> caution_texts(assess::Assessment const& a, std::vector<std::string> const& ids,
                                                     std::string const& here, Said& said);

[[nodiscard]] std::string html_of(Page const& page, Layout const& layout);
[[nodiscard]] std::string text_of(Page const& page, TextOptions const& options);

[[nodiscard]] Page page_of(assess::Assessment const& assessment, units::System system, Told told = Told::all);
[[nodiscard]] Page water_page(assess::WaterReport const& report, units::System system);

/// 'Walked 2026-05-14 by an inspector; weather: clear.'; empty where none of it is known.
[[nodiscard]] std::string about_line(assess::Assessment const& a);

// The sections, each without blocks where there is nothing to say.
[[nodiscard]] Section danger_section(assess::Assessment const& a, Said& said);
[[nodiscard]] Section answer_section(assess::Assessment const& a);
[[nodiscard]] Section question_section(assess::Assessment const& a);
[[nodiscard]] Section call_section(assess::Assessment const& a);
[[nodiscard]] Section found_section(assess::Assessment const& a);
/// Dangers that were found on site, for the top of a report.
[[nodiscard]] std::vector<Card> found_dangers(assess::Assessment const& a, Said& said);
[[nodiscard]] Section verdict_section(assess::Assessment const& a);
[[nodiscard]] Section cause_section(assess::Assessment const& a);
[[nodiscard]] Section check_section(assess::Assessment const& a, Said& said);
[[nodiscard]] Section why_section(assess::Assessment const& a, Said& said);
[[nodiscard]] Section meanwhile_section(assess::Assessment const& a, Said& said);
[[nodiscard]] Section loop_section(assess::Assessment const& a, units::System system);
[[nodiscard]] Section level_section(assess::Assessment const& a, units::System system);
[[nodiscard]] Section heater_section(assess::Assessment const& a, units::System system);
[[nodiscard]] Section vent_section(assess::Assessment const& a, units::System system);
[[nodiscard]] Section warming_section(assess::Assessment const& a, units::System system);
[[nodiscard]] Section figure_section(assess::Assessment const& a, units::System system);
[[nodiscard]] Section comparison_section(assess::Assessment const& a);
[[nodiscard]] Section limits_section(assess::Assessment const& a);
[[nodiscard]] Section reading_section(assess::Assessment const& a, units::System system);
[[nodiscard]] Section note_section(assess::Assessment const& a);
[[nodiscard]] Section understanding_section(assess::Assessment const& a);
[[nodiscard]] Section oddity_section(assess::Assessment const& a);
[[nodiscard]] Section undecided_section(assess::Assessment const& a, Said& said);
[[nodiscard]] Section conflict_section(assess::Assessment const& a);
[[nodiscard]] Section not_tested_section(assess::Assessment const& a);
[[nodiscard]] Section blank_section(assess::Assessment const& a);
[[nodiscard]] Section assumption_section(assess::Assessment const& a);
[[nodiscard]] Section source_section(assess::Assessment const& a);

} // namespace padwalk::report
