#include <algorithm>
#include <set>

#include "base/text.h"
#include "compose/days.h"
#include "compose/entries.h"
#include "dates/print.h"
#include "evidence/seen.h"

// Shapes, motifs, treatments, pieces, sets and marks.
namespace saggar::compose {

using document::text;
using records::Field;
using records::Value;
using records::ValueType;

namespace {

// "brown or black"; empty where nothing is said, or that there is none.
std::string alternativesOf(const Page& page, const PublishedRecord& record, Field field) {
  const Value* value = record.find(field);
  if (value == nullptr || !value->said()) return {};
  std::vector<std::string> words;
  for (const Value& each : value->each())
    if (each.said()) words.push_back(page.words().plainValue(&each, nullptr, record));
  return base::listedInWords(words, "or");
}

}  // namespace

std::string howMarkWasMade(const Page& page, const PublishedRecord& mark) {
  std::string how = alternativesOf(page, mark, "method"_f);
  const std::string colour = alternativesOf(page, mark, "colour"_f);
  if (!colour.empty()) how += (how.empty() ? "in " : " in ") + colour;
  const std::string_view laid = mark.text("laid"_f);
  const std::string_view at = laid == "underglaze"  ? "under the glaze"
                              : laid == "overglaze" ? "over the glaze"
                                                    : laid;
  if (!at.empty()) how += (how.empty() ? "" : " ") + std::string(at);
  return how;
}

std::vector<RecordIndex> referring(const Page& page, RecordIndex record, Kind kind, Field field) {
  std::vector<RecordIndex> out;
  for (const linking::BackReference& back : page.records().referredBy(record))
    if (back.field == field && page.record(back.from).kind() == kind) out.push_back(back.from);
  return out;
}

void sortByDate(const Published& all, std::vector<RecordIndex>& records) {
  const dates::Options& options = all.settings().dates;
  auto first = [&](RecordIndex record) {
    const Value* value = all[record].find("introduced"_f);
    const bool dated = value != nullptr && value->date() != nullptr;
    return std::pair(!dated, dated ? value->date()->plain(options).latest : dates::Day::plusInfinity());
  };
  std::vector<std::pair<decltype(first(0)), RecordIndex>> keyed;
  for (RecordIndex record : records) keyed.emplace_back(first(record), record);
  std::stable_sort(keyed.begin(), keyed.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  for (std::size_t i = 0; i < records.size(); ++i) records[i] = keyed[i].second;
}

Inlines namesOf(const Words& words, const std::vector<RecordIndex>& records, std::size_t most) {
  std::vector<Inlines> parts;
  const std::size_t shown = records.size() > most + 1 ? most : records.size();
  for (std::size_t i = 0; i < shown; ++i) parts.push_back(words.name(records[i]));
  if (shown < records.size()) parts.push_back({text(base::counted(records.size() - shown, "more", "more"))});
  return listed(std::move(parts));
}

Blocks datesFact(const Page& page, const PublishedRecord& record) {
  const std::string label = record.kind() == Kind::motif ? "Used" : "Offered";
  const Value* from = record.find("introduced"_f);
  const Value* until = record.find("withdrawn"_f);
  // What is known all the same of a day that is not.
  auto beside = [&](Field field, std::string_view before, Inlines& out) {
    Inlines days = daysBeside(page.words(), record, field, Room::entry);
    if (days.empty()) return;
    put(out, out.empty() ? "" : "; ");
    put(out, before);
    put(out, std::move(days));
  };
  auto withDays = [&](std::string_view words) {
    Inlines out{text(std::string(words))};
    Inlines days;
    beside("introduced"_f, "first ", days);
    beside("withdrawn"_f, "last ", days);
    if (days.empty()) return out;
    put(out, " (");
    put(out, std::move(days));
    put(out, ")");
    return out;
  };
  if (from == nullptr && until == nullptr) return labelled(label, withDays("dates not recorded"));
  auto bare = [](const Value* value) {
    return value == nullptr || (!value->said() && value->evidence == nullptr);
  };
  if (bare(from) && bare(until)) return labelled(label, withDays("dates not known"));
  auto part = [&](const Value* value, Field field, std::string shown) {
    return withEvidence(page, record, *value, records::specOf(record.kind(), field),
                        {text(std::move(shown))});
  };
  Inlines words;
  const bool begun = from != nullptr && from->said();
  const bool ended = until != nullptr && until->said();
  const std::string first = begun ? page.words().beginning(*from) : std::string();
  if (begun && ended && from->date() != nullptr && until->date() != nullptr && first.starts_with("from ") &&
      first.substr(5) == page.words().ending(*until)) {
    // One year and no more: "in 1954".
    words = part(from, "introduced"_f, dates::happened(*from->date()));
    const Inlines evidence = page.words().ownEvidence(*until);
    const bool same = document::plainText(evidence) == document::plainText(page.words().ownEvidence(*from));
    if ((!evidence.empty() && !same) || !page.words().remarks(*until, nullptr, record).empty()) {
      put(words, "; last ");
      put(words, part(until, "withdrawn"_f, dates::happened(*until->date())));
    }
    return labelled(label, std::move(words));
  }
  if (begun) {
    put(words, part(from, "introduced"_f, first));
  } else {
    put(words, std::string("first year ") + (from == nullptr ? "not recorded" : "not known"));
    Inlines known = from == nullptr ? Inlines() : page.words().ownEvidence(*from);
    beside("introduced"_f, "", known);
    if (!known.empty()) {
      put(words, " (");
      put(words, std::move(known));
      put(words, ")");
    }
  }
  if (ended) {
    put(words, !begun ? "; until " : first.starts_with("from ") ? " to " : ", and until ");
    put(words, part(until, "withdrawn"_f, page.words().ending(*until)));
  } else {
    put(words, std::string("; last year ") + (until == nullptr ? "not recorded" : "not known"));
    Inlines known;
    beside("withdrawn"_f, "", known);
    if (!known.empty()) {
      put(words, " (");
      put(words, std::move(known));
      put(words, ")");
    }
  }
  return labelled(label, std::move(words));
}

Inlines howKnown(const Page& page, const PublishedRecord& record, const std::vector<RecordIndex>& specimens) {
  std::size_t inHand = 0;
  std::size_t pictured = 0;
  std::size_t reported = 0;
  for (RecordIndex one : specimens) {
    switch (evidence::bestSeen(page.record(one).find("seen"_f))) {
      case evidence::Seen::inHand: ++inHand; break;
      case evidence::Seen::pictured: ++pictured; break;
      case evidence::Seen::reported: ++reported; break;
      case evidence::Seen::notSeen: break;
    }
  }
  const auto fields = record.fields();
  const bool documented = (record.evidence() != nullptr && !record.evidence()->cite.empty()) ||
                          std::any_of(fields.begin(), fields.end(), [](const records::Entry* entry) {
                            return entry->value.evidence != nullptr && !entry->value.evidence->cite.empty();
                          });
  std::vector<std::string> parts;
  if (inHand != 0) parts.push_back(countedInWords(inHand, "piece", "pieces") + " in hand");
  if (pictured != 0 && parts.empty())
    parts.push_back(countedInWords(pictured, "piece in a photograph", "pieces in photographs"));
  else if (pictured != 0)
    parts.push_back(countedInWords(pictured, "in a photograph", "in photographs"));
  if (reported != 0 && parts.empty())
    parts.push_back((documented ? "documents, and " : "") +
                    countedInWords(reported, "piece that was reported", "pieces that were reported"));
  else if (reported != 0)
    parts.push_back(countedInWords(reported, "reported", "reported"));
  if (!parts.empty()) return {text(base::listedInWords(parts))};
  return {text(documented ? "documents only; no piece has been seen" : "neither a piece nor a document")};
}

namespace {

// "**Taken for:** …" of what the record itself says.
void addResembles(const Page& page, const PublishedRecord& record, std::vector<Blocks>& items) {
  for (const Pair& pair : pairsOf(page, {record.index()})) {
    const RecordIndex other = pair.one == record.index() ? pair.other : pair.one;
    Inlines words = page.words().name(other);
    put(words, toldOf(page, pair, pair.sayer == record.index()));
    items.push_back(labelled("Taken for", std::move(words)));
  }
}

void addEnd(Page& page, const PublishedRecord& record, std::vector<Blocks> items, Blocks& out) {
  if (auto names = namesFact(page, record)) items.insert(items.begin(), std::move(*names));
  if (auto sources = sourcesFact(page, record)) items.push_back(std::move(*sources));
  if (!items.empty()) out.push_back(document::list(std::move(items)));
  for (Block& block : noteOf(page, record)) out.push_back(std::move(block));
  for (Block& block : picturesOf(page, record.index())) out.push_back(std::move(block));
}

Inlines motifWords(const Page& page, const Value& value) {
  if (value.target() == records::kNoRecord) return page.words().value(&value, nullptr, page.record(0));
  const PublishedRecord motif = page.record(value.target());
  Inlines out = page.words().name(motif.index());
  const Value* supplier = motif.find("supplier"_f);
  const Value* number = motif.find("supplier-number"_f);
  const bool hasSupplier = supplier != nullptr && supplier->target() != records::kNoRecord;
  const bool hasNumber = number != nullptr && number->said();
  if (hasSupplier || hasNumber) {
    put(out, ", ");
    if (hasSupplier) put(out, page.words().name(supplier->target()));
    if (hasNumber)
      put(out, (hasSupplier ? " no. " : "supplier's no. ") + page.words().plainValue(number, nullptr, motif));
  }
  return out;
}

// Pieces with their sizes; by name alone where there are very many.
Inlines formsWords(const Page& page, const PublishedRecord& record, const Value& forms) {
  std::vector<Inlines> parts;
  for (const Value& one : forms.each()) {
    if (one.target() == records::kNoRecord) continue;
    const PublishedRecord form = page.record(one.target());
    Inlines part = page.words().name(form.index());
    if (const Value* actual = form.find("actual"_f); actual != nullptr && actual->said()) {
      const records::FieldSpec* spec = records::specOf(Kind::form, "actual"_f);
      put(part, ", " + page.words().plainValue(actual, spec, form));
    }
    putInBrackets(part, page.words().evidenceBeside(record, one));
    parts.push_back(std::move(part));
  }
  if (parts.empty())
    return {text(forms.type == ValueType::none      ? "none"
                 : forms.type == ValueType::unknown ? "not known"
                                                    : "none recorded")};
  Inlines out = separated(std::move(parts), "; ");
  put(out, forms.evidence != nullptr && forms.evidence->complete() ? " (a complete list)" : "");
  if (forms.evidence != nullptr && !forms.evidence->cite.empty()) {
    put(out, " (");
    put(out, page.words().citations(forms.evidence->cite));
    put(out, ")");
  }
  return out;
}

Blocks treatmentEntry(Page& page, const PublishedRecord& record) {
  Blocks out{document::heading(page.level, {text(page.words().plainName(record.index()))}, anchorOf(record))};
  std::vector<Blocks> items;
  const Value* shape = record.find("shape"_f);
  const bool ownChapter = shape != nullptr && shape->each().size() == 1 &&
                          page.chapter().record == shape->target() && shape->evidence == nullptr;
  if (!ownChapter) items.push_back(fact(page, record, "shape"_f));
  if (const Value* motif = record.find("motif"_f); motif != nullptr) {
    Inlines words = motifWords(page, *motif);
    putInBrackets(words, page.words().evidenceBeside(record, *motif));
    items.push_back(labelled("Motif", std::move(words)));
  } else {
    items.push_back(labelled("Motif", {text("not recorded")}));
  }
  Inlines readings = page.words().codeReadings(record.index());
  if (readings.empty()) {
    items.push_back(fact(page, record, "code"_f));
  } else {
    putInBrackets(readings, page.words().evidenceBeside(record, *record.find("code"_f)));
    items.push_back(labelled("Number", std::move(readings)));
  }
  items.push_back(fact(page, record, "look"_f));
  items.push_back(datesFact(page, record));
  const Value* forms = record.find("forms"_f);
  items.push_back(labelled(
      "Pieces", forms == nullptr ? Inlines{text("not recorded")} : formsWords(page, record, *forms)));
  const std::vector<RecordIndex> specimens = referring(page, record.index(), Kind::specimen, "treatment"_f);
  items.push_back(labelled("Known from", howKnown(page, record, specimens)));
  for (Blocks& one : facts(page, record,
                           {"shape"_f, "motif"_f, "code"_f, "look"_f, "introduced"_f, "withdrawn"_f,
                            "forms"_f, "resembles"_f, "status"_f}))
    items.push_back(std::move(one));
  if (std::string status = statusInWords(record.text("status"_f)); !status.empty())
    items.push_back(labelled("Status", {text(std::move(status))}));
  if (const auto later = referring(page, record.index(), Kind::treatment, "continues"_f); !later.empty())
    items.push_back(labelled("Continued as", namesOf(page, later)));
  addResembles(page, record, items);
  addEnd(page, record, std::move(items), out);
  for (RecordIndex specimen : specimens)
    for (Block& block : picturesOf(page, specimen)) out.push_back(std::move(block));
  return out;
}

Blocks shapeEntry(Page& page, const PublishedRecord& record) {
  Blocks out{document::heading(page.level, {text(page.words().plainName(record.index()))}, anchorOf(record))};
  std::vector<Blocks> items;
  items.push_back(fact(page, record, "maker"_f));
  items.push_back(datesFact(page, record));
  for (Blocks& one :
       facts(page, record, {"maker"_f, "introduced"_f, "withdrawn"_f, "resembles"_f, "forms"_f}))
    items.push_back(std::move(one));
  if (const Value* forms = record.find("forms"_f))
    items.push_back(labelled("Pieces", formsWords(page, record, *forms)));
  if (const auto marks = referring(page, record.index(), Kind::mark, "shapes"_f); !marks.empty())
    items.push_back(labelled("Marks seen", namesOf(page, marks)));
  addResembles(page, record, items);
  addEnd(page, record, std::move(items), out);
  return out;
}

Blocks motifEntry(Page& page, const PublishedRecord& record) {
  Blocks out{document::heading(page.level, {text(page.words().plainName(record.index()))}, anchorOf(record))};
  std::vector<Blocks> items;
  for (Blocks& one :
       facts(page, record, {"introduced"_f, "withdrawn"_f, "resembles"_f, "named-by"_f, "look"_f}))
    items.push_back(std::move(one));
  if (const Value* look = record.find("look"_f); look != nullptr)
    for (const auto& [feature, words] : page.words().lookByFeature(*look))
      items.push_back(labelled(capitalised(feature), {text(words)}));
  if (const Value* named = record.find("named-by"_f); named != nullptr && named->said()) {
    const std::string by(named->text);
    items.push_back(
        labelled("Name given by", {text(by == "author"       ? "the author of this guide, as a description"
                                        : by == "misreading" ? "a misreading"
                                        : by == "misheard"   ? "mishearing"
                                        : by == "collectors" ? by
                                                             : "the " + by)}));
  }
  items.push_back(datesFact(page, record));
  auto treatments = referring(page, record.index(), Kind::treatment, "motif"_f);
  sortByDate(page, treatments);
  items.push_back(labelled("Found on", treatments.empty() ? Inlines{text("no decoration recorded")}
                                                          : namesOf(page, treatments, 40)));
  addResembles(page, record, items);
  addEnd(page, record, std::move(items), out);
  return out;
}

Blocks setEntry(Page& page, const PublishedRecord& record) {
  Blocks out{document::heading(page.level, {text(page.words().plainName(record.index()))}, anchorOf(record))};
  std::vector<Blocks> items = facts(page, record, {"pieces"_f});
  if (const Value* pieces = record.find("pieces"_f); pieces != nullptr && pieces->said()) {
    // What all pieces are of is said once.
    const auto each = pieces->each();
    const Value* common = each.size() < 2 ? nullptr : each[0].find("of"_f);
    for (const Value& one : each)
      if (const Value* of = one.find("of"_f);
          of == nullptr || common == nullptr || of->target() != common->target() || of->evidence != nullptr)
        common = nullptr;
    std::vector<Inlines> parts;
    for (const Value& one : pieces->each()) {
      Inlines part;
      if (const Value* many = one.find("how-many"_f)) put(part, std::to_string(many->number()) + " × ");
      if (const Value* form = one.find("form"_f)) put(part, page.words().value(form, nullptr, record));
      if (const Value* of = one.find("of"_f); of != nullptr && common == nullptr) {
        put(part, ", ");
        put(part, page.words().value(of, nullptr, record));
      }
      parts.push_back(std::move(part));
    }
    Inlines words = separated(std::move(parts), "; ");
    if (common != nullptr) {
      put(words, "; all of ");
      put(words, page.words().value(common, nullptr, record));
    }
    putInBrackets(words, page.words().evidenceBeside(record, *pieces));
    items.push_back(labelled("Pieces", std::move(words)));
  }
  addEnd(page, record, std::move(items), out);
  return out;
}

Blocks plainEntry(Page& page, const PublishedRecord& record, std::vector<Blocks> more = {}) {
  Blocks out{document::heading(page.level, capitalised(Inlines{text(page.words().plainName(record.index()))}),
                               anchorOf(record))};
  std::vector<Blocks> items = facts(page, record);
  for (Blocks& one : more) items.push_back(std::move(one));
  addEnd(page, record, std::move(items), out);
  return out;
}

// The fields that together say how a mark was made; one with evidence or a doubt of its own is told by itself.
bool isMadeInOne(const Page& page, const PublishedRecord& mark) {
  for (Field field : {"method"_f, "laid"_f, "colour"_f})
    if (const Value* value = mark.find(field);
        value != nullptr &&
        (!value->said() || value->evidence != nullptr || !page.words().ownEvidence(*value).empty()))
      return false;
  return true;
}

Blocks markEntry(Page& page, const PublishedRecord& record) {
  std::vector<Blocks> more;
  std::set<RecordIndex> seenOn;
  for (const linking::BackReference& back : page.records().referredBy(record.index()))
    if (back.field == "marks"_f && page.record(back.from).kind() == Kind::specimen) seenOn.insert(back.from);
  more.push_back(labelled("Seen on", {text(seenOn.empty() ? std::string("no piece in this guide")
                                                          : countedInWords(seenOn.size(), "piece", "pieces") +
                                                                " in this guide")}));
  Blocks out{document::heading(page.level, {text(page.words().plainName(record.index()))}, anchorOf(record))};
  const std::string how = howMarkWasMade(page, record);
  std::vector<Blocks> items;
  if (isMadeInOne(page, record) && !how.empty()) {
    for (Blocks& one : facts(page, record, {"shapes"_f, "method"_f, "laid"_f, "colour"_f}))
      items.push_back(std::move(one));
    items.insert(items.begin() + (record.find("maker"_f) == nullptr ? 0 : 1),
                 labelled("How it was made", {text(how)}));
  } else {
    items = facts(page, record, {"shapes"_f});
  }
  if (const Value* shapes = record.find("shapes"_f))
    items.push_back(labelled(
        "Shapes", valueWithEvidence(page, record, *shapes, records::specOf(Kind::mark, "shapes"_f))));
  for (Blocks& one : more) items.push_back(std::move(one));
  addEnd(page, record, std::move(items), out);
  return out;
}

}  // namespace

// entries_people.cpp and entries_words.cpp
Blocks makerEntry(Page& page, const PublishedRecord& record);
Blocks personEntry(Page& page, const PublishedRecord& record);
Blocks featureEntry(Page& page, const PublishedRecord& record);
Blocks talkEntry(Page& page, const PublishedRecord& record);
Blocks checklistEntry(Page& page, const PublishedRecord& record);

Blocks entryOf(Page& page, RecordIndex index) {
  if (!page.wants(index)) return {};
  const PublishedRecord record = page.record(index);
  switch (record.kind()) {
    case Kind::question: return questionBlocks(page, index);
    case Kind::term: return {termBlock(page, index)};
    case Kind::photo: return {pictureBlock(page, index)};
    case Kind::specimen: return {document::list({item(specimenLine(page, index))})};
    case Kind::claim: return {document::list({item(claimLine(page, index))})};
    default: break;
  }
  page.takeAnchor(index);
  page.lists(index);
  switch (record.kind()) {
    case Kind::treatment: return treatmentEntry(page, record);
    case Kind::shape: return shapeEntry(page, record);
    case Kind::motif: return motifEntry(page, record);
    case Kind::set: return setEntry(page, record);
    case Kind::mark: return markEntry(page, record);
    case Kind::maker: return makerEntry(page, record);
    case Kind::person: return personEntry(page, record);
    case Kind::feature: return featureEntry(page, record);
    case Kind::talk: return talkEntry(page, record);
    case Kind::checklist: return checklistEntry(page, record);
    default: return plainEntry(page, record);
  }
}

}  // namespace saggar::compose
