/// Prints what the measuring code makes of feet given as text, for test_reference.py.
///
///   foot VIEW LIMB bare|shod left|right WIDTH_MM HEIGHT_MM SCALE_SHARE
///   unscaled NOMINAL_MM          no scale: WIDTH and HEIGHT give the pixel's shape only
///   card H0 ... H8               the map of a rectification, row by row
///   sigma H0 ... H8              the same, one component moved by one standard deviation
///   at ID X_PX Y_PX
///   spread ID ACROSS_MM ALONG_MM FROM|- TO|-
///   end
///
/// For each foot one JSON object on a line: id -> [value, standard uncertainty], or null with the
/// reason when it isn't measurable.
#include "measure/measure.h"

#include <fmt/core.h>

#include <iostream>
#include <sstream>

using namespace pritchel;
using namespace pritchel::measure;

namespace {

std::string name(const std::string& word) {
  return word == "-" ? "" : word;
}

Reading begin(std::istringstream& words) {
  std::string view, limb, shoeing, toward;
  Reading reading;
  auto& calibration = reading.calibration;
  words >> view >> limb >> shoeing >> toward >> calibration.pixel_width_mm >>
      calibration.pixel_height_mm >> calibration.relative_uncertainty;
  reading.view = view_from(view).value();
  reading.limb = limb_from(limb).value();
  reading.shoeing = shoeing_from(shoeing).value();
  reading.toward = toward == "left" ? PictureSide::left : PictureSide::right;
  calibration.origin = ScaleOrigin::marker;
  return reading;
}

Homography map_from(std::istringstream& words) {
  Homography map{};
  for (auto& each : map)
    words >> each;
  return map;
}

void print(const Reading& reading, const Spreads& spreads) {
  const char* comma = "{";
  for (const auto& each : measure_reading(reading, spreads, {})) {
    if (each.measurable())
      fmt::print("{}\"{}\": [{:.17g}, {:.17g}]",
                 comma,
                 each.definition->id,
                 each.value,
                 each.standard_uncertainty);
    else
      fmt::print("{}\"{}\": \"{}\"", comma, each.definition->id, each.reason);
    comma = ", ";
  }
  fmt::print("}}\n");
}

} // namespace

int main() {
  Reading reading;
  Spreads spreads;
  for (std::string line; std::getline(std::cin, line);) {
    std::istringstream words(line);
    std::string what, id;
    words >> what;
    if (what == "foot") {
      reading = begin(words);
      spreads.clear();
    } else if (what == "unscaled") {
      reading.calibration.origin = ScaleOrigin::none;
      words >> reading.calibration.nominal_pixel_mm;
    } else if (what == "card") {
      reading.calibration.origin = ScaleOrigin::card;
      reading.calibration.rectification = Rectification{.map = map_from(words)};
    } else if (what == "sigma") {
      reading.calibration.rectification->one_sigma.push_back({map_from(words), std::nullopt});
    } else if (what == "at") {
      Landmark landmark;
      words >> landmark.id >> landmark.at.x >> landmark.at.y;
      reading.landmarks.push_back(landmark);
    } else if (what == "spread") {
      Spread spread;
      words >> id >> spread.across_mm >> spread.along_mm >> spread.from >> spread.to;
      spread.from = name(spread.from);
      spread.to = name(spread.to);
      spreads[id] = spread;
    } else if (what == "end") {
      print(reading, spreads);
    }
    if (!words && what != "end") {
      fmt::print(stderr, "measure_dump: cannot read '{}'\n", line);
      return 2;
    }
  }
}
