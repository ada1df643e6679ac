// What a record is called, in print and in an answer to its author. All data is invented.
#include "linking/names.h"
#include "small_link.h"

using namespace saggar;
using linking::testing::Linked;

namespace {

const Linked& guide() {
  static const Linked all(R"(
- {maker: wesperling}
- {shape: jessamount, name: "Jessamount\nShape"}
- {motif: copper-pantry, name: Copper Pantry}
- {form: plate-7, name: 7-inch plate}
- {feature: edge-line, of: shape}
- {treatment: jm-045, shape: jessamount, motif: copper-pantry, code: JM-045-C/0}
- {treatment: jm-plain, shape: jessamount, motif: none}
- {specimen: baker, treatment: jm-045, form: plate-7}
- {specimen: dated, treatment: jm-045, name: The dated baker}
- {claim: only, says: "It was [only](shape:jessamount) here."}
)");
  return all;
}

std::string print(std::string_view reference) {
  return linking::plainName(guide().collection, guide().collection.find(reference).value());
}
std::string answer(std::string_view reference) {
  return linking::nameForAuthor(guide().collection, guide().collection.find(reference).value());
}

}  // namespace

TEST_CASE("a record in print: its name, what it is made of, else its id in words") {
  CHECK(guide().found == "");
  CHECK(print("maker:wesperling") == "Wesperling");
  CHECK(print("feature:edge-line") == "edge line");
  CHECK(print("treatment:jm-045") == "JM-045-C/0 Copper Pantry");
  CHECK(print("treatment:jm-plain") == "Jessamount\nShape without a motif");
  CHECK(print("specimen:baker") == "JM-045-C/0 Copper Pantry, 7-inch plate");
  CHECK(print("specimen:dated") == "The dated baker");
  CHECK(print("claim:only") == "It was only here");
}

TEST_CASE("a record in an answer: on one line, pieces without a name by their ids, sentences quoted") {
  CHECK(answer("shape:jessamount") == "Jessamount Shape");
  CHECK(answer("treatment:jm-045") == "JM-045-C/0 Copper Pantry");
  CHECK(answer("specimen:baker") == "`baker`");
  CHECK(answer("specimen:dated") == "The dated baker");
  CHECK(answer("claim:only") == "\"It was only here\"");
}
