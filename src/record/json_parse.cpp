#include "base/limits.h"
#include "record/json.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

namespace pritchel::record {
namespace {

using nlohmann::json;

/// Deeper than any document of ours; nesting bombs end here.
constexpr int deepest = 32;

/// Sees to it that no key comes twice in one object (a slip that a JSON reader would swallow).
class Watch {
public:
  bool operator()(int depth, json::parse_event_t event, json& parsed) {
    if (event == json::parse_event_t::object_start)
      keys_.emplace_back();
    else if (event == json::parse_event_t::object_end && !keys_.empty())
      keys_.pop_back();
    else if (event == json::parse_event_t::key && !keys_.empty())
      note_key(parsed.get_ref<const std::string&>());
    if (depth > deepest && trouble_.empty())
      trouble_ = "is nested too deeply";
    return true;
  }
  [[nodiscard]] const std::string& trouble() const { return trouble_; }

private:
  std::vector<std::set<std::string>> keys_;
  std::string trouble_;

  void note_key(const std::string& key) {
    if (!keys_.back().insert(key).second && trouble_.empty())
      trouble_ = "says \"" + key + "\" twice";
  }
};

std::string place(std::string_view text, std::size_t byte) {
  const auto upto = text.substr(0, std::min(byte, text.size()));
  const auto line = 1 + std::count(upto.begin(), upto.end(), '\n');
  return fmt::format("line {}", line);
}

} // namespace

Result<json> parse_json(std::string_view text, const std::string& name) {
  if (text.size() > limits::json_file_bytes)
    return fail(name,
                "is too large",
                fmt::format("{} MB are the limit", limits::json_file_bytes / 1024 / 1024),
                Trouble::too_large);
  Watch watch;
  try {
    auto parsed = json::parse(
        text.begin(), text.end(), [&](int depth, json::parse_event_t event, json& value) {
          return watch(depth, event, value);
        });
    if (!watch.trouble().empty())
      return fail(name, watch.trouble());
    return parsed;
  } catch (const json::parse_error& error) {
    return fail(
        name, "is not valid JSON", "look at " + place(text, error.byte > 0 ? error.byte - 1 : 0));
  } catch (const json::exception&) {
    return fail(name, "holds a number that is too large");
  }
}

std::string text_of(const json& document) {
  return document.dump(-1, ' ', false, json::error_handler_t::replace);
}

} // namespace pritchel::record
