#include "base/digest.h"

#include <catch2/catch.hpp>

#include <string>

using namespace pritchel;

// Truth: FIPS 180-2, appendix B.1, SHA-256 of "abc"
TEST_CASE("SHA-256 gives the standard's own example", "[base]") {
  const std::string abc = "abc";
  CHECK(sha256_hex(abc) == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(is_sha256_hex(sha256_hex(abc)));
  CHECK_FALSE(is_sha256_hex("../../etc/passwd"));
}
