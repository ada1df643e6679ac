#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

// Every finding the program can make, in one table. An id is permanent: a rule that is dropped stays here as retired
// and its id is never used again. What each means, with an example, stands in why/ID.md.
namespace saggar::diagnostics {

enum class Severity : std::uint8_t { off, note, warning, error };
std::string_view toString(Severity severity);

// The stage that makes a finding; findings of reading cannot be waived.
enum class Stage : std::uint8_t { reading, linking, evidence, ware, dates, codes, claims, print, talks };

struct RuleInfo {
  std::string_view id;
  Severity severity;
  Stage stage;
  bool waivable;
  std::string_view says;  // one line, what was found
  bool whenMade = false;  // only `make` can find it, while it sets a page
};

inline constexpr std::array kRules = std::to_array<RuleInfo>({
    {"block-unknown", Severity::error, Stage::print, false, "a fence whose name is nearly that of a block"},
    {"citation-thin", Severity::warning, Stage::evidence, true, "a statement that is only suggested"},
    {"citation-unlocated", Severity::note, Stage::evidence, true,
     "a citation without the place in its source"},
    {"claim-broken", Severity::error, Stage::claims, true, "a claim that the records contradict"},
    {"claim-open", Severity::note, Stage::claims, true, "a claim that the records do not settle yet"},
    {"claim-replaced-in-text", Severity::warning, Stage::print, true,
     "text links to a claim that was replaced or withdrawn"},
    {"code-disagrees", Severity::error, Stage::codes, true, "a code that no rule allows where it stands"},
    {"code-out-of-order", Severity::error, Stage::codes, true, "a higher number booked before a lower one"},
    {"code-shared", Severity::error, Stage::codes, true, "one code on two different variants"},
    {"code-unread", Severity::error, Stage::codes, true, "a code that no rule can read"},
    {"date-after-motif", Severity::error, Stage::dates, true, "a treatment later than its motif"},
    {"date-after-shape", Severity::error, Stage::dates, true, "a treatment later than its shape"},
    {"date-at-face-value", Severity::warning, Stage::dates, true,
     "dates that fit only if they are taken widely"},
    {"date-before-motif", Severity::error, Stage::dates, true, "a treatment earlier than its motif"},
    {"date-before-shape", Severity::error, Stage::dates, true, "a treatment earlier than its shape"},
    {"date-unreadable", Severity::error, Stage::reading, false, "a date that is no date"},
    {"dates-clash", Severity::error, Stage::dates, true, "dates and relations that cannot all be true"},
    {"field-twice", Severity::error, Stage::reading, false, "a field typed twice in one record"},
    {"field-unknown", Severity::error, Stage::reading, false, "a field that its kind does not have"},
    {"file-unreadable", Severity::error, Stage::reading, false, "a file that cannot be read"},
    {"font-missing", Severity::warning, Stage::print, true,
     "a font that a layout names and that is not there", true},
    {"forms-clash", Severity::error, Stage::ware, true, "a shape and a piece that deny each other"},
    {"graded-too-high", Severity::warning, Stage::evidence, true,
     "a source graded above its type, and no word why"},
    {"html-in-prose", Severity::warning, Stage::print, true, "HTML in prose, which is never passed on"},
    {"id-twice", Severity::error, Stage::reading, false, "two records of one kind with the same id"},
    {"kind-unknown", Severity::error, Stage::reading, false, "a record whose first key is no kind"},
    {"layout-unfit", Severity::error, Stage::print, false,
     "a layout that is not there, or something in it that cannot be used"},
    {"link-missing", Severity::error, Stage::print, false, "a link that leads nowhere"},
    {"link-unsafe", Severity::error, Stage::reading, false, "a link to an address that is never passed on"},
    {"look-out-of-time", Severity::error, Stage::dates, true,
     "a feature outside the years in which it was used"},
    {"maker-out-of-time", Severity::error, Stage::dates, true,
     "ware or a customer outside the years of the firm"},
    {"mark-out-of-time", Severity::error, Stage::dates, true, "a piece outside the years of its mark"},
    {"path-outside", Severity::error, Stage::reading, false, "a file outside the guide's folder"},
    {"photo-missing", Severity::error, Stage::print, false,
     "the file of a photo is not there, or is no picture"},
    {"photo-without-alt", Severity::warning, Stage::print, true,
     "a photo without words for who cannot see it"},
    {"photo-without-rights", Severity::warning, Stage::print, true,
     "a photo of which nobody said who may print it"},
    {"private-in-text", Severity::error, Stage::print, false, "a private value in a published text"},
    {"prose-unused", Severity::note, Stage::print, true, "a prose file that stands in no chapter"},
    {"quote-open", Severity::error, Stage::reading, false, "a quotation mark that is not closed"},
    {"reference-ambiguous", Severity::error, Stage::linking, false, "a reference that could be two records"},
    {"reference-missing", Severity::error, Stage::linking, false,
     "a reference to a record that is not there"},
    {"sign-missing", Severity::warning, Stage::print, true, "a sign that no font of a layout has", true},
    {"size-doubtful", Severity::warning, Stage::ware, true, "an actual size below the nominal one"},
    {"size-out-of-order", Severity::warning, Stage::ware, true,
     "a count size that does not fall as the count rises"},
    {"source-ring", Severity::warning, Stage::evidence, true, "sources that draw on one another in a ring"},
    {"source-too-early", Severity::warning, Stage::evidence, true,
     "a source that ends before what it is cited for"},
    {"source-unused", Severity::note, Stage::evidence, true, "a source that nothing cites"},
    {"supplier-out-of-time", Severity::error, Stage::dates, true, "a motif older than its supplier"},
    {"talk-order", Severity::warning, Stage::talks, true,
     "a segment that does not come after what it builds on"},
    {"talk-over-budget", Severity::warning, Stage::talks, true, "a talk longer than its budget"},
    {"talk-sum", Severity::warning, Stage::talks, true, "segments that do not add up to the budget"},
    {"text-unfit", Severity::error, Stage::reading, false, "text that is not plain UTF-8"},
    {"twins", Severity::note, Stage::ware, true, "shapes or treatments that nothing recorded tells apart"},
    {"uncited", Severity::warning, Stage::evidence, true, "facts without a citation"},
    {"value-lost", Severity::warning, Stage::reading, false,
     "something typed that is dropped, or bent, in silence"},
    {"value-unfit", Severity::error, Stage::reading, false, "a value that its field cannot take"},
    {"variant-twice", Severity::error, Stage::ware, true, "two treatments that are the same variant"},
    {"waiver-unfit", Severity::error, Stage::linking, false, "a waiver of something that cannot be waived"},
    {"waiver-unused", Severity::warning, Stage::linking, false, "a waiver that fits no finding"},
    {"witness-counted-twice", Severity::warning, Stage::evidence, true, "one witness cited as two"},
    {"works-out-of-time", Severity::error, Stage::dates, true, "a date code of a works that was not working"},
    {"yaml-broken", Severity::error, Stage::reading, false, "YAML that cannot be read"},
    {"yaml-too-big", Severity::error, Stage::reading, false, "a file or value beyond all measure"},
    {"yaml-too-deep", Severity::error, Stage::reading, false, "values nested too deeply"},
});

struct Rule {
  std::uint8_t index = 0;
  constexpr const RuleInfo& info() const { return kRules[index]; }
  constexpr std::string_view id() const { return kRules[index].id; }
  friend constexpr bool operator==(Rule, Rule) = default;
  friend constexpr auto operator<=>(Rule, Rule) = default;
};

consteval Rule operator""_rule(const char* word, std::size_t length) {
  const std::string_view wanted(word, length);
  for (std::size_t i = 0; i < kRules.size(); ++i)
    if (kRules[i].id == wanted) return Rule{static_cast<std::uint8_t>(i)};
  throw "no such rule: add it to kRules";
}

std::optional<Rule> ruleNamed(std::string_view id);
std::span<const std::string_view> ruleIds();

// The explanation of a rule as it stands in why/ID.md: Markdown with an example.
std::string_view explanation(Rule rule);

}  // namespace saggar::diagnostics

namespace saggar {
using diagnostics::operator""_rule;
}
