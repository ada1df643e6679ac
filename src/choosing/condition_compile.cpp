#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "choosing/condition_node.h"
#include "dates/parse.h"

// From a `where` as typed to a condition, each value read as what its path reaches wants it.
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

std::string inTicks(std::string_view text) { return '`' + base::shortened(text, 60) + '`'; }

std::string shownAll(const std::vector<std::string_view>& words) {
  std::vector<std::string> shown;
  for (std::string_view word : words) shown.push_back(inTicks(word));
  if (shown.size() > 12) {
    shown.resize(12);
    return base::joined(shown, ", ") + " …";
  }
  return base::listedInWords(shown, "or");
}

std::optional<Word> wordOf(const Value& value) {
  if (value.quoted) return std::nullopt;
  if (value.type == ValueType::none) return Word::none;
  if (value.type == ValueType::unknown) return Word::unknown;
  if (value.type == ValueType::text && value.text == "known") return Word::known;
  if (value.type == ValueType::text && value.text == "absent") return Word::absent;
  return std::nullopt;
}

// Ranges in order, those that overlap or touch made one: a date within two years that are both asked for fits.
void mergeDays(WantedDays& days) {
  std::sort(days.begin(), days.end(), [](const auto& a, const auto& b) { return a.earliest < b.earliest; });
  WantedDays merged;
  for (const dates::Bounds& one : days) {
    if (!merged.empty() && one.earliest <= merged.back().latest.plusDays(1)) {
      merged.back().latest = std::max(merged.back().latest, one.latest);
    } else {
      merged.push_back(one);
    }
  }
  days = std::move(merged);
}

class Compiler {
 public:
  Compiler(const Collection& collection, source::FileId file, diagnostics::Findings& findings, bool allowPrivate)
      : collection_(collection), file_(file), findings_(findings), allowPrivate_(allowPrivate) {}

  // A mapping: all of its keys. Nothing if none of them could be read.
  std::optional<Condition::Node> all(const Value& tree, const Scope& scope) {
    Condition::Node node;
    for (const Entry& entry : tree.entries())
      if (auto one = key(entry, scope)) node.nodes.push_back(std::move(*one));
    if (node.nodes.empty()) return std::nullopt;
    if (node.nodes.size() == 1) {
      Condition::Node only = std::move(node.nodes[0]);
      return only;
    }
    return node;
  }

  void report(Rule rule, Extent place, std::string message, std::string hint) {
    findings_.add({.rule = rule,
                   .span = {file_, place.begin, std::max(place.begin, place.end)},
                   .message = std::move(message),
                   .hint = std::move(hint)});
  }

 private:
  std::optional<Condition::Node> key(const Entry& entry, const Scope& scope) {
    if (entry.key == "not") return negation(entry, scope);
    if (entry.key == "any") return alternatives(entry, scope);
    if (entry.value.type == ValueType::unfit) return std::nullopt;  // reading has said so
    PathProblem problem;
    Path path = Path::compile(entry.key, scope, collection_, problem, allowPrivate_);
    if (path.empty()) {
      if (entry.key == "all" || entry.key == "and" || entry.key == "or") {
        problem.hint = entry.key == "or" ? "alternatives go under `any:`, a list: `any: [{…}, {…}]`"
                                         : "several keys are all required as they are: write them one below the other";
      }
      report("field-unknown"_rule, part(entry.keyPlace, entry.key, problem.at, problem.length), problem.message, problem.hint);
      return std::nullopt;
    }
    Condition::Node node;
    node.type = Condition::Node::Type::test;
    node.path = std::move(path);
    bool asked = false;
    for (const Value& value : entry.value.each()) asked |= take(value, node);
    if (!asked) {
      if (entry.value.type == ValueType::list && entry.value.count() == 0)
        report("value-unfit"_rule, entry.value.place, "this list is empty, so nothing is asked for", "name one value at least, or take the line out");
      return std::nullopt;
    }
    if (!node.days.empty()) mergeDays(node.days);
    return node;
  }

  std::optional<Condition::Node> negation(const Entry& entry, const Scope& scope) {
    if (entry.value.type != ValueType::mapping) {
      const bool list = entry.value.type == ValueType::list;
      report("value-unfit"_rule, entry.value.place, "`not` takes a condition of its own",
             list ? "write `not: {any: [{…}, {…}]}`" : "write it as `not: {shape: jessamount}`");
      return std::nullopt;
    }
    auto inner = all(entry.value, scope);
    if (!inner) return std::nullopt;
    Condition::Node node;
    node.type = Condition::Node::Type::notAll;
    node.nodes.push_back(std::move(*inner));
    return node;
  }

  std::optional<Condition::Node> alternatives(const Entry& entry, const Scope& scope) {
    if (entry.value.type != ValueType::list) {
      report("value-unfit"_rule, entry.value.place, "`any` takes a list of conditions, of which one is enough",
             "write each as an item: `any: [{shape: jessamount}, {motif: none}]`");
      return std::nullopt;
    }
    Condition::Node node;
    node.type = Condition::Node::Type::anyOf;
    for (const Value& one : entry.value.items()) {
      if (one.type != ValueType::mapping) {
        if (one.type != ValueType::unfit)
          report("value-unfit"_rule, one.place, "an alternative of `any` is a condition, here is " + describe(one),
                 "write each as an item: `any: [{shape: jessamount}, {motif: none}]`");
        continue;
      }
      if (auto inner = all(one, scope)) node.nodes.push_back(std::move(*inner));
    }
    if (node.nodes.empty()) return std::nullopt;
    return node;
  }

  static std::string describe(const Value& value) {
    return value.type == ValueType::list ? "a list" : value.type == ValueType::mapping ? "a mapping" : inTicks(value.text);
  }

  // One of the values asked for. False if it cannot be read, with a finding.
  bool take(const Value& value, Condition::Node& node) {
    if (value.type == ValueType::unfit) return false;
    if (const auto word = wordOf(value)) {
      node.words.push_back(*word);
      return true;
    }
    if (value.type == ValueType::mapping) {
      const Scope& scope = node.path.endScope();
      if (scope.type == Scope::Type::leaf) {
        report("value-unfit"_rule, value.place, inTicks(node.path.text()) + " takes a plain value, here is a mapping", "write the value itself, or a list of values");
        return false;
      }
      auto inner = all(value, scope);
      if (!inner) return false;
      node.within.push_back(std::move(*inner));
      return true;
    }
    if (value.type == ValueType::list) {
      report("value-unfit"_rule, value.place, "a list stands inside the list of " + inTicks(node.path.text()), "write one list");
      return false;
    }
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
        report("value-unfit"_rule, value.place, inTicks(node.path.text()) + " has features, and one must be named",
               "write `" + std::string(node.path.text()) + ".FEATURE: " + base::shortened(value.text, 40) + "`");
        return false;
      case FieldType::headings:
        report("value-unfit"_rule, value.place, inTicks(node.path.text()) + " has headings, and one must be named",
               "write `" + std::string(node.path.text()) + ".Heading: " + base::shortened(value.text, 40) + "`");
        return false;
      case FieldType::where:
      case FieldType::tree:
      case FieldType::citations:
        report("value-unfit"_rule, value.place, "nothing can be chosen by what stands in " + inTicks(node.path.text()), "ask whether it is `known` or `absent`");
        return false;
      default: break;
    }
    if (node.path.feature() != records::kNoRecord && !fitsFeature(value, node.path.feature())) return false;
    node.wanted.emplace_back(WantedText{base::folded(value.text)});
    return true;
  }

  // A part of a text by its bytes, where the text stands letter for letter in the file.
  static Extent part(Extent place, std::string_view text, std::size_t at, std::size_t length) {
    std::uint32_t begin = place.begin;
    if (place.end - place.begin == text.size() + 2) ++begin;  // quoted
    else if (place.end - place.begin != text.size()) return place;
    begin += static_cast<std::uint32_t>(std::min(at, text.size()));
    return {begin, begin + static_cast<std::uint32_t>(std::min(length, text.size() - std::min(at, text.size())))};
  }

  bool takeDays(const Value& value, Condition::Node& node) {
    const dates::Result read = dates::parse(value.text, collection_.settings().dates);
    if (!read) {
      const dates::Error& error = read.error();
      report("date-unreadable"_rule, part(value.place, value.text, error.byte, error.bytes), error.message, error.hint);
      return false;
    }
    for (const dates::Bounds& one : read->memberBounds(dates::Reading::Plain, collection_.settings().dates))
      node.days.push_back(one.opened());
    return true;
  }

  bool isLost(std::string_view id) const {
    return collection_.read().lostFiles || collection_.read().lostIds.contains(id);
  }

  bool takeReference(const Value& value, KindSet kinds, Condition::Node& node) {
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
               near ? "did you mean `" + std::string(*near) + std::string(id.substr(colon)) + "`?" : "it takes the id of a " + shownKinds(kinds));
        return false;
      }
      kinds = KindSet(*kind);
      id = id.substr(colon + 1);
    }
    std::vector<RecordIndex> found;
    std::vector<std::string_view> ids;
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
      report("reference-ambiguous"_rule, value.place, inTicks(id) + " could be " + base::listedInWords(names, "or"), "write the kind in front of the id");
      return false;
    }
    if (isLost(id)) return false;
    for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
      if (kinds.has(static_cast<Kind>(i)))
        for (RecordIndex one : collection_.ofKind(static_cast<Kind>(i))) ids.push_back(collection_[one].id);
    const auto near = base::nearest(id, ids);
    report("reference-missing"_rule, value.place, "there is no " + shownKinds(kinds) + " " + inTicks(id),
           near ? "did you mean `" + std::string(*near) + "`?" : "add the record, or mend the id");
    return false;
  }

  static std::string shownKinds(KindSet kinds) {
    std::vector<std::string> names;
    for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
      if (kinds.has(static_cast<Kind>(i))) names.emplace_back(records::kKindNames[i].one);
    return names.size() > 5 ? "record" : base::listedInWords(names, "or");
  }

  bool takeEvent(const Value& value, Condition::Node& node) {
    const std::string_view text = value.text;
    const std::size_t colon = text.find(':');
    const std::size_t dot = colon == std::string_view::npos ? colon : text.find('.', colon);
    const auto kind = colon == std::string_view::npos ? std::nullopt : records::kindNamed(text.substr(0, colon));
    if (!kind) {
      report("value-unfit"_rule, value.place, inTicks(text) + " is no event", "write `kind:id` or `kind:id.field`, as `shape:linnavere.withdrawn`");
      return false;
    }
    Condition::Node reference;
    Value bare = value;
    bare.text = text.substr(0, dot);
    bare.place = part(value.place, text, 0, bare.text.size());
    reference.path = node.path;
    if (!takeReference(bare, KindSet(*kind), reference)) return false;
    WantedEvent event{std::get<WantedRecord>(reference.wanted[0]).record};
    const std::string_view word = dot == std::string_view::npos ? std::string_view() : text.substr(dot + 1);
    const auto field = word.empty() ? records::spec(*kind).standsFor : records::fieldNamed(word.substr(0, word.find('.')));
    const FieldSpec* spec = field ? records::specOf(*kind, *field) : nullptr;
    if (spec == nullptr || !spec->has(records::kDated)) {
      report("value-unfit"_rule, value.place, "a " + std::string(records::name(*kind)) + " has no date " + (word.empty() ? "of its own" : inTicks(word)),
             "name one of its dates, as `shape:linnavere.withdrawn`");
      return false;
    }
    event.field = *field;
    node.wanted.emplace_back(event);
    return true;
  }

  bool takeChoice(const Value& value, const FieldSpec& spec, Condition::Node& node) {
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
      report("value-unfit"_rule, value.place, inTicks(value.text) + " is no value of " + inTicks(spec.field.name()),
             near ? "did you mean `" + std::string(*near) + "`?" : "it takes " + shownAll(words));
      return false;
    }
    node.wanted.emplace_back(WantedText{base::folded(value.text)});
    return true;
  }

  bool takeNumber(const Value& value, const FieldSpec& spec, Condition::Node& node) {
    const bool clock = spec.type == FieldType::clock;
    const auto range = clock ? readTimeRange(value.text) : readRange(value.text);
    if (!range) {
      report("value-unfit"_rule, value.place,
             inTicks(node.path.text()) + (clock ? " takes a time or a range of times" : " takes a number or a range of numbers") + ", here is " + inTicks(value.text),
             clock ? "write `6:00`, or `6:00 to 10:00`" : "write `3`, or `3 to 5`");
      return false;
    }
    node.wanted.emplace_back(*range);
    return true;
  }

  bool takeMeasure(const Value& value, Condition::Node& node) {
    const auto range = readMeasureRange(value.text);
    if (!range) {
      report("value-unfit"_rule, value.place, inTicks(value.text) + " is no measure and no range of measures",
             "write `7 in`, or `7 in to 9 in`, the smaller first");
      return false;
    }
    node.wanted.emplace_back(*range);
    return true;
  }

  bool takeYesNo(const Value& value, Condition::Node& node) {
    if (value.text != "yes" && value.text != "no") {
      report("value-unfit"_rule, value.place, inTicks(node.path.text()) + " is `yes` or `no`, here is " + inTicks(value.text), "write `yes` or `no`");
      return false;
    }
    const std::int64_t number = value.text == "yes" ? 1 : 0;
    node.wanted.emplace_back(Range{number, number});
    return true;
  }

  bool fitsFeature(const Value& value, RecordIndex index) {
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
    findings_.add({.rule = "value-unfit"_rule,
                   .span = {file_, value.place.begin, value.place.end},
                   .message = inTicks(value.text) + " is no value of the feature " + inTicks(feature.id),
                   .hint = near ? "did you mean `" + std::string(*near) + "`?" : "its values are " + shownAll(words),
                   .related = {{feature.span(), "the feature stands here"}}});
    return false;
  }

  const Collection& collection_;
  source::FileId file_;
  diagnostics::Findings& findings_;
  bool allowPrivate_;
};

}  // namespace

Condition Condition::compile(const Value& tree, Kind kind, const Collection& collection, source::FileId file,
                             diagnostics::Findings& findings, bool allowPrivate) {
  return compile(tree, KindSet(kind), collection, file, findings, allowPrivate);
}

Condition Condition::compile(const Value& tree, KindSet kinds, const Collection& collection, source::FileId file,
                             diagnostics::Findings& findings, bool allowPrivate) {
  Condition condition;
  if (tree.type == ValueType::unfit) return condition;
  Compiler compiler(collection, file, findings, allowPrivate);
  if (tree.type != ValueType::mapping) {
    compiler.report("value-unfit"_rule, tree.place, "a condition is a mapping of fields to values, here is a " + std::string(tree.type == ValueType::list ? "list" : "plain value"),
                    "write it as `{shape: jessamount}`; several of which one is enough, as `{any: [{…}, {…}]}`");
    return condition;
  }
  const Scope scope{.type = Scope::Type::record, .kinds = kinds, .called = kinds.single() ? records::name(kinds.only()) : std::string_view("record")};
  if (auto node = compiler.all(tree, scope)) condition.root_ = std::make_shared<const Node>(std::move(*node));
  return condition;
}

}  // namespace saggar::choosing
