#include "compose/claims.h"

#include <algorithm>
#include <array>

#include "compose/claim_tests.h"
#include "compose/phrases.h"

namespace saggar::compose {

using document::text;
using records::Value;

namespace {

Inlines struck(Inlines words) {
  Inline crossed;
  crossed.kind = document::InlineKind::struck;
  crossed.children = std::move(words);
  return {std::move(crossed)};
}

bool isWithdrawn(const PublishedRecord& claim) {
  return claim.text("status"_f) == "withdrawn";
}

enum class Which { editions, talks, all };

void addPlaces(const Words& words, const Value* stated, Which which, std::vector<std::string>& out) {
  if (stated == nullptr || !stated->said()) return;
  for (const Value& one : stated->each()) {
    std::string place;
    const Value* edition = one.find("edition"_f);
    const Value* talk = one.find("talk"_f);
    if (edition != nullptr && edition->said() && which != Which::talks) {
      place = editionNamed(words, edition->number());
    } else if (talk != nullptr && talk->target() != records::kNoRecord && which != Which::editions) {
      place = "the talk “" + words.plainName(talk->target()) + "”";
    } else {
      continue;
    }
    if (const Value* at = one.find("at"_f); at != nullptr && at->said()) {
      // Of a talk either a time or the title of a segment.
      const std::string_view typed = at->text;
      const bool title = talk != nullptr && typed.find_first_not_of("0123456789:.") != std::string_view::npos;
      place += title ? ", under “" + std::string(typed) + "”" : ", " + std::string(typed);
    }
    if (std::find(out.begin(), out.end(), place) == out.end()) out.push_back(std::move(place));
  }
}

// The claim's own `stated` names where the old words stood: it has no other claim that does, and old words of its own.
bool ownPlacesAreOld(const PublishedRecord& claim) {
  return claim.find("was"_f) != nullptr || (isWithdrawn(claim) && replacedClaims(claim).empty());
}

}  // namespace

Inlines lineOf(const Words& words, const PublishedRecord& owner, const Value& value) {
  return words.proseLine(owner, value);
}

std::vector<RecordIndex> replacedClaims(const PublishedRecord& claim) {
  std::vector<RecordIndex> out;
  if (const Value* replaces = claim.find("replaces"_f); replaces != nullptr && replaces->said())
    for (const Value& one : replaces->each())
      if (one.target() != records::kNoRecord && one.target() != claim.index()) out.push_back(one.target());
  return out;
}

std::vector<RecordIndex> replacedBy(const Published& records, RecordIndex claim) {
  std::vector<RecordIndex> out;
  for (const linking::BackReference& back : records.referredBy(claim))
    if (back.field == "replaces"_f && back.from != claim && records[back.from].kind() == Kind::claim)
      out.push_back(back.from);
  return out;
}

RecordIndex holdsNow(const Published& records, RecordIndex claim) {
  std::vector<RecordIndex> seen{claim};
  while (true) {
    const std::vector<RecordIndex> later = replacedBy(records, seen.back());
    if (later.empty()) break;
    if (std::find(seen.begin(), seen.end(), later.back()) != seen.end()) return records::kNoRecord;
    seen.push_back(later.back());
  }
  return seen.size() == 1 ? records::kNoRecord : seen.back();
}

bool corrects(const Published& records, const PublishedRecord& claim) {
  if (claim.find("change"_f) != nullptr || claim.find("was"_f) != nullptr || !replacedClaims(claim).empty())
    return true;
  return isWithdrawn(claim) && replacedBy(records, claim.index()).empty();
}

std::string changeInWords(const PublishedRecord& claim) {
  const std::string_view change = claim.text("change"_f);
  if (!change.empty()) return std::string(change);
  return isWithdrawn(claim) ? "withdrawal" : "correction";
}

std::vector<OldWords> oldWords(const Words& words, const PublishedRecord& claim) {
  std::vector<OldWords> out;
  for (RecordIndex index : replacedClaims(claim)) {
    const PublishedRecord old = words.materials().records[index];
    const Value* says = old.find("says"_f);
    if (says != nullptr && says->said()) out.push_back({index, struck(lineOf(words, old, *says))});
  }
  if (const Value* was = claim.find("was"_f); was != nullptr && was->said())
    out.push_back({claim.index(), struck(lineOf(words, claim, *was))});
  const Value* says = claim.find("says"_f);
  if (out.empty() && isWithdrawn(claim) && says != nullptr && says->said())
    out.push_back({claim.index(), struck(lineOf(words, claim, *says))});
  return out;
}

std::vector<std::string> oldPlaces(const Words& words, const PublishedRecord& claim) {
  std::vector<std::string> out;
  addPlaces(words, claim.find("belongs"_f), Which::all, out);
  for (RecordIndex old : replacedClaims(claim))
    addPlaces(words, words.materials().records[old].find("stated"_f), Which::all, out);
  if (ownPlacesAreOld(claim)) {
    // Where the claim says how it was mended, a talk that states it is one that states the new words.
    const bool withdrawn = isWithdrawn(claim);
    addPlaces(words, claim.find("stated"_f), withdrawn ? Which::all : Which::editions, out);
  }
  return out;
}

std::vector<std::string> newPlaces(const Words& words, const PublishedRecord& claim) {
  std::vector<std::string> out;
  if (isWithdrawn(claim)) return out;
  addPlaces(words, claim.find("stated"_f), ownPlacesAreOld(claim) ? Which::talks : Which::all, out);
  return out;
}

std::string editionInWords(std::int64_t number) {
  constexpr std::array<std::string_view, 11> kOrdinals = {
      "", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"};
  if (number > 0 && number < static_cast<std::int64_t>(kOrdinals.size()))
    return std::string(kOrdinals[static_cast<std::size_t>(number)]) + " edition";
  return "edition " + std::to_string(number);
}

std::string editionNamed(const Words& words, std::int64_t number) {
  const Published& records = words.materials().records;
  const records::Record* guide = records.guide();
  const Value* editions = guide == nullptr ? nullptr : guide->find("editions"_f);
  const Value* edition = editions == nullptr ? nullptr : editions->find(std::to_string(number));
  std::string title = records.settings().title;
  std::string date;
  if (edition != nullptr) {
    if (const Value* own = edition->find("title"_f); own != nullptr && own->said())
      title = std::string(own->text);
    if (const Value* when = edition->find("date"_f); when != nullptr && when->said())
      date = words.shortDate(when);
  }
  std::string out = editionInWords(number);
  if (!title.empty()) out = title + ", " + out;
  if (!date.empty()) out += " (" + date + ")";
  return out;
}

Inlines claimCitations(const Words& words, const PublishedRecord& claim, bool brief) {
  const Value* says = claim.find("says"_f);
  Inlines out;
  if (says != nullptr) out = words.ownEvidence(*says, brief);
  const records::Evidence* own = claim.evidence();
  if (own != nullptr && (!own->cite.empty() || !own->judged().empty())) {
    if (!out.empty()) put(out, "; ");
    put(out, brief ? words.rowEvidence(claim, false) : words.recordEvidence(claim));
  }
  if (out.empty() || says == nullptr) return out;
  const evidence::Weighed weighed = words.materials().weights.weigh(claim.index(), *says);
  if (weighed.standing <= evidence::Standing::suggested)
    put(out, "; " + std::string(evidence::inWords(weighed.standing)));
  return out;
}

Inlines claimEvidence(const Words& words, const PublishedRecord& claim, bool brief) {
  Inlines out = claimCitations(words, claim, brief);
  Inlines tested = out.empty() ? testAloneInWords(words, claim) : testInWords(words, claim.index());
  if (!out.empty() && !tested.empty()) put(out, "; ");
  put(out, std::move(tested));
  return out.empty() ? Inlines{text("no source recorded")} : out;
}

Inlines evidenceAgainst(const Words& words, const PublishedRecord& claim) {
  const Value* against = claim.find("against"_f);
  if (against == nullptr || against->evidence == nullptr || against->evidence->cite.empty()) return {};
  return words.citations(against->evidence->cite);
}

std::vector<RecordIndex> correctionsAbout(const Published& records, RecordIndex record) {
  std::vector<RecordIndex> out;
  for (const linking::BackReference& back : records.referredBy(record)) {
    if (back.field != "about"_f || records[back.from].kind() != Kind::claim) continue;
    if (corrects(records, records[back.from])) out.push_back(back.from);
  }
  return out;
}

}  // namespace saggar::compose
