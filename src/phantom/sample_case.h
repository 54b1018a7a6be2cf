/// The invented lameness case of sample-images: one bay gelding, both fore feet, two visits.
#pragma once

#include "phantom/write_dicom.h"

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace pritchel::phantom {

struct SamplePicture {
  std::string name; ///< of the files, without ending
  FootParameters foot;
  Shot shot;
  Occasion occasion;
};

/// Eight pictures: two visits, left and right fore, lateromedial and dorsopalmar. The left fore is
/// lame: long toe, low palmar angle, axis broken back; at the second visit, six weeks later, it is
/// trimmed and shod with a rolled toe set back.
std::vector<SamplePicture> sample_case();

/// Whether the pictures themselves are made again, which takes long, or only what is told of them.
enum class Pictures { written, left_alone };

/// Writes each picture as NAME.dcm with NAME.truth.json and NAME.reading.json; `tell` hears each
/// name.
Result<void> write_sample_case(const std::filesystem::path& folder,
                               Pictures pictures,
                               Quality quality,
                               const std::function<void(const std::string&)>& tell);

Result<void> write_picture(const std::filesystem::path& folder,
                           const SamplePicture& picture,
                           Quality quality,
                           const DicomOptions& options);

} // namespace pritchel::phantom
