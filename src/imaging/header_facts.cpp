#include "imaging/header_facts.h"

#include "base/limits.h"
#include "base/text.h"
#include "imaging/character_sets.h"
#include "imaging/dicom_item.h"

namespace pritchel::imaging {
namespace {

using dicom::Tag;

/// Reads texts in the character set of the whole data set.
class Texts {
public:
  explicit Texts(DcmItem& data_set)
      : data_set_(data_set),
        terms_(dicom::raw_text(data_set, {0x0008, 0x0005})) {}

  [[nodiscard]] std::string of(DcmItem& item, Tag tag) const {
    auto text = dicom::raw_text(item, tag);
    if (text.size() > limits::text_bytes)
      return {};
    text = to_utf8(text, terms_);
    text.erase(0, std::min(text.find_first_not_of(' '), text.size()));
    return text;
  }

  [[nodiscard]] std::string of(Tag tag) const { return of(data_set_, tag); }

  [[nodiscard]] std::string of_coded(Tag sequence, Tag tag) const {
    DcmItem* item = dicom::first_item(data_set_, sequence);
    return item == nullptr ? std::string{} : of(*item, tag);
  }

private:
  DcmItem& data_set_;
  std::string terms_;
};

constexpr Tag code_value{0x0008, 0x0100};
constexpr Tag code_meaning{0x0008, 0x0104};

std::string date_of(const std::string& text) {
  if (text.size() < 8)
    return {};
  const std::string date = text.substr(0, 4) + "-" + text.substr(4, 2) + "-" + text.substr(6, 2);
  return is_date(date) ? date : std::string{};
}

std::optional<char> side_of(const std::string& text) {
  if (text == "L" || text == "R")
    return text.front();
  return std::nullopt;
}

std::string either(std::string first, std::string second) {
  return first.empty() ? std::move(second) : std::move(first);
}

} // namespace

Facts header_facts(DcmItem& data_set) {
  const Texts texts(data_set);
  const std::string orientation = texts.of({0x0020, 0x0020});
  const auto split = orientation.find('\\');
  const auto image_side = side_of(texts.of({0x0020, 0x0062}));
  return {
      .patient_name = texts.of({0x0010, 0x0010}),
      .patient_id = texts.of({0x0010, 0x0020}),
      .species = either(texts.of({0x0010, 0x2201}), texts.of_coded({0x0010, 0x2202}, code_meaning)),
      .breed = either(texts.of({0x0010, 0x2292}), texts.of_coded({0x0010, 0x2293}, code_meaning)),
      .sex = texts.of({0x0010, 0x0040}),
      .birth_date = date_of(texts.of({0x0010, 0x0030})),
      .responsible_person = texts.of({0x0010, 0x2297}),
      .study_date = date_of(texts.of({0x0008, 0x0020})),
      .modality = texts.of({0x0008, 0x0060}),
      .manufacturer = texts.of({0x0008, 0x0070}),
      .laterality = image_side ? image_side : side_of(texts.of({0x0020, 0x0060})),
      .orientation_row = orientation.substr(0, split),
      .orientation_column =
          split == std::string::npos ? std::string{} : orientation.substr(split + 1),
      .view_code = texts.of_coded({0x0054, 0x0220}, code_value),
      .view_meaning = texts.of_coded({0x0054, 0x0220}, code_meaning),
      .view_position = texts.of({0x0018, 0x5101}),
      .anatomic_region_code = texts.of_coded({0x0008, 0x2218}, code_value),
      .anatomic_region = texts.of_coded({0x0008, 0x2218}, code_meaning),
      .body_part = texts.of({0x0018, 0x0015}),
      .sop_instance_uid = texts.of({0x0008, 0x0018}),
      .lossy = false,
  };
}

} // namespace pritchel::imaging
