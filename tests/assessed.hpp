#pragma once
// The engine with the built-in data, made once per test program, and a visit assessed by it.

#include "padwalk/assess/assess.hpp"

namespace padwalk::tests
{

inline assess::Engine const& engine()
{
    static assess::Engine const the_engine(reference::Data::built_in());
    return the_engine;
}

inline assess::Assessment assessed(std::string const& yaml)
{
    return assess::assess(visit::read_visit(yaml, engine().instruments()), engine());
}

} // namespace padwalk::tests
