#include <algorithm>
#include <set>

#include "base/text.h"
#include "compose/days.h"
#include "compose/entries.h"
#include "dates/print.h"
#include "records/rights.h"

// Pieces that were seen, pictures, look-alikes.
namespace saggar::compose {

using document::text;
using records::Value;
using records::ValueType;

// --- pieces

namespace {

// Who saw a piece need not be told of every piece in a guide by one who saw most of them.
bool isTheAuthor(const Words& words, std::string_view by) {
  const auto& authors = words.materials().records.settings().authors;
  return authors.size() == 1 && words.plainSomebody(by) == words.plainSomebody(authors[0]);
}

// What is read from a code that stands on a piece: in brackets behind the code, or as a clause after all of its readings.
struct CodeSaid {
  Inlines words;
  std::vector<std::string> after;
};

CodeSaid codeSaid(const Words& words, const PublishedRecord& record, const Value& value,
                  records::Field field) {
  CodeSaid out;
  std::vector<Inlines> readings;
  std::vector<Inlines> excluded;
  const auto each = value.each();
  for (const Value& one : each) {
    Inlines reading{text(std::string(one.text))};
    std::vector<Inlines> beside;
    std::string ruledOut;
    const std::size_t ruledOutBefore = out.after.size();
    for (const choosing::CodeOnRecord& code : words.materials().codes.of(record.index())) {
      if (code.field != field || code.value == nullptr) continue;
      if (code.value != &one && code.value->text != one.text) continue;
      std::string said = field == "date-code"_f ? words.readingsInWords(code) : std::string();
      if (said.empty() && code.applies && code.unlike != nullptr) said = asClause(*code.unlike);
      if (said.empty() && code.applies && code.readings.empty()) said = "nobody can read it yet";
      if (!said.empty()) beside.push_back({text(said)});
      if (!said.empty() || !code.applies || code.possibleCount() != 0) break;
      ruledOut = each.size() > 1 ? "the eye allows " + std::string(one.text) + " as well, but "
                                 : std::string("what it says is ruled out: ");
      const std::string because = words.whyRuledOut(code);
      ruledOut += because.empty() ? "it does not agree with what is recorded" : because;
      break;
    }
    for (Inlines& remark : words.remarks(one, records::specOf(Kind::specimen, field), record))
      beside.push_back(std::move(remark));
    if (!beside.empty()) {
      put(reading, " (");
      put(reading, separated(std::move(beside), "; "));
      put(reading, ")");
    }
    if (!ruledOut.empty()) out.after.push_back(std::move(ruledOut));
    (out.after.size() > ruledOutBefore ? excluded : readings).push_back(std::move(reading));
  }
  // Where another reading is left, one that is ruled out is none.
  out.words = listed(readings.empty() ? std::move(excluded) : std::move(readings), "or");
  if (value.type == ValueType::list)
    for (Inlines& remark : words.remarks(value, records::specOf(Kind::specimen, field), record)) {
      put(out.words, " (");
      put(out.words, std::move(remark));
      put(out.words, ")");
    }
  return out;
}

std::string whoHasIt(std::string_view holder) {
  const std::string words = holderInWords(holder);
  const std::string folded = base::folded(words);
  if (folded == "the author" || folded == "author") return "In the author's collection.";
  if (words.ends_with("collection")) return "In " + words + '.';
  return "Holder: " + words + (words.ends_with('.') ? "" : ".");
}

}  // namespace

Blocks whoSaw(Page& page, const std::vector<RecordIndex>& specimens) {
  auto seenByAuthor = [&](RecordIndex specimen) {
    const Value* seen = page.record(specimen).find("seen"_f);
    if (seen == nullptr || !seen->said()) return false;
    const auto each = seen->each();
    return std::any_of(each.begin(), each.end(), [&](const Value& one) {
      const Value* by = one.find("by"_f);
      return by != nullptr && by->said() && isTheAuthor(page.words(), by->text);
    });
  };
  // Nobody named at all would then be the author.
  auto nobodyNamed = [&](RecordIndex specimen) {
    const Value* seen = page.record(specimen).find("seen"_f);
    if (seen == nullptr || !seen->said()) return false;
    const auto each = seen->each();
    return std::any_of(each.begin(), each.end(),
                       [](const Value& one) { return one.find("by"_f) == nullptr; });
  };
  if (page.authorSaw || std::none_of(specimens.begin(), specimens.end(), seenByAuthor) ||
      std::any_of(specimens.begin(), specimens.end(), nobodyNamed))
    return {};
  page.authorSaw = true;
  return {document::paragraph({text("Seen by the author, where nobody else is named.")})};
}

Inlines specimenLine(Page& page, RecordIndex index) {
  const PublishedRecord record = page.record(index);
  const Words& words = page.words();
  Inlines out;
  if (std::string anchor = page.takeAnchor(index); !anchor.empty())
    out.push_back(document::anchorAt(std::move(anchor)));
  page.lists(index);
  std::vector<Inlines> parts;
  {
    Inlines name;
    if (const Value* form = record.find("form"_f)) {
      name = capitalised(words.value(form, nullptr, record));
    } else {
      put(name, "A piece");
    }
    if (record.find("treatment"_f) == nullptr) {
      const Value* shape = record.find("shape"_f);
      const bool here = shape != nullptr && shape->target() != records::kNoRecord &&
                        page.isHome(shape->target()) && words.remarks(*shape, nullptr, record).empty();
      if (shape != nullptr && !here) {  // where the shape is described, its pieces stand under it
        put(name, " of ");
        put(name, words.value(shape, nullptr, record));
      }
      if (const Value* motif = record.find("motif"_f)) {
        put(name, motif->type == ValueType::none ? " without a motif"
                  : motif->said()                ? " with "
                                                 : ", motif not known");
        if (motif->said()) put(name, words.value(motif, nullptr, record));
      }
    }
    parts.push_back(std::move(name));
  }
  auto codes = [&](records::Field field, std::string_view before) {
    const Value* value = record.find(field);
    if (value == nullptr) return;
    Inlines part;
    if (value->type == ValueType::none) {
      put(part, field == "code-seen"_f ? "no number" : "no date code");
    } else if (value->type == ValueType::unknown) {
      put(part, field == "code-seen"_f ? "number not known" : "date code not known");
    } else {
      put(part, before);
      CodeSaid said = codeSaid(words, record, *value, field);
      put(part, std::move(said.words));
      for (const std::string& clause : said.after) put(part, "; " + clause);
    }
    parts.push_back(std::move(part));
  };
  codes("code-seen"_f, "numbered ");
  if (const Value* marks = record.find("marks"_f); marks != nullptr) {
    Inlines part;
    std::vector<Inlines> names;
    for (const Value& one : marks->each()) {
      const Value* mark = one.type == ValueType::mapping ? one.find("mark"_f) : &one;
      if (mark == nullptr || mark->target() == records::kNoRecord) continue;
      Inlines name = words.name(mark->target());
      if (const Value* at = one.find("at"_f); at != nullptr && at->said())
        put(name, " " + std::string(at->text));
      names.push_back(std::move(name));
    }
    put(part, names.empty()       ? (marks->type == ValueType::unknown ? "mark not known" : "no mark")
              : names.size() == 1 ? "mark "
                                  : "marks ");
    put(part, listed(std::move(names)));
    parts.push_back(std::move(part));
  }
  codes("date-code"_f, "date code ");
  if (const Value* registered = record.find("registered"_f)) {
    Inlines part;
    put(part, "registered as ");
    put(part, words.value(registered, nullptr, record));
    parts.push_back(std::move(part));
  }
  if (const Value* made = record.find("made"_f)) {
    Inlines part;
    put(part, "made ");
    put(part, valueWithEvidence(page, record, *made, records::specOf(Kind::specimen, "made"_f)));
    parts.push_back(std::move(part));
  }
  if (Inlines days = daysOfMaking(words, record); !days.empty()) {
    Inlines part;
    put(part, "made ");
    put(part, std::move(days));
    parts.push_back(std::move(part));
  }
  if (const Value* look = record.find("look"_f)) parts.push_back(words.look(look));
  if (const Value* size = record.find("size"_f))
    parts.push_back(words.value(size, records::specOf(Kind::specimen, "size"_f), record));
  if (const std::string_view condition = record.text("condition"_f); !condition.empty())
    parts.push_back({text(std::string(condition))});
  put(out, separated(std::move(parts), "; "));
  out = sentence(std::move(out));
  if (const Value* seen = record.find("seen"_f); seen != nullptr && seen->said()) {
    std::vector<Inlines> times;
    for (const Value& one : seen->each()) {
      Inlines time;
      const Value* by = one.find("by"_f);
      const Value* on = one.find("on"_f);
      put(time, howSeenInWords(one));
      const bool named = by != nullptr && by->said() && !(page.authorSaw && isTheAuthor(words, by->text));
      if (named) put(time, " by " + words.plainSomebody(by->text));
      if (on != nullptr)
        put(time, on->date() == nullptr ? ", " + words.shortDate(on) : ' ' + dates::happened(*on->date()));
      times.push_back(std::move(time));
    }
    put(out, " ");
    put(out, sentence(capitalised(separated(std::move(times), "; "))));
  }
  if (const std::string_view holder = record.text("holder"_f); !holder.empty())
    put(out, ' ' + whoHasIt(holder));
  putRest(words, record, {"also"_f, "more"_f, "note"_f, "see"_f, "cite"_f}, out);
  return out;
}

// --- pictures

Inlines rightsInWords(std::string_view rights) {
  const auto known = records::readRights(rights);
  if (!known) return {text(std::string(rights))};
  if (known->address.empty()) return {text(known->words)};
  return {document::link({text(known->words)}, {.file = {}, .anchor = {}, .address = known->address})};
}

Block pictureBlock(Page& page, RecordIndex index) {
  const PublishedRecord record = page.record(index);
  Block block;
  block.kind = document::BlockKind::figure;
  block.anchor = page.takeAnchor(index);
  page.lists(index);
  page.uses(index);
  const std::string file(record.text("file"_f));
  block.target.make().address = file;
  page.picture(file);
  block.text = std::string(base::trimmed(record.text("alt"_f)));
  std::replace(block.text.begin(), block.text.end(), '\n', ' ');
  if (block.text.empty()) block.text = page.words().plainName(index);
  if (const Value* caption = record.find("caption"_f); caption != nullptr && caption->said()) {
    block.inlines = page.words().proseLine(record, *caption);
  } else {
    block.inlines = {text(page.words().plainName(index))};
  }
  block.inlines = sentence(std::move(block.inlines));
  if (const std::string_view credit = record.text("credit"_f); !credit.empty())
    put(block.inlines, " Picture: " + std::string(credit) + (credit.ends_with('.') ? "" : "."));
  putRest(page.words(), record, {"also"_f, "more"_f, "see"_f, "cite"_f}, block.inlines);
  return block;
}

Blocks picturesOf(Page& page, RecordIndex index) {
  std::vector<RecordIndex> photos;
  if (const Value* own = page.record(index).find("photo"_f); own != nullptr && own->said())
    for (const Value& one : own->each())
      if (one.target() != records::kNoRecord) photos.push_back(one.target());
  for (RecordIndex photo : referring(page, index, Kind::photo, "shows"_f))
    if (std::find(photos.begin(), photos.end(), photo) == photos.end()) photos.push_back(photo);
  Blocks out;
  for (RecordIndex photo : photos)
    if (!page.hasListed(photo)) out.push_back(pictureBlock(page, photo));
  return out;
}

// --- look-alikes

RecordIndex resembledIn(const Value& member) {
  for (records::Field field : {"shape"_f, "motif"_f, "treatment"_f})
    if (const Value* found = member.find(field)) return found->target();
  return records::kNoRecord;
}

std::vector<Pair> pairsOf(const Page& page, const std::vector<RecordIndex>& records) {
  std::vector<Pair> pairs;
  std::set<const Value*> taken;
  auto take = [&](RecordIndex from, RecordIndex wanted) {
    const Value* resembles = page.record(from).find("resembles"_f);
    if (resembles == nullptr || !resembles->said()) return;
    for (const Value& one : resembles->each()) {
      const RecordIndex other = resembledIn(one);
      if (other == records::kNoRecord || (wanted != records::kNoRecord && other != wanted)) continue;
      if (!taken.insert(&one).second) continue;
      // In a chapter of its own a record stands first.
      const bool turned = page.chapter().record == other;
      pairs.push_back({turned ? other : from, turned ? from : other, &one, from});
    }
  };
  for (RecordIndex record : records) {
    take(record, records::kNoRecord);
    for (const linking::BackReference& back : page.records().referredBy(record))
      if (back.field == "resembles"_f) take(back.from, record);
  }
  return pairs;
}

namespace {

// The plain values of a feature of a record; empty if it varies with time or is not recorded.
std::vector<std::string> featureOf(const PublishedRecord& record, std::string_view key) {
  std::vector<std::string> values;
  const Value* look = record.find("look"_f);
  if (look == nullptr || look->type != ValueType::mapping) return values;
  for (const records::Entry& entry : look->entries()) {
    if (entry.key != key) continue;
    for (const Value& one : entry.value.each()) {
      const Value* is = one.type == ValueType::mapping ? one.find("is"_f) : &one;
      if (is == nullptr) continue;
      for (const Value& word : is->each())
        if (word.said()) values.emplace_back(word.text);
    }
  }
  return values;
}

// "step" of "stepped", "loop" of "looped": enough to see that an author speaks of it.
std::string stemOf(std::string word) {
  if (word.find(' ') != std::string::npos || word.size() < 6 || !word.ends_with("ed")) return word;
  word.resize(word.size() - 2);
  if (word[word.size() - 1] == word[word.size() - 2]) word.pop_back();
  return word;
}

}  // namespace

const Value* tellOf(const Pair& pair) {
  const Value* tell = pair.said->find("tell"_f);
  return tell != nullptr && tell->said() ? tell : nullptr;
}

Inlines toldOf(const Page& page, const Pair& pair, bool other) {
  Inlines out;
  Inlines evidence = page.words().evidenceBeside(page.record(pair.sayer), *pair.said);
  if (const Value* tell = tellOf(pair)) {
    put(out, other ? ". " : ", whose entry says: ");
    put(out, sentenceWithNote(page.words().proseLine(page.record(pair.sayer), *tell), std::move(evidence)));
  } else {
    putInBrackets(out, std::move(evidence));
  }
  return out;
}

Inlines pairLine(const Page& page, const Pair& pair) {
  const PublishedRecord one = page.record(pair.one);
  const PublishedRecord other = page.record(pair.other);
  Inlines out{document::strong(page.words().name(pair.one))};
  const Value* tell = tellOf(pair);
  const std::string told = tell == nullptr ? std::string() : base::folded(tell->text);
  put(out, tell == nullptr ? " and " : ", taken for ");
  out.push_back(document::strong(page.words().name(pair.other)));
  put(out, toldOf(page, pair, pair.sayer == pair.one));
  if (tell == nullptr) out = sentence(std::move(out));
  std::vector<std::string> differences;
  const Value* look = one.find("look"_f);
  if (look != nullptr && look->type == ValueType::mapping)
    for (const records::Entry& entry : look->entries()) {
      const auto ours = featureOf(one, entry.key);
      const auto theirs = featureOf(other, entry.key);
      if (ours.empty() || theirs.empty()) continue;
      const bool common = std::any_of(ours.begin(), ours.end(), [&](const std::string& value) {
        return std::find(theirs.begin(), theirs.end(), value) != theirs.end();
      });
      if (common) continue;
      // What the author says in words is not said again.
      auto isTold = [&](const std::vector<std::string>& values) {
        return std::all_of(values.begin(), values.end(), [&](const std::string& value) {
          return !told.empty() && (told.find(base::folded(value)) != std::string::npos ||
                                   told.find(stemOf(base::folded(value))) != std::string::npos);
        });
      };
      if (isTold(ours) && isTold(theirs)) continue;
      const std::string name = entry.feature == records::kNoRecord ? std::string(entry.key)
                                                                   : page.words().plainFeature(entry.feature);
      differences.push_back(Words::featureInWords(name, ours) + " against " +
                            base::listedInWords(theirs, "or"));
    }
  if (!differences.empty())
    put(out,
        (told.empty() ? " On record: " : " On record as well: ") + base::joined(differences, "; ") + ".");
  return out;
}

}  // namespace saggar::compose
