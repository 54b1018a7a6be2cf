#include "suggest/models.h"

#include <cstddef>

// Defined in packed_models.S.
extern "C" {
extern const std::uint8_t pritchel_lateromedial_model[];
extern const std::uint8_t pritchel_lateromedial_model_end[];
extern const std::uint8_t pritchel_dorsopalmar_model[];
extern const std::uint8_t pritchel_dorsopalmar_model_end[];
}

namespace pritchel::suggest {
namespace {

std::optional<Model> unpacked(const std::uint8_t* first, const std::uint8_t* end) {
  return read_model({first, static_cast<std::size_t>(end - first)});
}

} // namespace

const Model* model_of(measure::View view) {
  static const auto lateromedial =
      unpacked(pritchel_lateromedial_model, pritchel_lateromedial_model_end);
  static const auto dorsopalmar =
      unpacked(pritchel_dorsopalmar_model, pritchel_dorsopalmar_model_end);
  const auto& model = view == measure::View::lateromedial ? lateromedial : dorsopalmar;
  return measure::is_radiograph(view) && model ? &*model : nullptr;
}

} // namespace pritchel::suggest
