#pragma once
#include <vector>

#include "linking/collection.h"

// `forms` of a shape and `made-in` of a form state one thing from two sides, and either side is enough. Where one says
// yes and the other leaves nothing out and says no, the records contradict each other.
namespace saggar::choosing {

struct MadeInClash {
  records::RecordIndex form = records::kNoRecord;
  records::RecordIndex shape = records::kNoRecord;
  bool formSaysYes = false;  // false: the shape lists the form, and the form's own `made-in` denies it
  friend bool operator==(const MadeInClash&, const MadeInClash&) = default;
};

// Each such pair once, by form and then by shape. What is `doubted` denies and asserts nothing. Pairs beyond a hundred
// thousand are left out, so that time and memory are bounded whatever is typed.
std::vector<MadeInClash> madeInClashes(const linking::Collection& collection);

}  // namespace saggar::choosing
