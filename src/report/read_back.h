/// What a person wrote into the paper's fields, read back from the PDF.
/// Decides nothing and saves nothing: the caller compares case, visit and version first.
#pragma once

#include "base/result.h"
#include "record/case.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace pritchel::report {

struct LineAnswer {
  int number = 0; ///< from 1, as printed
  record::Decision decision = record::Decision::open;
  std::string note;
};

struct ReadBack {
  std::string case_id;
  std::string visit;
  int plan_version = 0;      ///< 0: the paper carries no plan
  std::string record_json;   ///< the attachment, byte for byte
  std::string record_sha256; ///< of those bytes
  std::vector<LineAnswer> lines;
  record::SignOff sign_off;       ///< as typed; empty where nothing was
  bool signature_present = false; ///< a digital signature stands in its field; not verified here
};

/// Refused in one sentence: no PDF, not a paper of this program, an attachment that doesn't match
/// the digest in the form.
[[nodiscard]] Result<ReadBack> read_back(std::span<const char> pdf);

} // namespace pritchel::report
