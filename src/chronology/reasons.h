#pragma once
#include "chronology/chronology.h"

// Facts in the words an author would use, with what they rest on and where they stand.
namespace saggar::chronology {

struct Reason {
  std::string says;  // "Linnavere was introduced in March 1936"; no full stop
  std::string record, field, value;
  Standing standing = Standing::uncited;
  bool disputed = false;
  bool doubted = false;
  std::vector<const records::Citation*> sources;
  source::Span span;

  std::string_view word() const;  // its standing: "documented", "disputed"
};

class Reasons {
 public:
  // Records by their names, as an answer does, by their ids, as a finding does, or as they are called in print.
  enum class Naming : std::uint8_t { names, ids, print };
  Reasons(const linking::Collection& collection, const evidence::Weights& weights,
          const Chronology& chronology, Naming naming = Naming::names)
      : all_(collection), weights_(weights), chronology_(chronology), naming_(naming) {}

  Reason of(FactId fact) const;
  std::string says(FactId fact) const;
  // What a record is called in a sentence: its name (linking/names.h), or its id.
  std::string called(RecordIndex record) const;
  // "introduced", "last offered", "made": with `was`, or a verb by itself.
  static std::string happened(Kind kind, Field field, EventEnd end = EventEnd::moment);
  // "documented", "the author's judgement", "disputed; documented", "cited only from The memoir, which is too early to show
  // it". That the author doubts it is no word of the sources: see Reason.
  std::string standing(FactId fact) const;
  // Of a step of a proof that is disputed: what of it is, since what proves is not; else empty.
  std::string disputedBeside(FactId fact) const;

 private:
  std::string dated(const Fact& fact) const;
  std::string shown(const Fact& fact) const;
  std::string table(const Fact& fact) const;
  std::string otherEvent(const Value& named) const;
  std::string years(FactId fact) const;
  std::string letter(FactId fact) const;

  const linking::Collection& all_;
  const evidence::Weights& weights_;
  const Chronology& chronology_;
  Naming naming_;
};

// Where the years of a works or a rule stand (Chronology::yearsOf): the maker, and of its `works` or `codes` the one that
// has them; kNoRecord for other years.
struct YearsHeld {
  RecordIndex maker = records::kNoRecord;
  const records::Value* holder = nullptr;
};
YearsHeld yearsHeldBy(const linking::Collection& all, const records::Value* years);

// Of what cannot all be true the facts that are dates. Two sets with the same dates differ in what ties these: to a
// reader they are one.
std::vector<FactId> datesIn(const Chronology& chronology, const Clash& clash);

}  // namespace saggar::chronology
