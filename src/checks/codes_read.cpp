#include <algorithm>
#include <map>

#include "base/text.h"
#include "checks/rules.h"
#include "codes/signs.h"

// Codes that no rule reads, and codes that no rule allows where they stand.
namespace saggar::checks {

using choosing::Against;
using choosing::CodeOnRecord;
using choosing::CodeReading;
using choosing::MakerRule;
using records::Kind;
using records::Record;
using records::RecordIndex;

namespace {

std::string inTicks(std::string_view text) {
  return '`' + base::shortened(text, 60) + '`';
}

// A rule that comes this far explains better than none.
constexpr double kFarEnough = 0.15;
constexpr std::size_t kMostShown = 4;

class Look {
 public:
  Look(const Context& context, diagnostics::Findings& findings)
      : all_(context.collection), codes_(context.codes), findings_(findings) {}

  // One code, or the several that the eye allows for one.
  void at(std::span<const CodeOnRecord> one) {
    bool possible = false;
    bool applies = true;
    for (const CodeOnRecord& code : one) {
      possible |= code.possibleCount() != 0;
      applies &= code.applies;
    }
    const Record& record = all_[one[0].record];
    if (possible || !applies) return;
    // What an author says is no code is accounted for where it was only seen.
    if (record.kind == Kind::specimen &&
        std::any_of(one.begin(), one.end(), [](const CodeOnRecord& code) { return code.unlike != nullptr; }))
      return;
    if (one.size() == 1 && isTreatments(one[0])) return;
    const auto read =
        std::find_if(one.begin(), one.end(), [](const CodeOnRecord& code) { return !code.readings.empty(); });
    if (read == one.end()) {
      unread(one[0], one.size());
    } else {
      disagrees(one, *read);
    }
  }

 private:
  // The treatment's own code is what is wrong, and is reported there.
  bool isTreatments(const CodeOnRecord& code) const {
    if (code.field != "code-seen"_f) return false;
    const RecordIndex treatment = codes_.treatmentOf(code.record);
    if (treatment == records::kNoRecord) return false;
    for (const CodeOnRecord& own : codes_.of(treatment))
      if (own.applies && own.possibleCount() == 0 &&
          codes::foldedKey(own.value->text) == codes::foldedKey(code.value->text))
        return true;
    return false;
  }

  diagnostics::Finding begin(diagnostics::Rule rule, const CodeOnRecord& code) const {
    const Record& record = all_[code.record];
    const std::string field(code.field.name());
    const source::Span span = record.span(code.value->place);
    return {.rule = rule,
            .span = span,
            .message = {},
            .record = record.reference(),
            .field = field,
            .records = {record.reference()},
            .facts = {{record.reference(), field, std::string(code.value->text), {}, span}}};
  }

 public:
  // One code on several pieces that no rule of their maker reads is one cause: a rule that is missing.
  void tellUnreadPieces() {
    for (const auto& [key, codes] : unreadPieces_) {
      diagnostics::Finding finding = unreadFinding(*codes[0], 1);
      for (std::size_t i = 1; i < codes.size(); ++i) {
        const Record& other = all_[codes[i]->record];
        const source::Span span = other.span(codes[i]->value->place);
        finding.records.push_back(other.reference());
        finding.facts.push_back({other.reference(),
                                 std::string(codes[i]->field.name()),
                                 std::string(codes[i]->value->text),
                                 {},
                                 span});
        finding.related.push_back({span, "it stands on " + other.reference() + " too"});
      }
      if (codes.size() > 1) finding.message += "; " + base::counted(codes.size(), "piece") + " bear it";
      findings_.add(std::move(finding));
    }
  }

 private:
  void unread(const CodeOnRecord& code, std::size_t alternatives) {
    if (all_[code.record].kind != Kind::specimen || alternatives != 1)
      return findings_.add(unreadFinding(code, alternatives));
    unreadPieces_[{codes_.makerOf(code.record), codes::foldedKey(code.value->text)}].push_back(&code);
  }

  diagnostics::Finding unreadFinding(const CodeOnRecord& code, std::size_t alternatives) const {
    const MakerRule* rule = nullptr;
    const codes::Explanation told = codes_.whyUnread(code, &rule);
    diagnostics::Finding finding = begin("code-unread"_rule, code);
    finding.message = "no rule reads " + inTicks(code.value->text);
    if (alternatives > 1) finding.message += ", nor what else the eye allows";
    if (rule != nullptr) {
      finding.message += "; `" + rule->name + "` comes nearest: " + told.message;
      finding.related.push_back(
          {all_[rule->maker].span(rule->source->place), "the rule `" + rule->name + "` stands here"});
    }
    finding.hint =
        "look at the code again (`?` stands for a sign that cannot be read); if it is no code, say so under "
        "`unlike` of the rule, and if it is a kind of its own, it wants a rule";
    if (all_[code.record].kind == Kind::specimen) finding.severity = diagnostics::Severity::note;
    return finding;
  }

  void disagrees(std::span<const CodeOnRecord> one, const CodeOnRecord& first) {
    diagnostics::Finding finding = begin("code-disagrees"_rule, first);
    std::vector<std::string> ways;
    std::vector<Against::Reason> reasons;
    std::size_t readings = 0;
    bool usual = false;
    bool strict = false;
    for (const CodeOnRecord& code : one) {
      for (const CodeReading& reading : code.readings) {
        ++readings;
        const std::vector<Against> against = codes_.against(code, reading);
        std::vector<std::string> says;
        bool elsewhere = false;
        for (const Against& reason : against) {
          says.push_back(reason.says);
          reasons.push_back(reason.reason);
          elsewhere |= reason.reason == Against::Reason::where;
          addPlace(finding, reason, *reading.rule);
        }
        if (!elsewhere) (reading.rule->usual ? usual : strict) = true;
        std::string way = (one.size() > 1 ? inTicks(code.value->text) + " by `" : "by `") +
                          reading.rule->name + "`: " + base::joined(says, "; ");
        if (std::find(ways.begin(), ways.end(), way) == ways.end()) ways.push_back(std::move(way));
      }
    }
    const std::size_t shown = std::min(ways.size(), kMostShown);
    const bool more = ways.size() > shown;
    const std::size_t left = ways.size() - shown;
    ways.resize(shown);
    finding.message =
        (one.size() > 1 ? "none of the readings that the eye allows" : inTicks(first.value->text)) +
        (one.size() > 1 ? " can be meant here, " : " cannot be meant here, ") + base::joined(ways, "; ");
    if (more) finding.message += " (and " + base::counted(left, "more reading") + ")";
    const MakerRule* near = nullptr;
    const codes::Explanation told = codes_.whyUnread(first, &near);
    const bool onlyWhere = std::all_of(reasons.begin(), reasons.end(), [](Against::Reason reason) {
      return reason == Against::Reason::where;
    });
    if (near != nullptr && told.progress >= kFarEnough && onlyWhere) {
      finding.message += "; by `" + near->name + "`, which holds here: " + told.message;
      finding.related.push_back(
          {all_[near->maker].span(near->source->place), "the rule `" + near->name + "` stands here"});
    }
    finding.hint = hintFor(reasons, first);
    // Only where the rules that hold here all say so.
    if (usual && !strict) finding.severity = diagnostics::Severity::note;
    findings_.add(std::move(finding));
  }

  void addPlace(diagnostics::Finding& finding, const Against& reason, const MakerRule& rule) const {
    const bool known = std::any_of(finding.related.begin(), finding.related.end(),
                                   [&](const diagnostics::Related& one) { return one.span == reason.span; });
    if (known) return;
    const bool ofRule = reason.record == rule.maker;
    finding.related.push_back({reason.span, ofRule
                                                ? "the rule `" + rule.name + "` has it here"
                                                : "`" + std::string(reason.field.name()) + "` stands here"});
    const std::string reference = all_[reason.record].reference();
    if (ofRule) return;
    if (std::find(finding.records.begin(), finding.records.end(), reference) == finding.records.end())
      finding.records.push_back(reference);
    finding.facts.push_back({reference,
                             std::string(reason.field.name()),
                             reason.value != nullptr ? std::string(reason.value->text) : std::string(),
                             {},
                             reason.span});
  }

  std::string hintFor(const std::vector<Against::Reason>& reasons, const CodeOnRecord& code) const {
    auto has = [&](Against::Reason wanted) {
      return std::find(reasons.begin(), reasons.end(), wanted) != reasons.end();
    };
    const bool treatment = code.field == "code"_f;
    if (has(Against::Reason::path) && treatment && all_[code.record].find("for"_f) == nullptr)
      return "put the code or the record right; a customer's number wants the customer, `for: …`";
    if (has(Against::Reason::look))
      return "put the code or the look right; a `look` that varies from piece to piece takes a list";
    if (has(Against::Reason::used))
      return "put the code or the date right, or the years of the rule; a date that is in doubt takes "
             "`doubted: reason`";
    if (has(Against::Reason::path))
      return "put the code or the record right; a sign that cannot be read is typed `?`";
    return "put the code right, or the `where` of the rule";
  }

  const linking::Collection& all_;
  const choosing::CodeReadings& codes_;
  diagnostics::Findings& findings_;
  std::map<std::pair<RecordIndex, std::string>, std::vector<const CodeOnRecord*>> unreadPieces_;
};

}  // namespace

void codesRead(const Context& context, diagnostics::Findings& findings) {
  Look look(context, findings);
  const auto all = context.codes.all();
  for (std::size_t i = 0; i < all.size();) {
    std::size_t end = i + 1;
    if (all[i].field == "date-code"_f)
      while (end < all.size() && all[end].record == all[i].record && all[end].field == all[i].field) ++end;
    look.at(all.subspan(i, end - i));
    i = end;
  }
  look.tellUnreadPieces();
}

}  // namespace saggar::checks
