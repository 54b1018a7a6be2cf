#include "record/edit.h"

#include <algorithm>

namespace pritchel::record {
namespace {

Visit* find_visit(Case& value, const std::string& id) {
  const auto at = std::find_if(
      value.visits.begin(), value.visits.end(), [&](const auto& each) { return each.id == id; });
  return at == value.visits.end() ? nullptr : &*at;
}

const PictureEntry* find_picture(const Visit& visit, const std::string& digest) {
  const auto at = std::find_if(visit.pictures.begin(), visit.pictures.end(), [&](const auto& each) {
    return each.digest == digest;
  });
  return at == visit.pictures.end() ? nullptr : &*at;
}

tl::unexpected<Error> no_visit(const std::string& id) {
  return fail("The visit " + id, "is not in this case", "look at the case", Trouble::not_found);
}

tl::unexpected<Error> no_picture() {
  return fail("The picture", "is not in this case", "add it to a visit first", Trouble::not_found);
}

std::string free_visit_id(Case& value) {
  for (int number = 1;; ++number) {
    auto id = "visit-" + std::to_string(number);
    if (find_visit(value, id) == nullptr)
      return id;
  }
}

void put_in_order(Case& value) {
  std::stable_sort(value.visits.begin(), value.visits.end(), [](const auto& a, const auto& b) {
    return a.date < b.date;
  });
}

} // namespace

Result<Visit> visit_in(const Case& value, const std::string& visit) {
  for (const auto& each : value.visits)
    if (each.id == visit)
      return each;
  return no_visit(visit);
}

Result<PictureEntry> picture_in(const Case& value, const std::string& digest) {
  for (const auto& visit : value.visits)
    if (const auto* entry = find_picture(visit, digest))
      return *entry;
  return no_picture();
}

Result<PictureEntry>
picture_in(const Case& value, const std::string& visit, const std::string& digest) {
  PRITCHEL_TRY(known, visit_in(value, visit));
  if (const auto* entry = find_picture(known, digest))
    return *entry;
  return no_picture();
}

Case with_new_visit(Case value, Visit visit) {
  visit.id = free_visit_id(value);
  visit.pictures.clear();
  value.visits.push_back(std::move(visit));
  put_in_order(value);
  return value;
}

Result<Case> with_visit(Case value, const Visit& visit) {
  auto* known = find_visit(value, visit.id);
  if (known == nullptr)
    return no_visit(visit.id);
  *known = visit;
  put_in_order(value);
  return value;
}

Result<Case> with_new_picture(Case value, const std::string& visit, const PictureEntry& entry) {
  auto* known = find_visit(value, visit);
  if (known == nullptr)
    return no_visit(visit);
  if (find_picture(*known, entry.digest) != nullptr)
    return value;
  for (const auto& each : value.visits)
    if (find_picture(each, entry.digest) != nullptr)
      return fail("The picture " + entry.file_name,
                  "is in the visit of " + each.date + " already",
                  "take it out there first",
                  Trouble::conflict);
  known->pictures.push_back(entry);
  return value;
}

Result<Case> with_picture(Case value, const std::string& visit, const PictureEntry& entry) {
  auto* known = find_visit(value, visit);
  if (known == nullptr)
    return no_visit(visit);
  for (auto& each : known->pictures)
    if (each.digest == entry.digest) {
      each = entry;
      return value;
    }
  return no_picture();
}

Result<Case> without_picture(Case value, const std::string& visit, const std::string& digest) {
  auto* known = find_visit(value, visit);
  if (known == nullptr)
    return no_visit(visit);
  if (std::erase_if(known->pictures, [&](const auto& each) { return each.digest == digest; }) == 0)
    return no_picture();
  return value;
}

} // namespace pritchel::record
