#include <algorithm>
#include <set>

#include "choosing/path.h"
#include "study/gaps.h"

// Which of the pieces that a line or a set is said to consist of somebody has held, or has a picture of.
namespace saggar::study {

using records::Record;
using records::Value;

namespace {

constexpr std::size_t kMostPairs = 1'000'000;  // so that time is bounded, whatever is typed

using Pair = std::pair<RecordIndex, RecordIndex>;  // of a shape or treatment, and a form

std::set<Pair> seenPieces(const Collection& collection) {
  std::set<Pair> seen;
  for (const RecordIndex index : collection.ofKind(Kind::specimen)) {
    const Record& specimen = collection[index];
    const Value* form = specimen.find("form"_f);
    if (form == nullptr || form->target() == records::kNoRecord) continue;
    if (evidence::bestSeen(specimen.find("seen"_f)) > evidence::Seen::pictured) continue;
    const Value* treatment = specimen.find("treatment"_f);
    const Value* shape = specimen.find("shape"_f);
    if (treatment != nullptr && treatment->target() != records::kNoRecord) {
      seen.emplace(treatment->target(), form->target());
      if (shape == nullptr) shape = collection[treatment->target()].find("shape"_f);
    }
    if (shape == nullptr) continue;
    for (const Value& one : shape->each())
      if (one.target() != records::kNoRecord) seen.emplace(one.target(), form->target());
  }
  return seen;
}

// What a record is said to consist of, each piece with what it is a piece of.
std::vector<Pair> piecesOf(const Collection& collection, RecordIndex index, const choosing::Path& forms) {
  std::vector<Pair> pieces;
  const Record& record = collection[index];
  if (record.kind == Kind::shape) {
    for (const choosing::Reached& one : forms.from(index, collection))
      if (one.state == choosing::Reached::State::record)
        pieces.emplace_back(index, one.record);
      else if (one.value != nullptr && one.value->target() != records::kNoRecord)
        pieces.emplace_back(index, one.value->target());
  } else if (const Value* list = record.find("pieces"_f)) {
    for (const Value& one : list->each()) {
      const Value* form = one.type == records::ValueType::mapping ? one.find("form"_f) : &one;
      const Value* of = one.find("of"_f);
      if (form == nullptr || form->target() == records::kNoRecord) continue;
      if (of != nullptr && of->target() != records::kNoRecord)
        pieces.emplace_back(of->target(), form->target());
    }
  }
  std::sort(pieces.begin(), pieces.end());
  pieces.erase(std::unique(pieces.begin(), pieces.end()), pieces.end());
  return pieces;
}

RecordIndex makerOf(const Record& shape) {
  const Value* maker = shape.find("maker"_f);
  return maker == nullptr ? records::kNoRecord : maker->target();
}

// The makers of whose ware any decoration is on record: what a piece was made in, where `all` is said of it, is meant of
// their shapes, and not of those that others made and that stand in the guide to be told apart from them.
std::set<RecordIndex> makersTreated(const Collection& collection) {
  std::set<RecordIndex> makers;
  for (const RecordIndex index : collection.ofKind(Kind::treatment))
    if (const Value* shape = collection[index].find("shape"_f))
      for (const Value& one : shape->each())
        if (one.target() != records::kNoRecord) makers.insert(makerOf(collection[one.target()]));
  return makers;
}

// The shape's maker is another's, and its pieces are listed nowhere but under `all`.
bool isForComparison(const Record& record, const std::set<RecordIndex>& treated) {
  return record.kind == Kind::shape && !treated.empty() && record.find("forms"_f) == nullptr &&
         !treated.contains(makerOf(record));
}

}  // namespace

std::vector<FormsNeverSeen> formsNeverSeen(const Collection& collection,
                                           std::span<const RecordIndex> records) {
  choosing::PathProblem problem;
  const choosing::Path forms = choosing::Path::compile("forms", Kind::shape, collection, problem);
  const std::set<Pair> seen = seenPieces(collection);
  const std::set<RecordIndex> treated = makersTreated(collection);
  std::vector<FormsNeverSeen> out;
  std::size_t pairs = 0;
  for (const RecordIndex index : records) {
    if (collection[index].kind != Kind::shape && collection[index].kind != Kind::set) continue;
    if (isForComparison(collection[index], treated)) continue;
    if (pairs > kMostPairs) break;
    const std::vector<Pair> pieces = piecesOf(collection, index, forms);
    pairs += pieces.size();
    FormsNeverSeen one{index, {}, {}};
    for (const Pair& piece : pieces) (seen.contains(piece) ? one.seen : one.forms).push_back(piece.second);
    for (auto* list : {&one.forms, &one.seen}) {
      std::sort(list->begin(), list->end());
      list->erase(std::unique(list->begin(), list->end()), list->end());
    }
    if (!one.forms.empty()) out.push_back(std::move(one));
  }
  return out;
}

}  // namespace saggar::study
