/// What a trim and a shoe would do to one foot, while a hand drags them: worked out and forgotten.
#pragma once

#include "drawing/display_list.h"
#include "plan/outlook.h"
#include "plan/what_if.h"
#include "record/json.h"

#include <optional>
#include <string>
#include <vector>

#include "job/visit.h"

namespace pritchel::job {

/// A plan::Grip in the picture's pixels.
struct PictureGrip {
  std::string variable;
  ImagePoint at;
  Vector<ImageFrame> per_unit;
};

struct ChangedPicture {
  std::string digest;
  std::string read_by; ///< whose points it stands on
  drawing::Overlay overlay;
  std::vector<PictureGrip> grips;
};

struct Tried {
  plan::WhatIf what;
  std::vector<ChangedPicture> pictures; ///< of that foot, as it was read
  std::optional<plan::Outlook> outlook; ///< only when asked for, and only of a side view
};

/// Refused when the case or the visit doesn't exist; what the limits refuse is in the answer.
[[nodiscard]] Result<Tried> what_if(const Desk& desk,
                                    const std::string& case_id,
                                    const std::string& visit,
                                    const record::AskedTry& asked,
                                    const record::Stamp& stamp);

} // namespace pritchel::job
