/// Not even a result that carries nothing but its error.
#include "base/result.h"

namespace {
pritchel::Result<void> save(bool writable) {
  if (!writable)
    return pritchel::fail("case", "cannot be saved");
  return {};
}
} // namespace

int main(int count, char**) {
#ifdef MISUSE
  save(count > 0);
  return 0;
#else
  return save(count > 0) ? 0 : 1;
#endif
}
