// The table of source types, row by row, and what an author may say against it.
#include <map>

#include "small.h"

using namespace saggar;
using namespace saggar::evidence;
using namespace saggar::evidence::testing;

namespace {

struct Row {
  const char* types;
  const char* record;
  const char* information;
  Shows shows;
  bool wantsLocator;
};

// Typed again from the table of the record language's meaning, which follows the Board for Certification of
// Genealogists, Genealogy Standards, 2nd ed.
const Row kRows[] = {
    {"decoration-book factory-record ledger", "original", "primary", Shows::existed, true},
    {"price-list catalogue leaflet", "original", "primary", Shows::existedAndOffered, true},
    {"trade-notice advertisement", "original", "primary", Shows::existed, false},
    {"registration patent supplier-sheet", "original", "primary", Shows::designExisted, false},
    {"photograph sample excavation", "original", "primary", Shows::existed, false},
    {"interview letter observation", "original", "primary", Shows::nothing, true},
    {"newspaper directory", "original", "secondary", Shows::existed, true},
    {"copy", "derivative", "primary", Shows::existed, true},
    {"book article museum-object", "authored", "secondary", Shows::nothing, true},
    {"newsletter sale post website recording hearsay", "authored", "undetermined", Shows::nothing, true},
};

template <class Tell>
void eachType(Tell tell) {
  for (const Row& row : kRows) {
    std::string_view left = row.types;
    while (!left.empty()) {
      const std::size_t blank = left.find(' ');
      tell(std::string(left.substr(0, blank)), row);
      left = blank == std::string_view::npos ? std::string_view() : left.substr(blank + 1);
    }
  }
}

}  // namespace

TEST_CASE("every row of the table") {
  std::size_t count = 0;
  eachType([&](const std::string& type, const Row& row) {
    CAPTURE(type);
    ++count;
    const Small guide(cited("s", type));
    const Worth worth = guide.weights->worthOf(guide.at("source:s"));
    CHECK(word(worth.form) == row.record);
    CHECK(word(worth.information) == row.information);
    CHECK((worth.shows == row.shows));
    CHECK(worth.direct);
    CHECK(worth.known);
    CHECK(guide.weights->wantsLocator(guide.at("source:s")) == row.wantsLocator);
  });
  CHECK(count == sourceTypes().size());
}

TEST_CASE("the types of the table are those that can be typed") {
  const records::FieldSpec* type = records::specOf(records::Kind::source, "type"_f);
  REQUIRE(type != nullptr);
  CHECK(type->words.size() == sourceTypes().size());
  for (std::string_view one : type->words) CHECK_MESSAGE(sourceTypeNamed(one) != nullptr, one);
  CHECK(sourceTypeNamed("bok") == nullptr);
}

TEST_CASE("the standing that one citation of each type gives, to a date and to anything else") {
  const std::map<std::string, std::pair<const char*, const char*>> rows = {
      {"decoration-book factory-record ledger", {"documented", "documented"}},
      {"price-list catalogue leaflet", {"documented", "documented"}},
      {"trade-notice advertisement", {"documented", "documented"}},
      {"registration patent supplier-sheet", {"documented", "documented"}},
      {"photograph sample excavation", {"documented", "documented"}},
      {"interview letter observation", {"supported", "documented"}},
      {"newspaper directory", {"supported", "supported"}},
      {"copy", {"supported", "supported"}},
      {"book article museum-object", {"suggested", "suggested"}},
      {"newsletter sale post website recording hearsay", {"suggested", "suggested"}},
  };
  eachType([&](const std::string& type, const Row& row) {
    CAPTURE(type);
    const Small guide(cited("s", type) + "- {shape: a, introduced: 1932, modeller: quoyne, cite: s}\n");
    CHECK(guide.standing("shape:a", "introduced"_f) == rows.at(row.types).first);
    CHECK(guide.standing("shape:a", "modeller"_f) == rows.at(row.types).second);
  });
}

TEST_CASE("every override, upward and downward") {
  for (const char* type : {"ledger", "directory", "copy", "book", "hearsay"})
    for (const char* form : {"original", "derivative", "authored"})
      for (const char* information : {"primary", "secondary", "undetermined"}) {
        CAPTURE(type);
        CAPTURE(form);
        CAPTURE(information);
        const Small guide(cited("s", type, std::string("record: ") + form + ", information: " + information) +
                          "- {shape: a, modeller: quoyne, introduced: 1932, cite: s}\n");
        const Worth worth = guide.weights->worthOf(guide.at("source:s"));
        CHECK(word(worth.form) == form);
        CHECK(word(worth.information) == information);
        CHECK((worth.shows == sourceTypeNamed(type)->shows));
        const bool primary = std::string_view(information) == "primary";
        const std::string_view record = form;
        const std::string wanted = record == "original"     ? primary ? "documented" : "supported"
                                   : record == "derivative" ? primary ? "supported" : "suggested"
                                                            : "suggested";
        CHECK(guide.standing("shape:a", "modeller"_f) == wanted);
        // A later account, however good, is no word of the time.
        const bool later = worth.shows == Shows::nothing;
        CHECK(guide.standing("shape:a", "introduced"_f) ==
              (later && wanted == "documented" ? "supported" : wanted));
      }
  const Small one(cited("s", "book", "information: primary"));
  CHECK((one.weights->worthOf(one.at("source:s")).form == Form::authored));
}

TEST_CASE("a source whose type is not said, and one whose type cannot be read") {
  const Small guide("- {source: s, title: S}\n- {source: t, type: bok}\n");
  const Worth unsaid = guide.weights->worthOf(guide.at("source:s"));
  CHECK((unsaid.form == Form::authored));
  CHECK((unsaid.information == Information::undetermined));
  CHECK(unsaid.known);
  CHECK_FALSE(guide.weights->worthOf(guide.at("source:t")).known);
}
