#include "imaging/exif.h"

#include "base/text.h"

#include <algorithm>

namespace pritchel::imaging {
namespace {

/// Directory entries worth reading.
constexpr std::uint32_t tag_columns = 256;
constexpr std::uint32_t tag_rows = 257;
constexpr std::uint32_t tag_orientation = 274;
constexpr std::uint32_t tag_strip_offsets = 273;
constexpr std::uint32_t tag_strip_bytes = 279;
constexpr std::uint32_t tag_date_time = 306;
constexpr std::uint32_t tag_tile_offsets = 324;
constexpr std::uint32_t tag_tile_bytes = 325;
constexpr std::uint32_t tag_exif_directory = 34665;
constexpr std::uint32_t tag_date_time_original = 36867;
constexpr std::uint32_t tag_lens_35mm = 41989;

/// A SHORT's greatest value; what no lens has is refused where it is used.
constexpr std::uint32_t greatest_lens_35mm = 65'535;

class Tiff {
public:
  explicit Tiff(std::span<const std::uint8_t> bytes)
      : bytes_(bytes),
        big_(!bytes.empty() && bytes[0] == 'M') {}

  /// 0 beyond the end.
  [[nodiscard]] std::uint32_t number(std::size_t at, std::size_t size) const {
    if (at > bytes_.size() || bytes_.size() - at < size)
      return 0;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i)
      value = value << 8U | bytes_[at + (big_ ? i : size - 1 - i)];
    return value;
  }

  [[nodiscard]] std::string text(std::size_t at, std::size_t size) const {
    if (at > bytes_.size() || bytes_.size() - at < size)
      return {};
    return {bytes_.begin() + static_cast<std::ptrdiff_t>(at),
            bytes_.begin() + static_cast<std::ptrdiff_t>(at + size)};
  }

  [[nodiscard]] std::size_t size() const { return bytes_.size(); }

private:
  std::span<const std::uint8_t> bytes_;
  bool big_;
};

/// "2024:05:17 10:11:12" to "2024-05-17".
std::string date_of(std::string text) {
  if (text.size() < 10)
    return {};
  text.resize(10);
  text[4] = '-';
  text[7] = '-';
  return is_date(text) ? text : std::string{};
}

constexpr std::uint32_t type_short = 3;

/// Value `index` of an entry of type SHORT or LONG; several values that need more than four bytes
/// lie elsewhere.
std::uint32_t entry_value(const Tiff& tiff, std::size_t entry, std::size_t index = 0) {
  const std::size_t size = tiff.number(entry + 2, 2) == type_short ? 2 : 4;
  const std::size_t count = tiff.number(entry + 4, 4);
  const std::size_t first = count * size <= 4 ? entry + 8 : tiff.number(entry + 8, 4);
  return index < count ? tiff.number(first + index * size, size) : 0;
}

template <class Use> void for_each_entry(const Tiff& tiff, std::size_t directory, Use&& use) {
  const auto count = tiff.number(directory, 2);
  for (std::size_t i = 0; i < count; ++i)
    use(tiff.number(directory + 2 + 12 * i, 2), directory + 2 + 12 * i);
}

/// Pieces of the picture (strips or tiles), as the entries of their places and lengths.
struct Pieces {
  std::size_t offsets = 0;
  std::size_t lengths = 0;
};

bool lie_within(const Tiff& tiff, const Pieces& pieces) {
  if (pieces.offsets == 0 || pieces.lengths == 0)
    return false;
  const std::size_t count = tiff.number(pieces.offsets + 4, 4);
  if (count == 0 || count > tiff.size() || tiff.number(pieces.lengths + 4, 4) != count)
    return false;
  for (std::size_t i = 0; i < count; ++i) {
    const std::size_t length = entry_value(tiff, pieces.lengths, i);
    if (length == 0 || entry_value(tiff, pieces.offsets, i) + length > tiff.size())
      return false;
  }
  return true;
}

std::string date_at(const Tiff& tiff, std::size_t entry) {
  return date_of(tiff.text(tiff.number(entry + 8, 4), 10));
}

} // namespace

TiffFacts read_tiff_facts(std::span<const std::uint8_t> bytes) {
  const Tiff tiff(bytes);
  TiffFacts facts;
  Pieces pieces;
  std::size_t more = 0;
  for_each_entry(tiff, tiff.number(4, 4), [&](std::uint32_t tag, std::size_t entry) {
    const auto value = entry_value(tiff, entry);
    if (tag == tag_columns)
      facts.columns = value;
    else if (tag == tag_rows)
      facts.rows = value;
    else if (tag == tag_strip_offsets || tag == tag_tile_offsets)
      pieces.offsets = entry;
    else if (tag == tag_strip_bytes || tag == tag_tile_bytes)
      pieces.lengths = entry;
    else if (tag == tag_orientation && value >= 1 && value <= 8) {
      facts.orientation = static_cast<int>(value);
      facts.orientation_at = entry + 8;
    } else if (tag == tag_date_time)
      facts.taken = date_at(tiff, entry);
    else if (tag == tag_exif_directory)
      more = value;
  });
  if (more != 0)
    for_each_entry(tiff, more, [&](std::uint32_t tag, std::size_t entry) {
      if (tag == tag_lens_35mm)
        facts.lens_35mm = static_cast<int>(std::min(entry_value(tiff, entry), greatest_lens_35mm));
      if (tag != tag_date_time_original)
        return;
      if (const auto taken = date_at(tiff, entry); !taken.empty())
        facts.taken = taken;
    });
  facts.complete = lie_within(tiff, pieces);
  return facts;
}

} // namespace pritchel::imaging
