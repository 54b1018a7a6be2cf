#include "practice/node.h"

#include "base/limits.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <system_error>

namespace pritchel::practice {
namespace {

constexpr int version_read = 1;

bool is_blank(const std::string& text) {
  return text.find_first_not_of(" \t\r\n") == std::string::npos;
}

Result<std::string> bytes_of(const std::filesystem::path& file) {
  std::error_code trouble;
  const auto size = std::filesystem::file_size(file, trouble);
  if (trouble)
    return fail(
        file.string(),
        "can't be read",
        "the templates folder must hold it: copy it from the one that came with the program",
        Trouble::not_found);
  if (size > limits::json_file_bytes)
    return fail(file.string(), "is too large for a template", "", Trouble::too_large);
  std::ifstream stream(file, std::ios::binary);
  return std::string(std::istreambuf_iterator<char>(stream), {});
}

std::string place_of(const nlohmann::json::parse_error& error, const std::string& text) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(error.byte, text.size()));
  return fmt::format("line {}", 1 + std::count(text.begin(), end, '\n'));
}

Result<nlohmann::json> parsed(const std::filesystem::path& file, const std::string& text) {
  try {
    return nlohmann::json::parse(text);
  } catch (const nlohmann::json::parse_error& error) {
    return fail(file.string(),
                "is not proper JSON at " + place_of(error, text),
                "look there for a missing comma, quote or bracket");
  }
}

} // namespace

tl::unexpected<Error> Node::wrong(std::string problem, std::string way_out) const {
  return fail(way_.empty() ? file_ : file_ + ", " + way_, std::move(problem), std::move(way_out));
}

Node Node::below(const nlohmann::json& json, std::string_view field) const {
  return {json, file_, way_.empty() ? std::string(field) : fmt::format("{}.{}", way_, field)};
}

Result<void> Node::only(std::initializer_list<std::string_view> fields) const {
  if (!json_->is_object())
    return wrong("is not an object", "write {...}");
  for (const auto& [name, value] : json_->items())
    if (std::find(fields.begin(), fields.end(), name) == fields.end())
      return below(value, name).wrong("is not a field that belongs here", "check its spelling");
  return {};
}

bool Node::has(std::string_view field) const {
  return json_->is_object() && json_->contains(field);
}

Result<Node> Node::at(std::string_view field) const {
  if (!json_->is_object())
    return wrong("is not an object", "write {...}");
  const auto found = json_->find(field);
  if (found == json_->end())
    return wrong(fmt::format(R"(lacks "{}")", field));
  return below(*found, field);
}

Result<std::vector<Node>> Node::list(std::string_view field) const {
  PRITCHEL_TRY(node, at(field));
  if (!node.json_->is_array())
    return node.wrong("is not a list", "write [...]");
  std::vector<Node> all;
  for (std::size_t i = 0; i < node.json_->size(); ++i)
    all.emplace_back((*node.json_)[i], file_, fmt::format("{}[{}]", node.way_, i));
  return all;
}

Result<std::vector<std::pair<std::string, Node>>> Node::entries(std::string_view field) const {
  PRITCHEL_TRY(node, at(field));
  if (!node.json_->is_object())
    return node.wrong("is not an object", "write {...}");
  std::vector<std::pair<std::string, Node>> all;
  for (const auto& [name, value] : node.json_->items())
    all.emplace_back(name, node.below(value, name));
  return all;
}

Result<std::string> Node::text() const {
  if (!json_->is_string())
    return wrong("is not a text", "write it in quotes");
  auto text = json_->get<std::string>();
  if (is_blank(text))
    return wrong("is empty");
  if (text.size() > limits::text_bytes)
    return wrong("is too long");
  return text;
}

Result<double> Node::number() const {
  if (!json_->is_number())
    return wrong("is not a number", "write it without quotes and with a decimal point");
  const auto value = json_->get<double>();
  if (!std::isfinite(value))
    return wrong("is not a finite number");
  return value;
}

Result<bool> Node::truth() const {
  if (!json_->is_boolean())
    return wrong("is neither true nor false");
  return json_->get<bool>();
}

Result<std::string> Node::text(std::string_view field) const {
  PRITCHEL_TRY(node, at(field));
  return node.text();
}

Result<double> Node::number(std::string_view field) const {
  PRITCHEL_TRY(node, at(field));
  return node.number();
}

Result<std::string> Node::text_or(std::string_view field, std::string otherwise) const {
  if (!has(field))
    return otherwise;
  return text(field);
}

Result<double> Node::number_or(std::string_view field, double otherwise) const {
  if (!has(field))
    return otherwise;
  return number(field);
}

Result<bool> Node::truth_or(std::string_view field, bool otherwise) const {
  if (!has(field))
    return otherwise;
  PRITCHEL_TRY(node, at(field));
  return node.truth();
}

Result<std::vector<std::string>> Node::texts_or_none(std::string_view field) const {
  std::vector<std::string> all;
  if (!has(field))
    return all;
  PRITCHEL_TRY(nodes, list(field));
  for (const auto& node : nodes) {
    PRITCHEL_TRY(text, node.text());
    all.push_back(std::move(text));
  }
  return all;
}

Result<nlohmann::json> read_document(const std::filesystem::path& file, std::string_view format) {
  PRITCHEL_TRY(text, bytes_of(file));
  PRITCHEL_TRY(json, parsed(file, text));
  const Node node(json, file.string());
  PRITCHEL_TRY(written_format, node.text("format"));
  if (written_format != format)
    return node.wrong(fmt::format(R"(is a "{}" where a "{}" belongs)", written_format, format));
  PRITCHEL_TRY(version, node.number("version"));
  if (version != version_read)
    return node.wrong("has a version that this program doesn't know",
                      fmt::format("it reads version {}", version_read));
  return json;
}

Result<std::vector<std::filesystem::path>> json_files(const std::filesystem::path& folder) {
  std::error_code trouble;
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder, trouble))
    if (entry.path().extension() == ".json")
      files.push_back(entry.path());
  if (trouble)
    return fail(folder.string(),
                "can't be read",
                "name the templates folder that came with the program",
                Trouble::not_found);
  std::sort(files.begin(), files.end());
  return files;
}

} // namespace pritchel::practice
