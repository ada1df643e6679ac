#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "linking/collection.h"
#include "records/tables.h"

// A dotted path from a record of one kind to values: `maker`, `look.handle`, `motif.supplier`, `shape.maker.place`,
// backwards by a kind's name (`treatment.motif`, of a shape: the motifs of the treatments that are on it), `marks.at`.
namespace saggar::choosing {

using linking::Collection;
using linking::Kind;
using linking::RecordIndex;

struct Step {
  enum class Type : std::uint8_t {
    field,      // `field` of the record, or of the structure reached so far
    feature,    // `key` of a look
    heading,    // `key` of `more`, or of another free mapping
    backwards,  // all records of `kind` that refer to this one in any field
    itself,     // the record's own id: `id`, `kind:id` as text
  };
  Type type = Type::field;
  records::Field field{};
  Kind kind = Kind::guide;
  std::string key;
};

// What a path meets at its end.
struct Reached {
  enum class State : std::uint8_t {
    value,     // `value` (never a list: its members are reached one by one), in `record`
    record,    // a record itself: a path that ends in a reference reaches the value, one that ends backwards the record
    absent,    // not recorded
    unknown,   // `unknown`, or beyond a reference that is unknown or unreadable
    none,      // `none`
  };
  State state = State::absent;
  RecordIndex record = records::kNoRecord;   // where the value stands; of State::record the record
  const records::Value* value = nullptr;
  const records::FieldSpec* spec = nullptr;  // of the value, where the table has one
  bool inList = false;                       // a member of a list…
  bool complete = false;                     // … that leaves nothing out
};

struct PathProblem {
  std::size_t at = 0;      // byte offset of the step that is wrong
  std::size_t length = 0;
  std::string message;     // "a treatment has no field `shpae`"
  std::string hint;        // "did you mean `shape`?"
};

class Path {
 public:
  // Compiles against the table; features are checked against the guide's. On failure the path is empty and `problem`
  // says why. Private fields are allowed only with `allowPrivate`.
  static Path compile(std::string_view text, Kind from, const Collection& collection, PathProblem& problem,
                      bool allowPrivate = false);

  bool empty() const { return steps_.empty(); }
  const std::vector<Step>& steps() const { return steps_; }
  std::string_view text() const { return text_; }
  // The type of what it reaches (FieldType::text for a feature's value); of a backwards end, a reference.
  const records::FieldSpec* endSpec() const { return end_; }

  // Everything it reaches from a record: at least one entry. A list gives its members; a reference in the middle is
  // followed; an unknown one gives `unknown`. Bounded: at most 10,000 entries.
  std::vector<Reached> from(RecordIndex record, const Collection& collection) const;

 private:
  std::string text_;
  std::vector<Step> steps_;
  const records::FieldSpec* end_ = nullptr;
};

}  // namespace saggar::choosing
