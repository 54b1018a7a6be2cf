/// Random numbers that are the same on every machine: counter-based, so a pixel's noise depends on
/// the seed and the pixel alone. Source: the SplitMix64 finaliser (Steele, Lea, Flood 2014).
#pragma once

#include <cmath>
#include <cstdint>

namespace pritchel::phantom {

/// A well-mixed 64-bit word for (seed, counter).
inline std::uint64_t mixed(std::uint64_t seed, std::uint64_t counter) {
  std::uint64_t z =
      seed * 0xD1B54A32D192ED03ULL + counter * 0x9E3779B97F4A7C15ULL + 0x9E3779B97F4A7C15ULL;
  z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
  z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
  return z ^ (z >> 31);
}

/// Even over (0, 1).
inline double even(std::uint64_t seed, std::uint64_t counter) {
  return (static_cast<double>(mixed(seed, counter) >> 11) + 0.5) * 0x1.0p-53;
}

/// Normal with mean 0 and standard deviation 1 (Box and Muller).
inline double normal(std::uint64_t seed, std::uint64_t counter) {
  const double r = std::sqrt(-2.0 * std::log(even(seed, 2 * counter)));
  return r * std::cos(2.0 * 3.14159265358979323846 * even(seed, 2 * counter + 1));
}

/// A stream of draws for code that asks one value after another.
class Draws {
public:
  explicit Draws(std::uint64_t seed)
      : seed_(seed) {}
  double between(double low, double high) { return low + (high - low) * even(seed_, next_++); }
  /// Normal about `centre`, cut off at `low` and `high`.
  double about(double centre, double deviation, double low, double high) {
    const double value = centre + deviation * normal(seed_ ^ 0x5DEECE66DULL, next_++);
    return value < low ? low : (value > high ? high : value);
  }
  bool one_in(double n) { return even(seed_, next_++) * n < 1.0; }

private:
  std::uint64_t seed_;
  std::uint64_t next_ = 0;
};

} // namespace pritchel::phantom
