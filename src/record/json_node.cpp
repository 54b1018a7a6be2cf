#include "record/json_node.h"

#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pritchel::record {
namespace {

constexpr std::size_t id_bytes = 80;

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return (byte < 0x20 && c != '\n' && c != '\t') || byte == 0x7f;
}

bool is_id_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

bool is_number_text(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// Two digits, at most `most`.
bool is_part(std::string_view text, std::string_view most) {
  return is_number_text(text) && text <= most;
}

bool is_moment(std::string_view text) {
  return text.size() == 20 && is_date(text.substr(0, 10)) && text[10] == 'T' && text[13] == ':' &&
         text[16] == ':' && text[19] == 'Z' && is_part(text.substr(11, 2), "23") &&
         is_part(text.substr(14, 2), "59") && is_part(text.substr(17, 2), "60");
}

} // namespace

std::string Node::member_path(std::string_view key) const {
  return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
}

Node Node::operator[](std::string_view key) const {
  const nlohmann::json* found = nullptr;
  if (is_there() && !value_->is_object())
    complain("must be an object, like {\"" + std::string(key) + "\": ...}");
  else if (is_there())
    if (const auto at = value_->find(key); at != value_->end())
      found = &*at;
  return {found, complaint_, member_path(key)};
}

Node Node::need(std::string_view key) const {
  Node member = (*this)[key];
  if (!member.is_there())
    member.complain("is missing");
  return member;
}

std::string Node::text() const {
  if (!is_there())
    return {};
  if (!value_->is_string()) {
    complain("must be a text in quotation marks");
    return {};
  }
  const auto& text = value_->get_ref<const std::string&>();
  if (text.size() > limits::text_bytes)
    complain("is too long", fmt::format("{} bytes are the limit", limits::text_bytes));
  else if (std::any_of(text.begin(), text.end(), is_control))
    complain("holds control characters", "write plain text");
  else
    return text;
  return {};
}

std::string Node::date() const {
  auto read = text();
  if (!read.empty() && !is_date(read))
    complain("must be a date that exists, written YYYY-MM-DD");
  return read;
}

std::string Node::moment() const {
  auto read = text();
  if (!read.empty() && !is_moment(read))
    complain("must be a time in UTC, written YYYY-MM-DDThh:mm:ssZ");
  return read;
}

std::string Node::id() const {
  auto read = text();
  if (is_there() && !is_id(read))
    complain("must be lower-case letters, digits and hyphens", "at most 80 of them");
  return read;
}

std::optional<double> Node::known_number(Range range) const {
  if (!is_there())
    return std::nullopt;
  const double read = value_->is_number() ? value_->get<double>() : std::nan("");
  if (!std::isfinite(read))
    complain("must be a number");
  else if (read < range.low || read > range.high)
    complain(fmt::format("must be {} to {}", range.low, range.high), fmt::format("it is {}", read));
  else
    return read;
  return std::nullopt;
}

double Node::number(Range range, double otherwise) const {
  return known_number(range).value_or(otherwise);
}

int Node::integer(int low, int high, int otherwise) const {
  const auto read = known_number({static_cast<double>(low), static_cast<double>(high)});
  if (read && *read != std::floor(*read))
    complain("must be a whole number");
  return read ? static_cast<int>(*read) : otherwise;
}

bool Node::flag() const {
  if (!is_there())
    return false;
  if (!value_->is_boolean()) {
    complain("must be true or false");
    return false;
  }
  return value_->get<bool>();
}

void Node::each(std::size_t most, const std::function<void(const Node&)>& take) const {
  if (!is_there())
    return;
  if (!value_->is_array())
    return complain("must be a list, like [...]");
  if (value_->size() > most)
    return complain(fmt::format("must hold at most {} entries", most));
  for (std::size_t i = 0; i < value_->size(); ++i)
    take(Node{&(*value_)[i], complaint_, fmt::format("{}[{}]", path_, i)});
}

void Node::each_member(std::size_t most,
                       const std::function<void(const std::string&, const Node&)>& take) const {
  if (!is_there())
    return;
  if (!value_->is_object())
    return complain("must be an object, like {...}");
  if (value_->size() > most)
    return complain(fmt::format("must hold at most {} entries", most));
  for (const auto& [key, value] : value_->items())
    take(key, Node{&value, complaint_, member_path(key)});
}

void Node::complain(std::string problem, std::string way_out) const {
  if (complaint_->first)
    return;
  complaint_->first =
      Error{path_.empty() ? "The document" : path_, std::move(problem), std::move(way_out)};
}

bool is_id(std::string_view text) {
  return !text.empty() && text.size() <= id_bytes &&
         std::all_of(text.begin(), text.end(), is_id_letter);
}

void expect_format(const Node& document, std::string_view format, int version) {
  const Node name = document.need("format");
  if (name.text() != format)
    return name.complain("must be \"" + std::string(format) + "\"");
  const Node number = document.need("version");
  const int read = number.integer(1, 1'000'000);
  if (read > version)
    number.complain(fmt::format("is {}, newer than this program knows ({})", read, version),
                    "use a newer Pritchel");
}

} // namespace pritchel::record
