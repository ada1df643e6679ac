#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "codes/part.h"
#include "codes/part_language.h"
#include "dates/bounds.h"

// A code rule as data: what an author typed, part by part, before it is compiled. Who fills it in keeps the
// places in the files; a Problem names the field and the part or entry, so that they are found again.
namespace saggar::codes {

struct NamedPart {
  std::string name;
  PartSpec spec;
};

// `SERIAL within PREFIX`, `NUMBER`, or `none`.
struct OrderSpec {
  std::string number;               // the part that counts; empty for `none`
  std::vector<std::string> within;  // the parts that name the series it counts in
  bool none() const { return number.empty(); }
};

// An entry of `first-of`, `on-date` or `last-of`. The code is a number, or, where a rule counts within a
// prefix, what may stand alone (`JM-045`).
struct DatedNumber {
  std::string code;
  dates::Bounds when;
};

// An entry of `missing`: `1601-1688` or `1601`, or `JM-045 to JM-050`.
struct MissingNumbers {
  std::string codes;
  std::string because;
};

struct UnlikeText {
  std::string text;
  std::string because;
};

// A field that the author left out is nullopt (or, for parts, not there), so that `like` can fill it in.
struct RuleSpec {
  std::string name;
  std::optional<std::string> like;
  std::optional<std::string> written;
  std::optional<std::string> pattern;
  std::vector<NamedPart> parts;
  std::optional<std::string> alone;
  std::optional<OrderSpec> order;
  std::optional<std::vector<std::vector<std::string>>> alike;  // groups, each from parseAlike
  std::optional<std::vector<UnlikeText>> unlike;
  std::optional<bool> usual;
  std::optional<std::vector<DatedNumber>> firstOf, onDate, lastOf;
  std::optional<std::vector<MissingNumbers>> missing;
  // The rule that states the order: this one's name, or, where the order is inherited, that of the rule it
  // comes from. Numbers of rules that share it are one series.
  std::string orderFrom;

  const NamedPart* part(std::string_view partName) const;
};

// What is wrong with a rule.
struct Problem {
  std::string
      field;  // "written", "parts", "pattern", "alone", "order", "alike", "first-of", "missing", "like" …
  std::string entry;  // the part, row or entry meant; may be empty
  std::string message;
  std::string hint;
};

// `derived` with everything that it does not set itself taken from `base`, part by part: a part it sets
// replaces the whole part. `written` and `pattern` replace each other. Where it sets one of them itself,
// parts it would only inherit are taken if the new form names them, and an inherited `alone` or `order` if
// all its parts are there.
RuleSpec inherit(const RuleSpec& base, const RuleSpec& derived);

// Every `like` of one maker's rules resolved, whatever their order and depth. A rule whose `like` names no
// rule or runs in a ring is left as it stands, with a problem.
struct Resolved {
  std::vector<RuleSpec> rules;  // as many as were given, in their order
  struct At {
    std::size_t rule;
    Problem problem;
  };
  std::vector<At> problems;
  std::vector<bool> usable;
};
Resolved resolveLikes(std::vector<RuleSpec> rules);

// `SERIAL within PREFIX`, `SERIAL within PREFIX and GROUP`, `NUMBER`, `none`. Names may be any part's, blanks
// and all; whether the parts are there is for Rule::compile to say.
Parsed<OrderSpec> parseOrder(std::string_view text);

}  // namespace saggar::codes
