#include "measure/checks.h"

#include "measure/check_work.h"

namespace pritchel::measure {

std::vector<Check> check_reading(const Reading& reading, const Spreads& spreads) {
  const CheckWork work(reading, spreads);
  std::vector<Check> checks;
  check_side_on(work, checks);
  check_front_on(work, checks);
  check_stance(work, checks);
  check_upright(work, checks);
  check_scale(work, checks);
  check_edges(work, checks);
  checks.insert(checks.end(), reading.picture_checks.begin(), reading.picture_checks.end());
  return checks;
}

} // namespace pritchel::measure
