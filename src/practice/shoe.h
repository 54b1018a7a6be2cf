/// A shoe as a smith makes or stocks it (templates/shoes): what it can give a foot, and the words it
/// is asked for by. Data only.
#pragma once

#include <map>
#include <string>
#include <string_view>

namespace pritchel::practice {

struct Span {
  double least = 0;
  double most = 0;
};

struct ShoeKind {
  std::string id;
  std::string title; ///< "Rolled-toe shoe"
  std::string words; ///< for who makes it
  /// Of a bare foot, by the name of a record::FootChange's field; one that isn't there it doesn't
  /// give. The shoe's thickness is free.
  std::map<std::string, Span, std::less<>> gives;
  Span web_mm;              ///< width of the web at the toe; 0 to 0: not stated
  Span roll_rise_mm;        ///< how far the front edge is rolled off the ground
  std::string bar;          ///< one of bars
  std::string frog_support; ///< one of frog_supports
  bool only_with_vet = false;
  bool not_over_thin_sole = false;
  std::string caution;
  std::string source; ///< key in sources
};

} // namespace pritchel::practice
