#include "report/read_back.h"

#include "base/digest.h"

#define POINTERHOLDER_TRANSITION 4 // QPDF 11: shared_ptr, no older pointer type

#include <nlohmann/json.hpp>
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFAcroFormDocumentHelper.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFFormFieldObjectHelper.hh>

#include <charconv>
#include <exception>
#include <map>

namespace pritchel::report {
namespace {

using Values = std::map<std::string, std::string>;

std::string value_of(QPDFFormFieldObjectHelper& field) {
  auto value = field.getValue();
  if (value.isName()) {
    const std::string name = value.getName();
    return name == "/Off" ? std::string() : name.substr(1);
  }
  return value.isString() ? value.getUTF8Value() : std::string();
}

Values values_of(QPDF& pdf, bool& signature_present) {
  Values values;
  for (auto& field : QPDFAcroFormDocumentHelper(pdf).getFormFields()) {
    const auto name = field.getFullyQualifiedName();
    if (field.getFieldType() == "/Sig")
      signature_present = signature_present || field.getValue().isDictionary();
    else if (auto value = value_of(field); !value.empty())
      values[name] = value;
    else
      values.try_emplace(name);
  }
  return values;
}

record::Decision decision_from(const std::string& word) {
  if (word == "accept")
    return record::Decision::accept;
  if (word == "amend")
    return record::Decision::amend;
  return word == "decline" ? record::Decision::decline : record::Decision::open;
}

std::vector<LineAnswer> answers(const Values& values) {
  std::vector<LineAnswer> lines;
  for (int number = 1;; ++number) {
    const std::string stem = "line-" + std::to_string(number);
    const auto decision = values.find(stem + "-decision");
    if (decision == values.end())
      return lines;
    const auto note = values.find(stem + "-note");
    lines.push_back(
        {number, decision_from(decision->second), note == values.end() ? "" : note->second});
  }
}

std::string looked_up(const Values& values, const std::string& name) {
  const auto found = values.find(name);
  return found == values.end() ? std::string() : found->second;
}

std::optional<std::string> attached_record(QPDF& pdf) {
  const auto file = QPDFEmbeddedFileDocumentHelper(pdf).getEmbeddedFile("pritchel-record.json");
  if (!file)
    return std::nullopt;
  const auto buffer = file->getEmbeddedFileStream().getStreamData();
  return std::string(reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize());
}

/// Only what tells which paper this is; the record itself is the caller's to read.
Result<void> identify(ReadBack& found) {
  const auto record = nlohmann::json::parse(found.record_json, nullptr, false);
  if (!record.is_object() || record.value("format", "") != "pritchel-record" ||
      !record.contains("case") || !record["case"].is_object())
    return fail("The PDF", "carries a record that can't be read", "print the paper again");
  found.case_id = record["case"].value("id", "");
  found.visit = record.value("visit", "");
  if (record.contains("plan") && record["plan"].is_object())
    found.plan_version = record["plan"].value("version", 0);
  return {};
}

Result<ReadBack> read(std::span<const char> bytes) {
  QPDF pdf;
  pdf.setSuppressWarnings(true);
  pdf.processMemoryFile("paper", bytes.data(), bytes.size());
  ReadBack found;
  const auto record = attached_record(pdf);
  if (!record)
    return fail(
        "The PDF", "is not a paper of this program", "choose the one that was printed here");
  found.record_json = *record;
  found.record_sha256 = sha256_hex(found.record_json);
  PRITCHEL_CHECK(identify(found));
  const auto values = values_of(pdf, found.signature_present);
  if (const auto printed = looked_up(values, "record-sha256"); printed != found.record_sha256)
    return fail(
        "The PDF", "and its attached record don't belong together", "print the paper again");
  found.lines = answers(values);
  found.sign_off = {looked_up(values, "sign-off-name"),
                    looked_up(values, "sign-off-registration"),
                    looked_up(values, "sign-off-date"),
                    looked_up(values, "sign-off-note")};
  return found;
}

} // namespace

Result<ReadBack> read_back(std::span<const char> pdf) {
  try {
    return read(pdf);
  } catch (const std::exception&) {
    return fail("The PDF", "can't be read", "save it again from the program that filled it in");
  }
}

} // namespace pritchel::report
