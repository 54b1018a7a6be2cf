#include "imaging/dicom_frame.h"

#include <dcmtk/config/osconfig.h>
#include <dcmtk/dcmdata/dcpixel.h>
#include <dcmtk/dcmdata/dcpixseq.h>
#include <dcmtk/dcmdata/dcpxitem.h>
#include <dcmtk/dcmdata/dctk.h>

#include <span>

namespace pritchel::imaging {
namespace {

DcmPixelSequence* fragments_of(DcmDataset& data_set) {
  DcmElement* element = nullptr;
  if (data_set.findAndGetElement(DCM_PixelData, element).bad())
    return nullptr;
  auto* pixels = dynamic_cast<DcmPixelData*>(element);
  if (pixels == nullptr)
    return nullptr;
  E_TransferSyntax syntax = EXS_Unknown;
  const DcmRepresentationParameter* parameter = nullptr;
  pixels->getOriginalRepresentationKey(syntax, parameter);
  DcmPixelSequence* sequence = nullptr;
  return pixels->getEncapsulatedRepresentation(syntax, parameter, sequence).good() ? sequence
                                                                                   : nullptr;
}

std::span<const std::uint8_t> fragment(DcmPixelSequence& sequence, unsigned long index) {
  DcmPixelItem* item = nullptr;
  Uint8* bytes = nullptr;
  if (sequence.getItem(item, index).bad() || item == nullptr || item->getUint8Array(bytes).bad() ||
      bytes == nullptr)
    return {};
  return {bytes, item->getLength()};
}

/// Entry of the offset table (item 0), counted from the first fragment; 0 when there is none.
std::size_t table_entry(std::span<const std::uint8_t> table, std::size_t index) {
  if (table.size() < 4 * (index + 1))
    return 0;
  std::size_t value = 0;
  for (std::size_t i = 4; i-- > 0;)
    value = value << 8U | table[4 * index + i];
  return value;
}

/// SOC of JPEG 2000, SOI of the JPEG family, the signature box of a JP2 file, or an RLE header (its
/// first segment always begins at 64).
bool begins_frame(std::span<const std::uint8_t> bytes) {
  if (bytes.size() < 4)
    return false;
  if (bytes[0] == 0xFF)
    return bytes[1] == 0xD8 || (bytes[1] == 0x4F && bytes[2] == 0xFF && bytes[3] == 0x51);
  if (bytes.size() >= 64 && bytes[1] == 0 && bytes[4] == 64 && bytes[5] == 0)
    return true;
  return bytes[0] == 0 && bytes[1] == 0 && bytes[2] == 0 && bytes[3] == 12;
}

} // namespace

std::optional<std::vector<std::uint8_t>> first_frame_bytes(DcmDataset& data_set, int frames) {
  DcmPixelSequence* sequence = fragments_of(data_set);
  if (sequence == nullptr || sequence->card() < 2)
    return std::nullopt;
  // The table as stored is little endian, and DCMTK leaves it so when read as bytes.
  const std::size_t second_frame = frames > 1 ? table_entry(fragment(*sequence, 0), 1) : 0;
  std::vector<std::uint8_t> joined;
  std::size_t position = 0;
  for (unsigned long i = 1; i < sequence->card(); ++i) {
    const auto bytes = fragment(*sequence, i);
    if (second_frame > 0 && position >= second_frame)
      break;
    if (second_frame == 0 && frames > 1 && !joined.empty() && begins_frame(bytes))
      break;
    joined.insert(joined.end(), bytes.begin(), bytes.end());
    position += 8 + bytes.size();
  }
  if (joined.empty())
    return std::nullopt;
  return joined;
}

} // namespace pritchel::imaging
