#include "plan/variables.h"

#include "base/text.h"
#include "plan/change.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pritchel::plan {
namespace {

using record::FootChange;

constexpr std::array<Variable, 15> table{{
    {"trim_toe_mm", "{toe}", "{} mm off the toe", &FootChange::trim_toe_mm, 0.5, 12},
    {"trim_heel_mm", "{heel}", "{} mm off the heels", &FootChange::trim_heel_mm, 0.5, 6},
    {"dress_toe_mm", "{dressing}", "{} mm dressed off the toe", &FootChange::dress_toe_mm, 0.5, 4},
    {"trim_medial_mm",
     "{medial}",
     "{} mm off the medial side",
     &FootChange::trim_medial_mm,
     0.5,
     4},
    {"trim_lateral_mm",
     "{lateral}",
     "{} mm off the lateral side",
     &FootChange::trim_lateral_mm,
     0.5,
     4},
    {"shoe_thickness_mm",
     "{thickness}",
     "shoe {} mm thicker at the toe",
     &FootChange::shoe_thickness_mm,
     1,
     20},
    {"wedge_deg", "{wedge}", "{}\u00b0 of heel wedge", &FootChange::wedge_deg, 1, 8},
    {"breakover_back_mm",
     "{breakover}",
     "breakover {} mm back by the shoe",
     &FootChange::breakover_back_mm,
     1,
     25},
    {"branch_longer_mm", "{branch}", "branches {} mm longer", &FootChange::branch_longer_mm, 1, 20},
    {"extend_medial_mm",
     "{extend-medial}",
     "medial branch {} mm wider",
     &FootChange::extend_medial_mm,
     1,
     10},
    {"extend_lateral_mm",
     "{extend-lateral}",
     "lateral branch {} mm wider",
     &FootChange::extend_lateral_mm,
     1,
     10},
    {"dress_medial_mm",
     "{dress-medial}",
     "{} mm dressed off the medial wall",
     &FootChange::dress_medial_mm,
     0.5,
     4},
    {"dress_lateral_mm",
     "{dress-lateral}",
     "{} mm dressed off the lateral wall",
     &FootChange::dress_lateral_mm,
     0.5,
     4},
    {"pad_mm", "{pad}", "pad of {} mm", &FootChange::pad_mm, 1, 8},
    {"ml_wedge_deg",
     "{side-wedge}",
     "{}\u00b0 of wedge under the lateral side",
     &FootChange::ml_wedge_deg,
     0.5,
     2},
}};

void add(std::string& text, const std::string& part) {
  text += (text.empty() ? "" : ", ") + part;
}

/// A cut has two ends: the one left alone is said too.
std::string left_alone(const Variable& variable, const FootChange& change) {
  if (variable.field == &FootChange::trim_heel_mm && change.trim_toe_mm != 0)
    return "nothing off the heels";
  if (variable.field == &FootChange::trim_toe_mm && change.trim_heel_mm != 0)
    return "nothing off the toe";
  return {};
}

} // namespace

std::span<const Variable> variables() {
  return table;
}

const Variable* variable(std::string_view name) {
  const auto* const at =
      std::find_if(table.begin(), table.end(), [&](const auto& each) { return each.name == name; });
  return at == table.end() ? nullptr : at;
}

std::string amount_for_people(double amount) {
  return for_people(amount, std::abs(amount - std::round(amount)) < 0.05 ? 0 : 1);
}

std::string amounts_for_people(const record::FootChange& change) {
  std::string text;
  for (const auto& each : table) {
    if (const double amount = change.*each.field; amount != 0)
      add(text, fmt::format(fmt::runtime(each.amount), amount_for_people(amount)));
    else if (const auto words = left_alone(each, change); !words.empty())
      add(text, words);
  }
  return text.empty() ? "none" : text;
}

} // namespace pritchel::plan
