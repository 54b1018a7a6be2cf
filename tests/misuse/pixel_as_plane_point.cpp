/// A place in the picture isn't taken for a place in the foot.
#include "measure/placed.h"

int main() {
  pritchel::measure::Placed<double> placed;
  const pritchel::ImagePoint pixel{300, 800};
  const pritchel::PlaneMap map({}, pritchel::PictureSide::left);
#ifdef MISUSE
  placed.put("p3-tip", pixel);
#else
  placed.put("p3-tip", map.to_plane(pixel));
#endif
  return placed.has("p3-tip") ? 0 : 1;
}
