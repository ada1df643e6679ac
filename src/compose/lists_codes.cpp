#include <algorithm>
#include <map>
#include <memory>
#include <set>

#include "base/text.h"
#include "compose/lists.h"
#include "compose/numbers.h"

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
    Inlines evidence = page.words().evidenceBeside(maker, rule);
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

// Every number of a list once, in order, with what bears it; and what has none.
struct Numbers {
  std::vector<std::string_view> codes;
  std::vector<std::size_t> begins;  // of each code's holders; one more at the end
  std::vector<Holder> holders;
  std::vector<RecordIndex> without;
  std::vector<RecordIndex> unknown;
  std::vector<RecordIndex> unrecorded;
};

Numbers numbersOf(const Page& page, const std::vector<Chosen>& chosen) {
  Numbers out;
  std::vector<std::pair<std::string_view, Holder>> all;
  for (const Chosen& one : chosen) {
    const Value* code = page.record(one.record).find("code"_f);
    if (code == nullptr || !code->said()) {
      (code == nullptr                 ? out.unrecorded
       : code->type == ValueType::none ? out.without
                                       : out.unknown)
          .push_back(one.record);
      continue;
    }
    for (const Value& each : code->each())
      if (each.type == ValueType::text)
        all.push_back({each.text, {one.record, readingOf(page, one.record, each), one.sure}});
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const auto& a, const auto& b) { return choosing::codeBefore(a.first, b.first); });
  out.holders.reserve(all.size());
  for (const auto& [code, holder] : all) {
    if (out.codes.empty() || out.codes.back() != code) {
      out.codes.push_back(code);
      out.begins.push_back(out.holders.size());
    }
    out.holders.push_back(holder);
  }
  out.begins.push_back(out.holders.size());
  return out;
}

// Who bears a number, in the words of a table of numbers.
std::string nameBeside(const Page& page, RecordIndex holder) {
  const PublishedRecord record = page.record(holder);
  const Value* motif = record.find("motif"_f);
  const Value* shape = record.find("shape"_f);
  std::string name(record.text("name"_f));
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
  return name.empty() ? page.words().plainName(holder) : name;
}

Block tableOfNumbers(Page& page, const Numbers& numbers, std::size_t begin, std::size_t end) {
  document::Table table = tableOf({"Number", "What it says", "Stands on", "Sources"});
  for (std::size_t i = begin; i < end; ++i) {
    std::vector<Inlines> names;
    std::string said;
    std::string unread;
    Inlines evidence;
    std::set<std::string> sources;
    for (std::size_t at = numbers.begins[i]; at < numbers.begins[i + 1]; ++at) {
      const Holder& holder = numbers.holders[at];
      page.lists(holder.record);
      page.uses(holder.record);
      names.push_back(
          listedName(page, {holder.record, holder.sure}, {text(nameBeside(page, holder.record))}));
      const std::string reading =
          holder.read == nullptr ? std::string() : page.words().readingsInWords(*holder.read);
      if (reading.empty() && unread.empty() && holder.read != nullptr) unread = whyNotRead(*holder.read);
      if (!reading.empty() && said.find(reading) == std::string::npos)
        said += (said.empty() ? "" : "; or ") + reading;
      Inlines own = page.words().rowEvidence(page.record(holder.record));
      if (!sources.insert(document::plainText(own)).second) continue;
      if (!evidence.empty()) put(evidence, "; ");
      put(evidence, std::move(own));
    }
    if (said.empty()) said = unread.empty() ? "no rule for it is recorded" : unread;
    addRow(table, {{text(std::string(numbers.codes[i]))},
                   {text(std::move(said))},
                   separated(std::move(names), "; "),
                   std::move(evidence)});
  }
  return document::table(std::move(table));
}

// On a page of its own a part of a long list has a heading for each prefix.
Blocks tablesByPrefix(Page& page, const Numbers& numbers, const NumberPart& part) {
  Blocks out;
  for (std::size_t begin = part.begin; begin < part.end;) {
    const std::string_view prefix = prefixOf(numbers.codes[begin]);
    std::size_t end = begin + 1;
    while (end < part.end && prefixOf(numbers.codes[end]) == prefix) ++end;
    if (end - begin < part.end - part.begin)
      out.push_back(document::heading(
          2, {text(prefix.empty() ? std::string("Without a prefix") : std::string(prefix))}));
    out.push_back(tableOfNumbers(page, numbers, begin, end));
    begin = end;
  }
  return out;
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
  Numbers numbers = numbersOf(page, listing.chosen);
  const std::vector<NumberPart> parts =
      listing.chapter ? partsOf(numbers.codes) : std::vector<NumberPart>{{0, numbers.codes.size(), {}}};
  std::set<std::string> known;
  if (listing.chapter)
    for (std::string_view code : numbers.codes) known.insert(base::folded(code));
  Blocks made;
  if (parts.size() > 1) {
    std::string words = countedInWords(numbers.codes.size(), "number", "numbers") +
                        " are too many for one page. They stand on pages of their own:";
    made = cutIntoFiles(
        page, parts, std::move(words),
        [numbers = std::make_shared<const Numbers>(numbers)](Page& part, const NumberPart& which) {
          return tablesByPrefix(part, *numbers, which);
        });
  } else if (!numbers.codes.empty()) {
    made.push_back(tableOfNumbers(page, numbers, 0, numbers.codes.size()));
  }
  for (Block& block : made) out.push_back(std::move(block));
  std::vector<Blocks> rest;
  if (!numbers.without.empty())
    rest.push_back(labelled("Without a number", namesOf(page, numbers.without, 30)));
  if (!numbers.unknown.empty())
    rest.push_back(labelled("Number not known", namesOf(page, numbers.unknown, 30)));
  if (!numbers.unrecorded.empty())
    rest.push_back(labelled("Number not recorded", namesOf(page, numbers.unrecorded, 30)));
  if (!rest.empty()) out.push_back(document::list(std::move(rest)));
  if (listing.chapter) addSeenOnly(page, known, out);
  return out;
}

}  // namespace saggar::compose
