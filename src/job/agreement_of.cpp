#include "job/agreement_of.h"

#include <algorithm>

namespace pritchel::job {
namespace {

using ReaderPair = std::pair<std::string, std::string>;
using TurnPair = std::pair<const Turn*, const Turn*>;

/// Differences and the table they come from, by measurement.
struct Numbers {
  std::vector<double> differences;
  agreement::Table table;
};

struct Places {
  std::vector<double> across;
  std::vector<double> along;
};

struct Gathered {
  std::map<std::string_view, Numbers> numbers;
  std::map<std::pair<std::string, std::string>, Places> places; ///< by protocol and landmark
};

/// Every two readers with the same revealed round of this picture.
std::vector<TurnPair> reader_pairs(const RepeatedPicture& picture) {
  std::vector<TurnPair> pairs;
  for (const auto& a : picture.turns)
    for (const auto& b : picture.turns)
      if (a.round > 0 && a.round == b.round && a.reader < b.reader && a.revealed && b.revealed)
        pairs.emplace_back(&a, &b);
  return pairs;
}

void gather_numbers(Gathered& into, const Turn& a, const Turn& b) {
  for (const auto& [id, value] : a.values) {
    const auto other = b.values.find(id);
    if (other == b.values.end())
      continue;
    into.numbers[id].differences.push_back(value.value - other->second.value);
    into.numbers[id].table.push_back({value.value, other->second.value});
  }
}

void gather_places(Gathered& into,
                   const Turn& a,
                   const Turn& b,
                   const practice::Protocol& protocol) {
  for (const auto& guide : protocol.landmarks)
    if (const auto split = agreement::offset(a.placed, b.placed, guide.spread, guide.id)) {
      auto& places = into.places[{protocol.id, guide.id}];
      places.across.push_back(split->across_mm);
      places.along.push_back(split->along_mm);
    }
}

const practice::Protocol& protocol_of(const RepeatedPicture& picture,
                                      const practice::Practice& practice) {
  return practice::protocol(practice, picture.view, measure::Limb::left_fore, picture.protocol);
}

std::optional<agreement::Limits> limits_if_enough(const std::vector<double>& differences) {
  return static_cast<int>(differences.size()) < fewest_pairs
             ? std::nullopt
             : agreement::limits_of_agreement(differences);
}

NumberAgreement agreement_in(const measure::Definition& definition, const Numbers& numbers) {
  NumberAgreement result{.definition = &definition,
                         .pairs = static_cast<int>(numbers.differences.size()),
                         .limits = limits_if_enough(numbers.differences)};
  if (!result.limits)
    return result;
  result.squares = agreement::mean_squares(numbers.table);
  if (result.squares)
    result.icc = agreement::intraclass(*result.squares);
  return result;
}

ReaderAgreement agreement_in(const ReaderPair& readers, const Gathered& gathered) {
  ReaderAgreement result{.first = readers.first, .second = readers.second};
  for (const auto& definition : measure::definitions())
    if (const auto found = gathered.numbers.find(definition.id); found != gathered.numbers.end())
      result.numbers.push_back(agreement_in(definition, found->second));
  for (const auto& [key, places] : gathered.places)
    result.landmarks.push_back({.protocol = key.first,
                                .landmark = key.second,
                                .pairs = static_cast<int>(places.across.size()),
                                .across = limits_if_enough(places.across),
                                .along = limits_if_enough(places.along)});
  return result;
}

std::vector<ReaderAgreement> between_readers(const std::vector<RepeatedPicture>& pictures,
                                             const practice::Practice& practice) {
  std::map<ReaderPair, Gathered> gathered;
  for (const auto& picture : pictures)
    for (const auto& [a, b] : reader_pairs(picture)) {
      auto& into = gathered[{a->reader, b->reader}];
      gather_numbers(into, *a, *b);
      if (picture.has_scale)
        gather_places(into, *a, *b, protocol_of(picture, practice));
    }
  std::vector<ReaderAgreement> found;
  found.reserve(gathered.size());
  for (const auto& [readers, each] : gathered)
    found.push_back(agreement_in(readers, each));
  return found;
}

/// Values of one measurement by reader, for the readers who read the picture more than once.
void pool_values(agreement::Pool& pool, const RepeatedPicture& picture, std::string_view id) {
  std::map<std::string_view, std::vector<double>> by_reader;
  for (const auto& turn : picture.turns)
    if (const auto value = turn.values.find(id); value != turn.values.end())
      by_reader[turn.reader].push_back(value->second.value);
  for (const auto& [reader, values] : by_reader)
    pool.add(values);
}

std::vector<NumberRepeat> repeats_in(const std::vector<RepeatedPicture>& pictures) {
  std::vector<NumberRepeat> found;
  for (const auto& definition : measure::definitions()) {
    NumberRepeat repeat{.definition = &definition};
    for (const auto& picture : pictures)
      pool_values(repeat.pool, picture, definition.id);
    if (repeat.pool.repeats() > 0)
      found.push_back(repeat);
  }
  return found;
}

std::vector<LandmarkRepeat> landmarks_in(const std::vector<RepeatedPicture>& pictures,
                                         const practice::Practice& practice) {
  const auto turns = scatters(pictures, practice, Between::turns);
  const auto readers = scatters(pictures, practice, Between::readers);
  std::vector<LandmarkRepeat> found;
  for (const auto& protocol : practice.protocols)
    for (const auto& guide : protocol.landmarks) {
      const std::pair key{protocol.id, guide.id};
      LandmarkRepeat repeat{.protocol = protocol.id, .landmark = guide.id};
      if (const auto at = turns.find(key); at != turns.end())
        repeat.turns = at->second;
      if (const auto at = readers.find(key); at != readers.end())
        repeat.readers = at->second;
      repeat.own = agreement::own_spread(repeat.turns, guide.spread);
      if (repeat.turns.across.repeats() + repeat.readers.across.repeats() > 0)
        found.push_back(std::move(repeat));
    }
  return found;
}

} // namespace

PracticeAgreement agreement_of(const std::vector<RepeatedPicture>& pictures,
                               const practice::Practice& practice) {
  return {.pictures = static_cast<int>(pictures.size()),
          .readers = between_readers(pictures, practice),
          .repeats = repeats_in(pictures),
          .landmarks = landmarks_in(pictures, practice)};
}

std::optional<PictureAgreement> pair_of(const RepeatedPicture& picture, const std::string& reader) {
  const auto pairs = reader_pairs(picture);
  const auto rank = [&](const TurnPair& pair) {
    const bool own = pair.first->reader == reader || pair.second->reader == reader;
    return std::pair(own, pair.first->round);
  };
  const auto newest = std::max_element(
      pairs.begin(), pairs.end(), [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  if (newest != pairs.end())
    return PictureAgreement{.first = newest->first, .second = newest->second, .by_two = true};
  std::vector<const Turn*> own;
  for (const auto& each : picture.turns)
    if (each.reader == reader)
      own.push_back(&each);
  if (own.size() < 2)
    return std::nullopt;
  return PictureAgreement{.first = own[own.size() - 2], .second = own.back()};
}

const NumberAgreement* number_between(const PracticeAgreement& all,
                                      const std::string& first,
                                      const std::string& second,
                                      std::string_view measurement) {
  for (const auto& readers : all.readers)
    if (readers.first == first && readers.second == second)
      for (const auto& each : readers.numbers)
        if (each.definition->id == measurement)
          return &each;
  return nullptr;
}

} // namespace pritchel::job
