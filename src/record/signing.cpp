#include "record/signing.h"

#include "base/text.h"

#include <fmt/format.h>

namespace pritchel::record {
namespace {

Result<void> check_line(const ProposalLine& line, std::size_t number) {
  if (line.decision == Decision::open)
    return fail(fmt::format("Line {} of the plan", number),
                "is not decided",
                "accept, amend or decline it before signing");
  if (line.decision == Decision::amend && line.note.empty())
    return fail(fmt::format("Line {} of the plan", number),
                "is amended without saying how",
                "write the amendment into its note");
  return {};
}

} // namespace

Result<void> ready_to_sign(const Plan& plan, const SignOff& sign_off) {
  if (plan.sign_off)
    return fail(fmt::format("Version {} of the plan", plan.version),
                "is signed and frozen",
                "make a new version",
                Trouble::conflict);
  for (std::size_t i = 0; i < plan.lines.size(); ++i)
    PRITCHEL_CHECK(check_line(plan.lines[i], i + 1));
  if (sign_off.name.empty() || sign_off.registration.empty())
    return fail("The sign-off", "lacks the name or the registration number", "fill in both");
  if (!is_date(sign_off.date))
    return fail("The sign-off's date", "is not a date", "write YYYY-MM-DD");
  return {};
}

} // namespace pritchel::record
