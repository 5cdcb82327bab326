// Any bytes as a reading; the first byte picks what is measured. It is read and can be printed, or refused inside the
// text.

#include "padwalk/units/print.hpp"

#include <cmath>
#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* bytes, std::size_t count)
{
    using namespace padwalk::units;
    if (count == 0)
        return 0;
    auto const measure = all_measures()[bytes[0] % all_measures().size()].measure;
    std::string_view const text(reinterpret_cast<char const*>(bytes + 1), count - 1);
    auto const read = read_quantity(text, measure, "field");
    if (auto const* bad = std::get_if<TextProblem>(&read))
    {
        if (bad->message.empty() || bad->offset + bad->length > text.size())
            std::abort();
        return 0;
    }
    auto const& reading = std::get<Reading>(read);
    if (!std::isfinite(reading.value) || !std::isfinite(reading.doubt) || reading.doubt < 0)
        std::abort();
    for (System const system : {System::us, System::si})
    {
        Style const style{system, {}, {}};
        if (show(measure, reading.value, reading.doubt, style).empty() ||
            show_with_doubt(measure, reading.value, reading.doubt, style).empty())
            std::abort();
    }
    return 0;
}
