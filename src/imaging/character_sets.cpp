#include "imaging/character_sets.h"

#include <iconv.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <optional>

namespace pritchel::imaging {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD";
constexpr char escape = '\x1B';

/// How the bytes of one designated set are handed to iconv.
enum class Form {
  as_is,      ///< single bytes, or pairs with the high bit set
  high_pairs, ///< 7-bit pairs that iconv's name for the set wants with the high bit set
  three_bytes ///< 7-bit pairs that EUC-JP wants behind a 0x8F
};

struct Set {
  std::string_view escape_sequence; ///< without the ESC
  std::string_view term;            ///< defined term, ISO_IR or ISO 2022 IR number
  bool upper;                       ///< G1 (bytes from 0x80), else G0
  const char* iconv_name;
  Form form;
};

constexpr std::array sets{
    Set{"(B", "6", false, "ASCII", Form::as_is},
    Set{"-A", "100", true, "ISO-8859-1", Form::as_is},
    Set{"-B", "101", true, "ISO-8859-2", Form::as_is},
    Set{"-C", "109", true, "ISO-8859-3", Form::as_is},
    Set{"-D", "110", true, "ISO-8859-4", Form::as_is},
    Set{"-L", "144", true, "ISO-8859-5", Form::as_is},
    Set{"-G", "127", true, "ISO-8859-6", Form::as_is},
    Set{"-F", "126", true, "ISO-8859-7", Form::as_is},
    Set{"-H", "138", true, "ISO-8859-8", Form::as_is},
    Set{"-M", "148", true, "ISO-8859-9", Form::as_is},
    Set{"-b", "203", true, "ISO-8859-15", Form::as_is},
    Set{"-T", "166", true, "TIS-620", Form::as_is},
    Set{")I", "13", true, "SHIFT_JIS", Form::as_is}, // half-width kana lie alike in Shift JIS
    Set{"(J", "13", false, "ASCII", Form::as_is},    // JIS Roman: ASCII but for yen and overline
    Set{"$B", "87", false, "EUC-JP", Form::high_pairs},
    Set{"$(D", "159", false, "EUC-JP", Form::three_bytes},
    Set{"$)C", "149", true, "EUC-KR", Form::as_is},
    Set{"$)A", "58", true, "GB2312", Form::as_is},
};

/// Converts as far as it goes, with one U+FFFD for each byte that cannot be read.
std::string converted(std::string bytes, const char* from) {
  iconv_t converter = iconv_open("UTF-8", from);
  if (converter == reinterpret_cast<iconv_t>(-1)) // NOLINT(performance-no-int-to-ptr): POSIX's own
    return std::string(replacement);
  std::string out;
  char* in = bytes.data();
  std::size_t left = bytes.size();
  while (left > 0) {
    std::array<char, 256> chunk{};
    char* to = chunk.data();
    std::size_t room = chunk.size();
    const std::size_t done = iconv(converter, &in, &left, &to, &room);
    const int problem = errno;
    out.append(chunk.data(), to);
    if (done == static_cast<std::size_t>(-1) && problem != E2BIG) {
      out += replacement;
      ++in;
      --left;
    }
  }
  iconv_close(converter);
  return out;
}

std::string in_form(std::string_view bytes, Form form) {
  if (form == Form::as_is)
    return std::string(bytes);
  std::string out;
  for (std::size_t i = 0; i < bytes.size(); ++i) {
    if (form == Form::three_bytes && i % 2 == 0)
      out += '\x8F';
    out += static_cast<char>(static_cast<unsigned char>(bytes[i]) | 0x80U);
  }
  return out;
}

std::string_view number_of(std::string_view term) {
  const auto space = term.find_last_of(" _");
  return space == std::string_view::npos ? term : term.substr(space + 1);
}

std::string_view first_term(std::string_view terms) {
  terms = terms.substr(0, terms.find('\\'));
  while (!terms.empty() && terms.back() == ' ')
    terms.remove_suffix(1);
  return terms;
}

struct Designated {
  const Set* lower = &sets.front();
  const Set* upper = nullptr;
};

Designated initial(std::string_view terms) {
  Designated state;
  const auto wanted = number_of(first_term(terms));
  for (const auto& set : sets)
    if (set.term == wanted)
      (set.upper ? state.upper : state.lower) = &set;
  return state;
}

const Set* designated_by(std::string_view rest) {
  const auto* found = std::find_if(sets.begin(), sets.end(), [&](const Set& set) {
    return rest.substr(0, set.escape_sequence.size()) == set.escape_sequence;
  });
  return found == sets.end() ? nullptr : found;
}

bool is_high(char c) {
  return (static_cast<unsigned char>(c) & 0x80U) != 0;
}

/// Runs of one half of the code table each, converted by the set designated to that half.
std::string with_extensions(std::string_view text, std::string_view terms) {
  const Designated start = initial(terms);
  Designated state = start;
  std::string out;
  while (!text.empty()) {
    if (text.front() == escape) {
      const Set* set = designated_by(text.substr(1));
      text.remove_prefix(set == nullptr ? 1 : 1 + set->escape_sequence.size());
      if (set != nullptr)
        (set->upper ? state.upper : state.lower) = set;
      continue;
    }
    const bool high = is_high(text.front());
    std::size_t end = 1;
    while (end < text.size() && text[end] != escape && is_high(text[end]) == high)
      ++end;
    const Set* set = high ? state.upper : state.lower;
    const auto run = text.substr(0, end);
    out += set == nullptr ? std::string(replacement)
                          : converted(in_form(run, set->form), set->iconv_name);
    text.remove_prefix(end);
  }
  return out;
}

/// PS3.5 6.1.2.5.3: every component of a name starts again with the initial sets. The delimiters
/// are looked for outside of 7-bit pairs, where their codes mean other things.
std::string by_component(std::string_view text, std::string_view terms) {
  std::string out;
  std::size_t start = 0;
  bool pairs = false;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    if (i < text.size() && text[i] == escape) {
      const Set* set = designated_by(text.substr(i + 1));
      if (set != nullptr && !set->upper)
        pairs = set->form != Form::as_is;
    }
    const bool delimiter =
        i < text.size() && !pairs && (text[i] == '^' || text[i] == '=' || text[i] == '\\');
    if (i < text.size() && !delimiter)
      continue;
    out += with_extensions(text.substr(start, i - start), terms);
    if (delimiter)
      out += text[i];
    start = i + 1;
  }
  return out;
}

std::optional<const char*> whole_encoding(std::string_view term) {
  if (term == "ISO_IR 192")
    return "UTF-8";
  if (term == "GB18030" || term == "GBK")
    return "GB18030";
  return std::nullopt;
}

std::string without_controls(std::string text) {
  text.erase(std::remove_if(
                 text.begin(), text.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; }),
             text.end());
  return text;
}

} // namespace

std::string to_utf8(std::string_view text, std::string_view defined_terms) {
  if (const auto encoding = whole_encoding(first_term(defined_terms)))
    return without_controls(converted(std::string(text), *encoding));
  return without_controls(by_component(text, defined_terms));
}

} // namespace pritchel::imaging
