// Sizes of the trade.
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

// A form `id` with one field a line; `nominal` stands on line 4, what follows from line 5 on.
std::string form(const std::string& id, const std::string& nominal, const std::string& more) {
  return "- form: " + id + "\n  ware: hollow\n  family: bowls\n  nominal: " + nominal + "\n  " + more +
         "\n  cite: books\n";
}

std::string found(const std::string& forms) {
  return Small(forms + kBooks).found;
}

}  // namespace

TEST_CASE("an actual size below the nominal one") {
  silent(form("plate-6", "6 in", "actual: 8 1/4 in") + kBooks);
  caught(form("plate-6", "6 in", "actual: 5 7/8 in") + kBooks, "5:11", "size-doubtful");
  const Small bad(form("plate-6", "6 in", "actual: 5 7/8 in") + kBooks);
  CHECK(bad.one().message == "the actual size of `plate-6`, 5 7/8 in, is below its nominal size, 6 in");
  CHECK(bad.one().record == "form:plate-6");
}

TEST_CASE("the largest measure counts, in whatever unit it is typed") {
  CHECK(found(form("a", "6 in", "actual: 6 in")) == "");
  CHECK(found(form("a", "6 in", "actual: 152 mm")) == "5:11 size-doubtful");  // 6 in are 152.4 mm
  CHECK(found(form("a", "6 in", "actual: 152.4 mm")) == "");
  CHECK(found(form("a", "6 in", "actual: 15.3 cm")) == "");
  CHECK(found(form("a", "8 in", "actual: 5 x 9 in")) == "");
  CHECK(found(form("a", "8 in", "actual: 5 x 7 7/8 in")) == "5:11 size-doubtful");
}

TEST_CASE("what cannot be compared") {
  CHECK(found(form("a", "36s", "actual: 5 in")) == "");
  CHECK(found(form("a", "6 in", "actual: 12 fl oz")) == "");
  CHECK(found(form("a", "6 in", "actual: unknown")) == "");
  CHECK(found(form("a", "none", "actual: 5 in")) == "");
  CHECK(found(form("a", "160 mm", "actual: 5 in")) == "");  // no list gives millimetres
  CHECK(found(form("a", "6 in", "actual: {is: 5 7/8 in, doubted: a bent rule}")) == "");
  CHECK(found(form("a", "{is: 6 in, doubted: a torn page}", "actual: 5 7/8 in")) == "");
  CHECK(found(form("a", "6 in", "actual: {is: 5 7/8 in, cite: books}")) == "5:16 size-doubtful");
}

TEST_CASE("count sizes fall as the count rises, by what the pieces hold") {
  silent(form("bowl-24s", "24s", "holds: 25 fl oz") + form("bowl-36s", "36s", "holds: 16 fl oz") + kBooks);
  caught(form("bowl-24s", "24s", "holds: 15 fl oz") + form("bowl-36s", "36s", "holds: 16 fl oz") + kBooks,
         "11:10", "size-out-of-order");
  const Small bad(form("bowl-24s", "24s", "holds: 15 fl oz") + form("bowl-36s", "36s", "holds: 16 fl oz") +
                  kBooks);
  CHECK(bad.one().message == "`bowl-24s` (24s) holds 15 fl oz, no more than `bowl-36s` (36s) with 16 fl oz");
  CHECK(bad.one().record == "form:bowl-36s");
  CHECK(bad.one().records == std::vector<std::string>{"form:bowl-24s", "form:bowl-36s"});
  // At the later record, whichever it is; the same size is one too many.
  CHECK(found(form("bowl-36s", "36s", "holds: 16 fl oz") + form("bowl-24s", "24s", "holds: 15 fl oz")) ==
        "11:10 size-out-of-order");
  CHECK(found(form("bowl-36s", "36s", "holds: 16 fl oz") + form("bowl-24s", "24s", "holds: 16 fl oz")) ==
        "11:10 size-out-of-order");
  CHECK(found(form("bowl-36s", "36s", "holds: 16 fl oz") + form("other-36s", "36s", "holds: 12 fl oz")) ==
        "");
  CHECK(found(form("bowl-36s", "36s", "holds: 0.5 l") + form("bowl-24s", "24s", "holds: 16 fl oz")) ==
        "11:10 size-out-of-order");
}

TEST_CASE("where neither says what it holds, by what they measure") {
  CHECK(found(form("a", "24s", "actual: 6 in") + form("b", "36s", "actual: 5 in")) == "");
  CHECK(found(form("a", "24s", "actual: 5 in") + form("b", "36s", "actual: 6 in")) ==
        "11:11 size-out-of-order");
  CHECK(found(form("a", "24s", "actual: 5 in") + form("b", "36s", "actual: 127 mm")) ==
        "11:11 size-out-of-order");
  // A wide bowl may be shallow: what they hold goes before, and one that says it is not compared with one that does not.
  CHECK(found(form("a", "24s", "actual: 5 in\n  holds: 25 fl oz") +
              form("b", "36s", "actual: 6 in\n  holds: 16 fl oz")) == "");
  CHECK(found(form("a", "24s", "actual: 5 in\n  holds: 25 fl oz") + form("b", "36s", "actual: 6 in")) == "");
}

TEST_CASE("within a family only, and only what is certain") {
  std::string jug = form("jug", "36s", "holds: 60 fl oz");
  jug.replace(jug.find("bowls"), 5, "jugs");
  CHECK(found(form("bowl", "24s", "holds: 25 fl oz") + jug) == "");
  std::string nobody = form("tub", "36s", "holds: 60 fl oz");
  nobody.erase(nobody.find("  family: bowls\n"), 16);
  CHECK(found(form("bowl", "24s", "holds: 25 fl oz") + nobody) == "");
  CHECK(found(form("a", "24s", "holds: 15 fl oz") +
              form("b", "36s", "holds: {is: 16 fl oz, doubted: cracked}")) == "");
  CHECK(found(form("a", "24s", "holds: [15 fl oz, 17 fl oz]") + form("b", "36s", "holds: 16 fl oz")) == "");
}

TEST_CASE("one finding a record, however many it is out of order with, and each that is") {
  const std::string sound = form("a", "24s", "holds: 30 fl oz") + form("b", "30s", "holds: 20 fl oz") +
                            form("c", "36s", "holds: 10 fl oz");
  CHECK(found(sound) == "");
  CHECK(found(sound + form("d", "42s", "holds: 40 fl oz")) == "23:10 size-out-of-order");
  CHECK(found(sound + form("d", "42s", "holds: 40 fl oz") + form("e", "48s", "holds: 5 fl oz") +
              form("f", "54s", "holds: 50 fl oz")) == "23:10 size-out-of-order\n35:10 size-out-of-order");
  CHECK(found(form("d", "42s", "holds: 40 fl oz") + sound) ==
        "11:10 size-out-of-order\n17:10 size-out-of-order\n23:10 size-out-of-order");
}

TEST_CASE("the same answer as comparing each with each") {
  // Two hundred families of eight forms with counts and contents by a fixed rule; every pair is compared here.
  std::uint32_t state = 7;
  auto next = [&](std::uint32_t below) {
    state = state * 1664525 + 1013904223;
    return (state >> 16) % below;
  };
  std::string text;
  std::vector<std::string> expected;
  for (int family = 0; family < 200; ++family) {
    std::vector<std::pair<std::uint32_t, std::uint32_t>> forms;
    for (int i = 0; i < 8; ++i) {
      const std::uint32_t count = 12 + 6 * next(8);
      const std::uint32_t holds = next(3) == 0 ? 5 + next(60) : 100 - count + next(4);
      const std::string id = "f" + std::to_string(family) + "-" + std::to_string(i);
      text += "- {form: " + id + ", family: f" + std::to_string(family) +
              ", nominal: " + std::to_string(count) + "s, holds: " + std::to_string(holds) +
              " fl oz, cite: books}\n";
      const bool out = std::any_of(forms.begin(), forms.end(), [&](const auto& one) {
        return (one.first > count && one.second >= holds) || (one.first < count && one.second <= holds);
      });
      if (out) expected.push_back("form:" + id);
      forms.emplace_back(count, holds);
    }
  }
  const Small all(text + kBooks);
  std::vector<std::string> records;
  for (const auto& one : all.report.findings) records.push_back(one.record);
  CHECK(records.size() > 300);
  CHECK(records == expected);
}
