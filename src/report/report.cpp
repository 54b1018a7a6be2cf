#include "report/report.h"

#include "base/digest.h"
#include "report/layout.h"
#include "report/life_size.h"
#include "report/words.h"

namespace pritchel::report {
namespace {

constexpr PaperSize a4{210, 297};
constexpr PaperSize letter{215.9, 279.4};
/// Longer side of the largest place a picture gets, mm.
constexpr double picture_side_mm = 140;

std::string subject(const ReportInput& input) {
  // The name goes last: it is the only part that may be too long for the line.
  std::string line = "visit of " + date_for_people(input.visit.date);
  if (const auto all = feet(input); !all.empty())
    line = listed(all) + "  \u00b7  " + line;
  if (input.plan)
    line += "  \u00b7  plan version " + std::to_string(input.plan->version);
  return capital(line) + "  \u00b7  " + input.case_.horse.name;
}

struct Drawn {
  std::string pdf;
  PagesOfParts pages;
  std::vector<FormField> fields;
  int page_count = 0;
};

Drawn draw(const ReportInput& input,
           const std::vector<Raster>& rasters,
           const std::string& digest,
           const Drawn& before) {
  const auto size = input.paper == Paper::a4 ? a4 : letter;
  Canvas canvas(size,
                {"Foot of " + input.case_.horse.name + ", visit of " + input.visit.date,
                 "Measurements and plan for vet and farrier. Aid to judgement, not a diagnosis.",
                 input.made});
  Flow flow(canvas,
            {subject(input),
             caution_line(input.practice),
             "record " + digest.substr(0, 12) + "\nmade " + date_for_people(input.made),
             before.page_count});
  Layout layout{input, flow, rasters, before.pages, digest};
  front_page(layout);
  for (std::size_t i = 0; i < input.pictures.size(); ++i)
    evidence_pages(layout, i);
  posture_pages(layout);
  plan_pages(layout);
  life_size_pages(layout);
  last_pages(layout);
  const int pages = canvas.page();
  return {canvas.finish(), std::move(layout.found), std::move(layout.fields), pages};
}

Result<void> check(const ReportInput& input) {
  for (const auto& sheet : input.pictures)
    if (sheet.picture.columns != sheet.entry.columns || sheet.picture.rows != sheet.entry.rows ||
        sheet.picture.columns < 1 || sheet.picture.rows < 1)
      return fail("Picture " + sheet.entry.file_name,
                  "has another size than its entry says",
                  "load it again");
  return {};
}

} // namespace

Result<std::vector<char>> make_report(const ReportInput& input) {
  PRITCHEL_CHECK(check(input));
  const auto record = record_json(input);
  const auto digest = sha256_hex(record);
  std::vector<Raster> rasters;
  for (const auto& sheet : input.pictures) {
    PRITCHEL_TRY(raster, raster_of(sheet, picture_side_mm));
    rasters.push_back(std::move(raster));
  }
  const std::vector<Raster> no_rasters(rasters.size());
  // Numbers of pages may change how many lines a page holds, so the first pass is done twice.
  auto drawn = draw(input, no_rasters, digest, {});
  drawn = draw(input, no_rasters, digest, drawn);
  drawn = draw(input, rasters, digest, drawn);
  if (drawn.pdf.empty())
    return fail("The paper", "could not be drawn", "report this", Trouble::outside);
  return add_form(drawn.pdf,
                  drawn.fields,
                  {"pritchel-record.json",
                   "Case, visit, readings and plan behind this paper",
                   record,
                   input.made},
                  input.paper == Paper::a4 ? a4.height_mm : letter.height_mm);
}

} // namespace pritchel::report
