#include "choosing/made_in.h"

namespace saggar::choosing {

using records::Value;
using records::ValueType;

namespace {

// A value that is one reference or a list of them, which leaves nothing out only if it says so.
Answer holds(const Value* value, RecordIndex wanted) {
  if (value == nullptr || value->type == ValueType::unknown || value->type == ValueType::unfit)
    return Answer::maybe;
  if (value->type == ValueType::none) return Answer::no;
  bool unsure = value->evidence == nullptr || !value->evidence->complete();
  for (const Value& one : value->each()) {
    if (one.target() == wanted) return Answer::yes;
    unsure |= one.target() == records::kNoRecord && one.type != ValueType::none;
  }
  return unsure ? Answer::maybe : Answer::no;
}

}  // namespace

bool isOpenList(const Value* value) {
  if (value == nullptr) return false;
  const bool names = value->type == ValueType::list || value->target() != records::kNoRecord;
  return names && (value->evidence == nullptr || !value->evidence->complete());
}

Answer formSays(const Collection& collection, RecordIndex form, RecordIndex shape) {
  const Value* value = collection[form].find("made-in"_f);
  if (value == nullptr) return Answer::maybe;
  if (value->type == ValueType::all) return Answer::yes;
  if (value->type != ValueType::mapping) return holds(value, shape);
  const Value* but = value->find("all-but"_f);
  if (but == nullptr) return Answer::maybe;
  Answer left = Answer::no;
  for (const Value& one : but->each()) {
    if (one.target() == shape) return Answer::no;
    if (one.target() == records::kNoRecord && one.type != ValueType::none) left = Answer::maybe;
  }
  return opposite(left);
}

Answer shapeSays(const Collection& collection, RecordIndex shape, RecordIndex form) {
  return holds(collection[shape].find("forms"_f), form);
}

Answer madeIn(const Collection& collection, RecordIndex form, RecordIndex shape) {
  const Answer one = formSays(collection, form, shape);
  if (one == Answer::yes) return one;
  const Answer other = shapeSays(collection, shape, form);
  if (other == Answer::yes) return other;
  return both(one, other);
}

}  // namespace saggar::choosing
