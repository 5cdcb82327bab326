#pragma once
// A walk in progress: the file and what it amounts to, what was skipped, what was said.

#include "padwalk/assess/telling.hpp"
#include "padwalk/command_line/program.hpp"
#include "padwalk/visit/written.hpp"
#include "walk_words.hpp"

#include <set>

namespace padwalk::command_line
{

constexpr char const* new_file = "# A visit, begun with padwalk walk.\n";
/// Stands in a new file as long as the things are not there that the dangers were denied of.
constexpr char const* asked_on_arrival = "# On arrival: of the dangers asked about first, none but what is noted here.";

/// A finding to be written as seen or as looked for and not there.
struct Note
{
    std::string finding, name;
    std::size_t item = 0;
    bool there = true;
};

enum class Goes
{
    on,
    left, ///< by the one who walks, or the input ended
    ended ///< nothing is left to ask, or nobody may stay
};

/// What is there, and what comes before all else.
struct Situation
{
    visit::Visit visit;
    bool nothing_there = true; ///< no water, loop, heater …
    std::vector<assess::FirstDanger> dangers;
    bool everyone_out = false;
};

class Walk
{
public:
    Walk(std::string file, std::optional<std::string> const& text, assess::Engine const& engine, units::System system,
         World& world)
        : file_(std::move(file)), text_(text.value_or(new_file)), on_disk_(text), engine_(engine), system_(system),
          world_(world)
    {
    }

    assess::Assessment go();

private:
    struct Step
    {
        std::string text;
        std::set<std::string> skipped;
    };
    std::string file_, text_;
    std::optional<std::string> on_disk_; ///< what was last read or written; none: the file is not there yet
    assess::Engine const& engine_;
    units::System system_;
    World& world_;
    std::optional<assess::Walked> now_; ///< of text_; none: it says nothing yet, or has to be assessed
    std::vector<Step> before_;          ///< for 'back'
    std::set<std::string> skipped_, cautions_said_, headings_said_, listed_;
    bool second_round_ = false;
    std::string under_way_; ///< the check whose heading was shown last
    std::string standing_;  ///< as last said
    std::size_t answers_ = 0;

    // ---- the file
    void save();
    bool take(std::string text);
    [[nodiscard]] std::optional<assess::Walked> tried(std::string const& text);
    void took(std::string text, assess::Walked walked);
    void back();
    [[nodiscard]] visit::Keys at(std::size_t item, std::vector<std::string> const& more) const;
    [[nodiscard]] std::string with_notes(std::string text, std::vector<Note> const& notes, bool by_id) const;
    bool note(std::vector<Note> const& notes);

    // ---- questions
    [[nodiscard]] Situation look_round();
    Goes ask(Situation const& here);
    Goes ask_dangers(std::vector<assess::FirstDanger> const& dangers, bool nothing_there);
    void deny(std::vector<assess::FirstDanger> const& dangers, bool nothing_there);
    void danger_seen(assess::FirstDanger const& danger, bool nothing_there);
    Goes ask_who();
    Goes ask_when();
    Goes ask_things();
    bool begin_with(std::string const& text);
    [[nodiscard]] std::string heater_without_loop(visit::Visit const& visit) const;
    Goes ask_loop_of(std::string const& heater, visit::Visit const& visit);
    Goes ask_next(assess::Telling const& telling);
    Goes answer_sign(assess::Telling const& telling, Typed const& typed);
    Goes answer_field(assess::Telling const& telling, Typed const& typed);
    void put_value(assess::Telling const& telling, std::string const& value);
    Goes ask_why_not(std::size_t item, std::string const& what);
    void untold(std::size_t item, std::string const& what, std::string const& because);
    void own_words(std::size_t item, std::string const& words);
    [[nodiscard]] assess::Telling const* next_open() const;
    [[nodiscard]] static std::string key_of(assess::Telling const& telling);

    // ---- what is said
    std::optional<Typed> read(std::string const& prompt);
    /// The same; none where it was left, or the last answer was taken back.
    std::optional<Typed> read_answer(std::string const& prompt, Goes& goes);
    void say(std::string const& text, std::string const& lead = "  ")
    {
        world_.out << in_lines(text, lead, world_.columns);
    }
    void caution(std::vector<std::string> const& ids);
    void heading(assess::Telling const& telling);
    /// All that '0' would deny, where some of it was not shown yet: nothing is denied unread.
    void list_signs(assess::Telling const& telling);
    void say_changes(assess::Assessment const& before, assess::Assessment const& after);
    void say_alarm(assess::Assessment const& assessment, assess::Alarm const& alarm);
    void say_standing(bool again); ///< also where nothing has changed since it was last said
    void say_keys();
    [[nodiscard]] std::string name(std::size_t item) const { return now_->assessment.items.at(item).name; }
};

/// With a capital at its beginning.
[[nodiscard]] std::string capital(std::string text);

} // namespace padwalk::command_line
