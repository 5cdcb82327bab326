#pragma once
/// Catch2, version 3 where it is installed and version 2 elsewhere. Tests use only what both have: TEST_CASE, CHECK*,
/// Catch::Matchers::WithinRel, WithinAbs and Message.

#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
#else
#include <catch2/catch.hpp>
#endif
