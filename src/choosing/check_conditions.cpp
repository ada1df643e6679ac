#include "base/edit_distance.h"
#include "base/text.h"
#include "choosing/choose.h"
#include "choosing/query.h"
#include "choosing/range.h"

// Every condition and path of a guide read once, wherever it stands, for what is wrong with it.
namespace saggar::choosing {

using diagnostics::Findings;
using records::Entry;
using records::KindSet;
using records::Record;
using records::Value;
using records::ValueType;

namespace {

class Checker {
 public:
  Checker(const Collection& collection, Findings& findings) : collection_(collection), findings_(findings) {}

  void run() {
    for (RecordIndex maker : collection_.ofKind(Kind::maker))
      for (const Value& rule : members(collection_[maker], "codes"_f))
        of(collection_[maker], "codes"_f, [&] { codeRule(rule); });
    for (RecordIndex claim : collection_.ofKind(Kind::claim))
      for (const Value& test : members(collection_[claim], "test"_f))
        of(collection_[claim], "test"_f, [&] { claimTest(test); });
    for (RecordIndex checklist : collection_.ofKind(Kind::checklist))
      readQuery(checklist, collection_, findings_);
    if (const Record* guide = collection_.guide())
      if (const Value* contents = guide->find("contents"_f))
        of(*guide, "contents"_f, [&] { chapters(*contents); });
  }

 private:
  static std::span<const Value> members(const Record& record, records::Field field) {
    const Value* value = record.find(field);
    return value != nullptr ? value->each() : std::span<const Value>();
  }

  // Findings made by `look` are about this record and field.
  template <class Look>
  void of(const Record& record, records::Field field, Look&& look) {
    file_ = record.file;
    const std::size_t before = findings_.all().size();
    look();
    for (std::size_t i = before; i < findings_.all().size(); ++i) {
      if (record.kind != Kind::guide) findings_.all()[i].record = record.reference();
      findings_.all()[i].field = std::string(field.name());
    }
  }

  void condition(const Value* where, KindSet kinds) {
    if (where != nullptr) Condition::compile(*where, kinds, collection_, file_, findings_);
  }

  void codeRule(const Value& rule) {
    const Value* on = rule.find("on"_f);
    KindSet kinds(Kind::treatment);
    if (on != nullptr && on->text.starts_with("specimen.")) kinds = KindSet(Kind::specimen);
    if (on != nullptr && on->text == "registered") kinds = KindSet(Kind::shape, Kind::motif, Kind::specimen);
    condition(rule.find("where"_f), kinds);
  }

  void claimTest(const Value& test) {
    asksOneThing(test);
    for (auto field : {"every"_f, "no"_f, "some"_f, "count"_f}) {
      const Value* asked = test.find(field);
      const auto kind = asked != nullptr ? records::kindNamed(asked->text) : std::nullopt;
      if (!kind) continue;
      condition(test.find("where"_f), KindSet(*kind));
      condition(test.find("has"_f), KindSet(*kind));
    }
    if (const Value* makes = test.find("makes"_f);
        makes != nullptr && makes->said() && !readRange(makes->text))
      report(
          "value-unfit"_rule, *makes,
          "`makes` takes a number or a range of numbers, here is `" + base::shortened(makes->text, 40) + "`",
          "write `1`, or `3 to 5`");
    for (auto field : {"same"_f, "differ"_f})
      if (const Value* pair = test.find(field)) compared(*pair, field.name());
  }

  // One of the ways to test, and with it what it cannot do without.
  void asksOneThing(const Value& test) {
    if (test.type != ValueType::mapping) return;
    const Entry* way = nullptr;
    for (const Entry& entry : test.entries()) {
      if (entry.key == "where" || entry.key == "has" || entry.key == "makes") continue;
      if (way != nullptr)
        report(
            "value-unfit"_rule, entry.value,
            "this test asks two things: `" + std::string(way->key) + "` and `" + std::string(entry.key) + "`",
            "write two tests, each as an item of its own");
      way = &entry;
    }
    if (way == nullptr) return;  // reading has said so
    if (way->key == "every" && test.find("has"_f) == nullptr) {
      report("value-unfit"_rule, way->value, "`every` does not say what each of them must be",
             "add `has: {…}`, as `has: {look.finial: slot}`");
    } else if (way->key == "count" && test.find("makes"_f) == nullptr) {
      report("value-unfit"_rule, way->value, "`count` does not say what the number must be",
             "add `makes: 3`, or a range: `makes: 3 to 5`");
    }
  }

  // `same: [record, record, field]`
  void compared(const Value& pair, std::string_view word) {
    const auto items = pair.items();
    if (pair.type == ValueType::unfit) return;
    if (items.size() != 3) {
      report("value-unfit"_rule, pair, "`" + std::string(word) + "` takes two records and a field",
             "write it as `" + std::string(word) + ": [shape:linnavere, shape:sorrendale, maker]`");
      return;
    }
    KindSet kinds;
    std::optional<Kind> first;
    for (const Value& one : items.first(2)) {
      const auto found = record(one);
      if (found && !first) first = found;
      if (found && *found != *first) kinds = KindSet::any();
    }
    if (!first) return;
    readPath(items[2], *first, collection_, file_, findings_, word);
  }

  std::optional<Kind> record(const Value& value) {
    const std::size_t colon = value.text.find(':');
    const auto kind =
        colon == std::string_view::npos ? std::nullopt : records::kindNamed(value.text.substr(0, colon));
    if (!kind) {
      report("value-unfit"_rule, value, "`" + base::shortened(value.text, 40) + "` names no record",
             "write `kind:id`, as `shape:linnavere`");
      return std::nullopt;
    }
    const std::string_view id = value.text.substr(colon + 1);
    if (collection_.find(*kind, id) || collection_.read().lostFiles ||
        collection_.read().lostIds.contains(id))
      return kind;
    std::vector<std::string_view> ids;
    for (RecordIndex one : collection_.ofKind(*kind)) ids.push_back(collection_[one].id);
    const auto near = base::nearest(id, ids);
    report("reference-missing"_rule, value,
           "there is no " + std::string(records::name(*kind)) + " `" + base::shortened(id, 60) + "`",
           near ? "did you mean `" + std::string(records::name(*kind)) + ":" + std::string(*near) + "`?"
                : "add the record, or mend the id");
    return kind;
  }

  // Chapters made from records, at any depth of the contents.
  void chapters(const Value& value) {
    for (const Value& item : value.items()) chapters(item);
    for (const Entry& entry : value.entries()) {
      if (entry.key != "a-chapter-for-every") {
        if (entry.key == "holds") chapters(entry.value);
        continue;
      }
      if (const auto kind = readKind(entry.value, file_, findings_, "a-chapter-for-every"))
        readQuery(value, *kind, collection_, file_, findings_);
    }
  }

  void report(diagnostics::Rule rule, const Value& at, std::string message, std::string hint) {
    findings_.add({.rule = rule,
                   .span = {file_, at.place.begin, std::max(at.place.begin, at.place.end)},
                   .message = std::move(message),
                   .hint = std::move(hint)});
  }

  const Collection& collection_;
  Findings& findings_;
  source::FileId file_ = source::kNoFile;
};

}  // namespace

void checkConditions(const Collection& collection, Findings& findings) {
  Checker(collection, findings).run();
}

}  // namespace saggar::choosing
