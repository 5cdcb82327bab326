#include "padwalk/photos/base64.hpp"

#include "catch_compat.hpp"

using padwalk::photos::base64;

TEST_CASE("RFC 4648 section 10: the vectors of base 64", "[photos]")
{
    CHECK(base64("").empty());
    CHECK(base64("f") == "Zg==");
    CHECK(base64("fo") == "Zm8=");
    CHECK(base64("foo") == "Zm9v");
    CHECK(base64("foob") == "Zm9vYg==");
    CHECK(base64("fooba") == "Zm9vYmE=");
    CHECK(base64("foobar") == "Zm9vYmFy");
}

TEST_CASE("RFC 4648 section 9: six bytes above 127, and the two last letters of the alphabet", "[photos]")
{
    CHECK(base64("\x14\xFB\x9C\x03\xD9\x7E") == "FPucA9l+");
    CHECK(base64("\xFF\xFF\xFE") == "///+");
    CHECK(base64(std::string_view("\0", 1)) == "AA==");
}
