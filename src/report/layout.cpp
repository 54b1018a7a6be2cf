#include "report/layout.h"

#include "imaging/encode.h"
#include "imaging/scale.h"
#include "imaging/windowing.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace pritchel::report {
namespace {

/// More than a printer of a practice resolves in grey.
constexpr double print_dpi = 240;
constexpr double mm_per_inch = 25.4;

double pixel_aspect(const PictureSheet& sheet) {
  return sheet.calibration.pixel_height_mm / sheet.calibration.pixel_width_mm;
}

struct Plane8 {
  int columns = 0;
  int rows = 0;
  std::size_t channels = 1;
  std::vector<std::uint8_t> pixels;
};

/// Mean of the pixels that each new pixel covers.
Plane8 reduced(const Plane8& from, int columns, int rows) {
  Plane8 to{columns, rows, from.channels, {}};
  to.pixels.resize(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows) *
                   from.channels);
  const auto edge = [](int i, int of, int wide) {
    return static_cast<int>(static_cast<std::int64_t>(i) * wide / of);
  };
  std::size_t out = 0;
  for (int y = 0; y < rows; ++y) {
    const int top = edge(y, rows, from.rows),
              bottom = std::max(edge(y + 1, rows, from.rows), top + 1);
    for (int x = 0; x < columns; ++x) {
      const int left = edge(x, columns, from.columns);
      const int right = std::max(edge(x + 1, columns, from.columns), left + 1);
      for (std::size_t c = 0; c < from.channels; ++c) {
        std::uint64_t sum = 0;
        for (int v = top; v < bottom; ++v)
          for (int u = left; u < right; ++u)
            sum +=
                from.pixels[(static_cast<std::size_t>(v) * static_cast<std::size_t>(from.columns) +
                             static_cast<std::size_t>(u)) *
                                from.channels +
                            c];
        const auto count =
            static_cast<std::uint64_t>(bottom - top) * static_cast<std::uint64_t>(right - left);
        to.pixels[out++] = static_cast<std::uint8_t>((sum + count / 2) / count);
      }
    }
  }
  return to;
}

} // namespace

int Sources::number(const std::string& key) {
  const auto at = std::find(keys_.begin(), keys_.end(), key);
  if (at != keys_.end())
    return static_cast<int>(at - keys_.begin()) + 1;
  keys_.push_back(key);
  return static_cast<int>(keys_.size());
}

std::string Layout::page_of(std::string_view part) const {
  const auto at = known.find(part);
  return at == known.end() ? std::string("0") : std::to_string(at->second);
}

void Layout::begins(const std::string& part) {
  if (canvas().painting())
    found.try_emplace(part, canvas().page());
}

void Layout::field(FormField field) {
  if (!canvas().painting())
    return;
  field.page = canvas().page();
  fields.push_back(std::move(field));
}

Result<Raster> raster_of(const PictureSheet& sheet, double longest_side_mm) {
  const auto& picture = sheet.picture;
  const bool photo = picture.kind == imaging::PictureKind::photo;
  Plane8 whole{picture.columns, picture.rows, photo ? 3U : 1U, {}};
  whole.pixels =
      photo
          ? picture.rgb
          : imaging::render_grey(picture, sheet.window.value_or(imaging::default_window(picture)));
  const double wide = picture.columns, high = picture.rows * pixel_aspect(sheet);
  const double most = longest_side_mm / mm_per_inch * print_dpi;
  const double share = std::min(1.0, most / std::max(wide, high));
  const int columns = std::max(1, static_cast<int>(std::lround(wide * share)));
  const int rows =
      std::clamp(static_cast<int>(std::lround(high * share)), 1, std::max(1, picture.rows));
  auto small = reduced(whole, columns, rows);
  constexpr int quality = 92;
  PRITCHEL_TRY(jpeg,
               imaging::encode_jpeg(small.pixels,
                                    columns,
                                    rows,
                                    photo ? imaging::Channels::rgb : imaging::Channels::grey,
                                    quality));
  return Raster{columns, rows, photo ? 3 : 1, std::move(small.pixels), std::move(jpeg)};
}

PicturePlace place_in(const PictureSheet& sheet, const PaperBox& box) {
  const double aspect = pixel_aspect(sheet);
  const double columns = sheet.entry.columns, rows = sheet.entry.rows;
  const double per_column = std::min(box.width / columns, box.height / (rows * aspect));
  const double wide = columns * per_column, high = rows * per_column * aspect;
  return {
      {box.left + (box.width - wide) / 2, box.top, wide, high}, per_column, per_column * aspect};
}

measure::Reading reading_of(const PictureSheet& sheet) {
  return record::reading_of(sheet.entry, sheet.reading, sheet.calibration);
}

std::vector<std::string> feet(const ReportInput& input) {
  std::vector<std::string> found;
  for (const auto& sheet : input.pictures) {
    const auto foot = measure::for_people(sheet.entry.limb);
    if (std::find(found.begin(), found.end(), foot) == found.end())
      found.push_back(foot);
  }
  return found;
}

std::string foot_prefix(const ReportInput& input, measure::Limb limb) {
  return feet(input).size() > 1 ? capital(measure::for_people(limb)) + ": " : std::string();
}

std::string picture_title(const PictureSheet& sheet) {
  return capital(measure::for_people(sheet.entry.limb)) + ", " +
         measure::for_people(sheet.entry.view, sheet.entry.limb);
}

EdgeLetters edge_letters(const PictureSheet& sheet) {
  const bool hind = measure::is_hind(sheet.entry.limb);
  EdgeLetters letters{"L", "M", "L lateral (outside), M medial (inside)"};
  if (sheet.entry.view == measure::View::lateromedial) {
    const std::string back = hind ? "Pl" : "Pa";
    letters = {"D", back, "D dorsal (toe), " + back + (hind ? " plantar" : " palmar") + " (heel)"};
  } else if (measure::is_side_view(sheet.entry.view)) {
    letters = {"F", "B", "F front, B back"};
  }
  if (sheet.entry.toward == PictureSide::right)
    std::swap(letters.left, letters.right);
  return letters;
}

const EarlierValue* earlier_of(const PictureSheet& sheet, std::string_view id) {
  if (!sheet.earlier)
    return nullptr;
  for (const auto& each : sheet.earlier->values)
    if (each.measurement == id)
      return &each;
  return nullptr;
}

bool is_incomplete(const measure::Measurement& measurement) {
  return !measurement.missing.empty() && measurement.reason == "landmarks are missing";
}

std::string
why_not(const Layout& layout, const PictureSheet& sheet, const measure::Measurement& measurement) {
  if (!is_incomplete(measurement))
    return measurement.reason;
  std::vector<std::string> titles;
  for (const auto& id : measurement.missing)
    titles.push_back(practice::landmark_title(
        practice::protocol(
            layout.input.practice, sheet.entry.view, sheet.entry.limb, sheet.entry.protocol),
        id,
        sheet.entry.limb));
  constexpr std::size_t most = 3;
  if (titles.size() > most) {
    const auto more = titles.size() - 2;
    titles.resize(2);
    titles.push_back(std::to_string(more) + " more points");
  }
  return "not placed: " + listed(titles);
}

} // namespace pritchel::report
