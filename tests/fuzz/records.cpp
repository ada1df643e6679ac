#include <algorithm>
#include <cctype>
#include <string>
#include <vector>

#include "base/utf8.h"
#include "diagnostics/report.h"
#include "fuzz.h"
#include "reading/guide_reader.h"

// Records: one file of YAML; read as guide.yaml where it begins with `guide:`.
namespace {

using namespace saggar;
using fuzz::demand;
using records::Entry;
using records::Extent;
using records::Value;
using records::ValueType;

class Looker {
 public:
  explicit Looker(std::string_view text) : text_(text), seen_(text.size(), false) {}

  void record(const records::Record& record) {
    place(record.place, "a record");
    place(record.idPlace, "an id");
    mark(record.idPlace);
    if (record.evidence != nullptr) evidence(*record.evidence);
    entries(record.fields);
  }

  // Every letter and figure that was typed is part of a record: of an id, a key, a value, a citation, or the word of a
  // kind, of a key of evidence. Asked only of a text without signs by which YAML says more than words.
  void demandAllSeen(const records::ReadGuide& guide) {
    for (const records::Record& record : guide.records) {
      std::size_t at = record.place.begin;
      while (at < record.place.end) {
        const bool lost = std::isalnum(static_cast<unsigned char>(text_[at])) != 0 && !seen_[at];
        std::size_t end = at + 1;
        if (lost) {
          while (end < record.place.end &&
                 (std::isalnum(static_cast<unsigned char>(text_[end])) != 0 || text_[end] == '-'))
            ++end;
          demand(end < text_.size() && text_[end] == ':',
                 "whatever was typed is read, or a finding says that it is lost");
        }
        at = end;
      }
    }
  }

 private:
  void place(Extent extent, const char* what) {
    demand(extent.begin <= extent.end && extent.end <= text_.size(), what);
  }
  void mark(Extent extent) { std::fill(seen_.begin() + extent.begin, seen_.begin() + extent.end, true); }
  void entries(std::span<const Entry> all) {
    for (const Entry& entry : all) {
      place(entry.keyPlace, "a key stands in the file");
      mark(entry.keyPlace);
      value(entry.value);
    }
  }
  void value(const Value& value) {
    place(value.place, "a value stands in the file");
    if (value.evidence != nullptr) evidence(*value.evidence);
    if (value.type == ValueType::mapping) return entries(value.entries());
    if (value.type == ValueType::list || value.type == ValueType::between) {
      for (const Value& item : value.items()) this->value(item);
      if (value.type == ValueType::list) return;
    }
    mark(value.place);
    const std::string_view typed = text_.substr(value.place.begin, value.place.end - value.place.begin);
    const bool plain = !value.quoted && typed.find_first_of("\n\r\"'#&*!|>") == std::string_view::npos;
    if (plain && (value.type == ValueType::text || value.type == ValueType::prose))
      demand(std::string_view(value.text) == typed, "words on one line are the bytes of the file");
  }
  void evidence(const records::Evidence& evidence) {
    place(evidence.place, "evidence stands in the file");
    mark(evidence.place);
    for (const records::Citation& citation : evidence.cite) {
      place(citation.place, "a citation stands in the file");
      place(citation.idPlace, "what is cited stands in the file");
      mark(citation.place);
    }
    for (const records::Alternative& but : evidence.but()) {
      place(but.place, "what another source says stands in the file");
      mark(but.place);
    }
  }

  std::string_view text_;
  std::vector<bool> seen_;
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(fuzz::textOf(data, size));
  records::ReadGuide guide;
  diagnostics::Findings findings;
  reading::readRecords(guide, text.starts_with("guide:") ? "guide.yaml" : "records.yaml", text, findings);
  for (const diagnostics::Finding& finding : findings.all()) {
    demand(finding.span.begin <= finding.span.end && finding.span.end <= text.size(),
           "a finding points inside the file");
    demand(!finding.message.empty(), "a finding says what was seen");
    demand(base::firstInvalidUtf8(finding.message + finding.hint) == std::string_view::npos,
           "a finding is UTF-8");
  }
  Looker looker(text);
  for (const records::Record& record : guide.records) looker.record(record);
  const bool simple = text.find_first_of("#&*!%@`\"'|>\t\r\\?") == std::string::npos &&
                      text.find("---") == std::string::npos && text.find("...") == std::string::npos;
  if (findings.empty() && simple) looker.demandAllSeen(guide);
  const auto report = diagnostics::makeReport(std::move(findings), {}, guide.sources);
  demand(base::firstInvalidUtf8(diagnostics::asText(report, guide.sources)) == std::string_view::npos,
         "the report is UTF-8");
  return 0;
}
