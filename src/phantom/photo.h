/// A photo of an invented horse, taken with a stated camera in a stated light: all that can be
/// chosen, the picture, and the truth. The printed card is passed in as a sheet, so that whoever
/// lays it out stays the only one who knows how.
#pragma once

#include "phantom/photo_camera.h"
#include "phantom/photo_horse.h"

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace pritchel::phantom {

enum class PhotoSubject {
  fore_side,
  hind_side,
  fore_front,
  hind_behind,
  foot_side,
  foot_front,
  sole
};
enum class Coat { bay, chestnut, grey, black };
enum class Light { sun, overcast, dull, stable };
enum class Footing { concrete, sand, grass };
enum class Backdrop { plain, cluttered };

/// sRGB, 0 to 255.
struct Rgb {
  double r = 0;
  double g = 0;
  double b = 0;
};

/// A sheet of printed paper by its own millimetres: x right, y down from the top left corner.
struct PrintedSheet {
  double width_mm = 210;
  double height_mm = 297;
  std::function<bool(double, double)> is_black;
  struct Corner {
    int id = 0;
    double x = 0;
    double y = 0;
  };
  std::vector<Corner> corners;
};

/// The sheet in photo space: its lower left corner, turned about its own upright middle line, then
/// tipped backwards about its lower edge.
struct SheetPlace {
  double left_mm = 200;
  double base_mm = 0;
  double offset_mm = 0; ///< its middle nearer to the camera than the limb's plane
  double turned_deg = 0;
  double tipped_deg = 0;
};

/// A flat disc of coloured foil on the skin, or a lookalike anywhere in the scene.
struct DotPlan {
  std::string id; ///< of the landmark it sticks on
  int colour = 0; ///< which of the two
};

struct PhotoParameters {
  PhotoSubject subject = PhotoSubject::fore_side;
  HorseParameters horse;
  Coat coat = Coat::bay;
  Light light = Light::overcast;
  double sun_from_deg = 35; ///< from behind the camera to its right
  double sun_height_deg = 45;
  Footing footing = Footing::concrete;
  Backdrop backdrop = Backdrop::plain;
  PhotoCamera camera;
  double blur_px = 0.7; ///< standard deviation
  double noise = 0.004; ///< of full scale in linear light, at mid grey
  int jpeg_quality = 92;
  std::optional<SheetPlace> sheet;
  std::vector<DotPlan> dots;
  double dot_mm = 25;
  std::array<Rgb, 2> dot_colours{Rgb{240, 110, 20}, Rgb{235, 235, 235}};
  int lookalikes = 0; ///< discs in the dots' colours that stick on the background
  enum class Cord { none, hanging };
  Cord cord = Cord::none; ///< a plumb line in the limb's plane
  std::uint64_t seed = 1;
};

struct PhotoRaster {
  int columns = 0;
  int rows = 0;
  std::vector<std::uint8_t> rgb;
};

/// One landmark. `on_horse`: where it is on skin, horn or outline, in the horse's frame. The limb's
/// plane runs through the middle of the limb (through the sole in the sole view); `plane_x_mm`
/// (towards the toe or lateral) and `plane_y_mm` (up, or towards the toe) are the point's place
/// square to it. `seen`: where the picture shows it; `in_plane`: where the picture shows the foot
/// of the perpendicular onto the plane, which is what a calibration of that plane promises to
/// measure.
struct PhotoLandmark {
  std::string id;
  Vec3 on_horse;
  double plane_x_mm = 0;
  double plane_y_mm = 0;
  Pixel seen;
  Pixel in_plane;
};

struct PhotoDot {
  std::string id; ///< empty for a lookalike
  int colour = 0;
  Pixel centre;           ///< of the disc's middle point
  double diameter_px = 0; ///< longest
  double slant_deg = 0;   ///< between the disc's normal and the line of sight
  enum class Sight { visible, hidden };
  Sight sight = Sight::visible;
};

struct PhotoTruth {
  std::vector<PhotoLandmark> landmarks;
  std::vector<PhotoDot> dots;
  struct SheetCorner {
    int id = 0;
    Pixel at;
  };
  std::vector<SheetCorner> sheet_corners; ///< those within the picture
  double camera_distance_mm = 0;          ///< square to the limb's plane
  double plane_turned_deg = 0; ///< angle between the line of sight and the plane's normal
};

/// "limb-side" and so on, as in the protocols.
std::string view_word(PhotoSubject subject);
/// Ids of the places where dots go, from the top down.
std::vector<std::string> dot_places(PhotoSubject subject);

/// A camera that holds the subject and its card from `distance_mm`, walked round it to the right;
/// the lens follows from that.
PhotoCamera framed_camera(const PhotoParameters& parameters,
                          double distance_mm,
                          double around_deg,
                          int long_side);
/// Everything drawn by chance within what a careful person does; dots in alternating colours.
PhotoParameters random_photo(std::uint64_t seed, PhotoSubject subject);

PhotoTruth photo_truth(const PhotoParameters& parameters, const PrintedSheet* sheet);
PhotoRaster render_photo(const PhotoParameters& parameters, const PrintedSheet* sheet);

} // namespace pritchel::phantom
