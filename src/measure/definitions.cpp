#include "base/assert.h"
#include "measure/tables.h"

#include <algorithm>
#include <vector>

namespace pritchel::measure {
namespace {

bool ids_are_unique(std::span<const Definition> table) {
  std::vector<std::string_view> ids;
  for (const auto& each : table)
    ids.push_back(each.id);
  std::sort(ids.begin(), ids.end());
  return std::adjacent_find(ids.begin(), ids.end()) == ids.end();
}

std::vector<Definition> joined() {
  std::vector<Definition> all;
  for (const auto part :
       {lateromedial_table(), dorsopalmar_table(), foot_photo_table(), limb_photo_table()})
    all.insert(all.end(), part.begin(), part.end());
  PRITCHEL_ASSERT(ids_are_unique(all));
  return all;
}

} // namespace

std::span<const Definition> definitions() {
  static const std::vector<Definition> all = joined();
  return all;
}

const Definition* definition(std::string_view id) {
  for (const auto& each : definitions())
    if (each.id == id)
      return &each;
  return nullptr;
}

std::string_view key(Unit unit) {
  switch (unit) {
  case Unit::degrees:
    return "deg";
  case Unit::millimetres:
    return "mm";
  case Unit::per_cent:
    return "%";
  case Unit::ratio:
    break;
  }
  return "1";
}

std::string_view symbol(Unit unit) {
  switch (unit) {
  case Unit::degrees:
    return "\u00b0";
  case Unit::millimetres:
    return "mm";
  case Unit::per_cent:
    return "%";
  case Unit::ratio:
    break;
  }
  return "";
}

int decimals(Unit unit) {
  switch (unit) {
  case Unit::ratio:
    return 2;
  case Unit::per_cent:
    return 0;
  default:
    return 1;
  }
}

} // namespace pritchel::measure
