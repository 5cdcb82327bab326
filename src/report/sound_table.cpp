#include "sound_table.hpp"

#include "loop_words.hpp"

#include <cmath>

namespace padwalk::report
{

Table sound_table(std::vector<assess::ReadingAgainstSound> const& readings, std::string caption, std::string sound,
                  units::System system)
{
    Table table{std::move(caption), {"reading", "as taken", std::move(sound), "how far off"}, {}, 0, true};
    for (auto const& r : readings)
        table.rows.push_back(
            {{r.label, {}},
             {taken_text(r, system), {}},
             {"sound: " + expected_text(r, system), {}},
             {off_words(r), {}, r.odd || std::abs(r.off) > doubts_allowed ? Tone::danger : Tone::plain}});
    return table;
}

} // namespace padwalk::report
