#pragma once
#include <span>
#include <string_view>
#include <vector>

#include "linking/collection.h"

// What pieces show of the ware they are of: a piece with a silver line shows that its decoration came with one, whether
// or not the decoration's own record says so. Tests of claims count it (SEMANTICS, "`where`, `has`, three values").
//
// - its look, of its shape, motif and treatment, as far as the feature is one of theirs (`of`);
// - its form, of its shape and its treatment (and so the shape of the form's `made-in`);
// - its marks: that they were put on its shape.
// A piece of a treatment on several shapes that does not say which shows nothing of either.
namespace saggar::choosing {

using linking::Kind;
using linking::RecordIndex;

class Shown {
 public:
  // Goes through the pieces once. The collection must outlive it.
  explicit Shown(const linking::Collection& collection);

  struct Look {
    std::string_view feature;
    const records::Value* value = nullptr;
    RecordIndex piece = records::kNoRecord;
    RecordIndex of = records::kNoRecord;
  };
  // Every value of a feature once, as the piece shows it that was seen best.
  std::span<const Look> looks(RecordIndex of) const;

  struct Link {
    RecordIndex to = records::kNoRecord;
    RecordIndex piece = records::kNoRecord;
    RecordIndex of = records::kNoRecord;
  };
  // Of a shape or treatment the forms, of a form or mark the shapes, each once.
  std::span<const Link> links(RecordIndex of) const;

  // The pieces of a shape, motif or treatment that have a look.
  std::span<const RecordIndex> pieces(RecordIndex of) const;

  // What a piece is of; kNoRecord for what is not on record or not sure.
  struct Ware {
    RecordIndex shape = records::kNoRecord;
    RecordIndex motif = records::kNoRecord;
    RecordIndex treatment = records::kNoRecord;
    bool has(RecordIndex record) const { return record == shape || record == motif || record == treatment; }
  };
  static Ware wareOf(const linking::Collection& collection, RecordIndex piece);
  // Whether what a piece shows of a feature is so of a record of this kind.
  static bool isOf(const linking::Collection& collection, RecordIndex feature, Kind kind);

 private:
  std::vector<Look> looks_;
  std::vector<Link> links_;
  struct Piece {
    RecordIndex of, piece;
  };
  std::vector<Piece> byWare_;
  std::vector<RecordIndex> pieces_;  // of byWare_, in its order
};

// One piece looked at by itself: what its ware varies between is not known of it, and where it has a look of its own,
// that is its look. `newsOnly`: but for what its ware is recorded to have, which then is no news.
struct PieceView {
  RecordIndex piece = records::kNoRecord;
  Shown::Ware ware;
  bool newsOnly = false;
};

}  // namespace saggar::choosing
