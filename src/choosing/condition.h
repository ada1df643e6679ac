#pragma once
#include <memory>
#include <string>
#include <vector>

#include "choosing/answer.h"
#include "choosing/path.h"
#include "dates/bounds.h"
#include "diagnostics/finding.h"

// `where:` and `has:`, compiled once and asked of many records. SEMANTICS, "`where`, `has`, three values".
namespace saggar::choosing {

// The days within which an event of a record lies, as far as all facts tell. Today what the record itself says
// (plain bounds); the network of dates will answer here.
class Bounds {
 public:
  virtual ~Bounds() = default;
  // `end` is from or until for spans; ignored for moments. Open ends where nothing is known.
  enum class End : std::uint8_t { moment, from, until };
  virtual dates::Bounds of(RecordIndex record, records::Field field, End end) const = 0;
};

// What the record itself says, at plain or wide bounds.
class OwnBounds final : public Bounds {
 public:
  OwnBounds(const Collection& collection, dates::Reading reading) : collection_(collection), reading_(reading) {}
  dates::Bounds of(RecordIndex record, records::Field field, End end) const override;

 private:
  const Collection& collection_;
  dates::Reading reading_;
};

class Condition {
 public:
  struct Node;
  Condition() = default;  // holds of everything

  // `tree` is the mapping as typed (a `where` value); `span` turns one of its extents into a place. Findings:
  // field-unknown and value-unfit at the key or value that is wrong; what is wrong is left out of the condition.
  static Condition compile(const records::Value& tree, Kind kind, const Collection& collection, source::FileId file,
                           diagnostics::Findings& findings);
  // The same from text (the YAML inside a fence), which is read here. `places` as reading::TextMap.

  bool always() const { return root_ == nullptr; }
  Answer of(RecordIndex record, const Collection& collection, const Bounds& bounds) const;

 private:
  std::shared_ptr<const Node> root_;
};

}  // namespace saggar::choosing
