#include <algorithm>

#include "base/text.h"
#include "compose/entries.h"

// Makers and people; features, talks and checklists.
namespace saggar::compose {

using document::text;
using records::Entry;
using records::Field;
using records::Value;

namespace {

void addReferring(const Page& page, const PublishedRecord& record, Kind kind, Field field,
                  std::string_view label, std::vector<Blocks>& items) {
  auto found = referring(page, record.index(), kind, field);
  if (kind != Kind::mark && kind != Kind::set) sortByDate(page, found);
  if (!found.empty()) items.push_back(labelled(label, namesOf(page, found, 30)));
}

void addEnd(Page& page, const PublishedRecord& record, std::vector<Blocks> items, Blocks& out) {
  if (auto names = namesFact(page, record)) items.insert(items.begin(), std::move(*names));
  if (auto sources = sourcesFact(page, record)) items.push_back(std::move(*sources));
  if (!items.empty()) out.push_back(document::list(std::move(items)));
  for (Block& block : noteOf(page, record)) out.push_back(std::move(block));
  for (Block& block : picturesOf(page, record.index())) out.push_back(std::move(block));
}

Block headingOf(const Page& page, const PublishedRecord& record) {
  return document::heading(page.level, {text(capitalised(page.words().plainName(record.index())))},
                           anchorOf(record));
}

void addWorks(const Page& page, const PublishedRecord& record, std::vector<Blocks>& items) {
  const Value* works = record.find("works"_f);
  if (works == nullptr || !works->said()) return;
  std::vector<Inlines> parts;
  for (const Value& one : works->each()) {
    Inlines part;
    const Value* name = one.find("name"_f);
    if (name == nullptr || !name->said()) name = one.find("works"_f);
    if (name != nullptr) put(part, name->text);
    if (const Value* used = one.find("used"_f)) put(part, ", " + page.words().shortDate(used));
    if (const Value* letter = one.find("letter"_f); letter != nullptr && letter->said())
      put(part, " (letter " + std::string(letter->text) + " in date codes)");
    putInBrackets(part, page.words().evidenceBeside(record, one));
    parts.push_back(std::move(part));
  }
  items.push_back(labelled("Works", separated(std::move(parts), "; ")));
}

void addTookOver(const Page& page, const PublishedRecord& record, std::vector<Blocks>& items) {
  const Value* taken = record.find("took-over"_f);
  if (taken == nullptr || !taken->said()) return;
  std::vector<Inlines> parts;
  for (const Value& one : taken->each()) {
    Inlines part;
    if (const Value* maker = one.find("maker"_f)) put(part, page.words().value(maker, nullptr, record));
    if (const Value* what = one.find("what"_f); what != nullptr && what->said())
      put(part, ", " + std::string(what->text));
    if (const Value* on = one.find("on"_f)) put(part, ", " + page.words().shortDate(on));
    parts.push_back(std::move(part));
  }
  Inlines words = separated(std::move(parts), "; ");
  putInBrackets(words, page.words().evidenceBeside(record, *taken));
  items.push_back(labelled("Took over", std::move(words)));
}

}  // namespace

Blocks makerEntry(Page& page, const PublishedRecord& record) {
  Blocks out{headingOf(page, record)};
  std::vector<Blocks> items = facts(page, record, {"works"_f, "took-over"_f, "see"_f});
  addWorks(page, record, items);
  addTookOver(page, record, items);
  for (RecordIndex other : referring(page, record.index(), Kind::maker, "took-over"_f))
    items.push_back(labelled("Taken over by", page.words().name(other)));
  addReferring(page, record, Kind::shape, "maker"_f, "Shapes", items);
  addReferring(page, record, Kind::motif, "supplier"_f, "Motifs supplied", items);
  addReferring(page, record, Kind::treatment, "for"_f, "Decorations made for it", items);
  addReferring(page, record, Kind::treatment, "decorated-by"_f, "Decorations put on by it", items);
  addReferring(page, record, Kind::set, "for"_f, "Sets", items);
  addReferring(page, record, Kind::mark, "maker"_f, "Marks", items);
  if (record.find("see"_f) != nullptr) items.push_back(fact(page, record, "see"_f));
  addEnd(page, record, std::move(items), out);
  return out;
}

Blocks personEntry(Page& page, const PublishedRecord& record) {
  Blocks out{headingOf(page, record)};
  std::vector<Blocks> items = facts(page, record, {"part"_f});
  addReferring(page, record, Kind::shape, "modeller"_f, "Modelled", items);
  addReferring(page, record, Kind::motif, "artist"_f, "Drew", items);
  std::vector<Inlines> written;
  for (RecordIndex source : page.records().ofKind(Kind::source)) {
    const Value* by = page.record(source).find("by"_f);
    if (by == nullptr || !by->said()) continue;
    const auto each = by->each();
    if (std::any_of(each.begin(), each.end(), [&](const Value& one) { return one.text == record.id(); }))
      written.push_back(page.words().name(source));
  }
  if (!written.empty()) items.push_back(labelled("Among the sources", listed(std::move(written))));
  if (const std::string_view part = record.text("part"_f); !part.empty())
    out.push_back(document::paragraph(sentence(capitalised(Inlines{text(std::string(part))}))));
  addEnd(page, record, std::move(items), out);
  return out;
}

Blocks featureEntry(Page& page, const PublishedRecord& record) {
  Blocks out{headingOf(page, record)};
  if (const std::string_view ask = record.text("ask"_f); !ask.empty())
    out.push_back(document::paragraph({text(std::string(ask))}));
  std::vector<Blocks> items;
  if (const Value* values = record.find("values"_f); values != nullptr && values->said()) {
    for (const Entry& entry : values->entries()) {
      const Value* is = entry.value.find("is"_f);
      Inlines words;
      put(words, is == nullptr ? std::string() : std::string(is->text));
      if (const Value* used = entry.value.find("used"_f))
        put(words, "; used " + page.words().shortDate(used));
      words = sentence(std::move(words));
      if (const Value* caution = entry.value.find("caution"_f); caution != nullptr && caution->said()) {
        put(words, " ");
        words.push_back(document::emphasis(sentence({text(std::string(caution->text))})));
      }
      items.push_back(labelled(capitalised(std::string(entry.key)), std::move(words)));
    }
  }
  std::vector<std::string> where;
  if (const Value* of = record.find("of"_f); of != nullptr && of->said())
    for (const Value& one : of->each()) {
      const auto kind = records::kindNamed(one.text);
      where.emplace_back(kind ? kindInWords(*kind, true) : std::string(one.text));
    }
  std::string line;
  if (!where.empty()) line = "To be looked for on " + base::listedInWords(where);
  constexpr std::string_view kEffort[] = {"",
                                          "seen at a glance",
                                          "seen when the piece is turned in the hand",
                                          "wants a careful look, or a cover",
                                          "wants measuring or a close look",
                                          "wants a lens or a lamp"};
  if (const Value* effort = record.find("effort"_f);
      effort != nullptr && effort->number() >= 1 && effort->number() <= 5)
    line += (line.empty() ? "" : "; ") + std::string(kEffort[effort->number()]);
  if (const Value* maker = record.find("maker"_f))
    line += (line.empty() ? "" : "; ") + std::string("of use on the ware of ") +
            page.words().plainValue(maker, nullptr, record);
  if (!items.empty()) out.push_back(document::list(std::move(items)));
  if (!line.empty()) out.push_back(document::paragraph(sentence(capitalised(Inlines{text(line)}))));
  std::vector<Blocks> rest = facts(page, record, {"of"_f, "maker"_f, "ask"_f, "values"_f, "effort"_f});
  addEnd(page, record, std::move(rest), out);
  return out;
}

Blocks talkEntry(Page& page, const PublishedRecord& record) {
  Blocks out{headingOf(page, record)};
  std::vector<Blocks> items;
  if (const Value* series = record.find("series"_f)) {
    std::string words(series->text);
    const bool id = words.find(' ') == std::string::npos &&
                    std::none_of(words.begin(), words.end(), [](char c) { return base::isUpper(c); });
    for (std::size_t i = 0; id && i < words.size(); ++i) {  // typed as an id: "reading-tollivane"
      if (words[i] == '-') words[i] = ' ';
      if ((i == 0 || words[i - 1] == ' ') && base::isLower(words[i]))
        words[i] = static_cast<char>(words[i] - 'a' + 'A');
    }
    if (const Value* number = record.find("number"_f)) words += ", no. " + std::to_string(number->number());
    items.push_back(labelled("Series", {text(words)}));
  } else if (record.find("number"_f) != nullptr) {
    items.push_back(fact(page, record, "number"_f));
  }
  if (const Value* budget = record.find("budget"_f)) {
    std::string words(budget->text);
    if (budget->number() > 0 && budget->number() % 60 == 0)
      words = countedInWords(static_cast<std::size_t>(budget->number() / 60), "minute", "minutes");
    items.push_back(labelled("Length", {text(std::move(words))}));
  }
  if (const Value* segments = record.find("segments"_f); segments != nullptr && segments->said()) {
    std::vector<std::string> titles;
    for (const Value& one : segments->each())
      if (const Value* title = one.find("title"_f)) titles.emplace_back(title->text);
    items.push_back(labelled("Parts", {text(base::joined(titles, "; "))}));
  }
  if (const Value* link = record.find("link"_f); link != nullptr && link->said())
    items.push_back(labelled(
        "Where to see it", {document::link({text(std::string(link->text))},
                                           {.file = {}, .anchor = {}, .address = std::string(link->text)})}));
  for (Blocks& one :
       facts(page, record,
             {"series"_f, "number"_f, "budget"_f, "segments"_f, "pace"_f, "transcript"_f, "link"_f}))
    items.push_back(std::move(one));
  addEnd(page, record, std::move(items), out);
  return out;
}

Blocks checklistEntry(Page& page, const PublishedRecord& record) {
  Blocks out{headingOf(page, record)};
  Inlines line;
  const auto kind = records::kindNamed(record.text("show"_f));
  put(line, "A list to print and tick");
  if (kind) put(line, ", of " + kindInWords(*kind, true));
  put(line, ": ");
  line.push_back(document::code("checklists/" + std::string(record.id()) + ".pdf"));
  put(line, ".");
  out.push_back(document::paragraph(std::move(line)));
  addEnd(page, record,
         facts(page, record,
               {"show"_f, "where"_f, "sure"_f, "grouped"_f, "in-order-of"_f, "columns"_f, "layout"_f}),
         out);
  return out;
}

}  // namespace saggar::compose
