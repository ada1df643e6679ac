#include "invented_text.h"
#include "support.h"

// One record in 5,000 is broken: exactly one finding, and the other 4,999 are read as if nothing were wrong; the same
// on one thread and on several.
using namespace reading_test;
using namespace saggar;
using records::Record;

namespace {

std::string record(int i, const std::string& name) {
  const std::string number = std::to_string(i);
  return "- treatment: lv-" + number + "\n  shape: linnavere\n  motif: heron-pond\n  name: " + name +
         "\n  forms: [plate-7, teapot]\n  introduced:\n    is: 1937\n    cite:\n      - decoration-books: "
         "vol. 4, no. " +
         number + "\n\n";
}

struct Breakage {
  const char* name;
  const char* from;  // replaced in the record
  const char* to;
  int more = 0;  // records that it costs beside its own
};

constexpr Breakage kBreakages[] = {
    {"colon", "Plain", "Plain: and more"},
    {"sign", "Plain", "@plain"},
    {"tab", "  motif", "\tmotif"},
    {"item out of line", "      - decoration", "     - books: p. 3\n      - decoration"},
    {"open quote", "Plain", "\"Plain"},
    {"open bracket", "teapot]", "teapot"},
    {"field out of line", "  introduced:", " introduced:"},
    {"field at the margin", "  introduced:", "introduced:"},
    {"bad letter", "Plain", "Pl\xE4in"},
    {"control character", "Plain", "Pl\x01in"},
    {"open single quote", "Plain", "'Plain"},
    {"comma in braces", "[plate-7, teapot]", "{is: [plate-7, teapot], nothing else}"},
};

}  // namespace

TEST_CASE("one record in 5,000 broken in each of many ways") {
  std::string clean[5'000];
  for (int i = 0; i < 5'000; ++i) clean[i] = record(i, "Plain");
  int way = 0;
  for (const Breakage& breakage : kBreakages) {
    CAPTURE(std::string(breakage.name));
    for (const int broken : {way % 3 == 0 ? 0 : way % 3 == 1 ? 1'234 + 7 * way : 4'999}) {
      std::string text;
      std::size_t line = 1;
      for (int i = 0; i < 5'000; ++i) {
        std::string one = clean[i];
        if (i == broken) {
          const std::size_t at = one.find(breakage.from);
          REQUIRE(at != std::string::npos);
          one.replace(at, std::string_view(breakage.from).size(), breakage.to);
          line = 1 + static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n'));
        }
        text += one;
      }
      const Read read = readText(text);
      CAPTURE(read.report());
      REQUIRE(read.all().size() == 1);
      CHECK(read.place(0).line >= line);
      CHECK(read.place(0).line < line + 10);
      REQUIRE(read.guide.records.size() == 5'000);
      int whole = 0;
      for (int i = 0; i < 5'000; ++i) {
        const Record& one = read.guide.records[static_cast<std::size_t>(i)];
        const bool itself = one.id == "lv-" + std::to_string(i);
        whole += itself && !one.broken && one.fields.size() == 5;
      }
      CHECK(whole >= 4'999);
      CHECK(read.guide.records[static_cast<std::size_t>(broken)].id == "lv-" + std::to_string(broken));
    }
    ++way;
  }
}

TEST_CASE("threads and files change nothing in what is found") {
  source::MemoryFiles files;
  Random random(7);
  for (int file = 0; file < 12; ++file) {
    std::string text;
    for (int i = 0; i < 600; ++i) {
      std::string one = record(file * 1'000 + i, i % 5 == 0 ? "Pl\xC3\xA4in" : "Plain");
      if (random.below(40) == 0) one[random.below(one.size())] = "\t:\"[{@#\n"[random.below(8)];
      text += one;
    }
    files.put("g/" + std::to_string(file) + ".yaml", text);
  }
  files.put("g/guide.yaml", "guide: A\nby: B\nwrong: C\n");
  std::string reports[3];
  std::string ids[3];
  int run = 0;
  for (const unsigned threads : {1u, 4u, 16u}) {
    Read read;
    read.guide = reading::readGuide(files, "g", read.findings, {.threads = threads, .progress = {}});
    CHECK(read.all().size() > 50);
    reports[run] = read.report();
    for (const Record& one : read.guide.records) {
      ids[run] += std::string(one.id) + (one.broken ? "!" : "") + ' ';
      for (const records::Entry& entry : one.fields)
        ids[run] += std::string(entry.key) + '=' + std::string(entry.value.text) + ' ';
    }
    ++run;
  }
  CHECK(reports[0] == reports[1]);
  CHECK(reports[0] == reports[2]);
  CHECK(ids[0] == ids[1]);
  CHECK(ids[0] == ids[2]);
}

TEST_CASE("a record reads the same alone and among many") {
  // Records that are read together in one pass, and one by one, must not differ.
  const Read alone = readText(record(3, "|\n    one\n\n    two\n"));
  REQUIRE_MESSAGE(alone.all().empty(), alone.report());
  std::string text;
  for (int i = 0; i < 50; ++i) text += record(i, i == 3 ? "|\n    one\n\n    two\n" : "Plain");
  const Read among = readText(text);
  REQUIRE_MESSAGE(among.all().empty(), among.report());
  const Record& one = among.guide.records[3];
  REQUIRE(one.fields.size() == alone.guide.records[0].fields.size());
  for (std::size_t i = 0; i < one.fields.size(); ++i) {
    CHECK(one.fields[i].value.text == alone.guide.records[0].fields[i].value.text);
    CHECK(among.text(one, one.fields[i].value) ==
          alone.text(alone.guide.records[0], alone.guide.records[0].fields[i].value));
  }
}
