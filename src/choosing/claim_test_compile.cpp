#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "choosing/claim_test.h"
#include "choosing/query.h"

namespace saggar::choosing {

using records::Entry;
using records::Value;
using records::ValueType;
using Way = ClaimTest::Way;

namespace {

constexpr std::string_view kWays[] = {"every", "no", "some", "count", "before", "same", "differ"};

// Something in it could not be read, and a finding says so.
bool holdsUnfit(const Value& value) {
  const auto unfit = [](const auto& part) { return holdsUnfit(part); };
  if (value.type == ValueType::unfit) return true;
  return std::any_of(value.items().begin(), value.items().end(), unfit) ||
         std::any_of(value.entries().begin(), value.entries().end(),
                     [&](const Entry& entry) { return unfit(entry.value); });
}

class TestCompiler {
 public:
  TestCompiler(const Value& test, const Collection& collection, source::FileId file,
               diagnostics::Findings& findings)
      : typed_(test), collection_(collection), file_(file), findings_(findings) {}

  std::optional<ClaimTest> run() {
    if (typed_.type != ValueType::mapping) return std::nullopt;
    const Entry* way = theWay();
    if (way == nullptr) return std::nullopt;
    test_.at = &way->value;
    switch (test_.way) {
      case Way::every:
      case Way::no:
      case Way::some:
      case Way::count: ofRecords(*way); break;
      case Way::before: ofEvents(way->value); break;
      case Way::same:
      case Way::differ: ofTwo(way->value, way->key); break;
    }
    if (const Value* makes = typed_.find("makes"_f); makes != nullptr && makes->said()) {
      const auto range = readRange(makes->text);
      if (range) test_.makes = *range;
      if (!range)
        report("value-unfit"_rule, *makes,
               "`makes` takes a number or a range of numbers, here is `" + base::shortened(makes->text, 40) +
                   "`",
               "write `1`, or `3 to 5`");
    }
    if (!whole_ || holdsUnfit(typed_)) return std::nullopt;
    return std::move(test_);
  }

 private:
  // One of the ways to test, and with it what it cannot do without.
  const Entry* theWay() {
    const Entry* way = nullptr;
    for (const Entry& entry : typed_.entries()) {
      const auto* const named = std::find(std::begin(kWays), std::end(kWays), entry.key);
      if (named == std::end(kWays)) continue;
      if (way != nullptr) {
        report(
            "value-unfit"_rule, entry.value,
            "this test asks two things: `" + std::string(way->key) + "` and `" + std::string(entry.key) + "`",
            "write two tests, each as an item of its own");
        continue;
      }
      way = &entry;
      test_.way = static_cast<Way>(named - std::begin(kWays));
    }
    return way;  // reading has said so if there is none
  }

  void ofRecords(const Entry& way) {
    const Value* where = typed_.find("where"_f);
    const Value* has = typed_.find("has"_f);
    if (test_.way == Way::every && has == nullptr)
      report("value-unfit"_rule, way.value, "`every` does not say what each of them must be",
             "add `has: {…}`, as `has: {look.finial: slot}`");
    if (test_.way == Way::count && typed_.find("makes"_f) == nullptr)
      report("value-unfit"_rule, way.value, "`count` does not say what the number must be",
             "add `makes: 3`, or a range: `makes: 3 to 5`");
    const auto kind = records::kindNamed(way.value.text);
    whole_ = whole_ && kind.has_value();
    if (!kind) return;
    test_.kind = *kind;
    if (where != nullptr) test_.where = condition(*where);
    if (has != nullptr) test_.has = condition(*has);
  }

  Condition condition(const Value& typed) {
    Condition made = Condition::compile(typed, test_.kind, collection_, file_, findings_);
    whole_ = whole_ && made.isWhole();
    return made;
  }

  // `before: [event, event]`
  void ofEvents(const Value& pair) {
    const auto events = pair.each();
    if (events.size() != 2) {
      if (pair.type != ValueType::unfit)
        report("value-unfit"_rule, pair, "`before` takes two events, the earlier first",
               "write it as `before: [shape:kelderling, shape:jessamount]`");
      return;
    }
    for (std::size_t i = 0; i < 2; ++i) {
      test_.events[i] = &events[i];
      whole_ = whole_ && events[i].type == ValueType::event && events[i].target() != records::kNoRecord;
    }
  }

  // `same: [record, record, field]`
  void ofTwo(const Value& pair, std::string_view way) {
    const auto items = pair.items();
    if (pair.type == ValueType::unfit) return;
    if (items.size() != 3) {
      report("value-unfit"_rule, pair, "`" + std::string(way) + "` takes two records and a field",
             "write it as `" + std::string(way) + ": [shape:linnavere, shape:sorrendale, maker]`");
      return;
    }
    std::optional<Kind> kinds[2];
    for (std::size_t i = 0; i < 2; ++i) kinds[i] = record(items[i], test_.records[i]);
    // Of a field that neither kind has, one finding.
    for (std::size_t i = 0; i < 2 && kinds[i]; ++i) {
      test_.paths[i] = readPath(items[2], *kinds[i], collection_, file_, findings_, way);
      if (!test_.paths[i].empty()) continue;
      whole_ = false;
      break;
    }
  }

  std::optional<Kind> record(const Value& value, RecordIndex& found) {
    const std::size_t colon = value.text.find(':');
    const auto kind =
        colon == std::string_view::npos ? std::nullopt : records::kindNamed(value.text.substr(0, colon));
    if (!kind) {
      report("value-unfit"_rule, value, "`" + base::shortened(value.text, 40) + "` names no record",
             "write `kind:id`, as `shape:linnavere`");
      return std::nullopt;
    }
    const std::string_view id = value.text.substr(colon + 1);
    if (const auto index = collection_.find(*kind, id)) {
      found = *index;
      return kind;
    }
    whole_ = false;
    if (collection_.read().lostFiles || collection_.read().lostIds.contains(id)) return kind;
    std::vector<std::string_view> ids;
    for (RecordIndex one : collection_.ofKind(*kind)) ids.push_back(collection_[one].id);
    const auto near = base::nearest(id, ids);
    report("reference-missing"_rule, value,
           "there is no " + std::string(records::name(*kind)) + " `" + base::shortened(id, 60) + "`",
           near ? "did you mean `" + std::string(records::name(*kind)) + ":" + std::string(*near) + "`?"
                : "add the record, or mend the id");
    return kind;
  }

  void report(diagnostics::Rule rule, const Value& at, std::string message, std::string hint) {
    whole_ = false;
    findings_.add({.rule = rule,
                   .span = {file_, at.place.begin, std::max(at.place.begin, at.place.end)},
                   .message = std::move(message),
                   .hint = std::move(hint)});
  }

  const Value& typed_;
  const Collection& collection_;
  source::FileId file_;
  diagnostics::Findings& findings_;
  ClaimTest test_;
  bool whole_ = true;
};

}  // namespace

std::string_view word(Way way) {
  return kWays[static_cast<std::size_t>(way)];
}

std::optional<ClaimTest> compileTest(const Value& test, const Collection& collection, source::FileId file,
                                     diagnostics::Findings& findings) {
  return TestCompiler(test, collection, file, findings).run();
}

}  // namespace saggar::choosing
