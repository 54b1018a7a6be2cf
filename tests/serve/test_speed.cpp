#include <algorithm>
#include <chrono>
#include <iostream>

#include "running.h"

using namespace pritchel::serve::test;

// A clock decides nothing here: this prints what a person at the page would wait for. Run it with
// `test_serve "[.clock]"`.
TEST_CASE("measuring while a point is dragged", "[.clock]") {
  Running running;
  const Prepared job(running, {.columns = 3000, .rows = 2500});
  auto points = side_landmarks();
  std::vector<double> waits;
  for (int i = 0; i < 300; ++i) {
    points["p3-tip"]["x"] = 640 + 0.1 * i;
    const json body{{"landmarks", points}, {"about", ""}};
    const auto begin = std::chrono::steady_clock::now();
    running.post(job.measure_path(), body);
    waits.push_back(
        std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin)
            .count());
  }
  std::sort(waits.begin(), waits.end());
  std::cout << "measure: median " << waits[150] << " ms, p95 " << waits[285] << " ms, worst "
            << waits[299] << " ms\n";
  CHECK(waits.size() == 300);
}
