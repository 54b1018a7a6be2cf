#include "imaging/load.h"

#include <catch2/catch.hpp>

#include "manifest.h"

using namespace pritchel;
using namespace pritchel::imaging;

// Truth: tests/truth/dicom/README.md: stored values on which at least two independent readers
// agreed
TEST_CASE("the kept DICOM files decode to their stored values or are refused", "[imaging]") {
  const auto tally = truth::check_all(truth::kept_files());
  CHECK(tally.decoded >= 15);
  CHECK(tally.refused >= 12);
}

// Truth: the data folder's manifest: stored values on which at least two independent readers agreed
TEST_CASE("all 58 DICOM files decode to their stored values and all 57 others are refused",
          "[imaging]") {
  const auto manifest = truth::all_files();
  if (!manifest) {
    WARN("skipped: the folder of open DICOM files is not beside the repository");
    return;
  }
  const auto tally = truth::check_all(*manifest);
  CHECK(tally.decoded == 58);
  CHECK(tally.refused == 57);
}
