#include "record/json.h"
#include "record/json_parts.h"
#include "record/words.h"

namespace pritchel::record {
namespace {

using nlohmann::json;

constexpr std::string_view case_format = "pritchel-case";
constexpr int case_version = 1;

// Against slips of the pen, wide enough for every equid.
constexpr Range age_years{0, 70};
constexpr Range height_cm{30, 250};
constexpr Range weight_kg{5, 2000};

constexpr std::size_t most_visits = 1000;
constexpr std::size_t most_pictures = 200;
constexpr std::size_t most_grades = 100;
constexpr std::size_t most_flags = 100;

json known_json(const Known& value) {
  return value ? json(*value) : json(nullptr);
}

json horse_json(const Horse& horse) {
  return {{"name", horse.name},
          {"species", key(horse.species)},
          {"breed", horse.breed},
          {"sex", horse.sex},
          {"colour", horse.colour},
          {"work", horse.work},
          {"age_years", known_json(horse.age_years)},
          {"height_cm", known_json(horse.height_cm)},
          {"weight_kg", known_json(horse.weight_kg)}};
}

Horse horse_at(const Node& node) {
  Horse horse;
  horse.name = node["name"].text();
  horse.species =
      node["species"].word(&species_from, "horse, pony, donkey, draught", Species::horse);
  horse.breed = node["breed"].text();
  horse.sex = node["sex"].text();
  horse.colour = node["colour"].text();
  horse.work = node["work"].text();
  horse.age_years = node["age_years"].known_number(age_years);
  horse.height_cm = node["height_cm"].known_number(height_cm);
  horse.weight_kg = node["weight_kg"].known_number(weight_kg);
  return horse;
}

json person_json(const Person& person) {
  return {
      {"name", person.name}, {"registration", person.registration}, {"contact", person.contact}};
}

Person person_at(const Node& node) {
  return {.name = node["name"].text(),
          .registration = node["registration"].text(),
          .contact = node["contact"].text()};
}

json grade_json(const LamenessGrade& grade) {
  return {{"limb", measure::key(grade.limb)},
          {"scale", grade.scale},
          {"grade", grade.grade},
          {"observer", grade.observer},
          {"note", grade.note}};
}

LamenessGrade grade_at(const Node& node) {
  LamenessGrade grade;
  grade.limb = node.need("limb").word(&measure::limb_from, limb_words, grade.limb);
  grade.scale = node.need("scale").text();
  if (grade.scale != "AAEP 0-5" && grade.scale != "UK 0-10")
    node["scale"].complain(R"(must be "AAEP 0-5" or "UK 0-10")");
  grade.grade = node.need("grade").number({0, grade.scale == "UK 0-10" ? 10.0 : 5.0});
  grade.observer = node["observer"].text();
  grade.note = node["note"].text();
  return grade;
}

json history_json(const History& history) {
  json lameness = json::array();
  for (const auto& each : history.lameness)
    lameness.push_back(grade_json(each));
  return {{"complaint", history.complaint},
          {"course", history.course},
          {"diagnosis", history.diagnosis},
          {"laminitis", key(history.laminitis)},
          {"vet_has_seen", key(history.vet_has_seen)},
          {"sudden_onset", history.sudden_onset},
          {"lameness", lameness},
          {"red_flags", history.red_flags}};
}

History history_at(const Node& node) {
  History history;
  history.complaint = node["complaint"].text();
  history.course = node["course"].text();
  history.diagnosis = node["diagnosis"].text();
  history.laminitis = node["laminitis"].word(
      &laminitis_from, "not-stated, no, suspected, known", Laminitis::not_stated);
  history.vet_has_seen =
      node["vet_has_seen"].word(&vet_has_seen_from, "not-stated, no, yes", VetHasSeen::not_stated);
  history.sudden_onset = node["sudden_onset"].flag();
  node["lameness"].each(most_grades,
                        [&](const Node& each) { history.lameness.push_back(grade_at(each)); });
  node["red_flags"].each(most_flags,
                         [&](const Node& each) { history.red_flags.push_back(each.id()); });
  return history;
}

void read_visit_details(const Node& node, Visit& visit) {
  if (node["date"].is_there())
    visit.date = node["date"].date();
  if (node["last_trim"].is_there())
    visit.last_trim = node["last_trim"].date();
  if (node["note"].is_there())
    visit.note = node["note"].text();
  if (visit.date.empty())
    node["date"].complain("is missing", "a visit has a date, YYYY-MM-DD");
  else if (visit.last_trim > visit.date)
    node["last_trim"].complain("lies after the visit");
}

Visit visit_at(const Node& node) {
  Visit visit;
  visit.id = node.need("id").id();
  read_visit_details(node, visit);
  node["pictures"].each(
      most_pictures, [&](const Node& each) { visit.pictures.push_back(picture_entry_at(each)); });
  return visit;
}

void read_details(const Node& node, Case& into) {
  if (node["horse"].is_there())
    into.horse = horse_at(node["horse"]);
  if (node["owner"].is_there())
    into.owner = person_at(node["owner"]);
  if (node["yard"].is_there())
    into.yard = node["yard"].text();
  if (node["farrier"].is_there())
    into.farrier = person_at(node["farrier"]);
  if (node["vet"].is_there())
    into.vet = person_at(node["vet"]);
  if (node["history"].is_there())
    into.history = history_at(node["history"]);
}

Case case_at(const Node& node) {
  expect_format(node, case_format, case_version);
  Case read;
  read.id = node.need("id").id();
  read_details(node, read);
  node["visits"].each(most_visits,
                      [&](const Node& each) { read.visits.push_back(visit_at(each)); });
  return read;
}

} // namespace

json to_json(const Visit& value) {
  json pictures = json::array();
  for (const auto& each : value.pictures)
    pictures.push_back(to_json(each));
  return {{"id", value.id},
          {"date", value.date},
          {"last_trim", value.last_trim},
          {"note", value.note},
          {"pictures", pictures}};
}

json to_json(const Case& value) {
  json visits = json::array();
  for (const auto& each : value.visits)
    visits.push_back(to_json(each));
  return {{"format", case_format},
          {"version", case_version},
          {"id", value.id},
          {"horse", horse_json(value.horse)},
          {"owner", person_json(value.owner)},
          {"yard", value.yard},
          {"farrier", person_json(value.farrier)},
          {"vet", person_json(value.vet)},
          {"history", history_json(value.history)},
          {"visits", visits}};
}

Result<Case> case_from(const json& document) {
  return read_document(document, &case_at);
}

Result<Visit> visit_from(const json& value) {
  return read_document(value, &visit_at);
}

Result<Case> case_with_details(Case known, const json& details) {
  if (details.is_null())
    return known;
  auto merged = to_json(known);
  merged.merge_patch(details);
  return read_document(merged, [&](const Node& node) {
    Case changed{.id = known.id, .visits = known.visits};
    read_details(node, changed);
    return changed;
  });
}

Result<Visit> visit_with_details(Visit known, const json& details) {
  return read_document(details, [&](const Node& node) {
    auto changed = known;
    read_visit_details(node, changed);
    return changed;
  });
}

} // namespace pritchel::record
