#include <algorithm>

#include "base/text.h"
#include "compose/phrases.h"
#include "compose/words.h"
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

// A reason in the middle of a sentence.
std::string withoutStop(std::string_view reason) {
  std::string_view words = base::trimmed(reason);
  if (words.ends_with('.')) words.remove_suffix(1);
  return std::string(words);
}

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
    if (words.ends_with(" to ?")) words.replace(words.size() - 1, 1, "a date not known");
    return words;
  }
  if (value->type == ValueType::between) {
    auto end = [&](const Value& one) {
      return one.target() != records::kNoRecord ? plainName(one.target()) : shortDate(&one);
    };
    const Value& from = value->items()[0];
    const Value& to = value->items()[1];
    if (from.type == ValueType::none) return "by " + end(to);
    if (to.type == ValueType::none) return "from " + end(from);
    return end(from) + " to " + end(to);
  }
  return std::string(value->text);
}

std::string Words::lengthInWords(std::string_view typed) {
  std::string out;
  std::string number;
  for (const char c : typed) {
    if (base::isDigit(c)) {
      number += c;
      continue;
    }
    const std::string_view unit = c == 'y'   ? "year"
                                  : c == 'm' ? "month"
                                  : c == 'w' ? "week"
                                  : c == 'd' ? "day"
                                             : "";
    if (unit.empty() || number.empty()) return std::string(typed);
    out += (out.empty() ? "" : " ") + number + ' ' + std::string(unit) + (number == "1" ? "" : "s");
    number.clear();
  }
  return number.empty() ? out : std::string(typed);
}

std::string Words::plainDates(const PublishedRecord& record) const {
  const Value* from = record.find("introduced"_f);
  const Value* until = record.find("withdrawn"_f);
  const bool hasFrom = from != nullptr && from->said();
  const bool hasUntil = until != nullptr && until->said();
  std::string words;
  if (hasFrom && hasUntil) {
    const std::string a = shortDate(from);
    const std::string b = shortDate(until);
    words = a == b ? a : a + " to " + b;
  } else if (hasFrom) {
    words = "from " + shortDate(from);
    if (words.starts_with("from by ") || words.starts_with("from from ")) words.erase(0, 5);
  } else if (hasUntil) {
    words = "until " + shortDate(until);
  } else {
    words = from != nullptr || until != nullptr ? "not known" : "not recorded";
  }
  return words;
}

Inlines Words::dates(const PublishedRecord& record) const {
  const Value* from = record.find("introduced"_f);
  const Value* until = record.find("withdrawn"_f);
  Inlines out{text(plainDates(record))};
  for (const Value* one : {from, until}) {
    if (one == nullptr || one->evidence == nullptr) continue;
    if (!one->evidence->doubted.empty())
      out.push_back(text(" (" + shortDate(one) + " doubted: " + withoutStop(one->evidence->doubted) + ")"));
    for (const records::Alternative& other : one->evidence->but)
      out.push_back(text((other.setAside.empty() ? " (or " : " (not ") + shortDate(&other.is) +
                         (other.setAside.empty() ? "" : ": " + withoutStop(other.setAside)) + ")"));
  }
  return out;
}

Inlines Words::value(const Value* value, const FieldSpec* spec, const PublishedRecord& owner) const {
  if (value == nullptr) return {text("not recorded")};
  Inlines out;
  switch (value->type) {
    case ValueType::unknown: out = {text("not known")}; break;
    case ValueType::none: out = {text("none")}; break;
    case ValueType::all: out = {text("all")}; break;
    case ValueType::unfit: out = {text(std::string(value->text))}; break;
    case ValueType::length: out = {text(lengthInWords(value->text))}; break;
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
      out = listed(std::move(parts));
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
  if (value->evidence != nullptr) {
    const records::Evidence& evidence = *value->evidence;
    if (!evidence.doubted.empty()) out.push_back(text(" (doubted: " + withoutStop(evidence.doubted) + ")"));
    for (const records::Alternative& other : evidence.but) {
      out.push_back(text(other.setAside.empty() ? " (or " : " (not "));
      put(out, this->value(&other.is, spec, owner));
      if (!other.cite.empty()) {
        out.push_back(text(", "));
        put(out, citation(other.cite[0]));
      }
      out.push_back(text(other.setAside.empty() ? ")" : ": " + withoutStop(other.setAside) + ")"));
    }
  }
  return out;
}

std::string Words::plainValue(const Value* value, const FieldSpec* spec, const PublishedRecord& owner) const {
  return document::plainText(this->value(value, spec, owner));
}

}  // namespace saggar::compose
