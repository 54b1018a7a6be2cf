/// A value of a template file together with the way to it, so that whatever is wrong can be named
/// by file and path: "templates/references/horse.json, bands[3].low". Inside this floor only.
#pragma once

#include "base/result.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::practice {

class Node {
public:
  /// `json` must outlive the node. `way` is empty for the whole file.
  Node(const nlohmann::json& json, std::string file, std::string way = {})
      : json_(&json),
        file_(std::move(file)),
        way_(std::move(way)) {}

  /// An error about this value: `problem` completes "FILE, WAY ...".
  [[nodiscard]] tl::unexpected<Error> wrong(std::string problem, std::string way_out = {}) const;

  /// Refuses a field that isn't in the list: most often it is a misspelt one.
  [[nodiscard]] Result<void> only(std::initializer_list<std::string_view> fields) const;
  [[nodiscard]] bool has(std::string_view field) const;
  /// The field, which must be there.
  [[nodiscard]] Result<Node> at(std::string_view field) const;
  /// Elements of a field that is a list.
  [[nodiscard]] Result<std::vector<Node>> list(std::string_view field) const;
  /// Fields of a field that is an object, with their names.
  [[nodiscard]] Result<std::vector<std::pair<std::string, Node>>>
  entries(std::string_view field) const;

  /// The value itself. A text isn't blank; a number is finite.
  [[nodiscard]] Result<std::string> text() const;
  [[nodiscard]] Result<double> number() const;
  [[nodiscard]] Result<bool> truth() const;

  /// The same for a field that must be there.
  [[nodiscard]] Result<std::string> text(std::string_view field) const;
  [[nodiscard]] Result<double> number(std::string_view field) const;
  /// The same for one that may be left out.
  [[nodiscard]] Result<std::string> text_or(std::string_view field, std::string otherwise) const;
  [[nodiscard]] Result<double> number_or(std::string_view field, double otherwise) const;
  [[nodiscard]] Result<bool> truth_or(std::string_view field, bool otherwise) const;
  [[nodiscard]] Result<std::vector<std::string>> texts_or_none(std::string_view field) const;

private:
  const nlohmann::json* json_;
  std::string file_;
  std::string way_;

  [[nodiscard]] Node below(const nlohmann::json& json, std::string_view field) const;
};

/// Reads a file of ours: {"format": FORMAT, "version": 1, ...}.
[[nodiscard]] Result<nlohmann::json> read_document(const std::filesystem::path& file,
                                                   std::string_view format);

/// The .json files of a folder, by name. A folder that isn't there is an error.
[[nodiscard]] Result<std::vector<std::filesystem::path>>
json_files(const std::filesystem::path& folder);

} // namespace pritchel::practice
