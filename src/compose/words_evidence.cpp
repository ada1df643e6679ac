#include <algorithm>

#include "base/text.h"
#include "compose/prose.h"
#include "compose/words.h"

// How a thing is known, in words: which source says it and where in it, or that the author judges so, or that nobody
// has been named.
namespace saggar::compose {

using document::text;
using records::Citation;
using records::Entry;
using records::Evidence;
using records::Value;

namespace {

class Gathered {
 public:
  explicit Gathered(const Words& words) : words_(words) {}

  void add(const Evidence* evidence) {
    if (evidence == nullptr) return;
    for (const Citation& citation : evidence->cite) {
      const bool there = std::any_of(citations_.begin(), citations_.end(), [&](const Citation* one) {
        return one->target == citation.target && one->id == citation.id && one->at == citation.at && one->says == citation.says;
      });
      if (!there) citations_.push_back(&citation);
    }
    if (!evidence->judged.empty() && std::find(judged_.begin(), judged_.end(), evidence->judged) == judged_.end()) judged_.push_back(evidence->judged);
  }

  void addAll(const Value& value) {
    add(value.evidence);
    for (const Value& item : value.items()) addAll(item);
    for (const Entry& entry : value.entries()) addAll(entry.value);
  }

  Inlines words() const {
    Inlines out;
    for (const Citation* citation : citations_) {
      if (!out.empty()) out.push_back(text("; "));
      const Inlines one = words_.citation(*citation);
      out.insert(out.end(), one.begin(), one.end());
    }
    for (std::string_view reason : judged_) {
      if (!out.empty()) out.push_back(text("; "));
      out.push_back(text("the author's judgement: " + std::string(reason)));
    }
    if (out.empty()) out.push_back(text("no source recorded"));
    return out;
  }

 private:
  const Words& words_;
  std::vector<const Citation*> citations_;
  std::vector<std::string_view> judged_;
};

}  // namespace

Inlines Words::citation(const Citation& citation) const {
  Inlines out;
  if (citation.target == records::kNoRecord) {
    out.push_back(text(std::string(citation.id)));
  } else {
    out = name(citation.target);
  }
  if (!citation.at.empty()) out.push_back(text(", " + std::string(citation.at)));
  if (citation.says == records::Says::notFound) out.push_back(text(" (looked for there, not found)"));
  if (citation.says == records::Says::indirect) out.push_back(text(" (by inference)"));
  return out;
}

Inlines Words::evidence(const Value& value, const PublishedRecord& owner) const {
  Gathered all(*this);
  all.addAll(value);
  all.add(owner.evidence());
  return all.words();
}

Inlines Words::evidenceOfRecord(const PublishedRecord& record) const {
  Gathered all(*this);
  all.add(record.evidence());
  for (const Entry* entry : record.fields()) all.addAll(entry->value);
  return all.words();
}

Inlines Words::codeReadings(RecordIndex record) const {
  Inlines out;
  for (const choosing::CodeOnRecord& code : materials_->codes.of(record)) {
    if (!out.empty()) out.push_back(text("; "));
    std::vector<std::string> readings;
    for (const choosing::CodeReading& reading : code.readings) {
      if (!reading.possible) continue;
      std::vector<std::string> parts;
      for (const codes::PartReading& part : reading.reading.parts)
        if (!part.means.empty()) parts.push_back(part.means);
      if (parts.empty()) continue;
      std::string words = base::joined(parts, ", ");
      if (std::find(readings.begin(), readings.end(), words) == readings.end()) readings.push_back(std::move(words));
    }
    std::string words(code.value->text);
    if (!readings.empty()) words += ": " + base::joined(readings, "; or ");
    out.push_back(text(std::move(words)));
  }
  return out;
}

Blocks Words::prose(const PublishedRecord& owner, const Value& value) const {
  return resolvedProse(*this, places_, owner, value);
}

Inlines Words::proseLine(const PublishedRecord& owner, const Value& value) const {
  Inlines out;
  for (Block& block : resolvedProse(*this, places_, owner, value)) {
    if (!out.empty()) out.push_back(text(" "));
    if (block.inlines.empty()) {
      out.push_back(text(document::plainText(Blocks{std::move(block)})));
    } else {
      out.insert(out.end(), std::make_move_iterator(block.inlines.begin()), std::make_move_iterator(block.inlines.end()));
    }
  }
  return out;
}

}  // namespace saggar::compose
