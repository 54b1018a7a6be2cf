/// A pixel and a millimetre can't be taken from each other.
#include "geometry/calibration.h"

int main() {
  const pritchel::Calibration calibration;
  const pritchel::PlaneMap map(calibration, pritchel::PictureSide::left);
  const pritchel::ImagePoint pixel{3, 4};
  const pritchel::PlanePoint millimetres{1, 2};
#ifdef MISUSE
  const auto between = pixel - millimetres;
#else
  const auto between = map.to_plane(pixel) - millimetres;
#endif
  return between.x > 0 ? 0 : 1;
}
