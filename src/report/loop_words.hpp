#pragma once
/// The words for a loop's readings and where they belong, the same in the table, the drawing and the terminal.

#include "padwalk/assess/assessment.hpp"

namespace padwalk::report
{

/// '42 ± 3 US gpm', always in the unit that the system uses for a loop.
[[nodiscard]] std::string flow_text(units::Measured<units::VolumeFlow> const& flow, units::System system);
[[nodiscard]] std::string head_text(units::Measured<units::Head> const& head, units::System system);

/// A flow or head of a duty that was had: the other one may be, while this is not.
template <class Q> [[nodiscard]] bool is_known(units::Measured<Q> const& m)
{
    double const value = units::in_si(m.value), doubt = units::in_si(m.doubt);
    return value - value == 0 && doubt - doubt == 0 && (value != 0 || doubt > 0);
}

/// '41 ± 4 US gpm, 68 ± 3 ft', or the one of them that is known; empty without either.
[[nodiscard]] std::string duty_text(assess::LoopDuty const& duty, units::System system);

/// The reading and what a sound loop would show, both in the unit of the reading.
[[nodiscard]] std::string taken_text(assess::ReadingAgainstSound const& reading, units::System system);
[[nodiscard]] std::string expected_text(assess::ReadingAgainstSound const& reading, units::System system);

/// Up to here a difference is no more than the doubts allow, 19 times in 20.
inline constexpr double doubts_allowed = units::coverage;

/// 'as expected', '1.4 doubts high, within doubt', '2.6 doubts low', 'the odd one out: 3.1 doubts high'; a vacuum
/// is deeper or weaker.
[[nodiscard]] std::string off_words(assess::ReadingAgainstSound const& reading);
/// The same of one way to know the flow: 'agrees with the others'.
[[nodiscard]] std::string off_words(assess::FlowBy const& way);
/// What a doubt is there, for the page that uses the words.
[[nodiscard]] std::string_view doubt_footnote();

/// 'pump', 'heater bypass'.
[[nodiscard]] std::string_view place_word(assess::LoopPlace place);

/// A part with the readings and the faults that sit there.
struct PlaceOnLoop
{
    assess::LoopPart const* part = nullptr; ///< none: what sits nowhere on the way, such as an instrument's own fault
    std::vector<assess::ReadingAgainstSound const*> readings;
    std::vector<assess::LoopFault const*> faults;
};

/// The parts in the order of the flow, and a last place without a part where something belongs to none of them. Of
/// several parts of one kind it is that of the same item.
[[nodiscard]] std::vector<PlaceOnLoop> places_on(assess::Assessment const& a, assess::LoopEntry const& loop);

/// 'filter of spa loop: 18 psi clean, assumed'
[[nodiscard]] std::string part_text(assess::LoopPart const& part);
/// 'impeller partly blocked, likely, 72 %'
[[nodiscard]] std::string fault_text(assess::Assessment const& a, assess::LoopFault const& fault);

} // namespace padwalk::report
