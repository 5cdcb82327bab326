#pragma once
// The templates and words of the built-in data, read once per test program.

#include "padwalk/report/layout.hpp"

namespace padwalk::tests
{

inline report::Layout const& layout()
{
    static report::Layout const the_layout(reference::Data::built_in());
    return the_layout;
}

} // namespace padwalk::tests
