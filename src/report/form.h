/// The fillable part of the paper. Laying out collects fields; add_form() puts them into the PDF
/// together with the attached record. Inside report only.
#pragma once

#include "base/result.h"
#include "report/canvas.h"

#include <string>
#include <vector>

namespace pritchel::report {

enum class FieldKind { text, text_of_lines, choice, signature, hidden };
enum class Frozen { no, yes };

/// A choice is one box of a group: all with the same `name` exclude one another.
struct FormField {
  FieldKind kind = FieldKind::text;
  std::string name;   ///< docs/formats/report.md
  std::string option; ///< of a choice: "accept"
  std::string spoken; ///< what a screen reader says, and a pointer resting on it shows
  std::string value;  ///< text, or the option that is chosen
  int page = 1;
  PaperBox box;
  Frozen frozen = Frozen::no;
};

struct Attachment {
  std::string name;
  std::string description;
  std::string bytes;
  std::string created; ///< UTC, YYYY-MM-DDThh:mm:ssZ
};

/// The finished PDF, deterministic for the same input.
[[nodiscard]] Result<std::vector<char>> add_form(const std::string& pdf,
                                                 const std::vector<FormField>& fields,
                                                 const Attachment& attachment,
                                                 double page_height_mm);

} // namespace pritchel::report
