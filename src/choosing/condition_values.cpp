#include "choosing/condition_values.h"

#include "base/edit_distance.h"
#include "choosing/reach.h"
#include "dates/parse.h"
#include "dates/two_ways.h"

namespace saggar::choosing {

using diagnostics::Rule;
using records::Entry;
using records::Extent;
using records::FieldSpec;
using records::FieldType;
using records::KindSet;
using records::Value;
using records::ValueType;

namespace {

// A suggestion looks at every id: made while what it belongs to is still printed.
constexpr std::size_t kMostSuggestions = 1000;  // findings so far

std::string shownAll(const std::vector<std::string_view>& words) {
  std::vector<std::string> shown;
  for (std::string_view word : words) shown.push_back(inTicks(word));
  if (shown.size() > 12) {
    shown.resize(12);
    return base::joined(shown, ", ") + " …";
  }
  return base::listedInWords(shown, "or");
}

}  // namespace

Extent partOf(Extent place, std::string_view text, std::size_t at, std::size_t length) {
  std::uint32_t begin = place.begin;
  if (place.end - place.begin == text.size() + 2)
    ++begin;  // quoted
  else if (place.end - place.begin != text.size())
    return place;
  begin += static_cast<std::uint32_t>(std::min(at, text.size()));
  return {begin,
          begin + static_cast<std::uint32_t>(std::min(length, text.size() - std::min(at, text.size())))};
}

std::string kindsInWords(KindSet kinds) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    if (kinds.has(static_cast<Kind>(i))) names.emplace_back(records::kKindNames[i].one);
  return names.size() > 5 ? "record" : base::listedInWords(names, "or");
}

void ValueReader::report(Rule rule, Extent place, std::string message, std::string hint) {
  findings_.add({.rule = rule,
                 .span = {file_, place.begin, std::max(place.begin, place.end)},
                 .message = std::move(message),
                 .hint = std::move(hint)});
}

bool ValueReader::take(const Value& value, Condition::Node& node) {
  const FieldSpec& spec = *node.path.endSpec();
  switch (spec.type) {
    case FieldType::moment:
    case FieldType::span: return takeDays(value, node);
    case FieldType::reference: return takeReference(value, spec.kinds, node);
    case FieldType::madeIn:
      if (value.text == "all" && !value.quoted) {
        node.wanted.emplace_back(WantedAll{});
        return true;
      }
      return takeReference(value, KindSet(Kind::shape), node);
    case FieldType::event: return takeEvent(value, node);
    case FieldType::choice: return takeChoice(value, spec, node);
    case FieldType::number:
    case FieldType::clock: return takeNumber(value, spec, node);
    case FieldType::measure: return takeMeasure(value, node);
    case FieldType::yesNo: return takeYesNo(value, node);
    case FieldType::look:
      report(
          "value-unfit"_rule, value.place, inTicks(node.path.text()) + " has features, and one must be named",
          "write `" + std::string(node.path.text()) + ".FEATURE: " + base::shortened(value.text, 40) + "`");
      return false;
    case FieldType::headings:
      report(
          "value-unfit"_rule, value.place, inTicks(node.path.text()) + " has headings, and one must be named",
          "write `" + std::string(node.path.text()) + ".Heading: " + base::shortened(value.text, 40) + "`");
      return false;
    case FieldType::where:
    case FieldType::columns:
    case FieldType::comparison:
    case FieldType::dateTable:
    case FieldType::reasons:
    case FieldType::severities:
    case FieldType::tree:
    case FieldType::citations:
      report("value-unfit"_rule, value.place,
             "nothing can be chosen by what stands in " + inTicks(node.path.text()),
             "ask whether it is `known` or `absent`");
      return false;
    default: break;
  }
  if (node.path.feature() != records::kNoRecord && !fitsFeature(value, node.path.feature())) return false;
  node.wanted.emplace_back(WantedText{base::folded(value.text)});
  return true;
}

bool ValueReader::takeDays(const Value& value, Condition::Node& node) {
  const dates::Result read = dates::parse(value.text, collection_.settings().dates);
  if (!read) {
    const dates::Error& error = read.error();
    report("date-unreadable"_rule, partOf(value.place, value.text, error.byte, error.bytes), error.message,
           error.hint);
    return false;
  }
  if (const auto two = dates::meantInTwoWays(value.text))
    report("value-lost"_rule, partOf(value.place, value.text, two->byte, two->bytes), two->message,
           two->hint);
  for (const dates::Bounds& one : read->memberBounds(dates::Reading::Plain, collection_.settings().dates))
    node.days.push_back(one.opened());
  return true;
}

bool ValueReader::isLost(std::string_view id) const {
  return collection_.read().lostFiles || collection_.read().lostIds.contains(id);
}

std::string ValueReader::nearestId(std::string_view id, KindSet kinds) const {
  if (findings_.all().size() > kMostSuggestions) return {};
  std::vector<std::string_view> ids;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    if (kinds.has(static_cast<Kind>(i)))
      for (RecordIndex one : collection_.ofKind(static_cast<Kind>(i))) ids.push_back(collection_[one].id);
  const auto near = base::nearest(id, ids);
  return near ? std::string(*near) : std::string();
}

bool ValueReader::takeReference(const Value& value, KindSet kinds, Condition::Node& node) {
  std::string_view id = value.text;
  if (const std::size_t colon = id.find(':'); colon != std::string_view::npos) {
    const auto kind = records::kindNamed(id.substr(0, colon));
    if (!kind || !kinds.has(*kind)) {
      std::vector<std::string_view> names;
      for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
        if (kinds.has(static_cast<Kind>(i))) names.push_back(records::kKindNames[i].one);
      const auto near = kind ? std::nullopt : base::nearest(id.substr(0, colon), names);
      report("value-unfit"_rule, value.place,
             kind ? inTicks(node.path.text()) + " cannot name a " + std::string(id.substr(0, colon))
                  : inTicks(id.substr(0, colon)) + " is no kind of record",
             near ? "did you mean `" + std::string(*near) + std::string(id.substr(colon)) + "`?"
                  : "it takes the id of a " + kindsInWords(kinds));
      return false;
    }
    kinds = KindSet(*kind);
    id = id.substr(colon + 1);
  }
  std::vector<RecordIndex> found;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) {
    if (!kinds.has(static_cast<Kind>(i))) continue;
    if (const auto one = collection_.find(static_cast<Kind>(i), id)) found.push_back(*one);
  }
  if (found.size() == 1) {
    node.wanted.emplace_back(WantedRecord{found[0]});
    return true;
  }
  if (found.size() > 1) {
    std::vector<std::string> names;
    for (RecordIndex one : found) names.push_back(inTicks(collection_[one].reference()));
    report("reference-ambiguous"_rule, value.place,
           inTicks(id) + " could be " + base::listedInWords(names, "or"),
           "write the kind in front of the id");
    return false;
  }
  if (isLost(id)) return false;
  const std::string near = nearestId(id, kinds);
  report("reference-missing"_rule, value.place, "there is no " + kindsInWords(kinds) + " " + inTicks(id),
         near.empty() ? "add the record, or mend the id" : "did you mean `" + near + "`?");
  return false;
}

bool ValueReader::takeEvent(const Value& value, Condition::Node& node) {
  const std::string_view text = value.text;
  const std::size_t colon = text.find(':');
  const std::size_t dot = colon == std::string_view::npos ? colon : text.find('.', colon);
  const auto kind =
      colon == std::string_view::npos ? std::nullopt : records::kindNamed(text.substr(0, colon));
  if (!kind) {
    report("value-unfit"_rule, value.place, inTicks(text) + " is no event",
           "write `kind:id` or `kind:id.field`, as `shape:linnavere.withdrawn`");
    return false;
  }
  Condition::Node reference;
  Value bare = value;
  bare.text = text.substr(0, dot);
  bare.place = partOf(value.place, text, 0, bare.text.size());
  reference.path = node.path;
  if (!takeReference(bare, KindSet(*kind), reference)) return false;
  WantedEvent event{std::get<WantedRecord>(reference.wanted[0]).record};
  const std::string_view word = dot == std::string_view::npos ? std::string_view() : text.substr(dot + 1);
  const auto field =
      word.empty() ? records::spec(*kind).standsFor : records::fieldNamed(word.substr(0, word.find('.')));
  const FieldSpec* spec = field ? records::specOf(*kind, *field) : nullptr;
  const std::string_view end =
      word.find('.') == std::string_view::npos ? std::string_view() : word.substr(word.find('.') + 1);
  const bool hasEnd =
      end.empty() || (spec != nullptr && spec->type == FieldType::span && (end == "from" || end == "until"));
  if (spec == nullptr || !spec->has(records::kDated) || !hasEnd) {
    report("value-unfit"_rule, value.place,
           "a " + std::string(records::name(*kind)) + " has no date " +
               (word.empty() ? "of its own" : inTicks(word)),
           "name one of its dates, as `shape:linnavere.withdrawn`");
    return false;
  }
  event.field = *field;
  Value asked = value;
  asked.eventField = *field;
  asked.eventFieldTyped = !word.empty();
  event.end = endOfEvent(asked, *kind);
  node.wanted.emplace_back(event);
  return true;
}

bool ValueReader::takeChoice(const Value& value, const FieldSpec& spec, Condition::Node& node) {
  std::vector<std::string_view> words(spec.words.begin(), spec.words.end());
  // Of several kinds each may have words of its own.
  const Scope& start = node.path.lastScope();
  if (start.type == Scope::Type::record)
    for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
      if (start.kinds.has(static_cast<Kind>(i)))
        if (const FieldSpec* own = records::specOf(static_cast<Kind>(i), spec.field))
          for (std::string_view word : own->words)
            if (std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
  if (std::find(words.begin(), words.end(), value.text) == words.end()) {
    const auto near = base::nearest(value.text, words);
    report("value-unfit"_rule, value.place,
           inTicks(value.text) + " is no value of " + inTicks(spec.field.name()),
           near ? "did you mean `" + std::string(*near) + "`?" : "it takes " + shownAll(words));
    return false;
  }
  node.wanted.emplace_back(WantedText{base::folded(value.text)});
  return true;
}

bool ValueReader::takeNumber(const Value& value, const FieldSpec& spec, Condition::Node& node) {
  const bool clock = spec.type == FieldType::clock;
  const auto range = clock ? readTimeRange(value.text) : readRange(value.text);
  if (!range) {
    report("value-unfit"_rule, value.place,
           inTicks(node.path.text()) +
               (clock ? " takes a time or a range of times" : " takes a number or a range of numbers") +
               ", here is " + inTicks(value.text),
           clock ? "write `6:00`, or `6:00 to 10:00`" : "write `3`, or `3 to 5`");
    return false;
  }
  node.wanted.emplace_back(*range);
  return true;
}

bool ValueReader::takeMeasure(const Value& value, Condition::Node& node) {
  const auto range = readMeasureRange(value.text);
  if (!range) {
    report("value-unfit"_rule, value.place, inTicks(value.text) + " is no measure and no range of measures",
           "write `7 in`, or `7 in to 9 in`, the smaller first");
    return false;
  }
  node.wanted.emplace_back(*range);
  return true;
}

bool ValueReader::takeYesNo(const Value& value, Condition::Node& node) {
  if (value.text != "yes" && value.text != "no") {
    report("value-unfit"_rule, value.place,
           inTicks(node.path.text()) + " is `yes` or `no`, here is " + inTicks(value.text),
           "write `yes` or `no`");
    return false;
  }
  const std::int64_t number = value.text == "yes" ? 1 : 0;
  node.wanted.emplace_back(Range{number, number});
  return true;
}

bool ValueReader::fitsFeature(const Value& value, RecordIndex index) {
  const records::Record& feature = collection_[index];
  const Value* values = feature.find("values"_f);
  if (values == nullptr || values->type != ValueType::mapping || feature.broken) return true;
  std::vector<std::string_view> words;
  const std::string folded = base::folded(value.text);
  for (const Entry& one : values->entries()) {
    if (base::folded(one.key) == folded) return true;
    words.push_back(one.key);
  }
  const auto near = base::nearest(value.text, words);
  findings_.add(
      {.rule = "value-unfit"_rule,
       .span = {file_, value.place.begin, value.place.end},
       .message = inTicks(value.text) + " is no value of the feature " + inTicks(feature.id),
       .hint = near ? "did you mean `" + std::string(*near) + "`?" : "its values are " + shownAll(words),
       .related = {{feature.span(), "the feature stands here"}}});
  return false;
}

}  // namespace saggar::choosing
