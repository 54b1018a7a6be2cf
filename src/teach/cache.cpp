#include "teach/cache.h"

#include "phantom/exposure.h"

#include <cstring>
#include <fstream>
#include <iterator>
#include <optional>

namespace pritchel::teach {
namespace {

std::filesystem::path
path_of(const std::filesystem::path& folder, Kind kind, phantom::View view, std::uint64_t number) {
  const std::string name = std::string(kind == Kind::taught ? "taught" : "unseen") +
                           (view == phantom::View::lateromedial ? "-lm-" : "-dp-");
  return folder / (name + std::to_string(number));
}

template <class T> void put(std::ostream& out, const T& value) {
  out.write(reinterpret_cast<const char*>(&value), sizeof value); // NOLINT: own cache, own machine
}

template <class T> T get(std::istream& in) {
  T value{};
  in.read(reinterpret_cast<char*>(&value), sizeof value); // NOLINT: as above
  return value;
}

void put(std::ostream& out, const std::vector<Point>& points) {
  put(out, points.size());
  for (const auto& each : points) {
    char id[32] = {};
    std::strncpy(id, each.id.c_str(), sizeof id - 1);
    out.write(id, sizeof id);
    put(out, each.at);
  }
}

std::vector<Point> get_points(std::istream& in) {
  std::vector<Point> points(get<std::size_t>(in));
  for (auto& each : points) {
    char id[32] = {};
    in.read(id, sizeof id);
    each.id = id;
    each.at = get<phantom::Pixel>(in);
  }
  return points;
}

void write(const std::filesystem::path& path, const Drawn& drawn) {
  const auto unfinished = path.string() + ".part";
  std::ofstream out(unfinished, std::ios::binary);
  put(out, drawn.picture.columns);
  put(out, drawn.picture.rows);
  put(out, drawn.picture.inverse);
  put(out, drawn.facing);
  put(out, drawn.shoeing);
  put(out, drawn.mm_per_pixel);
  put(out, drawn.truth);
  put(out, drawn.as_if_shod);
  for (const auto each : drawn.picture.samples)
    put(out, each);
  out.close();
  std::filesystem::rename(unfinished, path);
}

std::optional<Drawn> read(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in)
    return std::nullopt;
  Drawn drawn;
  drawn.picture.columns = get<int>(in);
  drawn.picture.rows = get<int>(in);
  drawn.picture.bits_stored = phantom::stored_bits;
  drawn.picture.inverse = get<bool>(in);
  drawn.facing = get<phantom::Facing>(in);
  drawn.shoeing = get<phantom::Shoeing>(in);
  drawn.mm_per_pixel = get<double>(in);
  drawn.truth = get_points(in);
  drawn.as_if_shod = get_points(in);
  auto& samples = drawn.picture.samples;
  samples.resize(static_cast<std::size_t>(drawn.picture.columns) *
                 static_cast<std::size_t>(drawn.picture.rows));
  in.read(reinterpret_cast<char*>(samples.data()), // NOLINT: as above
          static_cast<std::streamsize>(samples.size() * sizeof samples[0]));
  return drawn;
}

} // namespace

Drawn kept_film(const std::filesystem::path& folder,
                Kind kind,
                phantom::View view,
                std::uint64_t number) {
  const auto path = path_of(folder, kind, view, number);
  if (auto kept = read(path))
    return std::move(*kept);
  auto drawn = drawn_film(kind, view, number);
  std::filesystem::create_directories(folder);
  write(path, drawn);
  return drawn;
}

} // namespace pritchel::teach
