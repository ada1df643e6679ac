#include <algorithm>

#include "base/text.h"
#include "checks/rules.h"
#include "choosing/range.h"
#include "talks/timing.h"

// What the records say of the claims that test themselves. An error where they are well enough known to break one.
namespace saggar::checks {

using choosing::ClaimResult;
using choosing::Outcome;
using choosing::TestedRecord;
using choosing::TestFact;
using choosing::TestResult;
using diagnostics::Finding;
using records::Kind;
using records::Record;
using records::RecordIndex;
using records::Value;
using Way = choosing::ClaimTest::Way;

namespace {

constexpr std::size_t kMostFacts = 10;
constexpr std::size_t kMostNamed = 4;   // records in a message
constexpr std::size_t kMostToldOf = 3;  // facts of one record in a message

class Teller {
 public:
  Teller(const Context& context, RecordIndex claim, const ClaimResult& result)
      : all_(context.collection), claim_(claim), result_(result) {}

  Finding broken() const {
    Finding finding = begun("claim-broken"_rule, Outcome::broken);
    finding.hint =
        "if the records are right, correct the claim with a new one that `replaces` it; else mend the record";
    bool firm = false;
    for (const TestResult* test : those(Outcome::broken)) {
      firm |= test->firm;
      for (const TestedRecord& one : test->records) finding.records.push_back(all_[one.record].reference());
    }
    const std::string_view status = all_[claim_].text("status"_f);
    if (status == "supposed" || status == "doubted") {
      finding.severity = diagnostics::Severity::note;
    } else if (!firm) {
      finding.severity = diagnostics::Severity::warning;
    }
    return finding;
  }

  Finding open() const {
    Finding finding = begun("claim-open"_rule, Outcome::open);
    bool list = false;
    for (const TestResult* test : those(Outcome::open))
      for (const TestedRecord& one : test->records)
        list |= std::any_of(one.facts.begin(), one.facts.end(),
                            [](const TestFact& fact) { return fact.leavesOut; });
    finding.hint =
        std::string(list ? "write `complete: yes` with a list that leaves nothing out, as `{is: […], "
                           "complete: yes}`, else record"
                         : "record") +
        " what is missing, or narrow the test; what nobody can show yet is `status: supposed`";
    return finding;
  }

 private:
  std::vector<const TestResult*> those(Outcome outcome) const {
    std::vector<const TestResult*> out;
    for (const TestResult& test : result_.tests)
      if (test.outcome == outcome) out.push_back(&test);
    return out;
  }

  Finding begun(diagnostics::Rule rule, Outcome outcome) const {
    const std::vector<const TestResult*> tests = those(outcome);
    Finding finding{.rule = rule,
                    .span = tests[0]->span,
                    .message = '`' + std::string(all_[claim_].id) + "` is " +
                               (outcome == Outcome::broken ? brokenBy(*tests[0]) : openBy(*tests[0])),
                    .hint = {},
                    .record = all_[claim_].reference(),
                    .field = "test"};
    if (tests.size() > 1)
      finding.message += "; " + base::counted(tests.size() - 1, "further test") +
                         (outcome == Outcome::broken ? " broken with it" : " open with it");
    finding.records.push_back(finding.record);
    for (const TestResult* test : tests)
      for (const TestedRecord& one : test->records)
        for (const TestFact& fact : one.facts) add(finding, fact);
    for (diagnostics::Related& one : statedPlaces()) finding.related.push_back(std::move(one));
    return finding;
  }

  void add(Finding& finding, const TestFact& fact) const {
    const std::string record = all_[fact.record].reference();
    const auto same = [&](const diagnostics::FactNote& one) {
      return one.record == record && one.field == fact.field && one.value == fact.value;
    };
    if (finding.facts.size() == kMostFacts || std::any_of(finding.facts.begin(), finding.facts.end(), same))
      return;
    finding.facts.push_back({record, fact.field, fact.value, fact.standing, fact.span});
    finding.related.push_back({fact.span, '`' + fact.field + "` of " + record + inWords(fact)});
  }

  // " is `closed knob` (documented)", " is not recorded", " is `k1, k2` (the list may leave something out)".
  std::string inWords(const TestFact& fact) const {
    std::string beside = fact.value.empty() ? "" : fact.standing;
    const auto put = [&](std::string_view words) {
      beside += beside.empty() ? "" : "; ";
      beside += words;
    };
    if (fact.leavesOut) put("the list may leave something out");
    // Of such a record nothing is concluded.
    if (fact.missing && all_[fact.record].broken) put("part of the record could not be read");
    std::string out = fact.value.empty()        ? " is not recorded"
                      : fact.value == "unknown" ? " is not known"
                                                : " is `" + base::shortened(fact.value, 60) + '`';
    return beside.empty() ? out : out + " (" + beside + ')';
  }

  // "shape:sorrendale, of which `look.finial` is `closed knob` (documented)".
  std::string withFacts(const TestedRecord& one, std::size_t most = kMostToldOf) const {
    std::vector<std::string> facts;
    for (const TestFact& fact : one.facts) {
      if (facts.size() == most) break;
      const std::string of = fact.record == one.record ? "" : " of " + all_[fact.record].reference();
      facts.push_back('`' + fact.field + '`' + of + inWords(fact));
    }
    return all_[one.record].reference() + (facts.empty() ? "" : ", where " + base::listedInWords(facts));
  }

  std::string others(const TestResult& test, const std::string& before) const {
    std::vector<std::string> names;
    for (std::size_t i = 1; i < test.records.size() && i < kMostNamed; ++i)
      names.push_back(all_[test.records[i].record].reference());
    const std::size_t more = test.records.size() + test.more - names.size() - 1;
    if (more > 0) names.push_back(base::counted(more, "more " + std::string(records::name(test.kind))));
    return names.empty() ? std::string() : before + base::listedInWords(names);
  }

  std::string brokenBy(const TestResult& test) const {
    const std::string kind(records::name(test.kind));
    switch (test.way) {
      case Way::every:
      case Way::no: return "broken by " + withFacts(test.records[0]) + others(test, "; also by ");
      case Way::some:
        if (test.looked == 0) return "broken: no " + kind + " is as its `where` asks";
        return (test.looked == 1 ? "broken: the one " + kind + " looked at is not as its `has` asks"
                                 : "broken: of " + base::counted(test.looked, kind) +
                                       " looked at none is as its `has` asks") +
               (test.records.empty() ? "" : "; " + withFacts(test.records[0]));
      case Way::count: {
        std::string out =
            "broken: the records have " +
            (test.most == 0 ? "no " + kind : base::counted(test.fitting, kind)) +
            (test.most > test.fitting ? " for sure and " + std::to_string(test.most) + " at the most"
                                      : std::string()) +
            ", and it says " + saidCount(test);
        if (!test.records.empty()) out += ": " + withFacts(test.records[0], 1) + others(test, "; ");
        return out;
      }
      case Way::before:
        return "broken: " + factsOf(test) + ", so that the first of its events was not the earlier";
      case Way::same: return "broken: " + factsOf(test);
      case Way::differ: return "broken: " + factsOf(test) + ", which are the same";
    }
    return "broken";
  }

  std::string openBy(const TestResult& test) const {
    switch (test.way) {
      case Way::count:
        return "open: the records have " +
               base::counted(test.fitting, std::string(records::name(test.kind))) + " for sure and " +
               std::to_string(test.most) + " at the most, and it says " + saidCount(test) +
               (test.records.empty() ? "" : "; " + withFacts(test.records[0])) + others(test, "; likewise ");
      case Way::before:
        return "open: which was first is not proven" +
               std::string(test.unlikely ? ", and by all that is recorded it was the other way round" : "") +
               "; " + factsOf(test);
      case Way::same:
      case Way::differ: return "open: " + factsOf(test);
      default:
        return "open: " + (test.records.empty() ? "nothing on record fits" : withFacts(test.records[0])) +
               others(test, "; likewise ");
    }
  }

  static std::string saidCount(const TestResult& test) {
    return std::to_string(test.makes.low) +
           (test.makes.high == test.makes.low ? "" : " to " + std::to_string(test.makes.high));
  }

  std::string factsOf(const TestResult& test) const {
    std::vector<std::string> facts;
    for (const TestedRecord& one : test.records)
      for (const TestFact& fact : one.facts)
        if (facts.size() < kMostFacts / 2)
          facts.push_back('`' + fact.field + "` of " + all_[fact.record].reference() + inWords(fact));
    return facts.empty() ? "nothing on record decides it" : base::listedInWords(facts);
  }

  // Where readers and listeners were told it.
  std::vector<diagnostics::Related> statedPlaces() const {
    std::vector<diagnostics::Related> places;
    const Record& claim = all_[claim_];
    if (const Value* stated = claim.find("stated"_f); stated != nullptr && stated->said())
      for (const Value& one : stated->each()) places.push_back(statedPlace(claim, one));
    for (const linking::Mention& mention : all_.mentions())
      if (mention.target == claim_ && mention.from != claim_)
        places.push_back({mention.span, "a text links to it here"});
    return places;
  }

  // Of a talk the segment of that title, if it has one.
  diagnostics::Related statedPlace(const Record& claim, const Value& stated) const {
    const Value* edition = stated.find("edition"_f);
    const Value* talk = stated.find("talk"_f);
    const Value* at = stated.find("at"_f);
    const std::string place = at == nullptr || !at->said() ? "" : ", " + base::onOneLine(at->text);
    if (talk == nullptr || talk->target() == records::kNoRecord)
      return {claim.span(stated.place),
              "it was stated in " +
                  (edition == nullptr ? "print" : "edition " + std::string(edition->text.view())) + place};
    const Record& told = all_[talk->target()];
    const Value* segment = at == nullptr ? nullptr : segmentAt(talk->target(), *at);
    return {segment != nullptr ? told.span(segment->place) : claim.span(stated.place),
            "it was stated in the talk `" + std::string(told.id) + '`' + place};
  }

  // The title of the segment that is named so, or in which the time falls; null for none.
  const Value* segmentAt(RecordIndex talk, const Value& at) const {
    const auto time = choosing::readTimeRange(at.text);
    for (const talks::SegmentTime& one : talks::timesOf(all_, talk).segments) {
      const Value* title = one.segment->find("title"_f);
      if (title == nullptr) continue;
      const bool within = time && one.start <= time->low && time->low < one.start + one.length;
      if (within || title->text == at.text.view()) return title;
    }
    return nullptr;
  }

  const linking::Collection& all_;
  RecordIndex claim_;
  const ClaimResult& result_;
};

}  // namespace

void claimsTested(const Context& context, diagnostics::Findings& findings) {
  for (const RecordIndex claim : context.collection.ofKind(Kind::claim)) {
    const ClaimResult* result = context.claims.of(claim);
    if (result == nullptr) continue;
    const Teller teller(context, claim, *result);
    if (result->outcome == Outcome::broken) findings.add(teller.broken());
    if (result->outcome == Outcome::open) findings.add(teller.open());
  }
}

}  // namespace saggar::checks
