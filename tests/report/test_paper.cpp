#include "base/digest.h"
#include "report/read_back.h"
#include "report/report.h"

#include <catch2/catch.hpp>

#include <fstream>
#include <iterator>
#include <regex>

#include "paper_text.h"
#include "sample_visit.h"

using namespace pritchel;
using namespace paper_text;
using sample::Scale;

namespace {

report::ReportInput planned(int lines, int letters) {
  auto input = sample::visit(Scale::marker);
  input.plan = sample::plan_of_lines(lines, letters);
  return input;
}

/// Numbers of the pages that hold a part.
std::vector<std::size_t> pages_with(const std::vector<char>& pdf, const std::string& part) {
  std::vector<std::size_t> found;
  const auto pages = pdf_tools::pages(pdf);
  for (std::size_t i = 0; i < pages.size(); ++i)
    if (holds(pages[i], part))
      found.push_back(i + 1);
  return found;
}

} // namespace

TEST_CASE("another program finds nothing wrong with the paper", "[report]") {
  for (const auto& input : {planned(4, 200), sample::visit(Scale::none)}) {
    const pdf_tools::File file(paper_of(input));
    const auto checked = pdf_tools::run("qpdf --check " + file.path());
    INFO(checked.text);
    CHECK(checked.exit_code == 0);
    CHECK_FALSE(holds(checked.text, "WARNING"));
  }
}

TEST_CASE("every typeface is embedded", "[report]") {
  const pdf_tools::File file(paper_of(planned(4, 200)));
  const auto fonts = pdf_tools::run("pdffonts " + file.path()).text;
  CHECK(holds(fonts, "Inter"));
  const std::regex not_embedded(" no  +(yes|no) +(yes|no) +[0-9]+ +0");
  CHECK_FALSE(std::regex_search(fonts, not_embedded));
}

TEST_CASE("every page says whose foot, which visit and version, page x of y and the cautions",
          "[report]") {
  for (const auto paper : {report::Paper::a4, report::Paper::letter}) {
    auto input = planned(9, 400);
    input.paper = paper;
    const auto pdf = paper_of(input);
    const auto digest = sha256_hex(report::record_json(input)).substr(0, 12);
    const auto pages = pdf_tools::pages(pdf);
    REQUIRE(pages.size() > 3);
    for (std::size_t i = 0; i < pages.size(); ++i) {
      INFO(pages[i]);
      CHECK(holds(pages[i], "Tarn"));
      CHECK(holds(pages[i], "Left fore"));
      CHECK(holds(pages[i], "plan version 2"));
      CHECK(
          holds(pages[i], "page " + std::to_string(i + 1) + " of " + std::to_string(pages.size())));
      CHECK(holds(pages[i], "not a diagnosis"));
      CHECK(holds(pages[i], digest));
    }
  }
}

TEST_CASE("page 1 names the horse, the findings, the proposals and where to sign", "[report]") {
  const auto pdf = paper_of(planned(3, 100));
  const auto first = pdf_tools::pages(pdf).front();
  CHECK(holds(first, "Sole depth at the tip"));
  CHECK(holds(first, "Proposal 3"));
  const auto sign_pages = pages_with(pdf, "Registration number");
  REQUIRE(sign_pages.size() == 1);
  CHECK(holds(first, "Sign on page " + std::to_string(sign_pages.front())));
}

TEST_CASE("the sign-off never stands alone on a page", "[report]") {
  for (const int letters : {50, 150, 250, 350, 450, 550, 650, 750}) {
    const auto pdf = paper_of(planned(3, letters));
    const auto sign_pages = pages_with(pdf, "Registration number");
    REQUIRE(sign_pages.size() == 1);
    CHECK(pages_with(pdf, "Proposal 3: take").back() == sign_pages.front());
  }
}

TEST_CASE("stops make a paper that says it is no plan", "[report]") {
  auto input = planned(0, 0);
  input.plan->stops = {"Lame and not yet seen by a vet."};
  const auto first = pdf_tools::pages(paper_of(input)).front();
  CHECK(holds(first, "Not a plan"));
  CHECK(holds(first, "Lame and not yet seen by a vet."));
}

// Truth: case 4 of the worked cases: atan2(48, 40) = 50.194 degrees, printed with one decimal.
TEST_CASE("a number stands on the paper with its uncertainty", "[report]") {
  const auto text = all_text(paper_of(planned(1, 50)));
  const std::regex row("Dorsal hoof wall angle +50\\.2 +\xC2\xB1.*[0-9]\\.[0-9] +\xC2\xB0");
  CHECK(std::regex_search(text, row));
}

TEST_CASE("no millimetre is printed for pictures without a scale", "[report]") {
  auto text = all_text(paper_of(sample::visit(Scale::none)));
  const std::string of_the_hand = "A hand keeps to about 1 mm"; // not of any picture
  if (const auto at = text.find(of_the_hand); at != std::string::npos)
    text.erase(at, of_the_hand.size());
  CHECK_FALSE(std::regex_search(text, std::regex("[0-9][^a-z0-9.]{0,6}mm|\\bmm\\b")));
  CHECK(holds(text, "the picture has no scale"));
  CHECK(holds(text, "Palmar angle"));
}

TEST_CASE("what is not measurable is a dash with its reason", "[report]") {
  auto input = sample::visit(Scale::marker);
  for (auto& each : input.pictures[0].measurements)
    if (each.definition->id == "palmar-angle") {
      each.status = measure::Status::not_measurable;
      each.reason = "landmarks are missing";
      each.missing = {"p3-tip"};
    }
  CHECK(std::regex_search(all_text(paper_of(input)),
                          std::regex("\xE2\x80\x93 Palmar angle: not placed: ")));
}

TEST_CASE("contradictions and an unchecked view are said beside the picture", "[report]") {
  auto input = sample::visit(Scale::marker);
  input.pictures[0].entry.hints.left_limb = false;
  const auto text = all_text(paper_of(input));
  CHECK(holds(text, "Contradiction: The picture's header says right limb"));
  CHECK(holds(text, "View not checked"));
}

TEST_CASE("the record is attached as it is, and its digest is printed", "[report]") {
  const auto input = planned(2, 100);
  const auto pdf = paper_of(input);
  const pdf_tools::File file(pdf);
  const auto shown =
      pdf_tools::run("qpdf --show-attachment=pritchel-record.json " + file.path()).text;
  CHECK(shown == report::record_json(input));
  CHECK(holds(all_text(pdf), sha256_hex(shown)));
}

TEST_CASE("the same input gives the same bytes", "[report]") {
  const auto input = planned(3, 200);
  CHECK(paper_of(input) == paper_of(input));
}

TEST_CASE("what another program fills in is read back", "[report]") {
  const auto pdf = paper_of(planned(3, 100));
  const auto answered = pdf_tools::filled(pdf,
                                          {{"line-1-decision", "accept"},
                                           {"line-2-decision", "amend"},
                                           {"line-2-note", "3 mm, nächste Woche"},
                                           {"sign-off-name", "Dr Mara Lind"},
                                           {"sign-off-registration", "V-4711"},
                                           {"sign-off-date", "2026-05-05"},
                                           {"sign-off-note", "Film again in five weeks"}});
  const auto found = report::read_back(answered);
  INFO((found ? std::string() : found.error().sentence()));
  REQUIRE(found);
  CHECK(found->case_id == "tarn");
  CHECK(found->visit == "visit-2");
  CHECK(found->plan_version == 2);
  REQUIRE(found->lines.size() == 3);
  CHECK(found->lines[0].decision == record::Decision::accept);
  CHECK(found->lines[1].decision == record::Decision::amend);
  CHECK(found->lines[1].note == "3 mm, nächste Woche");
  CHECK(found->lines[2].decision == record::Decision::open);
  CHECK(found->sign_off.name == "Dr Mara Lind");
  CHECK(found->sign_off.registration == "V-4711");
  CHECK(found->sign_off.date == "2026-05-05");
  CHECK(found->sign_off.note == "Film again in five weeks");
  CHECK_FALSE(found->signature_present);
}

TEST_CASE("decisions already made are pressed and read back", "[report]") {
  auto input = planned(2, 100);
  input.plan->lines[0].decision = record::Decision::decline;
  input.plan->lines[0].note = "Zuerst röntgen.";
  const auto found = report::read_back(paper_of(input));
  REQUIRE(found);
  CHECK(found->lines[0].decision == record::Decision::decline);
  CHECK(found->lines[0].note == "Zuerst röntgen.");
}

TEST_CASE("a signed version is printed as frozen", "[report]") {
  auto input = planned(2, 100);
  input.plan->sign_off =
      record::SignOff{"Dr Mara Lind", "V-4711", "2026-05-05", "As discussed on the phone."};
  const auto pdf = paper_of(input);
  const auto text = all_text(pdf);
  CHECK(holds(text, "this version is frozen"));
  CHECK(holds(text, "As discussed on the phone."));
  const auto found = report::read_back(pdf);
  REQUIRE(found);
  CHECK(found->sign_off.registration == "V-4711");
}

TEST_CASE("what is not a paper of this program is refused in one sentence", "[report]") {
  const std::string text = "%PDF-1.7 no";
  CHECK_FALSE(report::read_back(std::vector<char>(text.begin(), text.end())));
  CHECK_FALSE(report::read_back({}));
  auto cut = paper_of(planned(1, 10));
  cut.resize(cut.size() / 3);
  CHECK_FALSE(report::read_back(cut));
}

TEST_CASE("a picture of another size than its entry says is refused", "[report]") {
  auto input = sample::visit(Scale::marker);
  input.pictures[0].entry.columns += 1;
  CHECK_FALSE(report::make_report(input));
}

TEST_CASE("long texts and names stay inside the margins and are printed whole", "[report]") {
  for (const auto paper : {report::Paper::a4, report::Paper::letter}) {
    auto input = planned(14, 900);
    input.paper = paper;
    input.case_.horse.name = "Wolkenkuckucksheim von der Großen Überfahrt auf Schloß Röhrenfurth";
    input.case_.history.course = sample::long_text(2000) + " Schlusswort.";
    input.case_.vet.name = std::string(120, 'x');
    input.plan->lines[0].note = sample::long_text(400);
    input.pictures[0].entry.file_name = std::string(150, 'f') + ".dcm";
    const auto pdf = paper_of(input);
    check_margins(pdf_tools::words(pdf));
    const auto text = all_text(pdf);
    CHECK(holds(text, "Schlusswort."));
    CHECK(holds(text, "Proposal 14: take"));
  }
}

TEST_CASE("words never lie over one another", "[report]") {
  auto input = planned(6, 500);
  input.case_.horse.name = "Wolkenkuckucksheim von der Großen Überfahrt auf Schloß Röhrenfurth";
  input.pictures[0].earlier =
      report::EarlierVisit{"2026-03-23", {{"palmar-angle", 2.9, 0.7}, {"hoof-angle", 51.2, 0.6}}};
  input.plan->changes = {
      {.limb = measure::Limb::left_fore, .trim_toe_mm = 4, .shoe_thickness_mm = 8}};
  const auto words = pdf_tools::words(paper_of(input));
  REQUIRE(words.size() > 500);
  check_no_word_over_another(words);
}
