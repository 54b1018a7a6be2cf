/// For broken invariants only: we are wrong, not the world. On in release too.
#pragma once

#include <cstdio>
#include <cstdlib>

#define PRITCHEL_ASSERT(condition)                                                                 \
  do {                                                                                             \
    if (!(condition)) {                                                                            \
      (void)std::fprintf(                                                                          \
          stderr, "pritchel: broken invariant: %s (%s:%d)\n", #condition, __FILE__, __LINE__);     \
      std::abort();                                                                                \
    }                                                                                              \
  } while (false)
