/// What is to be expected of a changed foot, in sentences for the paper.
#pragma once

#include "plan/outlook.h"

#include <string>

namespace pritchel::report {

/// The week foreseen, by whose growth, and when to look again; or why growth isn't foreseen.
[[nodiscard]] std::string growth_words(const plan::Outlook& outlook);

/// Each lever that changes, with the sentence that must stand beside it. Empty when none does.
[[nodiscard]] std::string lever_words(const plan::Outlook& outlook);

} // namespace pritchel::report
