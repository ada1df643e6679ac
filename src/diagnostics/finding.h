#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "diagnostics/rules.h"
#include "source/span.h"

// A finding is data until somebody prints it: what, where, about which records, and what else has to do with it.
namespace saggar::diagnostics {

struct Related {
  source::Span span;
  std::string message;  // what the place has to do with the finding: "the shape is introduced here"
};

// A fact that takes part, as the JSON output shows it.
struct FactNote {
  std::string record;  // "kind:id"
  std::string field;
  std::string value;
  std::string standing;  // empty: not worked out
  source::Span span;
};

struct WaivedBy {
  std::string because;
  source::Span span;
};

// Wording: what was seen, lower case, no full stop; the hint says what to do. Both are plain text, with what was
// typed between backquotes.
struct Finding {
  Rule rule;
  source::Span span;
  std::string message;
  std::string hint{};
  std::string record{};  // "kind:id" of the record it stands at; empty for none
  std::string field{};
  std::vector<std::string>
      records{};  // what a waiver must name: the records of its facts; empty: `record` alone
  std::vector<Related> related{};
  std::vector<FactNote> facts{};
  std::optional<std::int64_t> shortByDays{};
  std::optional<Severity> severity{};  // when it differs from the rule's own
  std::optional<WaivedBy> waived{};

  Severity weight() const { return severity.value_or(rule.info().severity); }
};

// Collects findings of one thread of work. Reading in parallel gives each thread its own and appends them in order.
class Findings {
 public:
  void add(Finding finding) { all_.push_back(std::move(finding)); }
  void append(Findings other);
  bool empty() const { return all_.empty(); }
  std::vector<Finding>& all() { return all_; }
  const std::vector<Finding>& all() const { return all_; }

 private:
  std::vector<Finding> all_;
};

}  // namespace saggar::diagnostics
