#include <algorithm>
#include <map>
#include <set>
#include <unordered_map>

#include "base/text.h"
#include "compose/lists.h"

// Numbers and codes: what each means and what it stands on.
namespace saggar::compose {

using choosing::Chosen;
using document::text;
using records::Entry;
using records::Value;
using records::ValueType;

namespace {

struct Holder {
  RecordIndex record = records::kNoRecord;
  const choosing::CodeOnRecord* read = nullptr;
  bool sure = true;
};

const choosing::CodeOnRecord* readingOf(const Page& page, RecordIndex record, const Value& value) {
  for (const choosing::CodeOnRecord& code : page.words().materials().codes.of(record))
    if (code.field == "code"_f && code.value == &value) return &code;
  return nullptr;
}

// "1601-1688" as "1601 to 1688".
std::string rangeInWords(std::string_view range) {
  std::string words(range);
  if (const std::size_t hyphen = words.find('-'); hyphen != std::string::npos)
    words.replace(hyphen, 1, " to ");
  return words;
}

// How the numbers of one maker are made up.
std::vector<Blocks> rulesOf(const Page& page, const PublishedRecord& maker) {
  std::vector<Blocks> items;
  const Value* rules = maker.find("codes"_f);
  if (rules == nullptr || !rules->said()) return items;
  for (const Value& rule : rules->each()) {
    const Value* name = rule.find("rule"_f);
    const Value* means = rule.find("means"_f);
    if (name == nullptr) continue;
    Inlines words;
    if (const Value* used = rule.find("used"_f)) put(words, page.words().shortDate(used) + ". ");
    if (means != nullptr && means->said()) {
      put(words, sentence(page.words().proseLine(maker, *means)));
    } else if (const Value* written = rule.find("written"_f); written != nullptr && written->said()) {
      put(words, "Written " + std::string(written->text) + ".");
    }
    if (const Value* missing = rule.find("missing"_f))
      for (const Entry& entry : missing->entries())
        put(words,
            (entry.key.find('-') == std::string_view::npos ? " No. " + std::string(entry.key) + " is"
                                                           : " Nos. " + rangeInWords(entry.key) + " are") +
                " missing: " + asClause(entry.value.text) + ".");
    if (const Value* alike = rule.find("alike"_f); alike != nullptr && alike->said()) {
      std::vector<std::string> signs;
      for (const Value& one : alike->each()) {
        std::vector<std::string> parts;
        for (std::string_view part : base::split(one.text, ' ')) parts.emplace_back(part);
        signs.push_back(base::listedInWords(parts));
      }
      put(words, " The eye confuses " + base::joined(signs, "; ") + ".");
    }
    Inlines evidence = page.words().ownEvidence(rule);
    if (evidence.empty()) evidence = page.words().recordEvidence(maker);
    words = sentenceWithNote(std::move(words), std::move(evidence));
    items.push_back(labelled(capitalised(std::string(name->text)), std::move(words)));
  }
  return items;
}

// What is said of a code that has no reading; empty if no rule asks for any.
std::string whyNotRead(const choosing::CodeOnRecord& code) {
  if (!code.applies) return {};
  if (code.unlike != nullptr) return asClause(*code.unlike);
  if (code.readings.empty()) return "nobody can read it yet";
  return "it can be read, but not so that it agrees with what is recorded";
}

// Codes seen on pieces that stand on no treatment on record.
void addSeenOnly(Page& page, const std::set<std::string>& known, Blocks& out) {
  std::map<std::string, std::vector<RecordIndex>, decltype(&choosing::codeBefore)> seen(
      &choosing::codeBefore);
  for (RecordIndex specimen : page.records().ofKind(Kind::specimen)) {
    const Value* code = page.record(specimen).find("code-seen"_f);
    if (code == nullptr || !code->said()) continue;
    for (const Value& one : code->each())
      if (one.type == ValueType::text && one.text.find('?') == std::string_view::npos &&
          !known.contains(base::folded(one.text)))
        seen[std::string(one.text)].push_back(specimen);
  }
  if (seen.empty()) return;
  std::vector<Blocks> items;
  for (const auto& [code, specimens] : seen) {
    Inlines words = namesOf(page, specimens, 12);
    for (const choosing::CodeOnRecord& read : page.words().materials().codes.of(specimens[0])) {
      if (read.field != "code-seen"_f || read.value == nullptr || read.value->text != code) continue;
      const std::string said = page.words().readingsInWords(read);
      put(words, said.empty() ? "; nobody can read it yet" : "; it can be read: " + said);
    }
    items.push_back(labelled(code, std::move(words)));
  }
  out.push_back(ownHeading(page, page.level, "Numbers seen that are in no list"));
  out.push_back(document::paragraph(
      {text("These stand on pieces that were seen, and belong to no decoration in this guide.")}));
  out.push_back(document::list(std::move(items)));
}

}  // namespace

Blocks codesList(Page& page, const Listing& listing) {
  Blocks out;
  const Published& records = page.records();
  if (listing.chapter) {
    for (RecordIndex maker : records.ofKind(Kind::maker)) {
      std::vector<Blocks> rules = rulesOf(page, page.record(maker));
      if (rules.empty()) continue;
      Inlines head{text("How the numbers of ")};
      put(head, page.words().name(maker));
      put(head, " are made up");
      out.push_back(document::heading(page.level, std::move(head)));
      out.push_back(document::list(std::move(rules)));
      page.uses(maker);
    }
    if (!out.empty()) out.push_back(ownHeading(page, page.level, "Every number"));
  }
  std::map<std::string, std::vector<Holder>, decltype(&choosing::codeBefore)> byCode(&choosing::codeBefore);
  std::set<std::string> known;
  std::vector<RecordIndex> without;
  std::vector<RecordIndex> unknown;
  std::vector<RecordIndex> unrecorded;
  for (const Chosen& one : listing.chosen) {
    const Value* code = page.record(one.record).find("code"_f);
    if (code == nullptr || !code->said()) {
      (code == nullptr                 ? unrecorded
       : code->type == ValueType::none ? without
                                       : unknown)
          .push_back(one.record);
      continue;
    }
    for (const Value& each : code->each()) {
      if (each.type != ValueType::text) continue;
      byCode[std::string(each.text)].push_back({one.record, readingOf(page, one.record, each), one.sure});
      known.insert(base::folded(each.text));
    }
  }
  if (!byCode.empty()) {
    document::Table table = tableOf({"Number", "What it says", "Stands on", "Sources"});
    for (const auto& [code, holders] : byCode) {
      std::vector<Inlines> names;
      std::string said;
      std::string unread;
      Inlines evidence;
      std::set<std::string> sources;
      for (const Holder& holder : holders) {
        page.lists(holder.record);
        page.uses(holder.record);
        const PublishedRecord record = page.record(holder.record);
        const Value* motif = record.find("motif"_f);
        const Value* shape = record.find("shape"_f);
        std::string name = record.text("name"_f).empty() ? std::string() : std::string(record.text("name"_f));
        if (name.empty()) {
          if (motif != nullptr && motif->target() != records::kNoRecord)
            name = page.words().plainName(motif->target());
          if (motif != nullptr && motif->type == ValueType::none) name = "no motif";
          if (shape != nullptr && shape->said())
            name += (name.empty()         ? "on "
                     : name == "no motif" ? ", on "
                                          : " on ") +
                    page.words().plainValue(shape, nullptr, record);
        }
        if (name.empty()) name = page.words().plainName(holder.record);
        names.push_back(listedName(page, {holder.record, holder.sure}, {text(std::move(name))}));
        const std::string reading =
            holder.read == nullptr ? std::string() : page.words().readingsInWords(*holder.read);
        if (reading.empty() && unread.empty() && holder.read != nullptr) unread = whyNotRead(*holder.read);
        if (!reading.empty() && said.find(reading) == std::string::npos)
          said += (said.empty() ? "" : "; or ") + reading;
        Inlines own = page.words().rowEvidence(record);
        if (!sources.insert(document::plainText(own)).second) continue;
        if (!evidence.empty()) put(evidence, "; ");
        put(evidence, std::move(own));
      }
      if (said.empty()) said = unread.empty() ? "no rule for it is recorded" : unread;
      addRow(table, {{text(code)}, {text(said)}, separated(std::move(names), "; "), std::move(evidence)});
    }
    out.push_back(document::table(std::move(table)));
  }
  std::vector<Blocks> rest;
  if (!without.empty()) rest.push_back(labelled("Without a number", namesOf(page, without, 30)));
  if (!unknown.empty()) rest.push_back(labelled("Number not known", namesOf(page, unknown, 30)));
  if (!unrecorded.empty()) rest.push_back(labelled("Number not recorded", namesOf(page, unrecorded, 30)));
  if (!rest.empty()) out.push_back(document::list(std::move(rest)));
  if (listing.chapter) addSeenOnly(page, known, out);
  return out;
}

}  // namespace saggar::compose
