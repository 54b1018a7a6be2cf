#include "imaging/exif.h"

#include "base/text.h"

namespace pritchel::imaging {
namespace {

/// Directory entries worth reading.
constexpr std::uint32_t tag_columns = 256;
constexpr std::uint32_t tag_rows = 257;
constexpr std::uint32_t tag_orientation = 274;
constexpr std::uint32_t tag_date_time = 306;
constexpr std::uint32_t tag_exif_directory = 34665;
constexpr std::uint32_t tag_date_time_original = 36867;

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

std::uint32_t entry_value(const Tiff& tiff, std::size_t entry) {
  constexpr std::uint32_t type_short = 3;
  return tiff.number(entry + 2, 2) == type_short ? tiff.number(entry + 8, 2)
                                                 : tiff.number(entry + 8, 4);
}

template <class Use> void for_each_entry(const Tiff& tiff, std::size_t directory, Use&& use) {
  const auto count = tiff.number(directory, 2);
  for (std::size_t i = 0; i < count; ++i)
    use(tiff.number(directory + 2 + 12 * i, 2), directory + 2 + 12 * i);
}

} // namespace

TiffFacts read_tiff_facts(std::span<const std::uint8_t> bytes) {
  const Tiff tiff(bytes);
  TiffFacts facts;
  std::size_t more = 0;
  for_each_entry(tiff, tiff.number(4, 4), [&](std::uint32_t tag, std::size_t entry) {
    const auto value = entry_value(tiff, entry);
    if (tag == tag_columns)
      facts.columns = value;
    else if (tag == tag_rows)
      facts.rows = value;
    else if (tag == tag_orientation && value >= 1 && value <= 8)
      facts.orientation = static_cast<int>(value);
    else if (tag == tag_date_time)
      facts.taken = date_of(tiff.text(value, 10));
    else if (tag == tag_exif_directory)
      more = value;
  });
  if (more != 0)
    for_each_entry(tiff, more, [&](std::uint32_t tag, std::size_t entry) {
      if (tag == tag_date_time_original)
        if (auto taken = date_of(tiff.text(entry_value(tiff, entry), 10)); !taken.empty())
          facts.taken = taken;
    });
  return facts;
}

} // namespace pritchel::imaging
