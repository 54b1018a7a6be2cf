#include "imaging/dicom_item.h"

#include "base/text.h"

#include <dcmtk/config/osconfig.h>
#include <dcmtk/dcmdata/dctk.h>

#include <algorithm>
#include <cmath>
#include <string_view>

namespace pritchel::imaging::dicom {
namespace {

DcmTagKey key(Tag tag) {
  return {tag.group, tag.element};
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view padding{" \0", 2};
  const auto first = text.find_first_not_of(padding);
  if (first == std::string_view::npos)
    return {};
  return text.substr(first, text.find_last_not_of(padding) - first + 1);
}

std::optional<double> decimal(std::string_view text) {
  text = trimmed(text);
  if (!text.empty() && text.front() == '+')
    text.remove_prefix(1);
  return parse_number(text);
}

} // namespace

std::string raw_text(DcmItem& item, Tag tag) {
  OFString value;
  if (item.findAndGetOFStringArray(key(tag), value).bad())
    return {};
  const std::string_view text(value.c_str(), value.size());
  constexpr std::string_view padding{" \0", 2};
  const auto last = text.find_last_not_of(padding);
  return std::string(text.substr(0, last == std::string_view::npos ? 0 : last + 1));
}

std::vector<std::string> values(const std::string& text) {
  std::vector<std::string> found;
  std::size_t start = 0;
  while (start < text.size()) {
    const auto end = std::min(text.find('\\', start), text.size());
    found.push_back(text.substr(start, end - start));
    start = end + 1;
  }
  return found;
}

std::vector<double> numbers(DcmItem& item, Tag tag) {
  std::vector<double> found;
  for (const auto& text : values(raw_text(item, tag))) {
    const auto value = decimal(text);
    if (!value)
      return {};
    found.push_back(*value);
  }
  return found;
}

std::optional<double> number(DcmItem& item, Tag tag) {
  const auto all = numbers(item, tag);
  return all.empty() ? std::nullopt : std::optional{all.front()};
}

std::optional<int> integer(DcmItem& item, Tag tag) {
  const auto value = number(item, tag);
  if (!value || *value != std::floor(*value) || std::abs(*value) > 1e9)
    return std::nullopt;
  return static_cast<int>(*value);
}

DcmItem* first_item(DcmItem& item, Tag sequence) {
  DcmItem* found = nullptr;
  return item.findAndGetSequenceItem(key(sequence), found, 0).good() ? found : nullptr;
}

DcmItem& frame_macro(DcmItem& item, Tag macro) {
  constexpr Tag per_frame{0x5200, 0x9230};
  constexpr Tag shared{0x5200, 0x9229};
  for (const Tag groups : {per_frame, shared})
    if (DcmItem* group = first_item(item, groups))
      if (DcmItem* found = first_item(*group, macro))
        return *found;
  return item;
}

std::optional<RawTable> lookup_table(DcmItem& item, Tag sequence) {
  DcmItem* table = first_item(item, sequence);
  if (table == nullptr)
    return std::nullopt;
  const auto descriptor = numbers(*table, {0x0028, 0x3002});
  if (descriptor.size() != 3 || std::any_of(descriptor.begin(), descriptor.end(), [](double v) {
        return v < -32768 || v > 65535;
      }))
    return std::nullopt;
  const Uint16* words = nullptr;
  unsigned long count = 0;
  if (table->findAndGetUint16Array(DcmTagKey(0x0028, 0x3006), words, &count).bad() ||
      words == nullptr)
    return std::nullopt;
  // A length written as signed is the same sixteen bits.
  return RawTable{.length = static_cast<std::uint16_t>(static_cast<int>(descriptor[0])),
                  .first_input = static_cast<int>(descriptor[1]),
                  .bits = static_cast<int>(descriptor[2]),
                  .words = {words, words + count},
                  .explanation = raw_text(*table, {0x0028, 0x3003})};
}

} // namespace pritchel::imaging::dicom
