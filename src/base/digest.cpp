#include "base/digest.h"

#include "base/assert.h"

#include <openssl/evp.h>

#include <algorithm>
#include <array>

namespace pritchel {

std::string sha256_hex(std::span<const char> bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int length = 0;
  const int done =
      EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr);
  PRITCHEL_ASSERT(done == 1 && length == 32);
  static constexpr std::string_view digits = "0123456789abcdef";
  std::string hex;
  hex.reserve(64);
  for (unsigned int i = 0; i < length; ++i) {
    hex += digits[digest[i] >> 4];
    hex += digits[digest[i] & 15];
  }
  return hex;
}

bool is_sha256_hex(const std::string& text) {
  return text.size() == 64 && std::all_of(text.begin(), text.end(), [](char c) {
           return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
         });
}

} // namespace pritchel
