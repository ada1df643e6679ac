#include "choosing/made_in_clash.h"

#include <algorithm>
#include <unordered_map>

#include "choosing/made_in.h"

namespace saggar::choosing {
namespace {

using records::Kind;
using records::Value;
using records::ValueType;

constexpr std::size_t kMost = 100'000;

const Value* firmly(const records::Record& record, records::Field field) {
  const Value* value = record.broken ? nullptr : record.find(field);
  return value == nullptr || value->isDoubted() ? nullptr : value;
}

// Whether the author said that the rest is excluded. A piece or shape alone says so only with `complete`: it is no more
// than a list that is still short.
bool excludesTheRest(const Value& value) {
  return value.type == ValueType::none || value.type == ValueType::mapping ||
         (value.evidence != nullptr && value.evidence->complete());
}

class Search {
 public:
  explicit Search(const Collection& collection) : all_(collection) {}

  std::vector<MadeInClash> run() {
    sortForms();
    for (RecordIndex shape : all_.ofKind(Kind::shape)) {
      const Value* forms = firmly(all_[shape], "forms"_f);
      if (forms == nullptr) continue;
      if (excludesTheRest(*forms)) denied(shape);
      asserted(shape, *forms);
      if (out_.size() >= kMost) break;
    }
    std::sort(out_.begin(), out_.end(), [](const MadeInClash& a, const MadeInClash& b) {
      return a.form != b.form ? a.form < b.form : a.shape < b.shape;
    });
    out_.erase(std::unique(out_.begin(), out_.end()), out_.end());
    return std::move(out_);
  }

 private:
  void sortForms() {
    for (RecordIndex form : all_.ofKind(Kind::form)) {
      const Value* in = firmly(all_[form], "made-in"_f);
      if (in == nullptr) continue;
      if (in->type == ValueType::all || in->type == ValueType::mapping) {
        everywhere_.push_back(form);
      } else {
        for (const Value& shape : in->each())
          if (shape.target() != records::kNoRecord) named_[shape.target()].push_back(form);
      }
    }
  }

  // The shape's list leaves nothing out: which forms say that they are made in it?
  void denied(RecordIndex shape) {
    auto look = [&](RecordIndex form) {
      if (out_.size() < kMost && formSays(all_, form, shape) == Answer::yes &&
          shapeSays(all_, shape, form) == Answer::no)
        out_.push_back({form, shape, true});
    };
    for (RecordIndex form : everywhere_) look(form);
    if (const auto found = named_.find(shape); found != named_.end())
      for (RecordIndex form : found->second) look(form);
  }

  // Which of the forms it lists say that they are not?
  void asserted(RecordIndex shape, const Value& forms) {
    for (const Value& one : forms.each()) {
      const RecordIndex form = one.target();
      if (form == records::kNoRecord || out_.size() >= kMost) continue;
      if (one.isDoubted()) continue;
      const Value* in = firmly(all_[form], "made-in"_f);
      if (in != nullptr && excludesTheRest(*in) && formSays(all_, form, shape) == Answer::no)
        out_.push_back({form, shape, false});
    }
  }

  const Collection& all_;
  std::vector<RecordIndex> everywhere_;  // forms made in all shapes, or all but some
  std::unordered_map<RecordIndex, std::vector<RecordIndex>> named_;  // a shape → forms that name it
  std::vector<MadeInClash> out_;
};

}  // namespace

std::vector<MadeInClash> madeInClashes(const linking::Collection& collection) {
  return Search(collection).run();
}

}  // namespace saggar::choosing
