#include "chronology/reasons.h"

#include <algorithm>

#include "base/text.h"
#include "dates/length.h"
#include "dates/print.h"
#include "linking/names.h"
#include "records/tables.h"

namespace saggar::chronology {

using records::Citation;
using records::kNoRecord;

namespace {

// As typed; several readings, or several members of a list, one after the other.
std::string typedOf(const Value& value) {
  if (value.type != records::ValueType::list) return std::string(value.text);
  std::vector<std::string> parts;
  for (const Value& one : value.items()) parts.emplace_back(one.text);
  return base::listedInWords(parts, "or");
}

}  // namespace

std::string Reasons::called(RecordIndex record) const {
  if (record == kNoRecord) return "something that is not known";
  if (naming_ == Naming::ids) return '`' + std::string(all_[record].id) + '`';
  return naming_ == Naming::print ? base::onOneLine(linking::plainName(all_, record))
                                  : linking::nameForAuthor(all_, record);
}

std::string Reasons::happened(Kind kind, Field field, EventEnd end) {
  const bool until = end == EventEnd::until;
  if (field == "introduced"_f) return "was introduced";
  if (field == "withdrawn"_f) return kind == Kind::motif ? "was last used" : "was last offered";
  if (field == "designed"_f) return "was designed";
  if (field == "founded"_f) return "was founded";
  if (field == "closed"_f) return "closed";
  if (field == "made"_f) return "was made";
  if (field == "issued"_f) return "was made known";
  if (field == "recorded"_f) return "was recorded";
  if (field == "seen"_f) return "was first seen";
  if (field == "viewed"_f) return "was looked at";
  if (field == "born"_f) return "was born";
  if (field == "died"_f) return "died";
  if (field == "used"_f)
    return until ? "was last used" : end == EventEnd::from ? "was first used" : "was used";
  if (field == "offered"_f)
    return until ? "was last offered" : end == EventEnd::from ? "was first offered" : "was offered";
  if (field == "active"_f)
    return until ? "was last active" : end == EventEnd::from ? "began to trade" : "was active";
  return until ? "ends" : end == EventEnd::from ? "begins" : "is of";
}

std::string Reasons::dated(const Fact& fact) const {
  const Record& record = all_[fact.record];
  const records::FieldSpec* spec = records::specOf(record.kind, fact.field);
  const bool span = spec != nullptr && spec->type == records::FieldType::span;
  const dates::Expression* date = fact.value->date();
  const std::string who = called(fact.record) + ' ';
  if (date == nullptr) return who + happened(record.kind, fact.field) + ' ' + std::string(fact.value->text);
  if (record.kind == Kind::source) return who + "is dated " + dates::inWords(*date);
  return who + happened(record.kind, fact.field) + ' ' +
         (span ? dates::lasted(*date) : dates::happened(*date));
}

// "by `on-date` of `old decoration number`, 1187 is of 1909".
std::string Reasons::table(const Fact& fact) const {
  const Value* codes = all_[fact.record].find("codes"_f);
  if (codes != nullptr)
    for (const Value& rule : codes->each())
      for (const records::Entry& table : rule.entries())
        for (const records::Entry& entry : table.value.entries())
          if (&entry.value == fact.value) {
            const Value* name = rule.find("rule"_f);
            return "by `" + std::string(table.key) + "` of `" +
                   (name == nullptr ? std::string() : std::string(name->text)) + "`, " +
                   std::string(entry.key) + " is of " + std::string(entry.value.text);
          }
  return "the numbers of " + called(fact.record) + " are dated";
}

// "`osmary` was introduced".
std::string Reasons::otherEvent(const Value& named) const {
  const Node node = chronology_.events().named(named);
  const auto event = node == kNoNode ? std::nullopt : chronology_.events().eventOf(node);
  if (!event) return std::string(named.text);
  return called(event->record) + ' ' + happened(all_[event->record].kind, event->field, event->end);
}

std::string Reasons::years(FactId fact) const {
  const Value* years = chronology_.yearsOf(fact);
  const dates::Expression* date = years == nullptr ? nullptr : years->date();
  if (date != nullptr) return dates::lasted(*date);
  return years == nullptr ? "for some years only" : std::string(years->text);
}

// "edge-line platinum", "glaze ivory or vellum".
std::string Reasons::shown(const Fact& fact) const {
  std::vector<std::string> words;
  for (const Value& one : fact.value->each()) {
    const Value* is = one.find("is"_f) != nullptr ? one.find("is"_f) : &one;
    for (const Value& word : is->each())
      if (!word.text.empty()) words.emplace_back(word.text);
  }
  return std::string(all_[otherOf(all_, fact)].id) + ' ' + base::listedInWords(words, "or");
}

// "the letter `Y` of Old Yard".
std::string Reasons::letter(FactId id) const {
  const Value* works = yearsHeldBy(all_, chronology_.yearsOf(id)).holder;
  const auto words = [&](Field field) {
    const Value* value = works == nullptr ? nullptr : works->find(field);
    return value == nullptr || !value->said() ? std::string() : std::string(value->text);
  };
  std::string out = "the letter ";
  if (const std::string sign = words("letter"_f); !sign.empty()) out += '`' + sign + "` ";
  const std::string name = words("name"_f);
  return out + "of " +
         (!name.empty()      ? name
          : works == nullptr ? "a works"
                             : "the works " + words("works"_f));
}

std::string Reasons::says(FactId id) const {
  const Fact& fact = chronology_.fact(id);
  const std::string who = called(fact.record);
  const std::string other = called(otherOf(all_, fact));
  const std::string typed = fact.cites() ? std::string() : typedOf(*fact.value);
  switch (fact.says) {
    case Says::date: return dated(fact);
    case Says::endsIn: return who + ' ' + happened(all_[fact.record].kind, fact.field) + ' ' + typed;
    case Says::shapeOf: return who + " is a shape of " + other;
    case Says::onShape: {
      const auto shapes = fact.value->each();
      if (shapes.size() < 2) return who + " is on " + other;
      std::vector<std::string> names;
      for (const Value& shape : shapes) names.push_back(called(shape.target()));
      return who + " is on one of " + base::listedInWords(names, "or");
    }
    case Says::withMotif: return who + " has the motif " + other;
    case Says::supplied: return who + " came from " + other;
    case Says::forWhom: return who + " was made for " + other;
    case Says::inSet: return who + " holds pieces of " + other;
    case Says::pieceOf: {
      const Kind kind = all_[otherOf(all_, fact)].kind;
      return who +
             (kind == Kind::treatment ? " is a piece of "
              : kind == Kind::motif   ? " has the motif "
                                      : " is of the shape ") +
             other;
    }
    case Says::marked: return who + " bears the mark " + other;
    case Says::look:
      return who + " has the " + shown(fact) +
             (fact.value->each().size() > 1 ? ", of which none was used then" : ", used " + years(id));
    case Says::seen: {
      const dates::Expression* date = fact.value->date();
      return who + " was seen " + (date != nullptr ? dates::happened(*date) : typed);
    }
    case Says::cited:
    case Says::drawn:
    case Says::offered: {
      const Citation& citation = *fact.citation;
      if (citation.kind != Kind::source)
        return other + " is cited for " + who + ", which existed by " +
               (citation.kind == Kind::specimen ? "the time the piece was made" : "then");
      std::string says = other;
      if (!citation.at.empty()) says += " (" + base::onOneLine(citation.at) + ')';
      if (citation.dated != nullptr) says += ", dated " + dates::inWords(*citation.dated) + ',';
      return says +
             (fact.says == Says::drawn     ? " shows the design of "
              : fact.says == Says::offered ? " offers "
                                           : " has ") +
             who;
    }
    case Says::inUse: return who + " bears the code `" + typed + "`, of a kind used " + years(id);
    case Says::worksInUse:
      return who + " bears in `" + typed + "` " + letter(id) + ", which worked " + years(id);
    case Says::dateCode: return who + " bears the date code `" + typed + '`';
    case Says::number: return who + " has the number `" + typed + '`';
    case Says::order: return "the numbers of " + who + " were given out in order";
    case Says::table: return table(fact);
    case Says::ordered: {
      const Value* event = fact.value->find("event"_f);
      std::string says = who + (fact.field == "after"_f ? " came after " : " came before ") +
                         otherEvent(event != nullptr ? *event : *fact.value);
      if (const Value* within = fact.value->find("within"_f))
        says += ", within " + dates::lengthInWords(within->text);
      if (const Value* least = fact.value->find("at-least"_f))
        says += ", by at least " + dates::lengthInWords(least->text);
      return says;
    }
  }
  return who;
}

std::string Reasons::standing(FactId id) const {
  const Fact& fact = chronology_.fact(id);
  const std::string before = chronology_.isDisputed(id) ? "disputed; " : "";
  if (fact.standing == Standing::uncited && !fact.cites()) {
    const evidence::Weighed weighed = weights_.weigh(fact.record, *fact.value);
    if (weighed.tooEarly != nullptr)
      return before + "cited only from " + called(weighed.tooEarly->target) +
             ", which is too early to show it";
    if (weighed.notFound != nullptr)
      return before + "looked for in vain in " + called(weighed.notFound->target);
  }
  return before + std::string(evidence::inWords(fact.standing));
}

std::string Reasons::disputedBeside(FactId id) const {
  if (!chronology_.isDisputed(id)) return {};
  const Fact& fact = chronology_.fact(id);
  for (const Events::Slot& slot : Events::slotsOf(all_[fact.record].kind)) {
    const std::vector<FactId> open =
        chronology_.open(chronology_.events().nodeOf(fact.record, slot.field, slot.end));
    if (std::binary_search(open.begin(), open.end(), id))
      return fact.says == Says::date || fact.says == Says::dateCode ? "its other end is disputed"
                                                                    : "what else it says is disputed";
  }
  return "disputed where dates are taken as they stand";
}

std::string_view Reason::word() const {
  return disputed ? std::string_view("disputed") : evidence::word(standing);
}

Reason Reasons::of(FactId id) const {
  const Fact& fact = chronology_.fact(id);
  const Record& record = all_[fact.record];
  Reason reason;
  reason.says = says(id);
  reason.record = record.reference();
  reason.field = std::string(fact.field.name());
  reason.standing = fact.standing;
  reason.disputed = chronology_.isDisputed(id);
  reason.doubted = fact.doubted;
  if (fact.cites()) {
    reason.span = record.span(fact.citation->place);
    reason.sources.push_back(fact.citation);
    return reason;
  }
  reason.value = typedOf(*fact.value);
  reason.span = record.span(fact.value->place);
  const evidence::Backing backing = weights_.backingOf(fact.record, *fact.value);
  if (backing.evidence == nullptr) return reason;
  for (const Citation& citation : backing.evidence->cite)
    if (weights_.counts(citation, *fact.value, backing) == evidence::Counts::yes)
      reason.sources.push_back(&citation);
  return reason;
}

YearsHeld yearsHeldBy(const linking::Collection& all, const Value* years) {
  if (years == nullptr) return {};
  for (const RecordIndex maker : all.ofKind(Kind::maker))
    for (const Field field : {"works"_f, "codes"_f}) {
      const Value* held = all[maker].find(field);
      if (held == nullptr) continue;
      for (const Value& one : held->each())
        if (one.find("used"_f) == years) return {maker, &one};
    }
  return {};
}

std::vector<FactId> datesIn(const Chronology& chronology, const Clash& clash) {
  std::vector<FactId> dates;
  for (const EdgeId id : clash.edges) {
    const Edge& edge = chronology.edge(id);
    if (edge.from == kOrigin || edge.to == kOrigin) dates.push_back(edge.fact);
  }
  std::sort(dates.begin(), dates.end());
  return dates;
}

}  // namespace saggar::chronology
