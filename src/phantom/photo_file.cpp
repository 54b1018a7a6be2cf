#include "phantom/photo_file.h"

#include <nlohmann/json.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>
#include <fstream>

namespace pritchel::phantom {

namespace {

using Json = nlohmann::ordered_json;
using Bytes = std::vector<std::uint8_t>;

constexpr std::size_t entry_bytes = 12;
const std::string taken = "2026:03:02 09:30:00"; ///< invented, the same for every photo

void put16(Bytes& to, std::size_t value) {
  to.push_back(static_cast<std::uint8_t>(value >> 8U & 0xFFU));
  to.push_back(static_cast<std::uint8_t>(value & 0xFFU));
}
void put32(Bytes& to, std::size_t value) {
  put16(to, value >> 16U);
  put16(to, value & 0xFFFFU);
}
void put_entry(Bytes& to, std::size_t tag, std::size_t type, std::size_t count, std::size_t value) {
  put16(to, tag);
  put16(to, type);
  put32(to, count);
  constexpr std::size_t type_short = 3;
  if (type == type_short) {
    put16(to, value);
    put16(to, 0);
  } else
    put32(to, value);
}

/// APP1: "Exif\0\0", big-endian TIFF header, IFD0 with the way to the Exif IFD, the Exif IFD.
Bytes exif_segment(double focal_35mm) {
  constexpr std::size_t first = 8;
  constexpr std::size_t exif = first + 2 + 1 * entry_bytes + 4;
  constexpr std::size_t text = exif + 2 + 2 * entry_bytes + 4;
  Bytes tiff{'M', 'M', 0, 42};
  put32(tiff, first);
  put16(tiff, 1);
  put_entry(tiff, 0x8769, 4, 1, exif);
  put32(tiff, 0);
  put16(tiff, 2);
  put_entry(tiff, 0x9003, 2, taken.size() + 1, text); // DateTimeOriginal
  put_entry(tiff, 0xA405, 3, 1, static_cast<std::size_t>(std::lround(focal_35mm)));
  put32(tiff, 0);
  tiff.insert(tiff.end(), taken.begin(), taken.end());
  tiff.push_back(0);
  Bytes segment{0xFF, 0xE1};
  put16(segment, 2 + 6 + tiff.size());
  for (const char c : {'E', 'x', 'i', 'f', '\0', '\0'})
    segment.push_back(static_cast<std::uint8_t>(c));
  segment.insert(segment.end(), tiff.begin(), tiff.end());
  return segment;
}

Json pair(const Pixel& p) {
  return {p.x, p.y};
}

template <std::size_t n> const char* word(const char* const (&words)[n], int which) {
  return words[which];
}

Json horse_json(const HorseParameters& h) {
  return {{"limb",
           std::string(h.side == Side::left ? "left" : "right") +
               (h.limb == Limb::fore ? "-fore" : "-hind")},
          {"size_ratio", h.size_ratio},
          {"hoof_angle_deg", h.hoof_angle_deg},
          {"heel_angle_deg", h.heel_angle_deg},
          {"coronet_angle_deg", h.coronet_angle_deg},
          {"pastern_slope_deg", h.pastern_slope_deg},
          {"cannon_lean_deg", h.cannon_lean_deg},
          {"carpus_forward_mm", h.carpus_forward_mm},
          {"shoulder_slope_deg", h.shoulder_slope_deg},
          {"hock_angle_deg", h.hock_angle_deg},
          {"carpus_lateral_mm", h.carpus_lateral_mm},
          {"fetlock_lateral_mm", h.fetlock_lateral_mm},
          {"foot_lateral_mm", h.foot_lateral_mm}};
}

Json camera_json(const PhotoCamera& c) {
  return {{"columns", c.columns},
          {"rows", c.rows},
          {"focal_35mm", c.focal_35mm},
          {"focal_px", focal_px(c)},
          {"k1", c.k1},
          {"position_mm", {c.position.x, c.position.y, c.position.z}},
          {"yaw_deg", c.yaw_deg},
          {"pitch_deg", c.pitch_deg},
          {"roll_deg", c.roll_deg}};
}

Json sheet_json(const PhotoParameters& p, const PhotoTruth& truth) {
  if (!p.sheet)
    return nullptr;
  Json corners = Json::object();
  for (const PhotoTruth::SheetCorner& c : truth.sheet_corners)
    corners[std::to_string(c.id)] = pair(c.at);
  return {{"left_mm", p.sheet->left_mm},
          {"base_mm", p.sheet->base_mm},
          {"offset_mm", p.sheet->offset_mm},
          {"turned_deg", p.sheet->turned_deg},
          {"tipped_deg", p.sheet->tipped_deg},
          {"corners_px", corners}};
}

Json dots_json(const PhotoParameters& p, const PhotoTruth& truth) {
  Json all = Json::array();
  for (const PhotoDot& d : truth.dots)
    all.push_back({{"id", d.id},
                   {"colour", d.colour},
                   {"px", pair(d.centre)},
                   {"diameter_px", d.diameter_px},
                   {"slant_deg", d.slant_deg},
                   {"visible", d.sight == PhotoDot::Sight::visible}});
  const auto rgb = [](const Rgb& c) { return Json{c.r, c.g, c.b}; };
  return {{"diameter_mm", p.dot_mm},
          {"colours_srgb", {rgb(p.dot_colours[0]), rgb(p.dot_colours[1])}},
          {"dots", all}};
}

Result<void> save(const std::filesystem::path& path, std::string_view bytes) {
  std::ofstream file(path, std::ios::binary);
  file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  file.close();
  if (!file)
    return fail(path.string(), "could not be written", "check the folder", Trouble::outside);
  return {};
}

} // namespace

Result<std::vector<std::uint8_t>> photo_jpeg(const PhotoRaster& raster,
                                             const PhotoParameters& parameters) {
  try {
    cv::Mat3b rgb(raster.rows, raster.columns);
    std::copy(raster.rgb.begin(), raster.rgb.end(), rgb.data);
    cv::cvtColor(rgb, rgb, cv::COLOR_RGB2BGR);
    Bytes jpeg;
    cv::imencode(".jpg", rgb, jpeg, {cv::IMWRITE_JPEG_QUALITY, parameters.jpeg_quality});
    const Bytes exif = exif_segment(parameters.camera.focal_35mm);
    jpeg.insert(jpeg.begin() + 2, exif.begin(), exif.end()); // right after the start of image
    return jpeg;
  } catch (const cv::Exception& e) {
    return fail("the photo", "could not be written as JPEG", e.what(), Trouble::outside);
  }
}

std::string
photo_truth_json(const PhotoParameters& p, const PhotoTruth& truth, const std::string& picture) {
  Json landmarks = Json::object();
  for (const PhotoLandmark& l : truth.landmarks)
    landmarks[l.id] = {{"plane_mm", {l.plane_x_mm, l.plane_y_mm}},
                       {"horse_mm", {l.on_horse.x, l.on_horse.y, l.on_horse.z}},
                       {"px", pair(l.seen)},
                       {"plane_px", pair(l.in_plane)}};
  const Json all{{"format", "pritchel-photo-truth"},
                 {"version", 1},
                 {"picture", picture},
                 {"view", view_word(p.subject)},
                 {"horse", horse_json(p.horse)},
                 {"coat", word({"bay", "chestnut", "grey", "black"}, static_cast<int>(p.coat))},
                 {"light", word({"sun", "overcast", "dull", "stable"}, static_cast<int>(p.light))},
                 {"footing", word({"concrete", "sand", "grass"}, static_cast<int>(p.footing))},
                 {"backdrop", word({"plain", "cluttered"}, static_cast<int>(p.backdrop))},
                 {"seed", p.seed},
                 {"camera", camera_json(p.camera)},
                 {"blur_px", p.blur_px},
                 {"noise", p.noise},
                 {"jpeg_quality", p.jpeg_quality},
                 {"camera_distance_mm", truth.camera_distance_mm},
                 {"plane_turned_deg", truth.plane_turned_deg},
                 {"card", sheet_json(p, truth)},
                 {"stick_on", dots_json(p, truth)},
                 {"landmarks", landmarks}};
  return all.dump(2) + "\n";
}

Result<void> write_photo(const std::filesystem::path& folder,
                         const std::string& name,
                         const PhotoParameters& parameters,
                         const PrintedSheet* sheet) {
  const std::string file = name + ".jpg";
  PRITCHEL_TRY(jpeg, photo_jpeg(render_photo(parameters, sheet), parameters));
  const std::string bytes(jpeg.begin(), jpeg.end());
  PRITCHEL_CHECK(save(folder / file, bytes));
  return save(folder / (name + ".truth.json"),
              photo_truth_json(parameters, photo_truth(parameters, sheet), file));
}

} // namespace pritchel::phantom
