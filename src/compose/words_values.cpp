#include <algorithm>
#include <optional>

#include "base/text.h"
#include "compose/days.h"
#include "compose/phrases.h"
#include "compose/words.h"
#include "dates/length.h"
#include "dates/print.h"
#include "records/measure.h"

// Values in the words a guide prints.
namespace saggar::compose {

using document::text;
using records::Entry;
using records::FieldSpec;
using records::FieldType;
using records::Value;
using records::ValueType;

namespace {

constexpr std::string_view kEndNotKnown = ", end not known";

std::string measureInWords(const Value& value, linking::GuideSettings::Units units) {
  const records::Measure* measure = value.measure();
  std::string own(value.text);
  if (measure == nullptr) return own;
  const std::string other = records::inOtherUnit(*measure);
  const bool imperial = measure->unit == records::Unit::inch || measure->unit == records::Unit::fluidOunce;
  using Units = linking::GuideSettings::Units;
  if (other.empty()) return own;
  if (units == Units::both) return own + " (" + other + ")";
  return (units == Units::inches) == imperial ? own : other;
}

}  // namespace

std::string Words::shortDate(const Value* value) const {
  if (value == nullptr) return "not recorded";
  if (value->type == ValueType::unknown) return "not known";
  if (value->type == ValueType::none) return "none";
  if (value->date() != nullptr) {
    std::string words = dates::inTable(*value->date());
    if (words.ends_with(" to ?"))
      return "from " + words.substr(0, words.size() - 5) + std::string(kEndNotKnown);
    if (words.starts_with("? to ")) return "until " + words.substr(5) + ", beginning not known";
    return words;
  }
  if (value->type == ValueType::between) {
    auto end = [&](const Value& one) {
      return one.target() != records::kNoRecord ? "the time of " + plainName(one.target()) : shortDate(&one);
    };
    const Value& from = value->items()[0];
    const Value& to = value->items()[1];
    if (from.type == ValueType::none) return "by " + end(to);
    if (to.type == ValueType::none) return "from " + end(from);
    return end(from) + " to " + end(to);
  }
  return std::string(value->text);
}

std::string Words::shortEnd(const Value& span, dates::End end) const {
  if (const dates::Expression* date = span.date()) return dates::inTable(dates::endOf(*date, end));
  const auto ends = span.items();
  if (ends.size() != 2) return shortDate(&span);
  const Value& one = ends[end == dates::End::Earliest ? 0 : 1];
  return one.target() != records::kNoRecord ? plainName(one.target()) : shortDate(&one);
}

namespace {

// A moment that lies somewhere in an interval: "1926 to 1935".
std::optional<std::pair<std::string, std::string>> betweenWhat(const std::string& words) {
  const std::size_t to = words.find(" to ");
  if (to == std::string::npos) return std::nullopt;
  return std::pair(words.substr(0, to), words.substr(to + 4));
}

}  // namespace

std::string Words::beginning(const Value& value) const {
  std::string words = shortDate(&value);
  if (words.ends_with(kEndNotKnown)) words.resize(words.size() - kEndNotKnown.size());
  if (words.starts_with("by ")) return words;
  if (words.starts_with("until ")) return "by " + words.substr(6);
  if (words.starts_with("from ")) return "not before " + words.substr(5);
  if (words.starts_with("since ")) return "not before " + words.substr(6);
  if (const auto ends = betweenWhat(words)) return "first between " + ends->first + " and " + ends->second;
  return "from " + words;
}

std::string Words::ending(const Value& value) const {
  std::string words = shortDate(&value);
  if (words.ends_with(kEndNotKnown)) words.resize(words.size() - kEndNotKnown.size());
  if (words.starts_with("by ")) return words.substr(3) + " at the latest";
  if (words.starts_with("until ")) return words.substr(6) + " at the latest";
  if (words.starts_with("from ")) return words.substr(5) + " or later";
  if (words.starts_with("since ")) return words.substr(6) + " or later";
  if (const auto ends = betweenWhat(words)) return "a date between " + ends->first + " and " + ends->second;
  return words;
}

std::string Words::plainDates(const PublishedRecord& record) const {
  const Value* from = record.find("introduced"_f);
  const Value* until = record.find("withdrawn"_f);
  const bool hasFrom = from != nullptr && from->said();
  const bool hasUntil = until != nullptr && until->said();
  if (!hasFrom && !hasUntil) return from != nullptr || until != nullptr ? "not known" : "not recorded";
  if (!hasFrom) return "until " + ending(*until);
  std::string begun = beginning(*from);
  if (!hasUntil) return begun;
  if (begun.starts_with("by ")) {  // "by 1923 to 1938" would be read as one
    return (record.kind() == Kind::motif ? "in use " : "on sale ") + begun + ", to " + ending(*until);
  }
  if (!begun.starts_with("from ")) return begun + ", to " + ending(*until);
  begun.erase(0, 5);
  return begun == ending(*until) ? begun : begun + " to " + ending(*until);
}

Inlines Words::dates(const PublishedRecord& record, Inlines further) const {
  const Value* from = record.find("introduced"_f);
  const Value* until = record.find("withdrawn"_f);
  Inlines out{text(plainDates(record))};
  const bool both = from != nullptr && from->said() && until != nullptr && until->said();
  std::vector<Inlines> beside;
  if (!further.empty()) beside.push_back(std::move(further));
  for (const Value* one : {from, until}) {
    if (one == nullptr || one->evidence == nullptr) continue;
    if (!one->evidence->doubted().empty())
      beside.push_back({text((both ? shortDate(one) + ' ' : std::string()) +
                             "doubted: " + asClause(one->evidence->doubted()))});
    for (const records::Alternative& other : one->evidence->but())
      beside.push_back({text((other.setAside.empty() ? "or " : "not ") + shortDate(&other.is) +
                             (other.setAside.empty() ? "" : ": " + asClause(other.setAside)))});
  }
  std::vector<Inlines> known;
  for (const auto& [field, before] : {std::pair{"introduced"_f, "first "}, {"withdrawn"_f, "last "}}) {
    Inlines days = daysBeside(*this, record, field, Room::row);
    // Where neither is recorded, the first is enough for a row.
    const bool neither = !(from != nullptr && from->said()) && !(until != nullptr && until->said());
    if (days.empty() || (neither && !known.empty())) continue;
    Inlines part;
    put(part, before);
    put(part, std::move(days));
    known.push_back(std::move(part));
  }
  beside.insert(beside.end(), std::make_move_iterator(known.begin()), std::make_move_iterator(known.end()));
  putInBrackets(out, separated(std::move(beside), "; "));
  return out;
}

Inlines Words::bareValue(const Value* value, const FieldSpec* spec, const PublishedRecord& owner) const {
  if (value == nullptr) return {text("not recorded")};
  Inlines out;
  switch (value->type) {
    case ValueType::unknown: out = {text("not known")}; break;
    case ValueType::none: out = {text("none")}; break;
    case ValueType::all: out = {text("all")}; break;
    case ValueType::unfit: out = {text(std::string(value->text))}; break;
    case ValueType::length: out = {text(dates::lengthInWords(value->text))}; break;
    case ValueType::date:
    case ValueType::between: out = {text(shortDate(value))}; break;
    case ValueType::measure: {
      // A size in a list is a name, and nothing can be worked out from it.
      const bool nominal = spec != nullptr && spec->field == "nominal"_f;
      out = {text(nominal ? std::string(value->text)
                          : measureInWords(*value, materials_->records.settings().units))};
      break;
    }
    case ValueType::reference:
      out = value->target() == records::kNoRecord ? Inlines{text(std::string(value->text))}
                                                  : name(value->target());
      break;
    case ValueType::event: {
      if (value->target() == records::kNoRecord) {
        out = {text(std::string(value->text))};
      } else {
        out = name(value->target());
        if (value->eventFieldTyped) out.push_back(text(" (" + std::string(value->eventField.name()) + ")"));
      }
      break;
    }
    case ValueType::yes: out = {text(value->number() != 0 ? "yes" : "no")}; break;
    case ValueType::prose: out = proseLine(owner, *value); break;
    case ValueType::list: {
      std::vector<Inlines> parts;
      for (const Value& item : value->items()) parts.push_back(this->value(&item, spec, owner));
      // A mark in several colours was printed now in one, now in another.
      const bool others = spec != nullptr && spec->field == "colour"_f && owner.kind() == Kind::mark;
      out = listed(std::move(parts), others ? "or" : "and");
      if (value->items().empty()) out = {text("none")};
      break;
    }
    case ValueType::mapping: {
      if (spec != nullptr && spec->type == FieldType::look) {
        out = look(value);
        break;
      }
      if (spec != nullptr && spec->type == FieldType::madeIn) {
        out = {text("all but ")};
        if (const Value* but = value->find("all-but"_f)) {
          static constexpr FieldSpec kShapes{.field = "shapes"_f, .type = FieldType::reference};
          put(out, this->value(but, &kShapes, owner));
        }
        break;
      }
      std::vector<Inlines> parts;
      for (const Entry& entry : value->entries()) {
        const FieldSpec* inner = nullptr;
        if (spec != nullptr)
          for (const FieldSpec& one : spec->inner)
            if (entry.known && one.field == entry.field) inner = &one;
        Inlines part;
        if (!parts.empty() || inner == nullptr) {
          std::string key(entry.key);
          std::replace(key.begin(), key.end(), '-', ' ');
          part.push_back(text(key + ' '));
        }
        put(part, this->value(&entry.value, inner, owner));
        parts.push_back(std::move(part));
      }
      for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i != 0) out.push_back(text(", "));
        put(out, std::move(parts[i]));
      }
      break;
    }
    case ValueType::text:
      if (spec != nullptr && spec->type == FieldType::choice) {
        std::string words(value->text);
        std::replace(words.begin(), words.end(), '-', ' ');
        out = {text(std::move(words))};
        break;
      }
      [[fallthrough]];
    default: out = {text(std::string(value->text))};
  }
  return out;
}

std::vector<Inlines> Words::remarks(const Value& value, const FieldSpec* spec,
                                    const PublishedRecord& owner) const {
  std::vector<Inlines> out;
  if (value.evidence == nullptr) return out;
  if (!value.evidence->doubted().empty())
    out.push_back({text("doubted: " + asClause(value.evidence->doubted()))});
  for (const records::Alternative& other : value.evidence->but()) {
    Inlines one{text(other.setAside.empty() ? "or " : "not ")};
    put(one, this->value(&other.is, spec, owner));
    if (!other.cite.empty()) {
      put(one, other.setAside.empty() ? ", " : ", as in ");
      put(one, citation(other.cite[0]));
    }
    if (!other.setAside.empty()) put(one, ": " + asClause(other.setAside));
    out.push_back(std::move(one));
  }
  return out;
}

Inlines Words::value(const Value* value, const FieldSpec* spec, const PublishedRecord& owner) const {
  Inlines out = bareValue(value, spec, owner);
  if (value == nullptr) return out;
  if (std::vector<Inlines> beside = remarks(*value, spec, owner); !beside.empty()) {
    put(out, " (");
    put(out, separated(std::move(beside), "; "));
    put(out, ")");
  }
  return out;
}

std::string Words::plainValue(const Value* value, const FieldSpec* spec, const PublishedRecord& owner) const {
  return document::plainText(this->value(value, spec, owner));
}

}  // namespace saggar::compose
