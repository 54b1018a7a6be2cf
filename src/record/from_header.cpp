#include "record/from_header.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string_view>
#include <utility>

namespace pritchel::record {
namespace {

using measure::Limb;
using measure::View;

template <std::size_t N> using Codes = std::array<std::string_view, N>;

// SNOMED CT, DICOM CID 7484 "DX View for Animal".
constexpr Codes<2> side_view_codes{"399352003", "399260004"};
constexpr Codes<2> front_view_codes{"441505008", "399335002"};
// View Position, as written by machines: common practice, no source.
constexpr Codes<8> side_view_words{
    "LM", "ML", "LL", "RL", "LAT", "LATERAL", "LATEROMEDIAL", "MEDIOLATERAL"};
constexpr Codes<7> front_view_words{"DP", "DPA", "DPL", "AP", "PA", "DORSOPALMAR", "DORSOPLANTAR"};
// DICOM CID 7482: foot, pastern, fetlock and navicular bone of the hind limb.
constexpr Codes<4> hind_codes{"416804009", "18525008", "113351006", "75772009"};

template <std::size_t N> bool holds(const Codes<N>& codes, std::string_view text) {
  return std::find(codes.begin(), codes.end(), text) != codes.end();
}

std::string upper(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) {
    return static_cast<char>(std::toupper(c));
  });
  return text;
}

/// The first abbreviation of a direction such as "PADI"; of several the first predominates.
std::string_view main_direction(std::string_view letters) {
  constexpr Codes<8> two_letters{"LE", "RT", "CR", "CD", "PR", "DI", "PA", "PL"};
  constexpr Codes<5> one_letter{"D", "V", "R", "M", "L"};
  if (holds(two_letters, letters.substr(0, 2)))
    return letters.substr(0, 2);
  return holds(one_letter, letters.substr(0, 1)) ? letters.substr(0, 1) : std::string_view{};
}

std::optional<PictureSide> toward_from(const imaging::Facts& facts, View view) {
  const auto down = main_direction(facts.orientation_column);
  if (down != "DI" && down != "PR")
    return std::nullopt;
  const auto right = main_direction(facts.orientation_row);
  const bool side_view = measure::is_side_view(view);
  if (right == (side_view ? "D" : "L"))
    return PictureSide::right;
  const bool away = side_view ? right == "PA" || right == "PL" : right == "M";
  return away ? std::optional{PictureSide::left} : std::nullopt;
}

View view_from_header(imaging::PictureKind kind, const imaging::Facts& facts) {
  if (kind == imaging::PictureKind::photo)
    return View::foot_side;
  const auto meaning = upper(facts.view_meaning);
  const auto position = upper(facts.view_position);
  if (holds(side_view_codes, facts.view_code))
    return View::lateromedial;
  const bool front = holds(front_view_codes, facts.view_code) || holds(front_view_words, meaning) ||
                     (!holds(side_view_words, meaning) && holds(front_view_words, position));
  return front ? View::dorsopalmar : View::lateromedial;
}

Limb limb_from_header(const imaging::Facts& facts) {
  const bool right = facts.laterality == 'R';
  if (holds(hind_codes, facts.anatomic_region_code))
    return right ? Limb::right_hind : Limb::left_hind;
  return right ? Limb::right_fore : Limb::left_fore;
}

PictureSide usual_toward(View view, Limb limb) {
  return !measure::is_side_view(view) && measure::is_left(limb) ? PictureSide::right
                                                                : PictureSide::left;
}

} // namespace

measure::SideHints header_hints(const imaging::Facts& facts, View view) {
  measure::SideHints hints{.toward = toward_from(facts, view)};
  if (facts.laterality)
    hints.left_limb = *facts.laterality == 'L';
  return hints;
}

PictureEntry with_header_hints(PictureEntry entry, const imaging::Facts& facts) {
  const auto from_header = header_hints(facts, entry.view);
  entry.hints.left_limb = from_header.left_limb;
  entry.hints.toward = from_header.toward;
  return entry;
}

PictureEntry entry_from_header(const imaging::Picture& picture,
                               const std::string& file_name,
                               const std::string& digest) {
  const auto& facts = picture.facts;
  PictureEntry entry{.digest = digest,
                     .file_name = file_name,
                     .columns = picture.columns,
                     .rows = picture.rows,
                     .taken = is_date(facts.study_date) ? facts.study_date : std::string{},
                     .view = view_from_header(picture.kind, facts),
                     .limb = limb_from_header(facts)};
  entry.hints = header_hints(facts, entry.view);
  entry.toward = entry.hints.toward.value_or(usual_toward(entry.view, entry.limb));
  return entry;
}

} // namespace pritchel::record
