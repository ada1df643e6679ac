#include "document/rare.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "document/document.h"

// What few nodes have is a value like any other.
namespace saggar::document {
namespace {

TEST_CASE("nothing given: reads as empty, and nothing can be changed by accident") {
  Rare<Target> none;
  CHECK(none->file.empty());
  CHECK(*none == Target{});
  CHECK(none.given() == nullptr);
}

TEST_CASE("a copy is a thing of its own; what is moved away is gone") {
  Rare<Target> one(Target{.file = "bryn", .anchor = "shape-bryn", .address = {}});
  Rare<Target> other = one;
  other.make().file = "cairn";
  CHECK(one->file == "bryn");
  CHECK(other->file == "cairn");
  CHECK(other->anchor == "shape-bryn");
  one = other;
  CHECK(one->file == "cairn");
  other.clear();
  CHECK(other.given() == nullptr);
  CHECK(one->file == "cairn");
  const Rare<Target> moved = std::move(one);
  CHECK(moved->file == "cairn");
  one = moved;
  one = *&one;
  CHECK(one->file == "cairn");
}

TEST_CASE("nodes that lead nowhere and are no table have no room for either") {
  CHECK(sizeof(Rare<Target>) == sizeof(void*));
  CHECK(sizeof(Inline) < sizeof(Target));
  CHECK(sizeof(Block) < sizeof(Table) + sizeof(Target));
}

TEST_CASE("trees are copied with their tables and targets") {
  Table rows;
  rows.head = {cell("Number")};
  rows.rows.push_back({{cell(Inlines{link({text("JM-045")}, {.file = "a", .anchor = "b", .address = {}})})}});
  const Blocks made{table(rows), paragraph({text("words")})};
  Blocks copy = made;
  REQUIRE(copy[0].table.given() != nullptr);
  copy[0].table.make().rows[0].cells[0].inlines[0].target.make().anchor = "c";
  CHECK(made[0].table->rows[0].cells[0].inlines[0].target->anchor == "b");
  CHECK(copy[1].table.given() == nullptr);
  CHECK(plainText(made) == "Number\nJM-045\nwords");
  CHECK(plainText(copy) == plainText(made));
}

}  // namespace
}  // namespace saggar::document
