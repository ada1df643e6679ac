#include "choosing/path.h"

#include "choosing/walk.h"

namespace saggar::choosing {

std::vector<Reached> Path::from(RecordIndex record, const Collection& collection) const {
  std::vector<Reached> all;
  auto keep = [&](const Reached& reached) {
    all.push_back(reached);
    return true;
  };
  Walker(collection, steps_, false, keep).from({.record = record});
  return all;
}

}  // namespace saggar::choosing
