/// The words that stand for an enumeration's values in files and requests: one table an
/// enumeration, looked up both ways.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>

namespace pritchel {

template <class Enum, std::size_t N> using Words = std::array<std::pair<Enum, std::string_view>, N>;

/// Empty for a value that has no word.
template <class Enum, std::size_t N>
[[nodiscard]] std::string_view word(const Words<Enum, N>& words, Enum value) {
  for (const auto& [each, text] : words)
    if (each == value)
      return text;
  return {};
}

/// Nothing for a word that isn't in the table.
template <class Enum, std::size_t N>
[[nodiscard]] std::optional<Enum> meaning(const Words<Enum, N>& words, std::string_view text) {
  for (const auto& [each, known] : words)
    if (known == text)
      return each;
  return std::nullopt;
}

} // namespace pritchel
