#include "compose/claim_tests.h"

#include <algorithm>

#include "base/text.h"
#include "chronology/reasons.h"
#include "compose/phrases.h"

namespace saggar::compose {

using choosing::ClaimResult;
using choosing::Outcome;
using choosing::TestedRecord;
using choosing::TestFact;
using choosing::TestResult;
using document::text;
using Way = choosing::ClaimTest::Way;

namespace {

constexpr std::size_t kMostNamed = 3;

std::string counted(std::size_t number, Kind kind) {
  return std::to_string(number) + ' ' + kindInWords(kind, number != 1);
}

class Teller {
 public:
  explicit Teller(const Words& words) : words_(words) {}

  Inlines of(const TestResult& test) const {
    switch (test.outcome) {
      case Outcome::holds: return borneOut(test);
      case Outcome::open: return open(test);
      case Outcome::broken: return broken(test);
      case Outcome::untested: break;
    }
    return {};
  }

 private:
  Inlines borneOut(const TestResult& test) const {
    switch (test.way) {
      case Way::every:
      case Way::no:
        if (test.looked == 0) return {text("no " + kindInWords(test.kind) + " speaks against it")};
        return {text(test.way == Way::every
                         ? std::to_string(test.fitting) + " of " + counted(test.looked, test.kind)
                         : "none of " + counted(test.looked, test.kind))};
      case Way::count: return countedNames(test);
      case Way::some: return names(test);
      case Way::before: return {text("the order is proven")};
      case Way::same: return {text("the " + fieldOf(test) + " is the same")};
      case Way::differ: return {text("the " + fieldOf(test) + " differs")};
    }
    return {};
  }

  // "2 shapes, Bryn and Cairn": a few by their names.
  Inlines countedNames(const TestResult& test) const {
    if (test.fitting == 0) return {text("no " + kindInWords(test.kind))};
    Inlines out{text(counted(test.fitting, test.kind))};
    if (test.fitting > kMostNamed) return out;
    put(out, ", ");
    put(out, names(test));
    return out;
  }

  Inlines broken(const TestResult& test) const {
    Inlines out;
    switch (test.way) {
      case Way::every:
      case Way::no:
        put(out, "broken by ");
        put(out, nameWithFact(test.records[0]));
        put(out, others(test));
        return out;
      case Way::some: return {text("broken: no " + kindInWords(test.kind) + " on record is so")};
      case Way::count:
        put(out,
            "broken: " + (test.most == 0 ? "no " + kindInWords(test.kind) + " is on record"
                                         : counted(test.fitting, test.kind) +
                                               (test.fitting == 1 ? " is on record" : " are on record")));
        if (test.most > test.fitting) put(out, " for sure, " + std::to_string(test.most) + " at the most");
        return out;
      case Way::before: return {text("broken: it was not the earlier, as the records prove")};
      case Way::same: put(out, "broken: they differ ("); break;
      case Way::differ: put(out, "broken: they are alike ("); break;
    }
    put(out, factsOf(test));
    put(out, ")");
    return out;
  }

  // Of the name of a field: "marks", but not "status".
  static bool isPlural(std::string_view field) {
    return field.ends_with('s') && !field.ends_with("ss") && !field.ends_with("us");
  }

  Inlines open(const TestResult& test) const {
    Inlines out;
    if (test.way == Way::before)
      return {text(test.unlikely ? "open: the order is not proven, and likely the other way round"
                                 : "open: the order is not proven")};
    put(out, "open: ");
    const TestFact* missing = nullptr;
    for (const TestedRecord& one : test.records)
      for (const TestFact& fact : one.facts)
        if (missing == nullptr && fact.missing) missing = &fact;
    if (missing == nullptr) {
      put(out, "the records do not settle it");
      return out;
    }
    if (isDate(*missing)) {
      put(out, "when ");
      put(out, words_.name(missing->record));
      put(out, ' ' + happened(*missing));
    } else {
      put(out, "the " + fieldInWords(missing->field) + " of ");
      put(out, words_.name(missing->record));
    }
    const bool several = !isDate(*missing) && isPlural(missing->field);
    const std::string is = several ? " are " : " is ";
    put(out, missing->value.empty() ? is + "not recorded"
             : missing->value == "unknown"
                 ? is + "not known"
                 : " (" + valueInWords(*missing) + (several ? ") do" : ") does") + " not settle it");
    const std::size_t more = test.records.size() + test.more - 1;
    if (more > 0 && test.kind != Kind::guide)
      put(out, (several ? ", nor those of " : ", nor that of ") + countedInWords(more, "other", "others"));
    return out;
  }

  const records::FieldSpec* specOf(const TestFact& fact) const {
    const auto field = records::fieldNamed(fact.field);
    return field ? records::specOf(words_.materials().records[fact.record].kind(), *field) : nullptr;
  }

  bool isDate(const TestFact& fact) const {
    const records::FieldSpec* spec = specOf(fact);
    return spec != nullptr && spec->type == records::FieldType::moment;
  }

  std::string happened(const TestFact& fact) const {
    return chronology::Reasons::happened(words_.materials().records[fact.record].kind(), specOf(fact)->field);
  }

  // References by name, all else as it is printed elsewhere.
  std::string valueInWords(const TestFact& fact) const {
    const records::FieldSpec* spec = specOf(fact);
    if (fact.typed == nullptr || spec == nullptr) return fact.value;
    return words_.plainValue(fact.typed, spec, words_.materials().records[fact.record]);
  }

  // What two records were compared in.
  std::string fieldOf(const TestResult& test) const {
    const bool known = !test.records.empty() && !test.records[0].facts.empty();
    return known ? fieldInWords(test.records[0].facts[0].field) : "field";
  }

  // "finial" of "look.finial", "made in" of "made-in".
  std::string fieldInWords(const std::string& field) const {
    if (field.starts_with("look."))
      if (const auto feature = words_.materials().records.find(Kind::feature, field.substr(5)))
        return words_.plainFeature(*feature);
    std::string out = field;
    std::replace(out.begin(), out.end(), '-', ' ');
    return out;
  }

  Inlines nameWithFact(const TestedRecord& one) const {
    Inlines out = words_.name(one.record);
    if (one.facts.empty()) return out;
    const TestFact& fact = one.facts[0];
    put(out, " (" + fieldInWords(fact.field) +
                 (fact.value.empty() ? " not recorded" : ": " + valueInWords(fact)) + ')');
    return out;
  }

  Inlines names(const TestResult& test) const {
    std::vector<Inlines> out;
    for (const TestedRecord& one : test.records)
      if (out.size() < kMostNamed) out.push_back(words_.name(one.record));
    const std::size_t more = test.records.size() + test.more - out.size();
    if (more > 0) out.push_back({text(std::to_string(more) + " more")});
    return listed(std::move(out));
  }

  static std::string others(const TestResult& test) {
    const std::size_t more = test.records.size() + test.more - 1;
    return more == 0 ? std::string() : " and " + std::to_string(more) + " more";
  }

  std::string factsOf(const TestResult& test) const {
    std::vector<std::string> facts;
    for (const TestedRecord& one : test.records)
      for (const TestFact& fact : one.facts)
        facts.push_back(words_.plainName(fact.record) + ": " +
                        (fact.value.empty() ? std::string("not recorded") : valueInWords(fact)));
    return base::joined(facts, "; ");
  }

  const Words& words_;
};

}  // namespace

Inlines testInWords(const Words& words, RecordIndex claim) {
  const ClaimResult* result = words.materials().claims.of(claim);
  if (result == nullptr || result->outcome == Outcome::untested) return {};
  const Teller teller(words);
  std::vector<Inlines> told;
  std::string all;
  for (const TestResult& test : result->tests) {
    if (test.outcome != result->outcome) continue;
    Inlines one = teller.of(test);
    const std::string plain = document::plainText(one);
    if (all.find(plain) != std::string::npos) continue;  // another test has said so
    all += plain + '\n';
    told.push_back(std::move(one));
  }
  Inlines out;
  if (result->outcome == Outcome::holds) put(out, "the records of this guide bear this out: ");
  put(out, separated(std::move(told), "; "));
  return out;
}

Inlines testAloneInWords(const Words& words, const PublishedRecord& claim) {
  if (claim.find("test"_f) == nullptr) return {};
  const ClaimResult* result = words.materials().claims.of(claim.index());
  if (result == nullptr || result->outcome == Outcome::untested)
    return {text("the author's judgement, from the entries of this guide")};
  Inlines out{text("the author's judgement; ")};
  put(out, testInWords(words, claim.index()));
  return out;
}

}  // namespace saggar::compose
