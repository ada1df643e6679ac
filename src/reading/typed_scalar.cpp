#include <algorithm>
#include <charconv>

#include "base/edit_distance.h"
#include "base/text.h"
#include "dates/length.h"
#include "reading/typed.h"

// One plain value, read as its field's type says.
namespace saggar::reading {

using records::FieldSpec;
using records::FieldType;
using records::Kind;
using records::Value;
using records::ValueType;

namespace {

// m:ss or h:mm:ss as seconds.
std::optional<std::int64_t> readClock(std::string_view text) {
  std::int64_t total = 0;
  const auto parts = base::split(text, ':');
  if (parts.size() < 2 || parts.size() > 3) return std::nullopt;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    int value = 0;
    if (parts[i].empty() || parts[i].size() > 3 || (i > 0 && parts[i].size() != 2)) return std::nullopt;
    const auto [stop, error] = std::from_chars(parts[i].data(), parts[i].data() + parts[i].size(), value);
    if (error != std::errc() || stop != parts[i].data() + parts[i].size() || (i > 0 && value > 59))
      return std::nullopt;
    total = total * 60 + value;
  }
  return total;
}

bool isAddress(std::string_view text) {
  return (text.starts_with("https://") || text.starts_with("http://")) &&
         std::none_of(text.begin(), text.end(),
                      [](char c) { return base::isBlank(c) || c == '<' || c == '>' || c == '"'; });
}

// "plate-8, cup, tea-pot" and "plate-8 cup tea-pot" as a list; empty for what is no row of ids. A name in several words
// may look like one without commas: then there must be an id in it that no word is.
std::string asList(std::string_view text) {
  const bool commas = text.find(',') != std::string_view::npos;
  std::vector<std::string> ids;
  bool sure = commas;
  for (std::string_view part : base::split(text, commas ? ',' : ' ')) {
    part = base::trimmed(part);
    if (part.empty()) continue;
    const std::size_t colon = part.find(':');
    if (colon != std::string_view::npos && !records::kindNamed(part.substr(0, colon))) return {};
    const std::string_view id = colon == std::string_view::npos ? part : part.substr(colon + 1);
    if (!isId(id)) return {};
    sure |= id.find_first_of("-0123456789") != std::string_view::npos;
    ids.emplace_back(part);
  }
  return ids.size() < 2 || !sure ? std::string() : '[' + base::joined(ids, ", ") + ']';
}

}  // namespace

Value TypedReader::readScalar(const Node& node, const FieldSpec& spec) {
  const std::string_view text = node.text;
  switch (spec.type) {
    case FieldType::text: return start(node, ValueType::text);
    case FieldType::prose: return start(node, ValueType::prose);
    case FieldType::moment: return readMoment(node);
    case FieldType::span: return readDate(node);
    case FieldType::reference: return readReference(node, spec);
    case FieldType::event: return readEvent(node);
    case FieldType::choice: return readChoice(node, spec);
    case FieldType::measure: {
      const auto measure = records::readMeasure(text);
      if (!measure)
        return unfit(node, "`" + base::shortened(text, 40) + "` is no measure", records::measureHint());
      Value value = start(node, ValueType::measure);
      value.measure_ = arena_.make<records::Measure>(*measure);
      return value;
    }
    case FieldType::number: {
      Value value = start(node, ValueType::number);
      std::int64_t number = 0;
      const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), number);
      if (error != std::errc() || stop != text.data() + text.size() || number < 0 || number > 1'000'000'000)
        return unfit(node,
                     fieldInQuotes() + " takes a whole number, here is `" + base::shortened(text, 40) + "`",
                     "write it in figures, as `3`");
      value.number_ = number;
      return value;
    }
    case FieldType::clock: {
      const auto seconds = readClock(text);
      if (!seconds)
        return unfit(node, "`" + base::shortened(text, 40) + "` is no time",
                     "write minutes and seconds as `6:00`, hours as `1:05:30`");
      Value value = start(node, ValueType::number);
      value.number_ = *seconds;
      return value;
    }
    case FieldType::length: {
      const auto length = dates::parseLength(text);
      if (!length.length) return unfit(node, length.error, "write it as `2y`, `6m` or `10d`");
      return start(node, ValueType::length);
    }
    case FieldType::yesNo: {
      Value value = start(node, ValueType::yes);
      if (text == "yes" || text == "no") {
        value.number_ = text == "yes" ? 1 : 0;
        return value;
      }
      return unfit(node,
                   fieldInQuotes() + " takes `yes` or `no`, here is `" + base::shortened(text, 40) + "`",
                   "write `yes` or leave the line out");
    }
    case FieldType::path: return start(node, ValueType::text);
    case FieldType::address:
      if (!isAddress(text))
        return unfit(node, "`" + base::shortened(text, 60) + "` is no web address",
                     "write it whole, beginning with `https://`");
      return start(node, ValueType::text);
    default: return start(node, ValueType::text);
  }
}

Value TypedReader::readChoice(const Node& node, const FieldSpec& spec) {
  if (std::find(spec.words.begin(), spec.words.end(), node.text) != spec.words.end())
    return start(node, ValueType::text);
  std::vector<std::string> shown;
  for (std::string_view word : spec.words) shown.push_back('`' + std::string(word) + '`');
  const auto near = base::nearest(node.text, spec.words);
  return unfit(
      node, "`" + base::shortened(node.text, 40) + "` is no value of " + fieldInQuotes(),
      near ? "did you mean `" + std::string(*near) + "`?" : "it takes " + base::listedInWords(shown, "or"));
}

Value TypedReader::readDate(const Node& node) {
  Value value = start(node, ValueType::date);
  if (node.text.find(':') != std::string_view::npos && readBetween(node, value)) return value;
  const DatePool::Entry& read = dates_.read(node.text);
  const std::uint32_t at = std::min(
      node.end,
      node.begin + (node.style == NodeStyle::plain
                        ? static_cast<std::uint32_t>(std::min<std::size_t>(read.at, node.text.size()))
                        : 0));
  if (read.expression != nullptr) {
    value.date_ = read.expression;
    if (!read.message.empty()) {
      const bool whole = node.style != NodeStyle::plain;
      const auto end = whole ? node.end : std::min(node.end, at + static_cast<std::uint32_t>(read.bytes));
      report("value-lost"_rule, at, end, read.message, read.hint);
    }
    return value;
  }
  report("date-unreadable"_rule, at, node.end, read.message, read.hint);
  return start(node, ValueType::unfit);
}

// All of several days no single one can be.
Value TypedReader::readMoment(const Node& node) {
  Value value = readDate(node);
  if (value.date() == nullptr || !value.date()->isAllOf()) return value;
  std::string one(node.text);
  if (one.starts_with('{') && one.ends_with('}')) one = '[' + one.substr(1, one.size() - 2) + ']';
  return unfit(node,
               '`' + base::shortened(node.text, 40) + "` means all of these dates, and " + fieldInQuotes() +
                   " is one day",
               one != node.text ? "if it was one of them, write `\"" + base::shortened(one, 60) + "\"`"
                                : "write the one date; one of several is `\"[1932,1934]\"`");
}

// An interval may end in an event: `../shape:linnavere`, `1936/treatment:lv-12.withdrawn`.
bool TypedReader::readBetween(const Node& node, Value& value) {
  auto isEvent = [](std::string_view part) {
    const std::size_t colon = part.find(':');
    return colon != std::string_view::npos && records::kindNamed(part.substr(0, colon)).has_value();
  };
  const std::uint32_t inside = node.begin + (node.quoted() ? 1 : 0);
  const std::size_t slash = node.text.find('/');
  const std::string_view left =
      slash == std::string_view::npos ? std::string_view() : node.text.substr(0, slash);
  const std::string_view right = slash == std::string_view::npos ? node.text : node.text.substr(slash + 1);
  if (!isEvent(left) && !isEvent(right)) return false;
  if (slash == std::string_view::npos) {
    report("date-unreadable"_rule, node.begin, node.end, "an event stands where a date should",
           "write `after: " + std::string(right) + "`, or an interval that ends in it: `../" +
               std::string(right) + "`");
    value = start(node, ValueType::unfit);
    return true;
  }
  Gathered<Value> ends(values_);
  for (std::string_view part : {left, right}) {
    Node end = node;
    end.text = part;
    end.begin = inside + static_cast<std::uint32_t>(part.data() - node.text.data());
    end.end = end.begin + static_cast<std::uint32_t>(part.size());
    if (isEvent(part)) {
      ends.add(readEvent(end));
    } else if (part.empty() || part == "..") {
      ends.add(start(end, ValueType::none));
    } else {
      ends.add(readDate(end));
    }
  }
  value.type = ValueType::between;
  value.items_ = keptMembers(ends.all());
  return true;
}

Value TypedReader::readReference(const Node& node, const FieldSpec& spec) {
  Value value = start(node, ValueType::reference);
  value.target_ = records::kNoRecord;
  const std::string_view text = node.text;
  const std::size_t colon = text.find(':');
  const std::string_view id = colon == std::string_view::npos ? text : text.substr(colon + 1);
  std::string wanted;
  if (spec.kinds.single()) wanted = std::string(records::name(spec.kinds.only()));
  if (colon != std::string_view::npos) {
    const std::string_view word = text.substr(0, colon);
    const auto kind = records::kindNamed(word);
    if (!kind) {
      std::vector<std::string_view> names;
      for (const auto& one : records::kKindNames) names.push_back(one.one);
      const auto near = base::nearest(word, names);
      return unfit(node, "`" + base::shortened(word, 40) + "` is no kind of record",
                   near ? "did you mean `" + std::string(*near) + ":" + std::string(id) + "`?"
                        : "write `kind:id`, as `shape:jessamount`");
    }
    if (!spec.kinds.has(*kind))
      return unfit(node, fieldInQuotes() + " cannot name a " + std::string(word),
                   wanted.empty() ? "look up what the field takes with `saggar blank`"
                                  : "it takes the id of a " + wanted);
  }
  if (!isId(id)) {
    const std::string near = asId(id);
    const std::string several = spec.has(records::kMany) ? asList(text) : std::string();
    if (!several.empty())
      return unfit(node, "`" + base::shortened(text, 40) + "` is no single id",
                   "several of them stand in brackets, with commas: `" + base::shortened(several, 80) + '`');
    return unfit(
        node, "`" + base::shortened(id, 40) + "` cannot be an id: ids are small letters, figures and hyphens",
        near.empty() ? "write the id as it stands in its record" : "did you mean `" + near + "`?");
  }
  return value;
}

Value TypedReader::readEvent(const Node& node) {
  Value value = start(node, ValueType::event);
  value.target_ = records::kNoRecord;
  const std::size_t colon = node.text.find(':');
  if (colon == std::string_view::npos || !records::kindNamed(node.text.substr(0, colon)))
    return unfit(node, "`" + base::shortened(node.text, 40) + "` is no event",
                 "write `kind:id`, as `shape:linnavere`, or `kind:id.field`, as `shape:linnavere.withdrawn`");
  const std::string_view rest = node.text.substr(colon + 1);
  const std::string_view id = rest.substr(0, rest.find('.'));
  if (!isId(id))
    return unfit(
        node, "`" + base::shortened(id, 40) + "` cannot be an id: ids are small letters, figures and hyphens",
        "did you mean `" + asId(id) + "`?");
  return value;
}

}  // namespace saggar::reading
