#include "record/json.h"
#include "report/report.h"

#include <nlohmann/json.hpp>

namespace pritchel::report {

std::string record_json(const ReportInput& input) {
  nlohmann::json readings = nlohmann::json::array();
  for (const auto& sheet : input.pictures)
    readings.push_back(record::to_json(sheet.reading));
  const nlohmann::json document{
      {"format", "pritchel-record"},
      {"version", 1},
      {"made", input.made},
      {"case", record::to_json(input.case_)},
      {"visit", input.visit.id},
      {"readings", std::move(readings)},
      {"plan", input.plan ? record::to_json(*input.plan) : nlohmann::json()},
  };
  return document.dump(2) + "\n";
}

} // namespace pritchel::report
