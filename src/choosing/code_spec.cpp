#include "choosing/code_spec.h"

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "dates/binding.h"
#include "dates/parse.h"
#include "dates/two_ways.h"
#include "records/tables.h"

namespace saggar::choosing {

using codes::Parsed;
using codes::PartSpec;
using records::Entry;
using records::Extent;
using records::Kind;
using records::Value;
using records::ValueType;

namespace {

std::string inTicks(std::string_view text) {
  return '`' + base::shortened(text, 60) + '`';
}

bool isWord(const Value& value) {
  return value.type == ValueType::text || value.type == ValueType::prose || value.type == ValueType::none ||
         value.type == ValueType::unknown;
}

// A value of a tree, or what stands under its `is`.
const Value& bare(const Value& value) {
  const Value* is = value.type == ValueType::mapping ? value.find("is"_f) : nullptr;
  return is != nullptr ? *is : value;
}

const Entry* entryOf(const Value& mapping, std::string_view key) {
  for (const Entry& entry : mapping.entries())
    if (entry.key == key) return &entry;
  return nullptr;
}

std::string shownWords(const std::vector<std::string_view>& words) {
  std::vector<std::string> shown;
  for (std::string_view word : words) {
    if (shown.size() == 12) return base::joined(shown, ", ") + " …";
    shown.push_back(inTicks(word));
  }
  return base::listedInWords(shown, "or");
}

}  // namespace

void SpecReader::report(diagnostics::Rule id, Extent place, std::string message, std::string hint) {
  findings_.add({.rule = id,
                 .span = {maker_.file, place.begin, std::max(place.begin, place.end)},
                 .message = std::move(message),
                 .hint = std::move(hint),
                 .record = maker_.reference(),
                 .field = "codes"});
}

void SpecReader::unfit(Extent place, std::string message, std::string hint) {
  out_.whole = false;
  report("value-unfit"_rule, place, std::move(message), std::move(hint));
}

template <class T>
bool SpecReader::take(const Parsed<T>& parsed, Extent place) {
  if (parsed.value) return true;
  unfit(place, parsed.message, parsed.hint);
  return false;
}

ReadSpec SpecReader::read(const Value& rule) {
  out_ = {};
  codes::RuleSpec& spec = out_.spec;
  auto text = [&](records::Field field) -> std::optional<std::string> {
    const Value* value = rule.find(field);
    if (value == nullptr) return std::nullopt;
    if (value->type == ValueType::unfit) out_.whole = false;
    if (!value->said()) return std::nullopt;
    return std::string(value->text);
  };
  spec.name = text("rule"_f).value_or(std::string());
  spec.like = text("like"_f);
  spec.written = text("written"_f);
  spec.pattern = text("pattern"_f);
  spec.alone = text("alone"_f);
  if (const Value* alone = rule.find("alone"_f)) out_.noAlone = alone->type == ValueType::none;
  if (const Value* on = rule.find("on"_f); on != nullptr && on->type == ValueType::unfit) out_.whole = false;
  if (const Value* parts = rule.find("parts"_f)) readParts(*parts);
  if (const Value* order = rule.find("order"_f)) readOrder(*order);
  if (const Value* usual = rule.find("usual"_f); usual != nullptr && usual->type == ValueType::yes)
    spec.usual = usual->number() == 1;
  if (const Value* alike = rule.find("alike"_f)) {
    spec.alike.emplace();
    for (const Value& one : alike->each()) {
      if (!one.said()) continue;
      auto signs = codes::parseAlike(one.text);
      if (take(signs, one.place)) spec.alike->push_back(std::move(*signs.value));
    }
  }
  spec.firstOf = readDates(rule.find("first-of"_f), "first-of");
  spec.onDate = readDates(rule.find("on-date"_f), "on-date");
  spec.lastOf = readDates(rule.find("last-of"_f), "last-of");
  if (const Value* missing = rule.find("missing"_f)) readMissing(*missing);
  if (const Value* unlike = rule.find("unlike"_f)) readUnlike(*unlike);
  return std::move(out_);
}

void SpecReader::readParts(const Value& parts) {
  if (parts.type == ValueType::unfit) {
    out_.whole = false;
    return;
  }
  if (parts.type != ValueType::mapping) {
    unfit(parts.place,
          "`parts` says of each part what it may be, here is " +
              std::string(parts.type == ValueType::list ? "a list" : inTicks(parts.text)),
          "write a line for each part: `SERIAL: 2 or 3 digits`");
    return;
  }
  for (const Entry& entry : parts.entries()) {
    if (auto part = readPart(entry.key, entry.value))
      out_.spec.parts.push_back({std::string(entry.key), std::move(*part)});
  }
}

std::optional<PartSpec> SpecReader::readPart(std::string_view name, const Value& value) {
  if (value.type == ValueType::unfit) {
    out_.whole = false;
    return std::nullopt;
  }
  if (value.type == ValueType::mapping) return readTable(value);
  if (value.type == ValueType::list) {
    std::vector<std::string> texts;
    for (const Value& item : value.items()) {
      if (!isWord(item)) {
        unfit(item.place, "a list of what " + inTicks(name) + " may be holds plain words only",
              "what each sign means goes into a table: `A: a line or stamp only`");
        return std::nullopt;
      }
      texts.emplace_back(item.text);
    }
    Parsed<PartSpec> parsed = codes::parsePartList(texts);
    if (!take(parsed, value.place)) return std::nullopt;
    return std::move(parsed.value);
  }
  Parsed<PartSpec> parsed = codes::parsePart(value.text);
  if (!take(parsed, value.place)) return std::nullopt;
  return std::move(parsed.value);
}

std::optional<PartSpec> SpecReader::readTable(const Value& table) {
  codes::TablePart part;
  for (const Entry& entry : table.entries()) {
    if (entry.value.type == ValueType::list) {  // it stands for one of several things
      for (const Value& one : entry.value.items()) readRow(entry, one, part);
    } else {
      readRow(entry, entry.value, part);
    }
  }
  return part;
}

void SpecReader::readRow(const Entry& entry, const Value& value, codes::TablePart& table) {
  codes::TableRow row{std::string(entry.key), {}, {}, {}};
  if (isWord(value)) {
    if (value.type == ValueType::text) row.means = std::string(value.text);
    table.rows.push_back(std::move(row));
    return;
  }
  if (value.type != ValueType::mapping) {
    if (value.type == ValueType::list)
      unfit(value.place, "a list stands inside the list of what " + inTicks(entry.key) + " means",
            "write one list");
    out_.whole = false;
    return;
  }
  for (const Entry& inner : value.entries()) {
    if (inner.value.type == ValueType::unfit) {
      out_.whole = false;
    } else if (inner.key == "look") {
      readLook(inner.value, row);
    } else if (inner.key == "means" || inner.key == "is") {
      row.means = std::string(inner.value.text);
    } else if (!readRowKey(inner, row)) {
      static constexpr std::string_view kKeys[] = {"means", "look", "year", "quarter",
                                                   "month", "week", "day"};
      const auto near = base::nearest(inner.key, kKeys);
      out_.whole = false;
      report("field-unknown"_rule, inner.keyPlace,
             inTicks(inner.key) + " is nothing that a row of a table can say",
             near ? "did you mean `" + std::string(*near) + "`?"
                  : "it takes `means`, `look`, and of a date `year`, `quarter`, `month`, `week` and `day`");
    }
  }
  table.rows.push_back(std::move(row));
}

bool SpecReader::readRowKey(const Entry& entry, codes::TableRow& row) {
  std::vector<int>* facts = row.date.of(entry.key);
  if (facts == nullptr) return false;
  for (const Value& one : entry.value.each()) {
    const Parsed<int> fact = codes::parseFact(entry.key, one.text);
    if (take(fact, one.place)) facts->push_back(*fact.value);
  }
  return true;
}

void SpecReader::readLook(const Value& look, codes::TableRow& row) {
  if (look.type != ValueType::mapping) {
    unfit(look.place, "`look` takes features with their values", "write it as `{look: {edge-line: gold}}`");
    return;
  }
  for (const Entry& entry : look.entries()) {
    codes::LookNeed need{std::string(entry.key), {}};
    const auto feature = collection_.find(Kind::feature, entry.key);
    if (!feature && !collection_.read().lostFiles && !collection_.read().lostIds.contains(entry.key)) {
      std::vector<std::string_view> ids;
      for (records::RecordIndex one : collection_.ofKind(Kind::feature)) ids.push_back(collection_[one].id);
      const auto near = base::nearest(entry.key, ids);
      report("reference-missing"_rule, entry.keyPlace, "there is no feature " + inTicks(entry.key),
             near ? "did you mean `" + std::string(*near) + "`?"
                  : "add the record `- feature: " + std::string(entry.key) + "`, or mend the id");
      continue;
    }
    for (const Value& one : entry.value.each()) {
      if (one.type == ValueType::unfit) {
        out_.whole = false;
      } else if (!isWord(one) || one.type == ValueType::unknown) {
        unfit(one.place, "a row says what the piece looks like, as a value of the feature",
              "write `{look: {" + std::string(entry.key) + ": gold}}`");
      } else if (!feature || fitsFeature(collection_[*feature], one)) {
        need.values.emplace_back(one.text);
      }
    }
    if (!need.values.empty()) row.look.push_back(std::move(need));
  }
}

// A value that the feature does not list is mistyped; the row then asks nothing of that feature.
bool SpecReader::fitsFeature(const records::Record& feature, const Value& value) {
  const Value* values = feature.find("values"_f);
  if (values == nullptr || values->type != ValueType::mapping || feature.broken ||
      value.type == ValueType::none)
    return true;
  std::vector<std::string_view> words;
  const std::string folded = base::folded(value.text);
  for (const Entry& one : values->entries()) {
    if (base::folded(one.key) == folded) return true;
    words.push_back(one.key);
  }
  const auto near = base::nearest(value.text, words);
  report("value-unfit"_rule, value.place,
         inTicks(value.text) + " is no value of the feature " + inTicks(feature.id),
         near ? "did you mean `" + std::string(*near) + "`?" : "its values are " + shownWords(words));
  return false;
}

void SpecReader::readOrder(const Value& value) {
  if (value.type == ValueType::none) {
    out_.spec.order = codes::OrderSpec{};
  } else if (value.type == ValueType::text) {
    Parsed<codes::OrderSpec> order = codes::parseOrder(value.text);
    if (take(order, value.place)) out_.spec.order = std::move(order.value);
  } else if (value.type == ValueType::unfit) {
    out_.whole = false;
  }
}

std::optional<std::vector<codes::DatedNumber>> SpecReader::readDates(const Value* table,
                                                                     std::string_view field) {
  if (table == nullptr || table->type == ValueType::unknown) return std::nullopt;
  std::vector<codes::DatedNumber> numbers;
  if (table->type == ValueType::unfit) out_.whole = false;
  if (table->type == ValueType::none || table->type == ValueType::unfit) return numbers;
  if (table->type != ValueType::mapping) {
    unfit(table->place, inTicks(field) + " is a table of numbers and their dates",
          "write it as `" + std::string(field) + ": {1187: 1909}`");
    return numbers;
  }
  const dates::Options& options = collection_.settings().dates;
  for (const Entry& entry : table->entries()) {
    const Value& value = bare(entry.value);
    if (value.type == ValueType::unknown) continue;
    if (value.type == ValueType::unfit) {
      out_.whole = false;
      continue;
    }
    if (value.type != ValueType::text) {
      unfit(value.place, "number " + inTicks(entry.key) + " takes one date", "write it as `{1187: 1909}`");
      continue;
    }
    const dates::Result date = dates::parse(value.text, options);
    if (!date) {
      const dates::Error& error = date.error();
      const bool letterForLetter = value.place.end - value.place.begin == value.text.size();
      const auto at = value.place.begin + static_cast<std::uint32_t>(
                                              letterForLetter ? std::min(error.byte, value.text.size()) : 0);
      out_.whole = false;
      report("date-unreadable"_rule, {at, value.place.end}, error.message, error.hint);
      continue;
    }
    if (const auto two = dates::meantInTwoWays(value.text))
      report("value-lost"_rule, value.place, two->message, two->hint);
    const dates::Bounds days = dates::momentDays(*date, dates::Reading::Wide, options);
    numbers.push_back({std::string(entry.key), days});
  }
  return numbers;
}

void SpecReader::readMissing(const Value& value) {
  if (value.type == ValueType::unknown || value.type == ValueType::unfit) return;
  auto& missing = out_.spec.missing.emplace();
  for (const Entry& entry : value.entries())
    missing.push_back({std::string(entry.key), std::string(bare(entry.value).text)});
  if (value.type == ValueType::mapping || value.type == ValueType::none) return;
  for (const Value& one : value.each()) {
    if (one.type == ValueType::text) {
      missing.push_back({std::string(one.text), {}});
    } else if (one.type != ValueType::unfit) {
      unfit(one.place, "`missing` takes numbers, and why they are missing",
            "write it as `missing: {1601-1688: pages torn out}`");
    }
  }
}

void SpecReader::readUnlike(const Value& value) {
  if (value.type == ValueType::unknown || value.type == ValueType::unfit) return;
  auto& unlike = out_.spec.unlike.emplace();
  for (const Entry& entry : value.entries())
    unlike.push_back({std::string(entry.key), std::string(bare(entry.value).text)});
  if (value.type == ValueType::mapping || value.type == ValueType::none) return;
  for (const Value& one : value.each()) {
    if (one.type == ValueType::text && !one.text.empty()) {
      unlike.push_back({std::string(one.text), "it is listed under `unlike`"});
    } else if (one.type != ValueType::unfit) {
      unfit(one.place, "`unlike` takes texts that are no codes, and what they are",
            "write it as `unlike: {JM-1932: a year}`");
    }
  }
}

void SpecReader::report(const Value& rule, const codes::Problem& problem) {
  const Entry* field = entryOf(rule, problem.field);
  if (field == nullptr) field = entryOf(rule, "like");
  if (field == nullptr) field = entryOf(rule, "rule");
  Extent place = field != nullptr ? field->value.place : rule.place;
  if (field != nullptr && !problem.entry.empty()) {
    if (const Entry* entry = entryOf(field->value, problem.entry)) place = entry->keyPlace;
    for (const Value& one : field->value.items())
      if (one.text == problem.entry) place = one.place;
  }
  report("value-unfit"_rule, place, problem.message, problem.hint);
}

}  // namespace saggar::choosing
