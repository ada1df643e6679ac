#pragma once
#include <memory>
#include <string>
#include <vector>

#include "choosing/answer.h"
#include "choosing/path.h"
#include "dates/bounds.h"
#include "diagnostics/finding.h"

// `where:` and `has:`, compiled once and asked of many records. SEMANTICS, "`where`, `has`, three values".
//
//   where:
//     shape.maker: wesperling                 a path and the value it must reach
//     status: [production, premium]           … or any of a list
//     introduced: ../1925                     dates: an interval, EDTF or words
//     nominal: 7 in to 9 in                   measures and numbers: a range
//     motif: known                            said, whatever it is; also `unknown`, `none`, `absent` (left out)
//     shape: {maker: wesperling, look: {outline: round}}   one shape that is both
//     not: {motif.supplier: orvenholt}
//     any: [{look.edge-line: gold}, {look.verge-line: gold}]
//
// In quotes, `"none"` and the like are the text itself. What the pages leave open is decided thus:
// - A single value typed plainly is no list: another one is no. A look's list says all that it varies between, and
//   records backwards are all there are: what is not among them is no.
// - A path through a list that is not complete is maybe where no member fits.
// - A single size asked for is compared with the largest side; sizes in different units are alike within half a
//   millimetre, contents within two and a half millilitres.
namespace saggar::choosing {

// The days within which an event of a record lies.
class Bounds {
 public:
  virtual ~Bounds() = default;
  // `end` is from or until for spans; ignored for moments. Open ends where nothing is known.
  enum class End : std::uint8_t { moment, from, until };
  virtual dates::Bounds of(RecordIndex record, records::Field field, End end) const = 0;
  // How dates that are no events are to be taken beside them (`seen.on`, the years of a look).
  virtual dates::Reading reading() const = 0;
};

// What the record itself says, at plain or wide bounds; an end that is an event, what that event's record says.
class OwnBounds final : public Bounds {
 public:
  OwnBounds(const Collection& collection, dates::Reading reading)
      : collection_(collection), reading_(reading) {}
  dates::Bounds of(RecordIndex record, records::Field field, End end) const override;
  dates::Reading reading() const override { return reading_; }

 private:
  dates::Bounds of(RecordIndex record, records::Field field, End end, int depth) const;
  dates::Bounds ofEvent(const records::Value& event, int depth) const;

  const Collection& collection_;
  dates::Reading reading_;
};

struct Told;
class Firmness;
class Shown;
struct PieceView;

class Condition {
 public:
  struct Node;
  Condition() = default;  // holds of everything

  // `tree` is the mapping as typed (a `where` value); `file` and its extents say where. Findings at the key or value
  // that is wrong, which is then left out of the condition: field-unknown (paths), value-unfit, date-unreadable,
  // reference-missing, reference-ambiguous.
  static Condition compile(const records::Value& tree, Kind kind, const Collection& collection,
                           source::FileId file, diagnostics::Findings& findings, bool allowPrivate = false);
  // The same of records of several kinds (a path must fit one of them).
  static Condition compile(const records::Value& tree, records::KindSet kinds, const Collection& collection,
                           source::FileId file, diagnostics::Findings& findings, bool allowPrivate = false);

  bool always() const { return root_ == nullptr; }
  // Nothing that was typed had to be left out of it.
  bool isWhole() const { return whole_; }
  // With `shown`, also by what pieces show of the record; with `view`, as that one piece has it (shown.h).
  Answer of(RecordIndex record, const Collection& collection, const Bounds& bounds,
            const Shown* shown = nullptr, const PieceView* view = nullptr) const;

  // The same, with what the answer rests on (grounds.h).
  Told tell(RecordIndex record, const Collection& collection, const Bounds& bounds, const Firmness& firmness,
            const Shown* shown = nullptr, const PieceView* view = nullptr) const;

  // Whether a record agrees with what a code says of it: as `of`, but what is not recorded may still be `none`.
  Answer agrees(RecordIndex record, const Collection& collection, const Bounds& bounds) const;

 private:
  std::shared_ptr<const Node> root_;
  bool whole_ = true;
};

}  // namespace saggar::choosing
