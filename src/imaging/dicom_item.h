/// Reading single values out of a DICOM item. Inside imaging only.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

class DcmItem; // DCMTK's, named here so that its headers stay in the sources

namespace pritchel::imaging::dicom {

struct Tag {
  std::uint16_t group = 0;
  std::uint16_t element = 0;
};

/// All values as stored, joined by backslashes, trailing padding removed, character set untouched;
/// empty when absent.
[[nodiscard]] std::string raw_text(DcmItem& item, Tag tag);

/// The single values of such a text, as stored.
[[nodiscard]] std::vector<std::string> values(const std::string& text);

/// Every value that reads as a finite number; empty when one does not.
[[nodiscard]] std::vector<double> numbers(DcmItem& item, Tag tag);

/// The first value, if all read as numbers.
[[nodiscard]] std::optional<double> number(DcmItem& item, Tag tag);

/// A US, SS or IS value as it stands, without a fraction.
[[nodiscard]] std::optional<int> integer(DcmItem& item, Tag tag);

/// First item of a sequence, or null.
[[nodiscard]] DcmItem* first_item(DcmItem& item, Tag sequence);

/// Where an attribute of the picture's first frame is looked for: the item itself, else the macro
/// of that name in the per-frame, else in the shared functional groups (enhanced objects).
[[nodiscard]] DcmItem& frame_macro(DcmItem& item, Tag macro);

/// First item of a LUT Sequence as stored; empty when it makes no sense.
/// Source: DICOM PS3.3 C.11.1.1.1, LUT Descriptor and LUT Data.
struct RawTable {
  std::uint16_t length = 0; ///< 0 means 65,536
  int first_input = 0;
  int bits = 0;
  std::vector<std::uint16_t> words;
  std::string explanation;
};
[[nodiscard]] std::optional<RawTable> lookup_table(DcmItem& item, Tag sequence);

} // namespace pritchel::imaging::dicom
