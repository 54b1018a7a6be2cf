/// A place in a JSON document, with its path, for reading values that a person may have written.
/// All nodes of one document share a Complaint; the first thing wrong is kept, everything after it
/// reads as defaults, so that a reader is a plain list of fields. Inside record only.
#pragma once

#include "base/limits.h"
#include "base/result.h"

#include <nlohmann/json.hpp>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

namespace pritchel::record {

/// The first bad value of a document.
struct Complaint {
  std::optional<Error> first;
};

struct Range {
  double low = 0;
  double high = 0;
};

class Node {
public:
  Node(const nlohmann::json& document, Complaint& complaint)
      : value_(&document),
        complaint_(&complaint) {}

  /// A member that may be absent. The node itself must be an object.
  [[nodiscard]] Node operator[](std::string_view key) const;
  /// A member that must be there.
  [[nodiscard]] Node need(std::string_view key) const;
  /// Not absent and not null.
  [[nodiscard]] bool is_there() const { return value_ != nullptr && !value_->is_null(); }
  [[nodiscard]] bool is_array() const { return is_there() && value_->is_array(); }
  [[nodiscard]] bool is(std::string_view text) const { return is_there() && *value_ == text; }

  /// Absent: empty, or `otherwise`.
  [[nodiscard]] std::string text() const;
  /// Absent: empty. A calendar date YYYY-MM-DD.
  [[nodiscard]] std::string date() const;
  /// Absent: empty. YYYY-MM-DDThh:mm:ssZ.
  [[nodiscard]] std::string moment() const;
  /// Lower-case letters, digits and hyphens, at most 80.
  [[nodiscard]] std::string id() const;
  [[nodiscard]] double number(Range range, double otherwise = 0) const;
  [[nodiscard]] std::optional<double> known_number(Range range) const;
  [[nodiscard]] int integer(int low, int high, int otherwise = 0) const;
  [[nodiscard]] bool flag() const;

  /// One word of a list; `words` names the allowed ones in the complaint.
  template <class Enum>
  [[nodiscard]] Enum word(std::optional<Enum> (*meaning)(std::string_view),
                          std::string_view words,
                          Enum otherwise) const {
    if (!is_there())
      return otherwise;
    if (value_->is_string())
      if (const auto found = meaning(value_->get_ref<const std::string&>()))
        return *found;
    complain("must be one of " + std::string(words));
    return otherwise;
  }

  /// Every element of an array; an absent one has none.
  void each(std::size_t most, const std::function<void(const Node&)>& take) const;
  /// Every member of an object.
  void each_member(std::size_t most,
                   const std::function<void(const std::string&, const Node&)>& take) const;

  void complain(std::string problem, std::string way_out = {}) const;
  [[nodiscard]] const std::string& path() const { return path_; }

private:
  const nlohmann::json* value_;
  Complaint* complaint_;
  std::string path_;

  Node(const nlohmann::json* value, Complaint* complaint, std::string path)
      : value_(value),
        complaint_(complaint),
        path_(std::move(path)) {}
  [[nodiscard]] std::string member_path(std::string_view key) const;
};

/// Lower-case letters, digits and hyphens; 1 to 80 of them.
[[nodiscard]] bool is_id(std::string_view text);

/// Checks "format" and "version" of a document.
void expect_format(const Node& document, std::string_view format, int version);

/// Runs a reader over a document and hands back its value or the first complaint.
template <class Read>
[[nodiscard]] auto read_document(const nlohmann::json& document, Read read)
    -> Result<decltype(read(std::declval<const Node&>()))> {
  Complaint complaint;
  auto value = read(Node(document, complaint));
  if (complaint.first)
    return tl::make_unexpected(std::move(*complaint.first));
  return value;
}

} // namespace pritchel::record
