#include "cli/commands.h"
#include "measure/detectable.h"
#include "record/store.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "job/agreement_json.h"

namespace pritchel::cli {
namespace {

std::string with_unit(double value, const measure::Definition& definition) {
  return fmt::format("{:.{}f}{}{}",
                     value,
                     measure::decimals(definition.unit),
                     definition.unit == measure::Unit::millimetres ? " " : "",
                     measure::symbol(definition.unit));
}

void print_readers(const job::ReaderAgreement& readers) {
  fmt::print("\n{} less {}, blind readings of the same picture\n", readers.first, readers.second);
  fmt::print("  {:28} {:>5} {:>10} {:>24} {:>22}\n",
             "measurement",
             "pairs",
             "mean",
             "95 % of differences",
             "ICC(2,1)");
  for (const auto& each : readers.numbers) {
    const auto& definition = *each.definition;
    if (!each.limits) {
      fmt::print("  {:28} {:5}  too few to tell\n", definition.id, each.pairs);
      continue;
    }
    const auto range = with_unit(each.limits->lower, definition) + " to " +
                       with_unit(each.limits->upper, definition);
    const auto icc = each.icc ? fmt::format("{:.2f} ({:.2f} to {:.2f})",
                                            each.icc->two_1.value,
                                            each.icc->two_1.interval.low,
                                            each.icc->two_1.interval.high)
                              : std::string("-");
    fmt::print("  {:28} {:5} {:>10} {:>24} {:>22}\n",
               definition.id,
               each.pairs,
               with_unit(each.limits->bias, definition),
               range,
               icc);
  }
}

void print_repeats(const std::vector<job::NumberRepeat>& repeats) {
  if (repeats.empty())
    return;
  fmt::print("\nThe same reader again\n  {:28} {:>7} {:>10} {:>28}\n",
             "measurement",
             "repeats",
             "one SD",
             "smallest detectable change");
  for (const auto& each : repeats)
    fmt::print("  {:28} {:7} {:>10} {:>28}\n",
               each.definition->id,
               each.pool.repeats(),
               with_unit(each.pool.sd(), *each.definition),
               with_unit(measure::smallest_detectable_change(each.pool.sd()), *each.definition));
}

void print_landmarks(const std::vector<job::LandmarkRepeat>& landmarks) {
  if (landmarks.empty())
    return;
  fmt::print("\nPoints placed again by the same reader, one SD across x along\n"
             "  {:20} {:28} {:>7} {:>8} {:>16}  spread in use\n",
             "protocol",
             "point",
             "repeats",
             "pictures",
             "mm");
  for (const auto& each : landmarks)
    fmt::print("  {:20} {:28} {:7} {:8} {:>16}  {}\n",
               each.protocol,
               each.landmark,
               each.turns.across.repeats(),
               each.turns.across.things(),
               fmt::format("{:.2f} x {:.2f}", each.turns.across.sd(), each.turns.along.sd()),
               each.own ? "this practice's" : "default: too few to tell");
}

void print_table(const job::PracticeAgreement& all) {
  fmt::print("{} pictures were read independently more than once.\n", all.pictures);
  fmt::print("Limits and ICC need {} pairs; a point's own spread {} repeats on {} pictures.\n",
             job::fewest_pairs,
             agreement::fewest_repeats,
             agreement::fewest_pictures);
  for (const auto& each : all.readers)
    print_readers(each);
  print_repeats(all.repeats);
  print_landmarks(all.landmarks);
}

} // namespace

Result<void> run(const AgreementArguments& arguments, const Places& places) {
  PRITCHEL_TRY(store, record::open_store(arguments.store, record::Opening::existing));
  PRITCHEL_TRY(practice, practice::load_practice(places.templates));
  job::PictureShelf shelf;
  job::RepeatBook book;
  PRITCHEL_TRY(pictures, book.pictures(*store, shelf, practice, arguments.case_id));
  const auto all = job::agreement_of(pictures, practice);
  if (arguments.as_json)
    fmt::print("{}\n", job::agreement_json(all, practice).dump(2));
  else
    print_table(all);
  return {};
}

} // namespace pritchel::cli
