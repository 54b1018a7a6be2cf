/// The readers of the single template files, put together by load_practice(). Inside this floor
/// only.
#pragma once

#include "practice/practice.h"

#include <algorithm>
#include <array>
#include <filesystem>
#include <string_view>

namespace pritchel::practice {

class Node;

using Words = std::map<std::string, std::string, std::less<>>;

[[nodiscard]] Result<Words> read_sources(const std::filesystem::path& file);
/// The node's "source", which must be a key of sources.json.
[[nodiscard]] Result<std::string> known_source(const Node& node, const Words& sources);
/// Every .json file of the folder; a key stands in one of them only.
[[nodiscard]] Result<Words> read_words(const std::filesystem::path& folder);
/// By file name; an id stands in one file only, and both radiographs are there.
[[nodiscard]] Result<std::vector<Protocol>> read_protocols(const std::filesystem::path& folder);
/// Every .json file of the folder, the practice's own bands first; one band a measurement and limb,
/// and one of the practice's own.
[[nodiscard]] Result<measure::Bands> read_references(const std::filesystem::path& folder,
                                                     const Words& sources);
/// No rules when the file isn't there.
[[nodiscard]] Result<std::vector<Rule>> read_rules(const std::filesystem::path& file,
                                                   const Words& sources);
[[nodiscard]] Result<std::vector<RedFlag>> read_red_flags(const std::filesystem::path& file,
                                                          const Words& sources);

/// No aims when the file isn't there; one a measurement and limb.
[[nodiscard]] Result<std::vector<OfferedAim>> read_aims(const std::filesystem::path& file,
                                                        const Words& sources);

/// No shoes when the file isn't there; an id stands once.
[[nodiscard]] Result<std::vector<ShoeKind>> read_shoes(const std::filesystem::path& file,
                                                       const Words& sources);

template <std::size_t N>
[[nodiscard]] bool is_in(const std::array<std::string_view, N>& list, std::string_view word) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

/// True for the ids of this program: lower-case letters, digits and hyphens between them.
[[nodiscard]] bool is_id(std::string_view text);

} // namespace pritchel::practice
