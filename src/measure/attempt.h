/// What a formula gives: a value with its construction, or the reason why it can't be known.
#pragma once

#include "measure/construction.h"

#include <tl/expected.hpp>

#include <string>
#include <utility>

namespace pritchel::measure {

template <class T> struct Drawn {
  T value{}; ///< degrees, mm, ratio or per cent, as the definition's unit says
  Construction construction;
};

/// A reason is a clause for people that completes "not measurable: ...".
using Reason = std::string;

template <class T> using Attempt = tl::expected<T, Reason>;

[[nodiscard]] inline tl::unexpected<Reason> because(Reason reason) {
  return tl::make_unexpected(std::move(reason));
}

} // namespace pritchel::measure
