#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "codes/part_match.h"
#include "codes/pattern.h"
#include "codes/rule.h"
#include "codes/written.h"

// What a compiled rule consists of, and the steps of reading that more than one of its questions needs.
// Internal.
namespace saggar::codes {

struct Element {
  WrittenPiece::Kind kind = WrittenPiece::Kind::text;
  std::u32string text;   // of fixed text, folded
  std::string typed;     // the same as the author wrote it
  std::size_t part = 0;  // of Impl::parts
};

using Form = std::vector<Element>;

struct Rule::Impl {
  RuleSpec spec;
  std::vector<PartMatcher> parts;
  Form whole;  // empty under a pattern
  std::optional<Form> alone;
  std::optional<Pattern> pattern;
  std::optional<std::size_t> counts;  // the part that counts
  std::vector<std::size_t> within;
  std::unordered_map<std::string, std::string> unlike;  // by folded key
  std::vector<std::vector<std::u32string>> alike;       // folded; the same places as in the spec
  Series series;
};

// From where to where each part of the rule stands; `placed` false if it is not in the text.
struct Placed {
  std::size_t from = 0;
  std::size_t to = 0;
  bool placed = false;
};

// Whether the rest of a text fits the rest of a form, each pair of places asked once.
class Fit {
 public:
  Fit(const Rule::Impl& rule, const Form& form, std::span<const Sign> signs);
  bool fits(std::size_t element, std::size_t at);
  // Adds where the element can end, whether or not the rest then fits.
  void ends(std::size_t element, std::size_t at, std::vector<std::size_t>& out) const;

 private:
  enum class Answer : unsigned char { unasked, yes, no };
  const Rule::Impl& rule_;
  const Form& form_;
  std::span<const Sign> signs_;
  std::vector<Answer> answers_;
  std::vector<std::size_t> stack_;  // ends still to be tried, of every element on the way here
};

// Gathers readings; stops at `most`, or after so many steps that a rule must be out to waste time.
class Gatherer {
 public:
  Gatherer(const Rule::Impl& rule, std::string_view text, std::span<const Sign> signs, std::size_t most)
      : rule_(rule), text_(text), signs_(signs), most_(most) {}

  void gather(const Form& form);
  void gatherPattern();

  Readings take() { return std::move(found_); }
  // Why the last combination of parts that fitted letter by letter names no day; empty if none was like that.
  const std::string& noDay() const { return noDay_; }
  std::size_t noDayAt() const { return noDayAt_; }  // the sign where the part begins that made it impossible
  const std::string& noDayPart() const { return noDayPart_; }

 private:
  void walk(const Form& form, Fit& fit, std::size_t element, std::size_t at, const DateChoice& date);
  void walkGroups(const std::vector<Placed>& groups, std::size_t next, const DateChoice& date);
  // Every choice for the part that agrees with the date so far, and what follows.
  template <class Next>
  void choose(std::size_t part, std::size_t from, std::size_t to, const DateChoice& date, Next next);
  void finish(const DateChoice& date);
  bool full() const { return found_.more || found_.all.size() > most_; }

  struct Step {
    std::size_t part, from, to;
    Choice choice;
  };

  const Rule::Impl& rule_;
  std::string_view text_;
  std::span<const Sign> signs_;
  std::size_t most_;
  Readings found_;
  std::vector<Step> steps_;
  std::vector<std::size_t> ends_;  // still to be tried, of every element on the way here
  const Form* form_ = nullptr;
  std::size_t work_ = 0;
  std::string noDay_;
  std::string noDayPart_;
  std::size_t noDayAt_ = 0;
};

// Whether the text can be asked about at all; else why not.
std::optional<std::string> unfit(std::span<const Sign> signs);

}  // namespace saggar::codes
