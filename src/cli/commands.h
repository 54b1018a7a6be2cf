/// One function a command. Each prints its answer on standard output and returns nothing, or the
/// one sentence that says why not. No logic lives here: parse, call, print.
#pragma once

#include "base/result.h"
#include "cli/arguments.h"
#include "practice/practice.h"

#include <filesystem>

namespace pritchel::cli {

/// Where what came with the program lies.
struct Places {
  std::filesystem::path templates;
  std::filesystem::path samples;
};

/// `templates` as given by a person, else beside the program, else the source tree it was built
/// from.
[[nodiscard]] Places places(const std::filesystem::path& templates);

[[nodiscard]] Result<void> run(const MeasureArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const ReportArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const ServeArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const DemoArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const ImportArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const CasesArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const PictureArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const AnswersArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const AgreementArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const CardArguments& arguments, const Places& places);
[[nodiscard]] Result<void> run(const ListArguments& arguments, const Places& places);

} // namespace pritchel::cli
