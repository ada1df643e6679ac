#include <algorithm>

#include "base/text.h"
#include "compose/phrases.h"
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
  explicit Gathered(const Words& words, bool brief = false) : words_(words), brief_(brief) {}

  void add(const Evidence* evidence) {
    if (evidence == nullptr) return;
    add(evidence->cite);
    if (!evidence->judged().empty() &&
        std::find(judged_.begin(), judged_.end(), evidence->judged()) == judged_.end())
      judged_.push_back(evidence->judged());
  }

  void add(std::span<const Citation> cite) {
    for (const Citation& citation : cite) {
      const bool there = std::any_of(citations_.begin(), citations_.end(), [&](const Citation* one) {
        return one->target == citation.target && one->id == citation.id && one->at == citation.at &&
               one->says == citation.says;
      });
      if (!there) citations_.push_back(&citation);
    }
  }

  void addAll(const Value& value) {
    add(value.evidence);
    for (const Value& item : value.items()) addAll(item);
    for (const Entry& entry : value.entries()) addAll(entry.value);
  }

  bool empty() const { return citations_.empty() && judged_.empty(); }

  Inlines words() const {
    Inlines out;
    const Citation* before = nullptr;
    for (const Citation* citation : citations_) {
      // Two places in one source name it once.
      const bool same = before != nullptr && before->target == citation->target &&
                        before->id == citation->id && !citation->at.empty() && !before->at.empty() &&
                        before->says == records::Says::direct && citation->says == records::Says::direct;
      if (same) {
        put(out, " and " + std::string(citation->at));
      } else {
        if (!out.empty()) put(out, "; ");
        put(out, words_.citation(*citation, brief_));
      }
      before = citation;
    }
    for (std::string_view reason : judged_) {
      if (!out.empty()) put(out, "; ");
      put(out, "the author's judgement: " + std::string(reason));
    }
    if (out.empty()) put(out, "no source recorded");
    return out;
  }

 private:
  const Words& words_;
  bool brief_;
  std::vector<const Citation*> citations_;
  std::vector<std::string_view> judged_;
};

}  // namespace

namespace {

// The words of a name as it spells them, compounds as one: "Ledger-Standard". Its first word has a capital in any case: it
// counts only where the second has one too.
void spellings(std::string_view name, std::vector<std::string>& out) {
  const std::vector<std::string_view> words = base::split(name, ' ');
  const bool titled = words.size() < 2 || (!words[1].empty() && !base::isLower(words[1][0]));
  for (std::size_t i = titled ? 0 : 1; i < words.size(); ++i) {
    std::string_view word = words[i];
    while (!word.empty() && std::string_view(",.;:()").find(word.back()) != std::string_view::npos)
      word.remove_suffix(1);
    if (!word.empty() && word[0] == '(') word.remove_prefix(1);
    if (!word.empty()) out.emplace_back(word);
  }
}

// Whether a reader finds the word of an id in one of those words ("directories" in "Directories", "book" in "Books"), or
// it is the year.
bool inTitle(std::string_view word, std::vector<std::string> title, const PublishedRecord& source) {
  title.emplace_back(source.text("title"_f));
  for (const std::string& one : title) {
    const std::string folded = base::folded(one);
    for (std::size_t at = 0; at < folded.size();) {
      const std::string_view rest = std::string_view(folded).substr(at);
      if (rest.starts_with(word) &&
          (word.size() >= 3 || rest.size() == word.size() || rest[word.size()] == ' '))
        return true;
      const std::size_t next = folded.find_first_of("-/ ", at);
      if (next == std::string::npos) break;
      at = next + 1;
    }
  }
  const Value* date = source.find("date"_f);
  return word.size() == 4 && date != nullptr && date->text.find(word) != std::string_view::npos;
}

}  // namespace

std::string Words::shortName(RecordIndex source) const {
  const PublishedRecord record = materials_->records[source];
  std::string title = plainName(source);
  if (record.kind() != Kind::source) return title;
  std::vector<std::string> known;
  spellings(title, known);
  for (records::Field field : {"by"_f, "publisher"_f})
    if (const Value* made = record.find(field); made != nullptr && made->said())
      for (const Value& one : made->each()) spellings(plainSomebody(one.text), known);
  // The id, each run of its words as the longest of those names that is it.
  std::string_view rest = record.id();
  std::string words;
  while (!rest.empty()) {
    std::size_t length = 0;
    std::string best;
    for (const std::string& one : known) {
      const std::string folded = base::folded(one);
      const bool here =
          rest.starts_with(folded) && (rest.size() == folded.size() || rest[folded.size()] == '-');
      if (!here || folded.size() <= length) continue;
      length = folded.size();
      best = one;
    }
    if (length == 0) {
      // A word that neither the title nor a name has would make of it another source.
      if (!inTitle(std::string_view(rest).substr(0, rest.find('-')), known, record)) return title;
      length = std::min(rest.find('-'), rest.size());
      best = std::string(rest.substr(0, length));
    }
    words += (words.empty() ? "" : " ") + best;
    rest.remove_prefix(std::min(length + 1, rest.size()));
  }
  words = capitalised(std::move(words));
  return words.size() < title.size() ? words : title;
}

Inlines Words::citation(const Citation& citation, bool brief) const {
  Inlines out;
  if (citation.says == records::Says::notFound) put(out, "not found in ");
  if (citation.says == records::Says::indirect) put(out, "by inference from ");
  if (citation.kind == Kind::specimen) put(out, "a piece seen: ");
  if (citation.kind == Kind::photo) put(out, "a picture: ");
  if (citation.target == records::kNoRecord) {
    put(out, citation.id);
  } else {
    put(out, brief ? linked(citation.target, {text(shortName(citation.target))}) : name(citation.target));
  }
  if (!citation.at.empty()) put(out, ", " + std::string(citation.at));
  return out;
}

Inlines Words::citations(std::span<const Citation> cite) const {
  Gathered all(*this);
  all.add(cite);
  return all.words();
}

Inlines Words::evidence(const Value& value, const PublishedRecord& owner) const {
  Gathered all(*this);
  all.addAll(value);
  all.add(owner.evidence());
  return all.words();
}

Inlines Words::ownEvidence(const Value& value, bool brief) const {
  Gathered all(*this, brief);
  all.addAll(value);
  return all.empty() ? Inlines() : all.words();
}

Inlines Words::evidenceOfRecord(const PublishedRecord& record) const {
  Gathered all(*this);
  all.add(record.evidence());
  for (const Entry* entry : record.fields()) all.addAll(entry->value);
  return all.words();
}

namespace {

void addOwnOrAll(const PublishedRecord& record, Gathered& all) {
  all.add(record.evidence());
  if (!all.empty()) return;
  for (const Entry* entry : record.fields()) all.addAll(entry->value);
}

}  // namespace

Inlines Words::rowEvidence(const PublishedRecord& record, bool withStanding) const {
  Gathered all(*this, true);
  addOwnOrAll(record, all);
  Inlines out = all.words();
  if (!withStanding) return out;
  if (const std::string stands = standingOfSources(record); !stands.empty()) put(out, " (" + stands + ")");
  return out;
}

Inlines Words::recordEvidence(const PublishedRecord& record) const {
  Gathered all(*this);
  addOwnOrAll(record, all);
  return all.words();
}

}  // namespace saggar::compose
