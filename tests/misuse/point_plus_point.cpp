/// Two places have no sum; a place and a displacement have.
#include "geometry/frames.h"

int main() {
  const pritchel::PlanePoint a{1, 2}, b{3, 4};
#ifdef MISUSE
  const auto sum = a + b;
#else
  const auto sum = a + (b - a);
#endif
  return sum.x > 0 ? 0 : 1;
}
