#include "cli/commands.h"
#include "cli/commands/on_store.h"
#include "report/card_page.h"

#include <fmt/core.h>

#include <vector>

namespace pritchel::cli {

Result<void> run(const CardArguments& arguments, const Places& /*places*/) {
  const auto paper = imaging::card_paper(arguments.paper);
  if (!paper)
    return fail("A card on " + arguments.paper, "isn't made", "say a4 or letter");
  PRITCHEL_TRY(pdf, report::make_card(*paper));
  PRITCHEL_CHECK(write_file(arguments.out, std::vector<char>(pdf.begin(), pdf.end())));
  fmt::print("{}: print it at its actual size (100 %) and lay a ruler on its bar.\n",
             arguments.out.string());
  return {};
}

} // namespace pritchel::cli
