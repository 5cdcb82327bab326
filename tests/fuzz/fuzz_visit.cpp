// Any bytes as a visit: read, or refused with problems that can be shown. Nothing else may be thrown.

#include "padwalk/reference/sources.hpp"
#include "padwalk/visit/visit.hpp"

#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(std::uint8_t const* bytes, std::size_t count)
{
    using namespace padwalk;
    static fields::Instruments const instruments = reference::instruments(reference::Data::built_in());
    std::string const text(reinterpret_cast<char const*>(bytes), count);
    try
    {
        visit::ReadVisit const read = visit::read_visit(text, instruments);
        static_cast<void>(visit::Visit::declaration().write(read.visit));
        static_cast<void>(fields::as_text(read.oddities, "visit.yaml", text, "warning"));
    }
    catch (fields::InputProblems const& bad)
    {
        if (bad.list().empty() || fields::as_text(bad.list(), "visit.yaml", text).empty())
            std::abort();
    }
    return 0;
}
