/// Pages that a foot can be laid on: its outlines at 1 : 1, with bars to lay a ruler on. Inside
/// report only.
#pragma once

#include "report/layout.h"

namespace pritchel::report {

/// For every foot that the plan changes, its side view and, where the plan changes something there,
/// its front view; each over as many sheets as it needs. Nothing without a plan: without a change
/// nothing is cut or forged after the drawing.
void life_size_pages(Layout& layout);

/// One line under the plan's drawing of a foot: on which pages it stands at life size, and of a
/// view that doesn't, why.
void life_size_note(Layout& layout, const record::FootChange& change);

} // namespace pritchel::report
