#include "suggest/model.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <limits>

namespace pritchel::suggest {
namespace {

constexpr std::uint32_t first_word = 0x31'4C'46'50; // PFL1

/// Numbers least byte first. A row of weights is kept in 16 bits and a scale.
class Writer {
public:
  void word(std::uint32_t value) {
    for (int shift = 0; shift < 32; shift += 8)
      bytes_.push_back(static_cast<std::uint8_t>(value >> shift));
  }
  void whole(std::size_t value) { word(static_cast<std::uint32_t>(value)); }
  void number(float value) {
    std::uint32_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    word(bits);
  }
  void text(const std::string& value) {
    whole(value.size());
    bytes_.insert(bytes_.end(), value.begin(), value.end());
  }
  void numbers(std::span<const float> values) {
    whole(values.size());
    for (const float each : values)
      number(each);
  }
  void row(std::span<const float> values) {
    float most = 0;
    for (const float each : values)
      most = std::max(most, std::abs(each));
    const float scale = most / 32'767;
    number(scale);
    whole(values.size());
    for (const float each : values) {
      const auto step = static_cast<std::int16_t>(scale > 0 ? std::lround(each / scale) : 0);
      const auto bits = static_cast<std::uint16_t>(step);
      bytes_.push_back(static_cast<std::uint8_t>(bits & 0xFF));
      bytes_.push_back(static_cast<std::uint8_t>(bits >> 8));
    }
  }
  void level(const Level& value) {
    number(static_cast<float>(value.pixel_mm));
    number(static_cast<float>(value.cell_mm));
  }
  [[nodiscard]] std::vector<std::uint8_t> bytes() && { return std::move(bytes_); }

private:
  std::vector<std::uint8_t> bytes_;
};

/// Past the end it gives zeros and says so.
class Reader {
public:
  explicit Reader(std::span<const std::uint8_t> bytes)
      : bytes_(bytes) {}
  std::uint8_t byte() {
    if (next_ < bytes_.size())
      return bytes_[next_++];
    ended_ = true;
    return 0;
  }
  std::uint32_t word() {
    std::uint32_t value = 0;
    for (int shift = 0; shift < 32; shift += 8)
      value |= static_cast<std::uint32_t>(byte()) << shift;
    return value;
  }
  /// Never more than there are bytes left.
  std::size_t whole() {
    const std::size_t value = word();
    if (value <= bytes_.size() - next_)
      return value;
    ended_ = true;
    return 0;
  }
  float number() {
    const std::uint32_t bits = word();
    float value = 0;
    std::memcpy(&value, &bits, sizeof value);
    return value;
  }
  std::string text() {
    std::string value(whole(), ' ');
    for (auto& each : value)
      each = static_cast<char>(byte());
    return value;
  }
  std::vector<float> numbers() {
    std::vector<float> values(whole());
    for (auto& each : values)
      each = number();
    return values;
  }
  void row(std::vector<float>& to) {
    const float scale = number();
    for (auto left = whole(); left > 0; --left) {
      const auto low = byte();
      const auto bits = static_cast<std::uint16_t>(low | (byte() << 8));
      to.push_back(scale * static_cast<float>(static_cast<std::int16_t>(bits)));
    }
  }
  Level level() {
    const double pixel = static_cast<double>(number());
    return {.pixel_mm = pixel, .cell_mm = static_cast<double>(number())};
  }
  [[nodiscard]] bool ended() const { return ended_; }
  [[nodiscard]] bool finished() const { return !ended_ && next_ == bytes_.size(); }

private:
  std::span<const std::uint8_t> bytes_;
  std::size_t next_ = 0;
  bool ended_ = false;
};

void put(Writer& out, const Linear& map) {
  out.whole(static_cast<std::size_t>(map.outputs));
  const auto inputs = static_cast<std::size_t>(map.inputs);
  for (std::size_t i = 0; i < map.offsets.size(); ++i)
    out.row(std::span(map.weights).subspan(i * inputs, inputs));
  out.numbers(map.offsets);
}

Linear get_linear(Reader& in) {
  Linear map;
  const auto outputs = in.whole();
  for (std::size_t i = 0; i < outputs && !in.ended(); ++i)
    in.row(map.weights);
  map.outputs = static_cast<int>(outputs);
  map.inputs = outputs == 0 ? 0 : static_cast<int>(map.weights.size() / outputs);
  map.offsets = in.numbers();
  return map;
}

void put(Writer& out, const Pattern& pattern) {
  out.level(pattern.level);
  out.number(static_cast<float>(pattern.spacing_mm));
  out.number(static_cast<float>(pattern.left_mm));
  out.number(static_cast<float>(pattern.top_mm));
  out.whole(static_cast<std::size_t>(pattern.columns));
  out.whole(static_cast<std::size_t>(pattern.rows));
  out.row(pattern.strengths);
}

Pattern get_pattern(Reader& in) {
  Pattern pattern;
  pattern.level = in.level();
  pattern.spacing_mm = static_cast<double>(in.number());
  pattern.left_mm = static_cast<double>(in.number());
  pattern.top_mm = static_cast<double>(in.number());
  pattern.columns = static_cast<int>(in.whole());
  pattern.rows = static_cast<int>(in.whole());
  in.row(pattern.strengths);
  return pattern;
}

void put(Writer& out, const Stage& stage) {
  out.level(stage.level);
  out.whole(stage.maps.size());
  for (const auto& map : stage.maps)
    put(out, map);
}

Stage get_stage(Reader& in) {
  Stage stage{.level = in.level()};
  const auto maps = in.whole();
  for (std::size_t i = 0; i < maps && !in.ended(); ++i)
    stage.maps.push_back(get_linear(in));
  return stage;
}

bool fits(const Model& model) {
  const auto count = model.landmarks.size();
  return !model.stages.empty() && model.shapes.mean.size() == 2 * count &&
         model.company.size() == count && model.trust.size() == count &&
         model.typical.size() == count * description_size;
}

} // namespace

std::vector<float> Linear::operator()(std::span<const float> in) const {
  std::vector<float> out = offsets;
  for (std::size_t i = 0; i < out.size(); ++i) {
    const float* row = weights.data() + i * in.size();
    float sum = 0;
    for (std::size_t k = 0; k < in.size(); ++k)
      sum += row[k] * in[k];
    out[i] += sum;
  }
  return out;
}

std::vector<std::uint8_t> written(const Model& model) {
  Writer out;
  out.word(first_word);
  out.whole(model.landmarks.size());
  for (const auto& id : model.landmarks)
    out.text(id);
  out.numbers(model.shapes.mean);
  out.whole(static_cast<std::size_t>(model.shapes.count));
  out.numbers(model.shapes.ways);
  put(out, model.pattern);
  out.whole(model.stages.size());
  for (const auto& stage : model.stages)
    put(out, stage);
  for (const auto& company : model.company) {
    out.whole(company.size());
    for (const int each : company)
      out.whole(static_cast<std::size_t>(each));
  }
  out.row(model.typical);
  for (const auto& trust : model.trust) {
    out.numbers(trust.weights);
    out.number(trust.floor);
  }
  out.number(model.least_likeness);
  return std::move(out).bytes();
}

std::optional<Model> read_model(std::span<const std::uint8_t> bytes) {
  Reader in(bytes);
  if (in.word() != first_word)
    return std::nullopt;
  Model model;
  model.landmarks.resize(in.whole());
  for (auto& id : model.landmarks)
    id = in.text();
  model.shapes.mean = in.numbers();
  model.shapes.count = static_cast<int>(in.whole());
  model.shapes.ways = in.numbers();
  model.pattern = get_pattern(in);
  const auto stages = in.whole();
  for (std::size_t i = 0; i < stages && !in.ended(); ++i)
    model.stages.push_back(get_stage(in));
  model.company.resize(model.landmarks.size());
  for (auto& company : model.company) {
    company.resize(in.whole());
    for (int& each : company)
      each = static_cast<int>(in.whole());
  }
  in.row(model.typical);
  model.trust.resize(model.landmarks.size());
  for (auto& trust : model.trust) {
    trust.weights = in.numbers();
    trust.floor = in.number();
  }
  model.least_likeness = in.number();
  if (!in.finished() || !fits(model))
    return std::nullopt;
  return model;
}

} // namespace pritchel::suggest
