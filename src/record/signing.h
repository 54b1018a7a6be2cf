/// When a plan may be signed.
#pragma once

#include "base/result.h"
#include "record/case.h"

namespace pritchel::record {

/// An error while a line is undecided, an amended line says nothing about the amendment, the plan
/// is signed already (a conflict), or the sign-off lacks name, registration number or date.
[[nodiscard]] Result<void> ready_to_sign(const Plan& plan, const SignOff& sign_off);

} // namespace pritchel::record
