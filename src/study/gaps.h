#pragma once
#include <span>
#include <vector>

#include "choosing/choose.h"
#include "evidence/evidence.h"

// What is not on record: fields and features that are unknown or left out, decorations that nobody has seen, pieces of a
// line or set that nobody has seen. Only what may be published.
namespace saggar::study {

using linking::Collection;
using linking::Kind;
using linking::RecordIndex;

// A field or feature of one kind, and of which records it is missing.
struct Gap {
  Kind kind = Kind::guide;
  records::Field field{};                    // `look` for a feature
  RecordIndex feature = records::kNoRecord;  // kNoRecord: the field itself
  std::vector<RecordIndex> unknown;          // looked for, not known
  std::vector<RecordIndex> unrecorded;       // left out, of what a guide would want to have
  std::vector<RecordIndex> recorded;         // the others of which it could be, the unknown among them
};

// Of the records given, in the order given; gaps by kind, fields before features, those by effort.
std::vector<Gap> gapsOf(const Collection& collection, std::span<const RecordIndex> records);

// Treatments of the records given by how they are known, where that is less than a picture.
struct Unseen {
  std::vector<RecordIndex> documents;  // in documents only
  std::vector<RecordIndex> reports;    // reported only
  std::vector<RecordIndex> nothing;    // neither seen nor cited
};
Unseen unseenOf(const Collection& collection, const evidence::Weights& weights,
                std::span<const RecordIndex> records);

// Pieces of a line or set that nobody has seen in hand or in a picture. Shapes of makers of whose ware no decoration is
// on record stand in a guide for comparison: of them only what their own `forms` list counts.
struct FormsNeverSeen {
  RecordIndex of = records::kNoRecord;  // a shape or a set
  std::vector<RecordIndex> forms;       // in the order of the records
  std::vector<RecordIndex> seen;        // the others
};
std::vector<FormsNeverSeen> formsNeverSeen(const Collection& collection,
                                           std::span<const RecordIndex> records);

}  // namespace saggar::study
