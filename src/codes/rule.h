#pragma once
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "codes/rule_spec.h"
#include "codes/series.h"
#include "codes/when.h"
#include "dates/bounds.h"

// A code rule compiled, and a code read under it in every way it can be.
//
// The problem: codes run together, parts may have several lengths, letters stand for several months, and `?`
// for any sign at all; all readings are wanted, and a rule must not be able to make the reader slow. The
// choice: whether the rest of a text fits the rest of a rule is worked out once for each pair of places and
// remembered; only then are the ways through gathered, so that no blind alley is walked twice; the number of
// readings has a limit, and a flag says when it was reached. The cost: memory of parts times signs for one
// text. Patterns go to RE2, which gives one division of the text into its groups, not all.
//
// Nothing here sees a record: what a reading asks of the record that carries the code (paths, look) is handed
// back.
namespace saggar::codes {

// Names, paths and look point into the rule: a reading is of use as long as some copy of its Rule lives.
struct PartReading {
  std::string_view name;
  std::string text;        // as typed
  std::size_t offset = 0;  // bytes into the typed text
  std::string means;  // "September", "three or more decals"; empty where the part has no meaning of its own
  std::optional<std::size_t> row;  // of the part's table
};

// One of the paths must give `text` (with `last`, must end in it).
struct PathNeed {
  std::size_t part = 0;  // of Reading::parts
  std::span<const std::string> paths;
  std::string text;
  int last = 0;

  // Whether that value of one of the paths will do; case and dashes set aside, `?` in the text for any sign.
  bool metBy(std::string_view value) const;
};

struct LookAsked {
  std::size_t part = 0;  // of Reading::parts
  const LookNeed* need = nullptr;
};

struct Reading {
  std::vector<PartReading> parts;  // in the order of the text
  std::vector<PathNeed> paths;
  std::vector<LookAsked> look;
  DateChoice date;
  std::optional<dates::Bounds> when;  // set if the date has a year
  std::optional<CodeNumber> number;   // set if the rule has a part that counts and its digits are all known
  std::string key;                    // equal for texts that are the same code under this rule: "jm-203-c/1"
  std::string alone;                  // likewise for what may stand for one motif only; empty if nothing may

  std::string dateInWords() const { return inWords(date); }
  const PartReading* part(std::string_view name) const;
};

struct Readings {
  std::vector<Reading> all;
  bool more = false;  // there are, or may be, more than are given: what they have in common is not known
  std::string
      notOfRule;  // the reason under `unlike`, if the text is one of those; then there are no readings
};

// Why a text is not read. `progress` is comparable among rules: the one that came furthest explains best.
struct Explanation {
  bool fits = false;       // it does fit, and nothing else is set
  double progress = 0;     // 0 to 1
  std::size_t offset = 0;  // bytes into the typed text, of the sign that does not fit
  std::string part;        // the part that was expected there; empty for fixed text or the end
  std::string message;     // after "JM-" three digits are wanted (SERIAL), here are two: "61"
};

// A code that the eye could take for this one.
struct Similar {
  std::string text;
  int exchanges = 0;
  std::vector<Reading> readings;
};

struct Similars {
  std::vector<Similar> all;  // fewest exchanges first
  bool more = false;
};

class Rule {
 public:
  struct Compiled;
  // The rule has no `like` left to resolve. Any spec at all gives a rule or at least one problem.
  static Compiled compile(RuleSpec spec);

  const RuleSpec& spec() const;
  const std::string& name() const { return spec().name; }

  static constexpr std::size_t kMostReadings = 1000;
  Readings read(std::string_view text, std::size_t most = kMostReadings) const;

  // Reads the text as the part that may stand for one motif only; no readings without `alone`, nor under a
  // pattern.
  Readings readAlone(std::string_view text, std::size_t most = kMostReadings) const;

  Explanation explain(std::string_view text) const;

  // What the code would be with signs of `alike` exchanged, where that can be read and is another text.
  static constexpr std::size_t kMostSimilar = 200;
  Similars similar(std::string_view text, std::size_t most = kMostSimilar) const;

  // Numbers of this rule follow the order in which they were booked.
  bool ordered() const;
  // Rules of one maker with the same are one series of numbers.
  const std::string& orderFrom() const { return spec().orderFrom; }
  // `first-of`, `on-date`, `last-of`, `missing`.
  const Series& series() const;

  struct Impl;

 private:
  explicit Rule(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}
  std::shared_ptr<const Impl> impl_;
};

struct Rule::Compiled {
  std::optional<Rule> rule;  // not set if any problem is
  std::vector<Problem> problems;
};

// All rules that a text could be read by; `explain` of the one that came furthest. For `code-unread`.
Explanation furthest(const std::vector<const Rule*>& rules, std::string_view text,
                     const Rule** which = nullptr);

}  // namespace saggar::codes
