/// What derivatives cost: all measurements of one lateromedial reading with plain numbers, with
/// derivatives, and as the page asks for them. Read the ratios, not the clock.
#include "measure/measure.h"

#include <benchmark/benchmark.h>

#include "../measure/feet.h"

using namespace pritchel::measure;

namespace {

Reading whole_reading() {
  feet::Random random(1);
  return feet::reading(feet::lateromedial(random));
}

template <class T> void evaluate_all(benchmark::State& state, const Placed<T>& placed) {
  for (auto _ : state)
    for (const auto& row : definitions())
      if (row.view == placed.view)
        benchmark::DoNotOptimize(evaluate(row, placed));
}

void formulas_with_double(benchmark::State& state) {
  evaluate_all(state, placed(whole_reading()));
}

void formulas_with_gradient(benchmark::State& state) {
  evaluate_all(state, propagation(whole_reading(), feet::spreads()).placed);
}

void whole_measure_reading(benchmark::State& state) {
  const auto reading = whole_reading();
  for (auto _ : state)
    benchmark::DoNotOptimize(measure_reading(reading, feet::spreads(), {}));
}

BENCHMARK(formulas_with_double);
BENCHMARK(formulas_with_gradient);
BENCHMARK(whole_measure_reading);

} // namespace
