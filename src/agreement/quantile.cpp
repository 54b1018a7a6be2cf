#include "agreement/quantile.h"

#include <boost/math/distributions/fisher_f.hpp>
#include <boost/math/distributions/students_t.hpp>

namespace pritchel::agreement {

double student_t_quantile(double probability, double degrees) {
  return quantile(boost::math::students_t(degrees), probability);
}

double f_quantile(double probability, double degrees_above, double degrees_below) {
  return quantile(boost::math::fisher_f(degrees_above, degrees_below), probability);
}

Interval student_interval(double value, double standard_error, double degrees) {
  const double half = student_t_quantile(0.5 + interval_probability / 2, degrees) * standard_error;
  return {value - half, value + half};
}

} // namespace pritchel::agreement
