#include "cli/commands.h"
#include "practice/practice.h"
#include "record/store.h"

#include <fmt/core.h>

#include "job/case_folder.h"

namespace pritchel::cli {
namespace {

Result<void> take_in_and_tell(const std::filesystem::path& folder,
                              const std::filesystem::path& store_folder,
                              const Places& places) {
  PRITCHEL_TRY(store, record::open_store(store_folder, record::Opening::create));
  PRITCHEL_TRY(templates, practice::load_practice(places.templates));
  PRITCHEL_TRY(taken, job::take_in_case(folder, *store, templates));
  if (taken.was_there)
    fmt::print("{} is in {} already and was left as it is.\n",
               taken.value.horse.name,
               store_folder.string());
  else
    fmt::print("{}: {} visits, {} pictures with their readings, in {}.\n",
               taken.value.horse.name,
               taken.value.visits.size(),
               taken.pictures,
               store_folder.string());
  return {};
}

} // namespace

Result<void> run(const DemoArguments& arguments, const Places& places) {
  return take_in_and_tell(places.samples, arguments.store, places);
}

Result<void> run(const ImportArguments& arguments, const Places& places) {
  return take_in_and_tell(arguments.folder, arguments.store, places);
}

Result<void> run(const CasesArguments& arguments, const Places&) {
  PRITCHEL_TRY(store, record::open_store(arguments.store, record::Opening::existing));
  PRITCHEL_TRY(cases, store->list_cases());
  for (const auto& each : cases)
    fmt::print("{:20} {:20} {:24} {}\n", each.id, each.horse, each.yard, each.newest_visit);
  return {};
}

} // namespace pritchel::cli
