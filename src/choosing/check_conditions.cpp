#include "choosing/choose.h"
#include "choosing/claim_test.h"
#include "choosing/query.h"

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
        of(collection_[claim], "test"_f, [&] { compileTest(test, collection_, file_, findings_); });
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

  const Collection& collection_;
  Findings& findings_;
  source::FileId file_ = source::kNoFile;
};

}  // namespace

void checkConditions(const Collection& collection, Findings& findings) {
  Checker(collection, findings).run();
}

}  // namespace saggar::choosing
