/// The printed card as a PDF page at its true size: the board, which edge stands on the ground, a
/// bar for the ruler, how to use it. The layout is imaging's (imaging/card.h).
#pragma once

#include "base/result.h"
#include "imaging/card.h"

#include <string>

namespace pritchel::report {

/// The PDF's bytes: one page of vectors.
[[nodiscard]] Result<std::string> make_card(imaging::CardPaper paper);

} // namespace pritchel::report
