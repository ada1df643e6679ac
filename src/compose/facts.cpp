#include "compose/facts.h"

#include <algorithm>

#include "base/text.h"
#include "compose/corrections.h"
#include "compose/days.h"
#include "dates/length.h"

namespace saggar::compose {

using records::Entry;
using records::Field;
using records::FieldSpec;
using records::FieldType;
using records::Value;
using records::ValueType;

namespace {

struct Label {
  Field field;
  std::string_view label;
};

constexpr Label kLabels[] = {
    {"active"_f, "Traded"},
    {"actual"_f, "Measures"},
    {"artist"_f, "Artist"},
    {"carries"_f, "Carries"},
    {"code"_f, "Number"},
    {"code-seen"_f, "Number on it"},
    {"continues"_f, "Continues"},
    {"date-code"_f, "Date code"},
    {"decorated-by"_f, "Decorated by"},
    {"for"_f, "Made for"},
    {"forms"_f, "Pieces"},
    {"introduced"_f, "First offered"},
    {"look"_f, "Look"},
    {"made"_f, "Made"},
    {"made-in"_f, "Made in"},
    {"maker"_f, "Maker"},
    {"measured"_f, "Measured"},
    {"met"_f, "Met with"},
    {"method"_f, "How it was put on"},
    {"named-by"_f, "Name given by"},
    {"nominal"_f, "List size"},
    {"parts"_f, "Consists of"},
    {"prefix"_f, "Prefix in codes"},
    {"reads"_f, "Reads"},
    {"registered"_f, "Registered as"},
    {"resembles"_f, "Taken for"},
    {"see"_f, "See also"},
    {"shapes"_f, "Seen on"},
    {"shows"_f, "Shows"},
    {"supplier-number"_f, "Supplier's number"},
    {"took-over"_f, "Took over"},
    {"ware"_f, "Ware"},
    {"withdrawn"_f, "Last offered"},
    {"works"_f, "Works"},
};

// Said elsewhere in an entry, or of no use to a reader.
constexpr Field kElsewhere[] = {"name"_f,  "title"_f, "also"_f,   "note"_f,  "more"_f,
                                "photo"_f, "after"_f, "before"_f, "codes"_f, "see"_f};

Inlines relationInWords(const Page& page, const PublishedRecord& record, const Value& value) {
  std::vector<Inlines> parts;
  for (const Value& one : value.each()) {
    const Value* event = one.find("event"_f);
    if (event == nullptr || event->target() == records::kNoRecord) continue;
    Inlines part;
    const std::string_view field = event->eventFieldTyped ? event->eventField.name() : std::string_view();
    const bool end = field == "withdrawn" || field == "closed" || field == "died" || field.ends_with("until");
    put(part, end ? "the end of " : "");
    put(part, page.words().name(event->target()));
    if (const Value* within = one.find("within"_f))
      put(part, ", within " + dates::lengthInWords(within->text));
    if (const Value* least = one.find("at-least"_f))
      put(part, ", by at least " + dates::lengthInWords(least->text));
    if (&one != &value) putInBrackets(part, page.words().evidenceBeside(record, one));
    parts.push_back(std::move(part));
  }
  Inlines out = listed(std::move(parts));
  putInBrackets(out, page.words().evidenceBeside(record, value));
  return out;
}

bool isDated(FieldType type) {
  return type == FieldType::moment || type == FieldType::span;
}

Inlines besideIt(const Words& words, const PublishedRecord& record, const Value& value, const FieldSpec* spec,
                 Inlines out) {
  std::vector<Inlines> beside;
  if (Inlines evidence = words.ownEvidence(value); !evidence.empty()) beside.push_back(std::move(evidence));
  const bool whole = spec != nullptr && record.find(spec->field) == &value;
  for (Inlines& one : whole ? words.standingAndRemarks(record, *spec) : words.remarks(value, spec, record))
    beside.push_back(std::move(one));
  if (spec != nullptr && isDated(spec->type) && record.find(spec->field) == &value)
    if (Inlines days = daysBeside(words, record, spec->field, Room::entry); !days.empty())
      beside.push_back(std::move(days));
  if (!beside.empty()) {
    put(out, " (");
    put(out, separated(std::move(beside), "; "));
    put(out, ")");
  }
  if (value.evidence != nullptr && value.evidence->note() != nullptr) {
    put(out, ". ");
    put(out, words.proseLine(record, *value.evidence->note()));
  }
  return out;
}

// "A&T; the Tarn ware (the collectors' name)".
Inlines otherNames(const Words& words, const PublishedRecord& record) {
  const Value* also = record.find("also"_f);
  if (also == nullptr || !also->said()) return {};
  std::vector<Inlines> names;
  for (const Value& one : also->each()) {
    const Value* name = one.find("name"_f);
    if (name == nullptr || !name->said()) continue;
    Inlines part;
    put(part, name->text);
    std::vector<Inlines> notes;
    if (const Value* by = one.find("by"_f); by != nullptr && by->said()) {
      const bool slip = by->text == "misreading" || by->text == "misheard";
      notes.push_back(
          {document::text(slip                   ? (by->text == "misreading" ? "a misreading" : "misheard")
                          : by->text == "author" ? "the author's name for it"
                          : by->text == "collectors" ? "the collectors' name"
                                                     : "the " + std::string(by->text) + "'s name")});
    }
    if (Inlines evidence = words.ownEvidence(one); !evidence.empty()) notes.push_back(std::move(evidence));
    if (!notes.empty()) {
      put(part, " (");
      put(part, separated(std::move(notes), "; "));
      put(part, ")");
    }
    names.push_back(std::move(part));
  }
  return separated(std::move(names), "; ");
}

}  // namespace

std::string labelOf(Kind kind, Field field) {
  if (kind == Kind::person && field == "active"_f) return "Active";
  if (kind == Kind::motif && field == "introduced"_f) return "First used";
  if (kind == Kind::motif && field == "withdrawn"_f) return "Last used";
  if (kind == Kind::mark && field == "look"_f) return "Look";
  if (kind == Kind::treatment && field == "look"_f) return "Lines and glaze";
  for (const Label& one : kLabels)
    if (one.field == field) return std::string(one.label);
  std::string label(field.name());
  std::replace(label.begin(), label.end(), '-', ' ');
  return capitalised(std::move(label));
}

Inlines withEvidence(const Page& page, const PublishedRecord& record, const Value& value,
                     const FieldSpec* spec, Inlines words) {
  return besideIt(page.words(), record, value, spec, std::move(words));
}

Inlines valueWithEvidence(const Page& page, const PublishedRecord& record, const Value& value,
                          const FieldSpec* spec) {
  return withEvidence(page, record, value, spec, page.words().bareValue(&value, spec, record));
}

Blocks fact(const Page& page, const PublishedRecord& record, Field field, std::string_view label) {
  const std::string words = label.empty() ? labelOf(record.kind(), field) : std::string(label);
  const Value* value = record.find(field);
  if (value == nullptr) return labelled(words, {document::text("not recorded")});
  if (field == "holder"_f && value->said())
    return labelled(words, withEvidence(page, record, *value, records::specOf(record.kind(), field),
                                        {document::text(holderInWords(value->text))}));
  if (field == "carries"_f && value->said())
    return labelled(words, withEvidence(page, record, *value, records::specOf(record.kind(), field),
                                        {document::text(withArticle(std::string(value->text)))}));
  return labelled(words, valueWithEvidence(page, record, *value, records::specOf(record.kind(), field)));
}

std::vector<Blocks> facts(const Page& page, const PublishedRecord& record, std::initializer_list<Field> but) {
  std::vector<Blocks> items;
  const Value* more = nullptr;
  for (const FieldSpec* spec : records::fieldsOf(record.kind())) {
    const Field field = spec->field;
    if (std::find(but.begin(), but.end(), field) != but.end()) continue;
    const Value* value = record.find(field);
    if (value == nullptr) continue;
    if (field == "more"_f) more = value;
    if (field == "after"_f || field == "before"_f)
      items.push_back(
          labelled(field == "after"_f ? "Came after" : "Came before", relationInWords(page, record, *value)));
    if (std::find(std::begin(kElsewhere), std::end(kElsewhere), field) != std::end(kElsewhere)) continue;
    items.push_back(fact(page, record, field));
  }
  if (more != nullptr && std::find(but.begin(), but.end(), "more"_f) == but.end())
    for (const Entry& entry : more->entries())
      items.push_back(labelled(entry.key, valueWithEvidence(page, record, entry.value, nullptr)));
  if (record.find("see"_f) != nullptr && std::find(but.begin(), but.end(), "see"_f) == but.end())
    items.push_back(fact(page, record, "see"_f));
  return items;
}

std::optional<Blocks> sourcesFact(const Page& page, const PublishedRecord& record) {
  const records::Evidence* own = record.evidence();
  if (own != nullptr && (!own->cite.empty() || !own->judged().empty())) {
    Inlines sources = page.words().recordEvidence(record);
    if (const std::string stands = page.words().standingOfSources(record); !stands.empty())
      put(sources, " (" + stands + ")");
    return labelled("Sources", std::move(sources));
  }
  if (!records::needsEvidence(record.kind(), "cite"_f)) return std::nullopt;
  const auto fields = record.fields();
  const bool any = std::any_of(fields.begin(), fields.end(), [&](const Entry* entry) {
    return !page.words().ownEvidence(entry->value).empty();
  });
  if (any) return std::nullopt;
  return labelled("Sources", {document::text("no source recorded")});
}

std::optional<Blocks> namesFact(const Page& page, const PublishedRecord& record) {
  Inlines names = otherNames(page.words(), record);
  if (names.empty()) return std::nullopt;
  return labelled("Also called", std::move(names));
}

void putRest(const Words& words, const PublishedRecord& record, std::initializer_list<Field> which,
             Inlines& out) {
  auto add = [&](std::string_view before, Inlines said) {
    if (said.empty()) return;
    put(out, out.empty() ? "" : " ");
    put(out, before);
    put(out, sentence(std::move(said)));
  };
  for (Field field : which) {
    if (field == "also"_f) {
      add("Also called ", otherNames(words, record));
      continue;
    }
    if (field == "cite"_f) {
      const records::Evidence* own = record.evidence();
      if (own != nullptr && (!own->cite.empty() || !own->judged().empty()))
        add(own->cite.size() > 1 ? "Sources: " : "Source: ", words.recordEvidence(record));
      continue;
    }
    const Value* value = record.find(field);
    if (value == nullptr) continue;
    if (field == "more"_f) {
      for (const Entry& entry : value->entries())
        add(capitalised(std::string(entry.key)) + ": ",
            besideIt(words, record, entry.value, nullptr, words.bareValue(&entry.value, nullptr, record)));
    } else if (field == "see"_f) {
      // A statement has named already what it is about.
      add(record.find("about"_f) == nullptr ? "See " : "See also ", words.value(value, nullptr, record));
    } else if (value->said()) {
      put(out, out.empty() ? "" : " ");
      put(out, words.proseLine(record, *value));
    }
  }
}

Blocks noteOf(const Page& page, const PublishedRecord& record) {
  Blocks out;
  if (const Value* note = record.find("note"_f); note != nullptr && note->said())
    out = page.words().prose(record, *note);
  Inlines corrected = correctionLinks(page.words().materials(), page.book().places(), record.index());
  if (!corrected.empty()) {
    Inlines words;
    put(words, "see the ");
    put(words, std::move(corrected));
    for (Block& block : labelled("Changed since it was printed", sentence(std::move(words))))
      out.push_back(std::move(block));
  }
  return out;
}

}  // namespace saggar::compose
