/// SHA-256 of bytes, by OpenSSL. Pictures and signed plans are named by it.
#pragma once

#include <span>
#include <string>

namespace pritchel {

/// 64 lower-case hexadecimal digits.
[[nodiscard]] std::string sha256_hex(std::span<const char> bytes);

/// True for exactly 64 lower-case hexadecimal digits; what a request may use as a file name.
[[nodiscard]] bool is_sha256_hex(const std::string& text);

} // namespace pritchel
