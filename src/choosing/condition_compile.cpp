#include <algorithm>

#include "choosing/condition_values.h"

// From a `where` as typed to a condition: its keys, and how they combine.
namespace saggar::choosing {

using diagnostics::Rule;
using records::Entry;
using records::Extent;
using records::KindSet;
using records::Value;
using records::ValueType;

namespace {

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
  Compiler(const Collection& collection, source::FileId file, diagnostics::Findings& findings,
           bool allowPrivate)
      : collection_(collection), allowPrivate_(allowPrivate), values_(collection, file, findings) {}

  // A mapping: all of its keys. Nothing if none of them could be read.
  std::optional<Condition::Node> all(const Value& tree, const Scope& scope) {
    Condition::Node node;
    for (const Entry& entry : tree.entries()) {
      if (auto one = key(entry, scope)) {
        node.nodes.push_back(std::move(*one));
      } else {
        whole_ = false;
      }
    }
    if (node.nodes.empty()) return std::nullopt;
    if (node.nodes.size() == 1) {
      Condition::Node only = std::move(node.nodes[0]);
      return only;
    }
    return node;
  }

  bool isWhole() const { return whole_; }

  void report(Rule rule, Extent place, std::string message, std::string hint) {
    values_.report(rule, place, std::move(message), std::move(hint));
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
        problem.hint = entry.key == "or"
                           ? "alternatives go under `any:`, a list: `any: [{…}, {…}]`"
                           : "several keys are all required as they are: write them one below the other";
      }
      report("field-unknown"_rule, partOf(entry.keyPlace, entry.key, problem.at, problem.length),
             problem.message, problem.hint);
      return std::nullopt;
    }
    Condition::Node node;
    node.type = Condition::Node::Type::test;
    node.path = std::move(path);
    bool asked = false;
    for (const Value& value : entry.value.each()) {
      const bool taken = take(value, node);
      asked |= taken;
      whole_ = whole_ && taken;
    }
    if (!asked) {
      if (entry.value.type == ValueType::list && entry.value.count() == 0)
        report("value-unfit"_rule, entry.value.place, "this list is empty, so nothing is asked for",
               "name one value at least, or take the line out");
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
    auto inner = within(entry.value, scope);
    if (!inner) return std::nullopt;
    Condition::Node node;
    node.type = Condition::Node::Type::notAll;
    node.nodes.push_back(std::move(*inner));
    return node;
  }

  std::optional<Condition::Node> alternatives(const Entry& entry, const Scope& scope) {
    if (entry.value.type != ValueType::list) {
      report("value-unfit"_rule, entry.value.place,
             "`any` takes a list of conditions, of which one is enough",
             "write each as an item: `any: [{shape: jessamount}, {motif: none}]`");
      return std::nullopt;
    }
    Condition::Node node;
    node.type = Condition::Node::Type::anyOf;
    for (const Value& one : entry.value.items()) {
      if (one.type != ValueType::mapping) {
        whole_ = false;
        if (one.type != ValueType::unfit)
          report("value-unfit"_rule, one.place,
                 "an alternative of `any` is a condition, here is " + describe(one),
                 "write each as an item: `any: [{shape: jessamount}, {motif: none}]`");
        continue;
      }
      if (auto inner = within(one, scope)) {
        node.nodes.push_back(std::move(*inner));
      } else {
        whole_ = false;
      }
    }
    if (node.nodes.empty()) return std::nullopt;
    return node;
  }

  // A mapping inside another must ask for something.
  std::optional<Condition::Node> within(const Value& tree, const Scope& scope) {
    if (tree.entries().empty())
      report("value-unfit"_rule, tree.place, "nothing is asked for here",
             "name a field and its value, as `{shape: jessamount}`");
    return all(tree, scope);
  }

  static std::string describe(const Value& value) {
    return value.type == ValueType::list      ? "a list"
           : value.type == ValueType::mapping ? "a mapping"
                                              : inTicks(value.text);
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
        report("value-unfit"_rule, value.place,
               inTicks(node.path.text()) + " takes a plain value, here is a mapping",
               "write the value itself, or a list of values");
        return false;
      }
      auto inner = within(value, scope);
      if (!inner) return false;
      node.within.push_back(std::move(*inner));
      return true;
    }
    if (value.type == ValueType::list) {
      report("value-unfit"_rule, value.place, "a list stands inside the list of " + inTicks(node.path.text()),
             "write one list");
      return false;
    }
    return values_.take(value, node);
  }

  const Collection& collection_;
  bool allowPrivate_;
  bool whole_ = true;
  ValueReader values_;
};

}  // namespace

Condition Condition::compile(const Value& tree, Kind kind, const Collection& collection, source::FileId file,
                             diagnostics::Findings& findings, bool allowPrivate) {
  return compile(tree, KindSet(kind), collection, file, findings, allowPrivate);
}

Condition Condition::compile(const Value& tree, KindSet kinds, const Collection& collection,
                             source::FileId file, diagnostics::Findings& findings, bool allowPrivate) {
  Condition condition;
  condition.whole_ = false;
  if (tree.type == ValueType::unfit) return condition;
  Compiler compiler(collection, file, findings, allowPrivate);
  if (tree.type != ValueType::mapping) {
    compiler.report(
        "value-unfit"_rule, tree.place,
        "a condition is a mapping of fields to values, here is a " +
            std::string(tree.type == ValueType::list ? "list" : "plain value"),
        "write it as `{shape: jessamount}`; several of which one is enough, as `{any: [{…}, {…}]}`");
    return condition;
  }
  const Scope scope{.type = Scope::Type::record,
                    .kinds = kinds,
                    .called = kinds.single() ? records::name(kinds.only()) : std::string_view("record")};
  if (auto node = compiler.all(tree, scope)) condition.root_ = std::make_shared<const Node>(std::move(*node));
  condition.whole_ = compiler.isWhole();
  return condition;
}

}  // namespace saggar::choosing
