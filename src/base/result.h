/// How a function says that the world is wrong: a bad file, value or request.
/// Knows nothing of horses, files or HTTP. What merely cannot be known (no scale, a landmark not
/// placed) is not an error: see measure/outcome.h.
#pragma once

#include <tl/expected.hpp>

#include <string>
#include <utility>

namespace pritchel {

/// What kind of trouble, for tests and for the HTTP status; people read the sentence.
enum class Trouble {
  bad_input, ///< exit 2, HTTP 400: the file, value or request is wrong
  not_found, ///< exit 2, HTTP 404
  conflict,  ///< exit 2, HTTP 409: somebody else changed it meanwhile, or it is signed and frozen
  too_large, ///< exit 2, HTTP 413: beyond a stated limit (base/limits.h)
  outside    ///< exit 1, HTTP 500: disk full, library failure; nothing the user typed
};

/// The thing, what is wrong with it, and the way out. sentence() joins them into one sentence.
struct Error {
  std::string thing;
  std::string problem;
  std::string way_out;
  Trouble trouble = Trouble::bad_input;

  [[nodiscard]] std::string sentence() const {
    return thing + " " + problem + (way_out.empty() ? "." : "; " + way_out + ".");
  }
};

/// fail("film.dcm", "has no pixel spacing", "place a marker of known size")
[[nodiscard]] inline tl::unexpected<Error> fail(std::string thing,
                                                std::string problem,
                                                std::string way_out = {},
                                                Trouble trouble = Trouble::bad_input) {
  return tl::make_unexpected(
      Error{std::move(thing), std::move(problem), std::move(way_out), trouble});
}

/// A T, or the Error that kept us from it. Dropping one is a warning.
template <class T> class [[nodiscard]] Result : public tl::expected<T, Error> {
public:
  using tl::expected<T, Error>::expected;
};

} // namespace pritchel

#define PRITCHEL_JOIN_(a, b) a##b
#define PRITCHEL_JOIN(a, b) PRITCHEL_JOIN_(a, b)

// NOLINTBEGIN(bugprone-macro-parentheses): `name` is declared, it can't stand in parentheses
/// PRITCHEL_TRY(picture, load(path)); declares `picture`, or returns the error to the caller.
#define PRITCHEL_TRY(name, expression)                                                             \
  auto PRITCHEL_JOIN(name, _result) = (expression);                                                \
  if (!PRITCHEL_JOIN(name, _result))                                                               \
    return tl::make_unexpected(std::move(PRITCHEL_JOIN(name, _result).error()));                   \
  auto name = std::move(*PRITCHEL_JOIN(name, _result))
// NOLINTEND(bugprone-macro-parentheses)

/// The same for a Result<void>.
#define PRITCHEL_CHECK(expression)                                                                 \
  do {                                                                                             \
    if (auto checked_ = (expression); !checked_)                                                   \
      return tl::make_unexpected(std::move(checked_.error()));                                     \
  } while (false)
