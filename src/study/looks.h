#pragma once
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "linking/collection.h"

// What is recorded of how things look, feature by feature, made ready for comparing.
//
// A feature counts as recorded if all that is said of it is certain: one that is `unknown`, in whole or in part, or
// doubted could be anything, as if it had been left out. `none` is a value like any other. What varies from piece to
// piece, or from year to year, has several values; so has what another source says otherwise and is not set aside.
namespace saggar::study {

using linking::Collection;
using linking::Kind;
using linking::Record;
using linking::RecordIndex;

using ValueId = std::uint32_t;  // equal for equal words, case set aside

struct Recorded {
  RecordIndex feature = records::kNoRecord;
  std::vector<ValueId> values;  // rising
  friend bool operator==(const Recorded&, const Recorded&) = default;
  friend auto operator<=>(const Recorded&, const Recorded&) = default;
};

using Row = std::vector<Recorded>;  // rising by feature

class Looks {
 public:
  explicit Looks(const Collection& collection) : collection_(collection) {}

  // Empty for a record of whose look nothing is certain.
  Row rowOf(RecordIndex record);
  // The value's word as it was first typed.
  std::string_view word(ValueId value) const { return words_[value]; }

 private:
  ValueId idOf(std::string_view word);
  bool addWords(const records::Value& value, std::vector<ValueId>& values);

  const Collection& collection_;
  std::unordered_map<std::string_view, ValueId> typed_;
  std::unordered_map<std::string, ValueId> folded_;
  std::vector<std::string_view> words_;
};

// The feature as the row has it; null if it is not recorded.
const Recorded* find(const Row& row, RecordIndex feature);

// No value in common: no piece can be both. Both rise.
bool disjoint(const std::vector<ValueId>& one, const std::vector<ValueId>& other);

// At least one feature is recorded of both, and none that is tells them apart.
bool alike(const Row& one, const Row& other);

// The whole number of a feature's `effort`: 1 at a glance … 5 with a lens or a lamp; kNoEffort where none is recorded,
// so that it comes last.
inline constexpr std::int64_t kNoEffort = 6;
std::int64_t effortOf(const Collection& collection, RecordIndex feature);

}  // namespace saggar::study
