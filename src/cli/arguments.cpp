#include "cli/arguments.h"

#include <CLI/CLI.hpp>

#include <map>
#include <string>

namespace pritchel::cli {
namespace {

constexpr const char* about =
    "Pritchel: from radiographs of a horse's foot to a shoeing plan that farrier and vet sign.\n"
    "An aid to judgement, not a diagnosis.";

constexpr const char* exit_codes = "Exit codes: 0 done; 1 the machine failed (disk, port); 2 the "
                                   "file or the words given are wrong.\n"
                                   "Each command has its own help: pritchel measure --help";

void add_store(CLI::App& command, std::filesystem::path& store) {
  command.add_option("--store", store, "Folder of cases (made by demo, import or serve)")
      ->required();
}

void add_measure(CLI::App& app, CommandLine& line, MeasureArguments& arguments) {
  auto* command = app.add_subcommand(
      "measure",
      "Measures one reading file; JSON on standard output: for each measurement its value, unit,\n"
      "standard uncertainty and status. Needs no store.");
  command->add_option("READING", arguments.reading, "Reading file (docs/formats/reading.md)")
      ->required();
  command->footer(
      "Examples:\n"
      "  pritchel measure sample-images/2026-03-02-left-fore-lateromedial.reading.json\n"
      "  pritchel measure docs/formats/examples/reading.json\n"
      "  pritchel measure reading.json > numbers.json");
  command->callback([&] { line.arguments = arguments; });
}

void add_report(CLI::App& app, CommandLine& line, ReportArguments& arguments) {
  auto* command = app.add_subcommand(
      "report", "Writes the paper of a visit: pictures, numbers, plan and sign-off, as PDF.");
  command->add_option("CASE",
                      arguments.case_id,
                      "Case, as `pritchel cases` lists it; may be left "
                      "out when the store holds only one");
  add_store(*command, arguments.store);
  command->add_option("--visit", arguments.visit, "Visit; the newest when left out");
  command->add_option("--paper", arguments.paper, "A4 or Letter")
      ->check(CLI::IsMember({"A4", "Letter"}))
      ->capture_default_str();
  command->add_option("--out", arguments.out, "PDF file to write")->required();
  command->footer("Examples:\n"
                  "  pritchel report --store sample --out paper.pdf\n"
                  "  pritchel report larkspur --store sample --visit 1 --out first.pdf\n"
                  "  pritchel report --store sample --paper Letter --out letter.pdf");
  command->callback([&] { line.arguments = arguments; });
}

void add_serve(CLI::App& app, CommandLine& line, ServeArguments& arguments) {
  auto* command = app.add_subcommand(
      "serve", "Serves the page to this computer's browser; prints the address.");
  add_store(*command, arguments.store);
  command->add_option("--host", arguments.host, "Address to listen on; 0.0.0.0 lets a tablet in")
      ->capture_default_str();
  command->add_option("--port", arguments.port, "Port; 0 takes a free one")
      ->check(CLI::Range(0, 65535))
      ->capture_default_str();
  command->add_option("--page", arguments.page, "Reads the page's files from this folder instead");
  command->footer("Examples:\n"
                  "  pritchel serve --store sample\n"
                  "  pritchel serve --store sample --port 8000\n"
                  "  pritchel serve --store sample --host 0.0.0.0");
  command->callback([&] { line.arguments = arguments; });
}

void add_demo(CLI::App& app, CommandLine& line, DemoArguments& arguments) {
  auto* command =
      app.add_subcommand("demo", "Makes a folder of cases with the invented sample horse in it.");
  command->add_option("DIR", arguments.store, "Folder to make; kept when it is there already")
      ->required();
  command->footer("Examples:\n"
                  "  pritchel demo sample\n"
                  "  pritchel demo /tmp/try && pritchel serve --store /tmp/try\n"
                  "  pritchel demo sample && pritchel report --store sample --out paper.pdf");
  command->callback([&] { line.arguments = arguments; });
}

void add_import(CLI::App& app, CommandLine& line, ImportArguments& arguments) {
  auto* command = app.add_subcommand(
      "import",
      "Takes a case from an ordinary folder (case.json, readings, pictures) into a store.");
  command->add_option("FOLDER", arguments.folder, "Folder with a case.json (docs/formats/case.md)")
      ->required();
  add_store(*command, arguments.store);
  command->footer("Example:\n  pritchel import sample-images --store cases");
  command->callback([&] { line.arguments = arguments; });
}

void add_cases(CLI::App& app, CommandLine& line, CasesArguments& arguments) {
  auto* command = app.add_subcommand("cases", "Lists the cases of a store.");
  add_store(*command, arguments.store);
  command->footer("Example:\n  pritchel cases --store sample");
  command->callback([&] { line.arguments = arguments; });
}

void add_picture(CLI::App& app, CommandLine& line, PictureArguments& arguments) {
  auto* command = app.add_subcommand(
      "picture",
      "Says what a picture file holds: kind, size, what its header says of side, view and "
      "scale, as JSON.");
  command->add_option("FILE", arguments.file, "DICOM, JPEG, PNG or TIFF")->required();
  command->footer(
      "Example:\n  pritchel picture sample-images/2026-03-02-left-fore-lateromedial.dcm");
  command->callback([&] { line.arguments = arguments; });
}

void add_answers(CLI::App& app, CommandLine& line, AnswersArguments& arguments) {
  auto* command = app.add_subcommand(
      "answers", "Reads what somebody filled into a paper: decisions, notes, sign-off, as JSON.");
  command->add_option("PDF", arguments.pdf, "A paper written by `pritchel report`")->required();
  command->footer("Example:\n  pritchel answers paper-signed.pdf");
  command->callback([&] { line.arguments = arguments; });
}

void add_agreement(CLI::App& app, CommandLine& line, AgreementArguments& arguments) {
  auto* command = app.add_subcommand(
      "agreement",
      "Says how far independent readings agree: two readers', and the same reader's again.");
  command->add_option("CASE", arguments.case_id, "Case; every case of the store when left out");
  add_store(*command, arguments.store);
  command->add_flag("--json", arguments.as_json, "As JSON (docs/formats/http.md)");
  command->footer("Examples:\n"
                  "  pritchel agreement --store sample\n"
                  "  pritchel agreement larkspur --store sample --json");
  command->callback([&] { line.arguments = arguments; });
}

void add_card(CLI::App& app, CommandLine& line, CardArguments& arguments) {
  auto* command = app.add_subcommand(
      "card", "Writes the card to print and stand beside a limb, for photos with millimetres.");
  command->add_option("--paper", arguments.paper, "a4 or letter")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->capture_default_str();
  command->add_option("--out", arguments.out, "PDF file to write")->required();
  command->footer("Examples:\n"
                  "  pritchel card --out card.pdf\n"
                  "  pritchel card --paper letter --out card.pdf");
  command->callback([&] { line.arguments = arguments; });
}

void add_list(CLI::App& app, CommandLine& line, ListArguments& arguments) {
  auto* command =
      app.add_subcommand("list", "Lists what can be measured, or which points are placed.");
  static const std::map<std::string, Listing> known = {{"measurements", Listing::measurements},
                                                       {"landmarks", Listing::landmarks}};
  command->add_option("WHAT", arguments.what, "measurements or landmarks")
      ->required()
      ->transform(CLI::CheckedTransformer(known));
  command->add_flag("--markdown", arguments.as_markdown, "As the table of docs/measurements.md");
  command->add_option(
      "--drawings", arguments.drawings, "Folder for the table's drawings, one SVG a measurement");
  command->footer("Examples:\n  pritchel list measurements\n  pritchel list landmarks");
  command->callback([&] { line.arguments = arguments; });
}

} // namespace

std::variant<CommandLine, int> parse(int count, const char* const* words) {
  CLI::App app{about, "pritchel"};
  app.require_subcommand(1);
  app.set_version_flag("--version", "pritchel " PRITCHEL_VERSION);
  app.footer(exit_codes);
  CommandLine line;
  app.add_option("--templates", line.templates, "Folder with protocols, references and rules");
  MeasureArguments measure;
  ReportArguments report;
  ServeArguments serve;
  DemoArguments demo;
  ImportArguments import;
  CasesArguments cases;
  PictureArguments picture;
  AnswersArguments answers;
  AgreementArguments agreement;
  CardArguments card;
  ListArguments list;
  add_measure(app, line, measure);
  add_report(app, line, report);
  add_serve(app, line, serve);
  add_demo(app, line, demo);
  add_import(app, line, import);
  add_cases(app, line, cases);
  add_picture(app, line, picture);
  add_answers(app, line, answers);
  add_agreement(app, line, agreement);
  add_card(app, line, card);
  add_list(app, line, list);
  try {
    app.parse(count, words);
  } catch (const CLI::Success& done) {
    return app.exit(done);
  } catch (const CLI::ParseError& error) {
    app.exit(error);
    return 2;
  }
  return line;
}

} // namespace pritchel::cli
