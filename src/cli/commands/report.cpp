#include "base/clock.h"
#include "cli/commands.h"
#include "cli/commands/on_store.h"

#include "job/paper.h"
#include "job/repeats_of.h"

namespace pritchel::cli {

Result<void> run(const ReportArguments& arguments, const Places& places) {
  PRITCHEL_TRY(store, record::open_store(arguments.store, record::Opening::existing));
  PRITCHEL_TRY(id, case_or_only_one(*store, arguments.case_id));
  PRITCHEL_TRY(templates, practice::load_practice(places.templates));
  job::PictureShelf shelf;
  PRITCHEL_TRY(practice, job::own_practice(*store, shelf, std::move(templates)));
  const auto paper = arguments.paper == "A4" ? report::Paper::a4 : report::Paper::letter;
  PRITCHEL_TRY(pdf, job::paper({*store, shelf, practice}, id, arguments.visit, paper, utc_now()));
  return write_file(arguments.out, pdf);
}

} // namespace pritchel::cli
