#pragma once
#include <memory>
#include <string>
#include <vector>

#include "base/arena.h"
#include "compose/materials.h"

// A fence in prose that the program fills in: the block's name, and YAML that chooses what it lists.
//
//   ```treatments
//   where: {shape: jessamount}
//   in-order-of: introduced
//   sure: yes
//   ```
namespace saggar::compose {

struct Query {
  std::string block;
  records::KindSet kinds;        // what it can list
  choosing::Condition where;
  std::vector<choosing::Path> order;
  bool sure = false;             // leave out what is only perhaps meant
  std::shared_ptr<void> keep;    // what the condition's values live in
};

// The kinds of record a block lists.
records::KindSet kindsOf(std::string_view block);

// Reads the YAML of a block of prose; what cannot be read is left out, with findings at its place.
Query readQuery(const Block& block, const Materials& materials, diagnostics::Findings& findings);

// A block without YAML: everything of its kinds.
Query wholeQuery(std::string_view block);

// What it lists: its records that are yes or maybe, in the order it asks for, else that of file and place.
std::vector<choosing::Chosen> chosenBy(const Query& query, const Materials& materials);

// One kind of `kinds`, by a condition and an order as typed in contents or in a block.
std::vector<choosing::Path> readOrder(const records::Value& value, Kind kind, const Materials& materials,
                                      source::FileId file, diagnostics::Findings& findings);

}  // namespace saggar::compose
