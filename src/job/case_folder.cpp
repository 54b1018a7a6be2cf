#include "job/case_folder.h"

#include "base/clock.h"
#include "base/file.h"
#include "base/limits.h"
#include "record/json.h"
#include "record/reading_file.h"

#include <nlohmann/json.hpp>

#include <algorithm>

#include "job/repeats_of.h"
#include "job/visit.h"

namespace pritchel::job {
namespace {

namespace fs = std::filesystem;

/// A reading of the folder with the picture it was made on.
struct FoundReading {
  record::PictureEntry entry;
  record::ReadingEntry reading;
  std::string bytes;
};

Result<FoundReading> found_reading(const fs::path& path) {
  PRITCHEL_TRY(file, record::load_reading_file(path));
  if (file.picture.empty())
    return fail(path.filename().string(), "names no picture", "only readings of pictures are kept");
  PRITCHEL_TRY(loaded, record::complete(file));
  PRITCHEL_TRY(bytes, read_file(file.picture, limits::picture_file_bytes));
  return FoundReading{std::move(loaded.entry), std::move(loaded.reading), std::move(bytes)};
}

std::vector<fs::path> reading_files(const fs::path& folder) {
  std::vector<fs::path> paths;
  std::error_code ignored;
  for (const auto& each : fs::directory_iterator(folder, ignored))
    if (each.path().string().ends_with(".reading.json"))
      paths.push_back(each.path());
  std::sort(paths.begin(), paths.end());
  return paths;
}

/// A picture belongs to the visit of the day it was taken.
Result<record::Visit*> visit_on(record::Case& value, const FoundReading& found) {
  for (auto& visit : value.visits)
    if (visit.date == found.entry.taken)
      return &visit;
  return fail(found.entry.file_name,
              "was taken on " + found.entry.taken + ", when case.json has no visit",
              "add a visit with that date");
}

Result<record::Case> case_file(const fs::path& folder) {
  const fs::path path = folder / "case.json";
  PRITCHEL_TRY(text, read_file(path, limits::json_file_bytes));
  PRITCHEL_TRY(document, record::parse_json(text, path.filename().string()));
  return record::case_from(document);
}

Result<void>
make_plans(record::Store& store, const record::Case& value, const practice::Practice& templates) {
  PictureShelf shelf;
  PRITCHEL_TRY(practice, own_practice(store, shelf, templates));
  const Desk desk{store, shelf, practice};
  for (const auto& visit : value.visits)
    if (!visit.pictures.empty())
      PRITCHEL_CHECK(make_plan(desk, value.id, visit.id, {"import", utc_now()}));
  return {};
}

} // namespace

Result<TakenIn>
take_in_case(const fs::path& folder, record::Store& store, const practice::Practice& templates) {
  PRITCHEL_TRY(value, case_file(folder));
  if (auto known = store.load_case(value.id))
    return TakenIn{.value = std::move(*known), .was_there = true};
  TakenIn taken;
  std::vector<record::ReadingEntry> readings;
  for (const auto& path : reading_files(folder)) {
    PRITCHEL_TRY(found, found_reading(path));
    PRITCHEL_TRY(visit, visit_on(value, found));
    PRITCHEL_TRY(digest, store.add_picture(found.bytes));
    found.entry.digest = digest;
    found.reading.picture = digest;
    visit->pictures.push_back(found.entry);
    readings.push_back(found.reading);
  }
  PRITCHEL_TRY(added, store.add_case(value, {"import", utc_now()}));
  for (auto& reading : readings) {
    reading.revision = 0;
    PRITCHEL_CHECK(store.save_reading(added.id, reading, {reading.reader, utc_now()}));
  }
  PRITCHEL_CHECK(make_plans(store, added, templates));
  taken.pictures = readings.size();
  taken.value = std::move(added);
  return taken;
}

} // namespace pritchel::job
