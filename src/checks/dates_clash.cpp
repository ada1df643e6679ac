#include <algorithm>

#include "base/text.h"
#include "checks/clash_findings.h"
#include "checks/own_days.h"
#include "checks/rules.h"
#include "chronology/reasons.h"
#include "dates/print.h"
#include "study/misread.h"

// Facts that cannot all be true, each smallest set once, under the plainest rule that fits. What is compared with what
// is for the network of dates to know; here it is put into words.
namespace saggar::checks {

using chronology::Clash;
using chronology::Fact;
using chronology::FactId;
using chronology::Reason;
using chronology::Says;
using records::Kind;

namespace {

constexpr std::size_t kMostRelated = 10;
constexpr std::size_t kMostNamed = 6;

chronology::Reasons reasonsOf(const Context& context) {
  return {context.collection, context.weights, context.chronology, chronology::Reasons::Naming::ids};
}

class Teller {
 public:
  Teller(const Context& context, diagnostics::Findings& findings)
      : context_(context), reasons_(reasonsOf(context)), findings_(findings) {}

  void tell(const ClashGroup& group, bool atFaceValue) {
    const Reason place = reasons_.of(group.at);
    const Clash& first = *group.clashes[0];
    diagnostics::Finding finding{.rule = atFaceValue ? "date-at-face-value"_rule : ruleFor(context_, first),
                                 .span = place.span,
                                 .message = messageOf(group),
                                 .hint = hintFor(group, atFaceValue),
                                 .record = place.record,
                                 .field = place.field,
                                 .shortByDays = daysOf(first.shortBy)};
    std::vector<FactId> facts{group.at};
    for (const Clash* clash : group.clashes)
      for (const FactId fact : clash->facts)
        if (std::find(facts.begin(), facts.end(), fact) == facts.end()) facts.push_back(fact);
    for (const FactId fact : facts) add(finding, fact, fact == group.at);
    if (facts.size() > kMostRelated + 1)
      finding.message += "; " + base::counted(facts.size() - kMostRelated - 1, "more fact") + " take part";
    findings_.add(std::move(finding));
  }

 private:
  static std::optional<std::int64_t> daysOf(chronology::Days days) {
    if (days > INT64_MAX) return std::nullopt;
    return static_cast<std::int64_t>(days);
  }

  std::string gapOf(const Clash& clash) const {
    const auto zero = dates::Day::fromNumber(0);
    const std::string gap = gapInWords(zero, dates::Day::fromNumber(clash.shortBy));
    return gap.starts_with("more") || (gap.find("day") != std::string::npos && isExact(clash))
               ? gap
               : "at least " + gap;
  }

  // Whether the gap is what it says and not the smallest of many: two dates to the day, and what ties them.
  bool isExact(const Clash& clash) const {
    std::size_t days = 0;
    for (const FactId id : clash.facts) {
      const Fact& fact = context_.chronology.fact(id);
      switch (fact.says) {
        case Says::date: {
          const dates::Expression* date = fact.value->date();
          if (date == nullptr || date->shape() != dates::Shape::Date) return false;
          const dates::Bounds wide = date->wide(context_.collection.settings().dates);
          if (wide.earliest != wide.latest) return false;
          ++days;
          break;
        }
        case Says::shapeOf:
        case Says::onShape:
        case Says::withMotif:
        case Says::supplied:
        case Says::forWhom:
        case Says::pieceOf: break;
        default: return false;
      }
    }
    return days == 2;
  }

  // "`a` is dated 1930, before its shape `s` was introduced (1936): …" where two dates and what ties them are all there
  // is to say; else one sentence after the other.
  std::string messageOf(const ClashGroup& group) const {
    const Clash& clash = *group.clashes[0];
    std::string message = plainly(clash, group.at);
    if (message.empty()) message = onNone(clash, group.at);
    if (message.empty()) message = ofNumbers(clash, group.at);
    if (message.empty()) message = ofFacts(clash, group.at);
    message += seasonOf(clash);
    if (group.clashes.size() > 1)
      message += "; " + base::counted(group.clashes.size() - 1, "more contradiction") + " with it";
    return message;
  }

  std::string says(FactId id) const {
    std::string words = reasons_.says(id);
    if (const auto days = study::daysOfCode(context_.codes, context_.chronology.fact(id)))
      words += ", of " + dates::describeBounds(*days);
    return words;
  }

  // One sentence after the other.
  std::string ofFacts(const Clash& clash, FactId at) const {
    std::vector<std::string> others;
    for (const FactId fact : inOrder(clash, at)) others.push_back(says(fact));
    if (others.empty()) return says(at) + ", which cannot be";
    std::string message = says(at) + ", but " + base::listedShortly(std::move(others), kMostNamed);
    const bool ring = std::all_of(clash.facts.begin(), clash.facts.end(), [&](FactId fact) {
      return context_.chronology.fact(fact).says == Says::ordered;
    });
    return message + (ring ? ": each would have to come before itself" : ": " + gapOf(clash) + " short");
  }

  // The others of a set, from what stands next to the place to what stands furthest.
  std::vector<FactId> inOrder(const Clash& clash, FactId at) const {
    std::vector<FactId> others;
    for (const FactId fact : clash.facts)
      if (fact != at) others.push_back(fact);
    const auto ofRecord = [&](FactId fact) {
      return context_.chronology.fact(fact).record == context_.chronology.fact(at).record;
    };
    std::stable_sort(others.begin(), others.end(),
                     [&](FactId a, FactId b) { return ofRecord(a) != ofRecord(b) ? ofRecord(a) : a < b; });
    return others;
  }

  std::string plainly(const Clash& clash, FactId at) const {
    const Fact* relation = nullptr;
    const Fact* limit = nullptr;
    const Fact& own = context_.chronology.fact(at);
    if (clash.facts.size() != 3 || own.says != Says::date || own.value->date() == nullptr) return {};
    for (const FactId id : clash.facts) {
      const Fact& fact = context_.chronology.fact(id);
      if (id == at) continue;
      if (fact.says == Says::onShape || fact.says == Says::withMotif) relation = &fact;
      if (fact.says == Says::date) limit = &fact;
    }
    if (relation == nullptr || limit == nullptr || relation->record != own.record ||
        limit->record != otherOf(context_.collection, *relation))
      return {};
    const bool before = limit->field != "withdrawn"_f;
    const records::Record& treatment = context_.collection[own.record];
    const records::Record& other = context_.collection[limit->record];
    return '`' + std::string(treatment.id) +
           (own.field == "introduced"_f ? "` is dated " : "` was last offered ") +
           std::string(own.value->text) + (before ? ", before its " : ", after its ") +
           std::string(name(other.kind)) + " `" + std::string(other.id) + "` was " +
           std::string(limit->field == "designed"_f ? "designed"
                       : before                     ? "introduced"
                                                    : "withdrawn") +
           " (" + std::string(limit->value->text) + "): " + gapOf(clash) +
           (before ? " too early" : " too late");
  }

  // A treatment on several shapes, none of which admits its date.
  std::string onNone(const Clash& clash, FactId at) const {
    const Fact& own = context_.chronology.fact(at);
    const Fact* choice = nullptr;
    for (const FactId id : clash.facts)
      if (id != at && context_.chronology.fact(id).says == Says::onShape)
        choice = &context_.chronology.fact(id);
    if (choice == nullptr || choice->record != own.record || own.says != Says::date) return {};
    const auto shapes = choice->value->each();
    for (const FactId id : clash.facts) {
      const Fact& fact = context_.chronology.fact(id);
      const bool ofShape = fact.says == Says::date &&
                           std::any_of(shapes.begin(), shapes.end(), [&](const records::Value& one) {
                             return one.target() == fact.record;
                           });
      if (id != at && &fact != choice && !ofShape) return {};
    }
    bool early = false;
    for (const chronology::EdgeId id : clash.edges) {
      const chronology::Edge& edge = context_.chronology.edge(id);
      if (edge.fact == at) early |= edge.from == chronology::kOrigin;
    }
    std::vector<std::string> limits;
    for (const records::Value& shape : shapes) {
      const records::Record& record = context_.collection[shape.target()];
      const records::Value* date = record.find(early ? "introduced"_f : "withdrawn"_f);
      limits.push_back('`' + std::string(record.id) + '`' +
                       (date == nullptr ? std::string() : ' ' + std::string(date->text)));
    }
    return '`' + std::string(context_.collection[own.record].id) +
           (own.field == "introduced"_f ? "` is dated " : "` was last offered ") +
           std::string(own.value->text) +
           (early ? ", before any of its shapes was introduced ("
                  : ", after any of its shapes was withdrawn (") +
           base::listedShortly(std::move(limits), kMostNamed) + "): " + gapOf(clash) +
           (early ? " too early" : " too late");
  }

  // Two numbers of one series, each with its date.
  std::string ofNumbers(const Clash& clash, FactId at) const {
    const auto& chronology = context_.chronology;
    const records::RecordIndex here = chronology.fact(at).record;
    const Fact* numbers[2] = {};  // of the record where the finding stands; of the other
    const Fact* days[2] = {};
    bool higher = false;
    for (const FactId id : clash.facts) {
      const Fact& fact = chronology.fact(id);
      if (fact.says == Says::order) continue;
      const Fact** which = fact.says == Says::number ? numbers : fact.says == Says::date ? days : nullptr;
      const int side = fact.record == here ? 0 : 1;
      if (which == nullptr || which[side] != nullptr) return {};
      which[side] = &fact;
    }
    if (numbers[0] == nullptr || numbers[1] == nullptr || days[0] == nullptr || days[1] == nullptr) return {};
    // A higher number is bound from below: its edge leads from the booking to the number.
    for (const chronology::EdgeId id : clash.edges) {
      const chronology::Edge& edge = chronology.edge(id);
      if (&chronology.fact(edge.fact) == numbers[0] && chronology.events().eventOf(edge.from)) higher = true;
    }
    return '`' + std::string(numbers[0]->value->text) + "` was booked " + std::string(days[0]->value->text) +
           (higher ? ", before the lower number `" : ", after the higher number `") +
           std::string(numbers[1]->value->text) + "` (" + std::string(days[1]->value->text) +
           "): " + gapOf(clash) + (higher ? " too early" : " too late");
  }

  // Whether years alone would not clash.
  std::string seasonOf(const Clash& clash) const {
    const dates::Options& options = context_.collection.settings().dates;
    chronology::Days slack = 0;
    for (const chronology::EdgeId id : clash.edges) {
      const chronology::Edge& edge = context_.chronology.edge(id);
      const Fact& fact = context_.chronology.fact(edge.fact);
      if (fact.says != Says::date) continue;
      const dates::End end = edge.from == chronology::kOrigin ? dates::End::Latest : dates::End::Earliest;
      const dates::Day day = dayOf(fact.value, end, options);
      const dates::Day year = dayWithoutSeason(fact.value, end, options);
      if (!day.isFinite() || !year.isFinite()) continue;
      slack += end == dates::End::Latest ? year.number() - day.number() : day.number() - year.number();
    }
    return slack >= clash.shortBy && slack > 0 ? seasonInWords(options) : std::string();
  }

  std::string hintFor(const ClashGroup& group, bool atFaceValue) const {
    if (atFaceValue)
      return "as they are typed these do not fit, and only because of `about` or `?` can they be true: type "
             "what is "
             "known instead";
    const std::string otherwise = otherwiseRead(group);
    if (group.clashes.size() > 1)
      return "one wrong fact is the likely cause: look at this one first" + otherwise;
    return "one of these is wrong" + otherwise +
           "; what is in doubt takes `doubted: reason`, and then binds nothing";
  }

  // "; the eye can take `U344` for `U394`, of October to December 1939, and then the rest could all be true", of what
  // resolves every contradiction here.
  std::string otherwiseRead(const ClashGroup& group) const {
    std::vector<study::Misreading> all;
    for (const Clash* clash : group.clashes) {
      std::vector<study::Misreading> some = study::misreadings(context_.codes, context_.chronology, *clash);
      if (clash == group.clashes[0]) {
        all = std::move(some);
        continue;
      }
      std::erase_if(all, [&](const study::Misreading& one) {
        return std::none_of(some.begin(), some.end(), [&](const study::Misreading& other) {
          return other.fact == one.fact && other.text == one.text && other.days == one.days;
        });
      });
    }
    if (all.empty()) return {};
    std::vector<std::string> others;
    for (const study::Misreading& one : all) others.push_back(inWords(one, context_.chronology));
    return "; the eye can take " + base::joined(others, ", or ") + ", and then the rest could all be true";
  }

  void add(diagnostics::Finding& finding, FactId id, bool here) const {
    const Fact& fact = context_.chronology.fact(id);
    const Reason reason = reasons_.of(id);
    const Kind kind = context_.collection[fact.record].kind;
    const bool ofRule = fact.says == Says::order || fact.says == Says::table;
    if (kind != Kind::source && !ofRule) addRecord(finding, reason.record);
    const records::RecordIndex feature =
        fact.says == Says::look ? otherOf(context_.collection, fact) : records::kNoRecord;
    if (feature != records::kNoRecord) addRecord(finding, context_.collection[feature].reference());
    if (fact.says == Says::onShape && fact.value->each().size() > 1)
      for (const records::Value& shape : fact.value->each())
        addRecord(finding, context_.collection[shape.target()].reference());
    finding.facts.push_back(noteOf(reasons_, id));
    if (!here && finding.related.size() < kMostRelated) finding.related.push_back({reason.span, reason.says});
    const records::Value* years = context_.chronology.yearsOf(id);
    if (here && feature != records::kNoRecord && years != nullptr)
      finding.related.push_back(
          {context_.collection[feature].span(years->place), "the years of the feature stand here"});
    if (fact.says != Says::worksInUse && fact.says != Says::inUse) return;
    const chronology::YearsHeld held = chronology::yearsHeldBy(context_.collection, years);
    if (held.maker != records::kNoRecord && finding.related.size() < kMostRelated)
      finding.related.push_back({context_.collection[held.maker].span(years->place),
                                 fact.says == Says::inUse ? "the years of the rule stand here"
                                                          : "the years of the works stand here"});
  }

  static void addRecord(diagnostics::Finding& finding, const std::string& record) {
    if (std::find(finding.records.begin(), finding.records.end(), record) == finding.records.end())
      finding.records.push_back(record);
  }

  const Context& context_;
  chronology::Reasons reasons_;
  diagnostics::Findings& findings_;
};

// More contradictions than sets are made of: the facts that still clash, so that nothing is hidden.
void tellRest(const Context& context, diagnostics::Findings& findings) {
  const auto& rest = context.chronology.alsoClashing();
  if (rest.empty()) return;
  const chronology::Reasons reasons = reasonsOf(context);
  const Reason place = reasons.of(rest[0]);
  diagnostics::Finding finding{
      .rule = "dates-clash"_rule,
      .span = place.span,
      .message = base::counted(rest.size(), "more fact") + " contradict others, beyond the " +
                 std::to_string(chronology::Conflicts::kMost) + " contradictions taken apart",
      .hint = "put right the contradictions above, and check again",
      .record = place.record,
      .field = place.field};
  for (const FactId id : rest) {
    const Reason reason = reasons.of(id);
    finding.facts.push_back(noteOf(reasons, id));
    if (finding.related.size() < kMostRelated) finding.related.push_back({reason.span, reason.says});
  }
  findings.add(std::move(finding));
}

}  // namespace

void datesClash(const Context& context, diagnostics::Findings& findings) {
  Teller teller(context, findings);
  for (const ClashGroup& group : groupsOf(context, false)) teller.tell(group, false);
  tellRest(context, findings);
}

void dateAtFaceValue(const Context& context, diagnostics::Findings& findings) {
  Teller teller(context, findings);
  for (const ClashGroup& group : groupsOf(context, true)) teller.tell(group, true);
}

}  // namespace saggar::checks
