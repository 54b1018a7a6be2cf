#include "job/repeats_of.h"

#include "record/json.h"
#include "record/sight.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <span>

namespace pritchel::job {
namespace {

using measure::Placed;
using record::ReadingEntry;
using record::Sight;

bool counts(const ReadingEntry& reading) {
  return !reading.done.empty() && !reading.landmarks.empty() &&
         (reading.sight == Sight::blind || reading.turn == 1);
}

std::vector<ReadingEntry> independent(const std::vector<ReadingEntry>& readings) {
  std::vector<ReadingEntry> found;
  for (const auto& each : readings)
    if (counts(each))
      found.push_back(each);
  std::sort(found.begin(), found.end(), [](const auto& a, const auto& b) {
    return std::pair(a.reader, a.turn) < std::pair(b.reader, b.turn);
  });
  return found;
}

/// In the frame of `frame`. Where the program had its hand in a point, two readers differ less than
/// they would by themselves, so that it tells nothing about them.
Placed<double> placed_in(measure::Reading frame, const ReadingEntry& reading) {
  frame.landmarks = reading.landmarks;
  std::erase_if(frame.landmarks, [](const auto& each) {
    return each.how != measure::Placement::by_hand && each.how != measure::Placement::on_dot;
  });
  return measure::placed(frame);
}

std::map<std::string_view, ReadValue> values_of(const std::vector<measure::Measurement>& measured) {
  std::map<std::string_view, ReadValue> values;
  for (const auto& each : measured)
    if (each.measurable())
      values.emplace(each.definition->id, ReadValue{each.value, each.standard_uncertainty});
  return values;
}

/// Changes when anything changes that the picture's numbers are made from.
std::string state_of(const record::PictureEntry& entry, const std::vector<ReadingEntry>& readings) {
  nlohmann::json state{record::to_json(entry)};
  for (const auto& each : readings)
    state.push_back({each.reader, each.turn, each.revision, each.done});
  return record::text_of(state);
}

/// Readings that may be pooled with each other.
std::vector<std::vector<Placed<double>>> groups(const RepeatedPicture& picture, Between between) {
  std::map<std::string, std::vector<Placed<double>>> by_key;
  for (const auto& each : picture.turns) {
    if (between == Between::turns)
      by_key[each.reader].push_back(each.placed);
    else if (each.round > 0 && each.revealed)
      by_key[std::to_string(each.round)].push_back(each.placed);
  }
  std::vector<std::vector<Placed<double>>> found;
  for (auto& [key, group] : by_key)
    if (group.size() > 1)
      found.push_back(std::move(group));
  return found;
}

} // namespace

RepeatedPicture repeated_picture(const record::Case& value,
                                 const record::PictureEntry& entry,
                                 const std::vector<ReadingEntry>& readings,
                                 const std::shared_ptr<const imaging::Picture>& picture,
                                 const practice::Practice& practice) {
  RepeatedPicture result{
      .case_id = value.id, .protocol = protocol_of(entry, practice).id, .view = entry.view};
  std::optional<measure::Reading> frame;
  for (const auto& each : independent(readings)) {
    const auto found = measured(picture, entry, each, value.horse, practice);
    if (!frame)
      frame = found.reading;
    result.turns.push_back({.reader = each.reader,
                            .turn = each.turn,
                            .round = record::blind_round(each, readings),
                            .revealed = record::is_revealed(each, readings),
                            .placed = placed_in(*frame, each),
                            .values = values_of(found.measurements)});
  }
  result.has_scale = frame && frame->calibration.has_scale();
  return result;
}

Result<std::vector<RepeatedPicture>> RepeatBook::pictures(record::Store& store,
                                                          PictureShelf& shelf,
                                                          const practice::Practice& practice,
                                                          const std::string& case_id) {
  const std::lock_guard lock(mutex_);
  std::vector<RepeatedPicture> found;
  if (!case_id.empty()) {
    PRITCHEL_CHECK(add_case(store, shelf, practice, case_id, found));
    return found;
  }
  PRITCHEL_TRY(cases, store.list_cases());
  for (const auto& each : cases)
    PRITCHEL_CHECK(add_case(store, shelf, practice, each.id, found));
  return found;
}

Result<void> RepeatBook::add_case(record::Store& store,
                                  PictureShelf& shelf,
                                  const practice::Practice& practice,
                                  const std::string& case_id,
                                  std::vector<RepeatedPicture>& found) {
  PRITCHEL_TRY(value, store.load_case(case_id));
  for (const auto& visit : value.visits)
    for (const auto& entry : visit.pictures) {
      PRITCHEL_TRY(picture, worked_out(store, shelf, practice, value, entry));
      if (picture != nullptr)
        found.push_back(*picture);
    }
  return {};
}

Result<const RepeatedPicture*> RepeatBook::worked_out(record::Store& store,
                                                      PictureShelf& shelf,
                                                      const practice::Practice& practice,
                                                      const record::Case& value,
                                                      const record::PictureEntry& entry) {
  PRITCHEL_TRY(readings, store.readings_of(value.id, entry.digest));
  if (independent(readings).size() < 2)
    return nullptr;
  auto& known = known_[{value.id, entry.digest}];
  const auto state = state_of(entry, readings);
  if (known.state != state) {
    PRITCHEL_TRY(picture, shelf.picture(store, entry.digest));
    known = {.state = state,
             .picture = repeated_picture(value, entry, readings, picture, practice)};
  }
  return &known.picture;
}

Scatters scatters(const std::vector<RepeatedPicture>& pictures,
                  const practice::Practice& practice,
                  Between between) {
  Scatters all;
  for (const auto& picture : pictures) {
    const auto* protocol = practice::protocol_by_id(practice, picture.protocol);
    if (!picture.has_scale || protocol == nullptr)
      continue;
    for (const auto& group : groups(picture, between))
      for (const auto& guide : protocol->landmarks)
        all[{protocol->id, guide.id}].add(group, guide.spread, guide.id);
  }
  return all;
}

practice::Practice with_own_spreads(practice::Practice practice,
                                    const std::vector<RepeatedPicture>& pictures) {
  const auto known = scatters(pictures, practice, Between::turns);
  for (auto& protocol : practice.protocols)
    for (auto& guide : protocol.landmarks) {
      const auto scatter = known.find({protocol.id, guide.id});
      if (scatter == known.end())
        continue;
      if (const auto own = agreement::own_spread(scatter->second, guide.spread)) {
        guide.spread = own->spread;
        guide.own_repeats = own->repeats;
      }
    }
  return practice;
}

Result<practice::Practice>
own_practice(record::Store& store, PictureShelf& shelf, practice::Practice practice) {
  RepeatBook book;
  PRITCHEL_TRY(pictures, book.pictures(store, shelf, practice));
  return with_own_spreads(std::move(practice), pictures);
}

} // namespace pritchel::job
