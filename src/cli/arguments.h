/// What the command line says, as values. Knows CLI11 in its source only; runs nothing.
#pragma once

#include <filesystem>
#include <string>
#include <variant>

namespace pritchel::cli {

struct MeasureArguments {
  std::filesystem::path reading;
};

struct ReportArguments {
  std::filesystem::path store;
  std::string case_id; ///< empty: the store's only case
  std::string visit;   ///< empty: the newest
  std::string paper = "A4";
  std::filesystem::path out;
};

struct ServeArguments {
  std::filesystem::path store;
  std::string host = "127.0.0.1";
  int port = 7480;
  std::filesystem::path page; ///< empty: the page inside the program
};

struct DemoArguments {
  std::filesystem::path store;
};

struct ImportArguments {
  std::filesystem::path folder;
  std::filesystem::path store;
};

struct CasesArguments {
  std::filesystem::path store;
};

struct PictureArguments {
  std::filesystem::path file;
};

struct AnswersArguments {
  std::filesystem::path pdf;
};

struct AgreementArguments {
  std::filesystem::path store;
  std::string case_id; ///< empty: every case of the store
  bool as_json = false;
};

struct CardArguments {
  std::string paper = "a4"; ///< or "letter"
  std::filesystem::path out;
};

enum class Listing { measurements, landmarks };
struct ListArguments {
  Listing what = Listing::measurements;
  bool as_markdown = false;       ///< the table of docs/measurements.md
  std::filesystem::path drawings; ///< where to write one SVG a measurement; empty: nowhere
};

using Arguments = std::variant<MeasureArguments,
                               ReportArguments,
                               ServeArguments,
                               DemoArguments,
                               ImportArguments,
                               CasesArguments,
                               PictureArguments,
                               AnswersArguments,
                               CardArguments,
                               AgreementArguments,
                               ListArguments>;

struct CommandLine {
  Arguments arguments;
  std::filesystem::path templates; ///< empty: those that came with the program
};

/// The parsed line, or the exit code when there is nothing more to do: 0 after help, 2 after a line
/// that can't be understood (its sentence has then been printed).
[[nodiscard]] std::variant<CommandLine, int> parse(int count, const char* const* words);

} // namespace pritchel::cli
