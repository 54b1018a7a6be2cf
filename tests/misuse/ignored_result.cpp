/// A result that may be an error isn't dropped. Built with that warning as an error.
#include "base/result.h"

namespace {
pritchel::Result<int> pages(bool there) {
  if (!there)
    return pritchel::fail("paper", "has no pages");
  return 3;
}
} // namespace

int main(int count, char**) {
#ifdef MISUSE
  pages(count > 0);
  return 0;
#else
  return pages(count > 0) ? 0 : 1;
#endif
}
