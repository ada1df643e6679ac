#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "linking/collection.h"
#include "records/tables.h"

// A dotted path from a record of one kind to values: `maker`, `look.handle`, `motif.supplier`, `shape.maker.place`,
// backwards by a kind's name (`treatment.motif`, of a shape: the motifs of the treatments that are on it), `marks.at`,
// `used.from` and `used.until` (the day a span began, the day it ended).
//
// What a step means, in this order: a field of the kind; where no field has that name, the records of the kind of that
// name that refer to this one (`see`, `after`, `before` and dates that name an event do not count). A path that ends in
// a mapping (`marks`, `seen`, `resembles`) reaches its first field. After `more.` the rest is one heading, blanks, dots
// and all. A few steps know more than the table:
// - `made-in` of a form and `forms` of a shape are one relation, and either side is enough: each also reaches what only
//   the other side states. `all` reaches every shape, `{all-but: …}` every other one.
// - A specimen has the shape, motif, customer (`for`) and decorator (`decorated-by`) of its treatment, where it does
//   not say so itself; `specimen` backwards from a shape or motif counts accordingly.
// - A choice that is left out reaches the word that then holds: `status`, `seen.how`, `measured`, `keep`.
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
    spanEnd,    // `key` is `from` or `until`: one end of the span reached so far
  };
  Type type = Type::field;
  records::Field field{};
  Kind kind = Kind::guide;
  std::string key;
};

// Of a span: all of it, the day it began, the day it ended.
enum class SpanEnd : std::uint8_t { whole, from, until };

// What a path meets at its end.
struct Reached {
  // A list passed on the way that may leave something out, where it stands, and the steps that name it.
  struct OpenList {
    const records::Value* value = nullptr;
    RecordIndex record = records::kNoRecord;
    std::size_t step = 0, end = 0;
  };
  enum class State : std::uint8_t {
    value,  // `value` (never a list: its members are reached one by one), in `record`
    record,  // a record itself: a path that ends in a reference reaches the value, one that ends backwards the record
    absent,   // not recorded
    unknown,  // `unknown`, or beyond a reference that is unknown or unreadable
    none,     // `none`; without a `value`: no record refers to it, or its kind has no such field
  };
  State state = State::absent;
  RecordIndex record = records::kNoRecord;  // where the value stands; of State::record the record
  const records::Value* value = nullptr;
  const records::FieldSpec* spec = nullptr;  // of the value, where the table has one
  bool inList = false;                       // a member of a list…
  bool complete = false;     // … that leaves nothing out (what varies in a look, records backwards)
  bool whole = true;         // all steps were taken; false: it stopped on the way
  bool inStructure = false;  // `spec` is a field of a mapping within the record, not of the record
  bool assumed = false;      // left out: `value` is the word that then holds, typed nowhere
  // One end of the span `value`. An interval without an end (`1937/..`) reaches `none` there; of one whose end or
  // beginning is left blank it is unknown.
  SpanEnd end = SpanEnd::whole;
  std::string_view key{};                    // the key it stands under in a free mapping
  RecordIndex shownBy = records::kNoRecord;  // only this piece shows it
  bool perhaps = false;                      // of one piece: one of several that it may be
  std::size_t step = 0;                      // the first step that was taken within `record`
  OpenList openList{};                       // the first, where a member of one was reached
};

struct PathProblem {
  std::size_t at = 0;  // byte offset of the step that is wrong
  std::size_t length = 0;
  std::string message;  // "a treatment has no field `shpae`"
  std::string hint;     // "did you mean `shape`?"
};

// What comes before a path's first step, or stands at its end: a record of one of some kinds, or something within one.
struct Scope {
  enum class Type : std::uint8_t { record, structure, keys, look, headings, span, leaf };
  Type type = Type::record;
  records::KindSet kinds{};                     // record
  std::span<const records::FieldSpec> inner{};  // structure, keys
  std::string_view called{};                    // the field it is, for messages
};

class Path {
 public:
  // Compiles against the table; features are checked against the guide's. On failure the path is empty and `problem`
  // says why. Private fields are allowed only with `allowPrivate`.
  static Path compile(std::string_view text, Kind from, const Collection& collection, PathProblem& problem,
                      bool allowPrivate = false);
  // The same from anything a path can start at.
  static Path compile(std::string_view text, const Scope& from, const Collection& collection,
                      PathProblem& problem, bool allowPrivate = false);

  bool empty() const { return steps_.empty(); }
  const std::vector<Step>& steps() const { return steps_; }
  std::string_view text() const { return text_; }
  // The type of what it reaches (FieldType::text for a feature's value); of a backwards end, a reference. Null for an
  // empty path.
  const records::FieldSpec* endSpec() const { return empty() ? nullptr : &end_; }
  // What a further step would start from.
  const Scope& endScope() const { return scope_; }
  // What its last step was taken from.
  const Scope& lastScope() const { return before_; }
  // The record of the feature whose value it reaches; kNoRecord if it ends in anything else.
  RecordIndex feature() const { return feature_; }
  // It ends in `made-in` of a form, or in `forms` of a shape.
  bool endsInMadeIn() const { return endsInMadeIn_; }
  // It goes backwards somewhere: what it reaches has no order of its own.
  bool goesBackwards() const { return backwards_; }

  // Everything it reaches from a record: at least one entry. A list gives its members; a reference in the middle is
  // followed; an unknown one gives `unknown`. Bounded: at most 10,000 entries, the last of which is `unknown` if there
  // is more.
  std::vector<Reached> from(RecordIndex record, const Collection& collection) const;

 private:
  friend class PathCompiler;
  std::string text_;
  std::vector<Step> steps_;
  records::FieldSpec end_{};
  Scope scope_;
  Scope before_;
  RecordIndex feature_ = records::kNoRecord;
  bool endsInMadeIn_ = false;
  bool backwards_ = false;
};

}  // namespace saggar::choosing
