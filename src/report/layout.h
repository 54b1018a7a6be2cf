/// What all parts of the paper share while it is laid out, and the parts themselves.
/// The paper is laid out twice: page numbers that a page mentions are known only after the first
/// time. Inside report only.
#pragma once

#include "report/flow.h"
#include "report/form.h"
#include "report/report.h"

#include <map>
#include <string>
#include <vector>

namespace pritchel::report {

/// Page on which a part begins, by name: "picture-0", "plan", "sign-off", "sources".
using PagesOfParts = std::map<std::string, int, std::less<>>;

/// Sources in the order in which the paper first names them; their numbers stand in brackets.
class Sources {
public:
  /// From 1; the same key always gets the same number.
  int number(const std::string& key);
  [[nodiscard]] const std::vector<std::string>& keys() const { return keys_; }

private:
  std::vector<std::string> keys_;
};

struct Layout {
  const ReportInput& input;
  Flow& flow;
  const std::vector<Raster>& rasters; ///< one for each picture; empty ones in the first pass
  const PagesOfParts& known;          ///< from the first pass
  const std::string& record_digest;   ///< 64 hex digits
  PagesOfParts found = {};
  std::vector<FormField> fields = {};
  Sources sources = {};

  [[nodiscard]] Canvas& canvas() const { return flow.canvas(); }
  [[nodiscard]] std::string page_of(std::string_view part) const;
  void begins(const std::string& part);
  void field(FormField field);
};

void front_page(Layout& layout);
void evidence_pages(Layout& layout, std::size_t index);
/// "Standing and hanging", for each limb whose pictures show both; nothing without such a limb.
void posture_pages(Layout& layout);
void plan_pages(Layout& layout);
void last_pages(Layout& layout);

/// The picture in its window, small enough to print and no smaller.
[[nodiscard]] Result<Raster> raster_of(const PictureSheet& sheet, double longest_side_mm);
/// Largest place for the picture within a box, true in shape, centred across.
[[nodiscard]] PicturePlace place_in(const PictureSheet& sheet, const PaperBox& box);
[[nodiscard]] measure::Reading reading_of(const PictureSheet& sheet);
/// "Left fore: " where the paper has more than one foot; else nothing.
[[nodiscard]] std::string foot_prefix(const ReportInput& input, measure::Limb limb);
/// The feet that the paper is about, each once: "left fore".
[[nodiscard]] std::vector<std::string> feet(const ReportInput& input);
/// "Left fore, lateromedial"
[[nodiscard]] std::string picture_title(const PictureSheet& sheet);
/// Letters at the picture's edges: D and Pa (Pl), or M and L.
struct EdgeLetters {
  std::string left;
  std::string right;
  std::string meaning; ///< "D dorsal (toe), Pa palmar (heel)"
};
[[nodiscard]] EdgeLetters edge_letters(const PictureSheet& sheet);
[[nodiscard]] const EarlierValue* earlier_of(const PictureSheet& sheet, std::string_view id);
/// Does nothing but points stand between the picture and this measurement?
[[nodiscard]] bool is_incomplete(const measure::Measurement& measurement);
/// The reason, or the titles of what is missing.
[[nodiscard]] std::string
why_not(const Layout& layout, const PictureSheet& sheet, const measure::Measurement& measurement);

} // namespace pritchel::report
