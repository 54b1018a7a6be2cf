/// A radiograph made for a test, written byte by byte.
/// Truth: DICOM PS3.5 7.1.2 (explicit VR, little endian), PS3.10 7.1 (preamble, meta information)
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>

namespace pritchel::serve::test {

struct FilmSettings {
  int columns = 1600;
  int rows = 1300;
  std::string spacing = "0.15\\0.15"; ///< Imager Pixel Spacing, mm: rows apart, columns apart
  std::string laterality = "L";
  std::string view_position = "LM";
  std::string date = "20260302";
  int seed = 1; ///< another number is another film
  /// The shadow of a steel ball, blurred over one pixel: values go with the logarithm of the
  /// exposure, of which the ball lets 0.5 % through. None with radius 0. Pixels.
  double disc_x = 0;
  double disc_y = 0;
  double disc_radius = 0;
};

class Film {
public:
  static std::string bytes(const FilmSettings& settings) {
    Film film;
    film.text(0x0008, 0x0016, "UI", "1.2.840.10008.5.1.4.1.1.1.1");
    film.text(0x0008, 0x0018, "UI", "2.25." + std::to_string(settings.seed));
    film.text(0x0008, 0x0020, "DA", settings.date);
    film.text(0x0008, 0x0060, "CS", "DX");
    film.text(0x0018, 0x1164, "DS", settings.spacing);
    film.text(0x0018, 0x5101, "CS", settings.view_position);
    film.text(0x0020, 0x0062, "CS", settings.laterality);
    film.number(0x0028, 0x0002, 1);
    film.text(0x0028, 0x0004, "CS", "MONOCHROME2");
    film.number(0x0028, 0x0010, settings.rows);
    film.number(0x0028, 0x0011, settings.columns);
    film.number(0x0028, 0x0100, 16);
    film.number(0x0028, 0x0101, 12);
    film.number(0x0028, 0x0102, 11);
    film.number(0x0028, 0x0103, 0);
    film.pixels(settings);
    return meta() + film.bytes_;
  }

  /// The stored value of a pixel.
  static int value(const FilmSettings& settings, int x, int y) {
    const int ground = (x + 2 * y + settings.seed) % 4096;
    const double inside =
        settings.disc_radius - std::hypot(x - settings.disc_x, y - settings.disc_y);
    if (settings.disc_radius <= 0)
      return ground;
    constexpr double let_through = 0.005;
    const double share = std::clamp(inside + 0.5, 0.0, 1.0);
    const double exposure = 1 - share * (1 - let_through);
    return static_cast<int>(std::lround(3800 * std::log(exposure) / std::log(let_through))) +
           ground / 32;
  }

private:
  std::string bytes_;

  static std::string little(std::uint32_t value, int size) {
    std::string bytes;
    for (int i = 0; i < size; ++i)
      bytes += static_cast<char>((value >> (8 * i)) & 0xff);
    return bytes;
  }

  void tag(int group, int element, std::string_view kind) {
    bytes_ += little(static_cast<std::uint32_t>(group), 2) +
              little(static_cast<std::uint32_t>(element), 2) + std::string(kind);
  }

  void text(int group, int element, std::string_view kind, std::string value) {
    if (value.size() % 2 != 0)
      value += kind == "UI" ? '\0' : ' ';
    tag(group, element, kind);
    bytes_ += little(static_cast<std::uint32_t>(value.size()), 2) + value;
  }

  void number(int group, int element, int value) {
    tag(group, element, "US");
    bytes_ += little(2, 2) + little(static_cast<std::uint32_t>(value), 2);
  }

  void pixels(const FilmSettings& settings) {
    tag(0x7fe0, 0x0010, "OW");
    bytes_ += little(0, 2);
    bytes_ += little(static_cast<std::uint32_t>(settings.columns * settings.rows * 2), 4);
    for (int y = 0; y < settings.rows; ++y)
      for (int x = 0; x < settings.columns; ++x)
        bytes_ += little(static_cast<std::uint32_t>(value(settings, x, y)), 2);
  }

  static std::string meta() {
    Film rest;
    rest.tag(0x0002, 0x0001, "OB");
    rest.bytes_ += little(0, 2) + little(2, 4) + std::string("\0\1", 2);
    rest.text(0x0002, 0x0002, "UI", "1.2.840.10008.5.1.4.1.1.1.1");
    rest.text(0x0002, 0x0003, "UI", "2.25.1");
    rest.text(0x0002, 0x0010, "UI", "1.2.840.10008.1.2.1");
    rest.text(0x0002, 0x0012, "UI", "2.25.2");
    Film whole;
    whole.tag(0x0002, 0x0000, "UL");
    whole.bytes_ += little(4, 2) + little(static_cast<std::uint32_t>(rest.bytes_.size()), 4);
    return std::string(128, '\0') + "DICM" + whole.bytes_ + rest.bytes_;
  }
};

} // namespace pritchel::serve::test
