#include "practice/node.h"
#include "practice/parts.h"

#include <fmt/format.h>

namespace pritchel::practice {
namespace {

Result<void> read_word_file(const std::filesystem::path& file, Words& words) {
  PRITCHEL_TRY(json, read_document(file, "pritchel-words"));
  const Node node(json, file.string());
  PRITCHEL_CHECK(node.only({"format", "version", "about", "words"}));
  PRITCHEL_TRY(entries, node.entries("words"));
  for (const auto& [name, entry] : entries) {
    PRITCHEL_TRY(text, entry.text());
    if (!words.emplace(name, std::move(text)).second)
      return entry.wrong("stands in another file of this folder already");
  }
  return {};
}

} // namespace

Result<Words> read_words(const std::filesystem::path& folder) {
  PRITCHEL_TRY(files, json_files(folder));
  Words words;
  for (const auto& file : files)
    PRITCHEL_CHECK(read_word_file(file, words));
  return words;
}

Result<std::string> known_source(const Node& node, const Words& sources) {
  PRITCHEL_TRY(key, node.text("source"));
  if (!sources.contains(key))
    return node.wrong(fmt::format(R"(has the source "{}", which sources.json doesn't know)", key),
                      "add it there first");
  return key;
}

Result<Words> read_sources(const std::filesystem::path& file) {
  PRITCHEL_TRY(json, read_document(file, "pritchel-sources"));
  const Node node(json, file.string());
  PRITCHEL_CHECK(node.only({"format", "version", "about", "sources"}));
  PRITCHEL_TRY(entries, node.entries("sources"));
  Words sources;
  for (const auto& [key, entry] : entries) {
    PRITCHEL_CHECK(entry.only({"citation", "seen", "used_for"}));
    if (!is_id(key))
      return entry.wrong("is not a proper key", "use lower-case letters, digits and hyphens");
    PRITCHEL_TRY(citation, entry.text("citation"));
    PRITCHEL_CHECK(entry.text("seen"));
    PRITCHEL_CHECK(entry.text("used_for"));
    sources.emplace(key, std::move(citation));
  }
  return sources;
}

} // namespace pritchel::practice
