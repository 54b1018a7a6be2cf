/// Prints what the measuring code makes of feet given as text, for test_reference.py.
///
///   foot lateromedial|dorsopalmar bare|shod left|right WIDTH_MM HEIGHT_MM SCALE_SHARE
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
  std::string view, shoeing, toward;
  Reading reading;
  auto& calibration = reading.calibration;
  words >> view >> shoeing >> toward >> calibration.pixel_width_mm >> calibration.pixel_height_mm >>
      calibration.relative_uncertainty;
  reading.view = view_from(view).value();
  reading.shoeing = shoeing_from(shoeing).value();
  reading.toward = toward == "left" ? PictureSide::left : PictureSide::right;
  calibration.origin = ScaleOrigin::marker;
  return reading;
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
