/// The geometry floor can't see the measuring floor above it. Built with geometry's includes alone.
#include "geometry/frames.h"
#ifdef MISUSE
#include "measure/placed.h"
#endif

int main() {
  return 0;
}
