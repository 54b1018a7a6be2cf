#include "base/file.h"
#include "base/limits.h"
#include "cli/commands.h"
#include "record/words.h"
#include "report/read_back.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

namespace pritchel::cli {
namespace {

using nlohmann::json;

json answers_json(const report::ReadBack& answers) {
  json lines = json::array();
  for (const auto& each : answers.lines)
    lines.push_back(
        {{"number", each.number}, {"decision", record::key(each.decision)}, {"note", each.note}});
  return {{"format", "pritchel-answers"},
          {"version", 1},
          {"case", answers.case_id},
          {"visit", answers.visit},
          {"plan_version", answers.plan_version},
          {"record_sha256", answers.record_sha256},
          {"lines", lines},
          {"signature_present", answers.signature_present},
          {"sign_off",
           {{"name", answers.sign_off.name},
            {"registration", answers.sign_off.registration},
            {"date", answers.sign_off.date},
            {"note", answers.sign_off.note}}}};
}

} // namespace

Result<void> run(const AnswersArguments& arguments, const Places&) {
  PRITCHEL_TRY(pdf, read_file(arguments.pdf, limits::picture_file_bytes));
  PRITCHEL_TRY(answers, report::read_back(pdf));
  fmt::print("{}\n", answers_json(answers).dump(2));
  return {};
}

} // namespace pritchel::cli
