#include <algorithm>
#include <set>

#include "base/text.h"
#include "compose/entries.h"

// Pieces that were seen, pictures, look-alikes.
namespace saggar::compose {

using document::text;
using records::Value;
using records::ValueType;

// --- pieces

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
      if (const Value* shape = record.find("shape"_f)) {
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
      if (value->type == ValueType::list) {  // the readings that the eye allows
        std::vector<Inlines> readings;
        for (const Value& one : value->each()) readings.push_back(words.value(&one, nullptr, record));
        put(part, listed(std::move(readings), "or"));
      } else {
        put(part, words.value(value, records::specOf(Kind::specimen, field), record));
      }
      std::vector<std::string> readings;
      for (const choosing::CodeOnRecord& code : words.materials().codes.of(index)) {
        if (code.field != field) continue;
        std::string said = words.readingsInWords(code);
        if (field != "date-code"_f) said.clear();
        if (said.empty() && code.applies && code.readings.empty()) said = "not read by any rule";
        if (said.empty() && code.applies && code.possibleCount() == 0) said = "ruled out";
        if (!said.empty())
          readings.push_back(
              (value->each().size() > 1 ? std::string(code.value->text) + ": " : std::string()) + said);
      }
      if (!readings.empty()) put(part, " (" + base::joined(readings, "; ") + ")");
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
      const Value* how = one.find("how"_f);
      const Value* by = one.find("by"_f);
      const Value* on = one.find("on"_f);
      put(time, how == nullptr || how->text == "in-hand" ? "seen in hand"
                : how->text == "photograph"              ? "seen in a photograph"
                                                         : "reported");
      if (by != nullptr && by->said()) put(time, " by " + words.plainSomebody(by->text));
      if (on != nullptr) put(time, ", " + words.shortDate(on));
      times.push_back(std::move(time));
    }
    put(out, " ");
    put(out, sentence(capitalised(separated(std::move(times), "; "))));
  }
  if (const std::string_view holder = record.text("holder"_f); !holder.empty())
    put(out, " Holder: " + std::string(holder) + ".");
  if (const Value* more = record.find("more"_f))
    for (const records::Entry& entry : more->entries()) {
      put(out, " " + capitalised(std::string(entry.key)) + ": ");
      put(out, sentence(words.value(&entry.value, nullptr, record)));
    }
  if (const Value* note = record.find("note"_f)) {
    put(out, " ");
    put(out, words.proseLine(record, *note));
  }
  if (const Value* see = record.find("see"_f)) {
    put(out, " See ");
    put(out, sentence(words.value(see, nullptr, record)));
  }
  return out;
}

// --- pictures

Inlines rightsInWords(std::string_view rights) {
  struct Known {
    std::string_view typed;
    std::string_view words;
    std::string_view address;
  };
  // RightsStatements.org and Creative Commons, by their published addresses.
  constexpr Known kKnown[] = {
      {"own", "the author's own picture", ""},
      {"in copyright", "in copyright", "http://rightsstatements.org/vocab/InC/1.0/"},
      {"public domain", "public domain", "https://creativecommons.org/publicdomain/mark/1.0/"},
      {"CC0", "CC0 1.0", "https://creativecommons.org/publicdomain/zero/1.0/"},
      {"CC0 1.0", "CC0 1.0", "https://creativecommons.org/publicdomain/zero/1.0/"},
      {"CC BY 4.0", "CC BY 4.0", "https://creativecommons.org/licenses/by/4.0/"},
      {"CC BY-SA 4.0", "CC BY-SA 4.0", "https://creativecommons.org/licenses/by-sa/4.0/"},
      {"CC BY-NC 4.0", "CC BY-NC 4.0", "https://creativecommons.org/licenses/by-nc/4.0/"},
      {"CC BY-ND 4.0", "CC BY-ND 4.0", "https://creativecommons.org/licenses/by-nd/4.0/"},
      {"CC BY-NC-SA 4.0", "CC BY-NC-SA 4.0", "https://creativecommons.org/licenses/by-nc-sa/4.0/"},
      {"CC BY-NC-ND 4.0", "CC BY-NC-ND 4.0", "https://creativecommons.org/licenses/by-nc-nd/4.0/"},
  };
  const std::string folded = base::folded(rights);
  for (const Known& one : kKnown) {
    if (base::folded(one.typed) != folded) continue;
    Inlines words{text(std::string(one.words))};
    if (one.address.empty()) return words;
    return {
        document::link(std::move(words), {.file = {}, .anchor = {}, .address = std::string(one.address)})};
  }
  if (rights.starts_with("http"))
    return {document::link({text(std::string(rights))},
                           {.file = {}, .anchor = {}, .address = std::string(rights)})};
  return {text(std::string(rights))};
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
    put(block.inlines, " Picture: " + std::string(credit) + ".");
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

std::vector<Pair> pairsOf(const Page& page, const std::vector<RecordIndex>& records) {
  std::vector<Pair> pairs;
  std::set<const Value*> taken;
  auto take = [&](RecordIndex from, RecordIndex wanted) {
    const Value* resembles = page.record(from).find("resembles"_f);
    if (resembles == nullptr || !resembles->said()) return;
    for (const Value& one : resembles->each()) {
      const Value* other = nullptr;
      for (records::Field field : {"shape"_f, "motif"_f, "treatment"_f})
        if (const Value* found = one.find(field)) other = found;
      if (other == nullptr || other->target() == records::kNoRecord) continue;
      if (wanted != records::kNoRecord && other->target() != wanted) continue;
      if (taken.insert(&one).second) pairs.push_back({from, other->target(), &one});
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

}  // namespace

Inlines pairLine(const Page& page, const Pair& pair) {
  const PublishedRecord one = page.record(pair.one);
  const PublishedRecord other = page.record(pair.other);
  Inlines out{document::strong(page.words().name(pair.one))};
  put(out, " and ");
  out.push_back(document::strong(page.words().name(pair.other)));
  if (const Value* tell = pair.said->find("tell"_f); tell != nullptr && tell->said()) {
    put(out, ". ");
    put(out, sentence(page.words().proseLine(one, *tell)));
  } else {
    put(out, ".");
  }
  if (Inlines evidence = page.words().ownEvidence(*pair.said); !evidence.empty()) {
    put(out, " (");
    put(out, std::move(evidence));
    put(out, ")");
  }
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
      const std::string name = entry.feature == records::kNoRecord ? std::string(entry.key)
                                                                   : page.words().plainFeature(entry.feature);
      differences.push_back(name + ' ' + base::listedInWords(ours, "or") + " against " +
                            base::listedInWords(theirs, "or"));
    }
  if (!differences.empty()) put(out, " On record: " + base::joined(differences, "; ") + ".");
  return out;
}

}  // namespace saggar::compose
