// What guide.yaml sets: how dates are read, weights of findings, waivers.
#include "small_link.h"

using namespace saggar;
using diagnostics::Severity;
using linking::testing::FilesOfGuide;
using linking::testing::Linked;

namespace {

const std::string kRecords = "- {treatment: a}\n- {treatment: b}\n";

// guide.yaml with one more line, its third.
Linked with(const std::string& lines, const std::string& records = kRecords) {
  return Linked(records, "guide: Tableware of Tollivane\nby: Odile Marrenby\n" + lines);
}

std::string waivers(const std::string& one) {
  return with("waivers:\n  - " + one + "\n").found;
}

}  // namespace

TEST_CASE("title, authors and settings") {
  const Linked plain("", "guide: Tableware of Tollivane\n");
  const auto& standard = plain.collection.settings();
  CHECK(standard.title == "Tableware of Tollivane");
  CHECK(standard.authors.empty());
  CHECK(standard.language == "en-GB");
  CHECK(standard.pace == 130);
  CHECK((standard.dates.hemisphere == dates::Hemisphere::North));
  CHECK((standard.units == linking::GuideSettings::Units::both));
  CHECK(standard.layout == "checklist");

  const Linked set("",
                   "guide: T\nby: [Odile Marrenby, Lorn Kettlebray]\nedition: 2\nsettings: {circa: 10y, "
                   "hemisphere: south, "
                   "language: fr-FR, units: metric, pace: 110, layout: mine}\n");
  CHECK(set.found == "");
  const auto& own = set.collection.settings();
  CHECK(own.authors == std::vector<std::string>{"Odile Marrenby", "Lorn Kettlebray"});
  CHECK(own.edition == 2);
  CHECK(own.language == "fr-FR");
  CHECK(own.pace == 110);
  CHECK((own.dates.hemisphere == dates::Hemisphere::South));
  CHECK((own.units == linking::GuideSettings::Units::metric));
  CHECK(own.layout == "mine");
}

TEST_CASE("a pace of nothing is a mistake") {
  const Linked bad = with("settings: {pace: 0}\n");
  CHECK(bad.found == "guide.yaml:3:18 value-unfit");
  CHECK(bad.collection.settings().pace == 130);
}

TEST_CASE("weights of findings are raised and lowered") {
  const Linked set =
      with("rules: {source-unused: off, uncited: error, code-shared: note, prose-unused: warning}\n");
  CHECK(set.found == "");
  CHECK((set.rules.severity[("source-unused"_rule).index] == Severity::off));
  CHECK((set.rules.severity[("uncited"_rule).index] == Severity::error));
  CHECK((set.rules.severity[("code-shared"_rule).index] == Severity::note));
  CHECK((set.rules.severity[("prose-unused"_rule).index] == Severity::warning));
  CHECK(set.rules.changed[("uncited"_rule).index]);
  CHECK_FALSE(set.rules.changed[("variant-twice"_rule).index]);
}

TEST_CASE("what cannot be waived cannot be lowered, but may be raised") {
  CHECK(with("rules: {reference-missing: warning}\n").found == "guide.yaml:3:28 value-unfit");
  CHECK(with("rules: {reference-missing: warning}\n").one().message ==
        "`reference-missing` cannot be lowered");
  CHECK(with("rules: {private-in-text: off}\n").found == "guide.yaml:3:26 value-unfit");
  CHECK(with("rules: {value-lost: error}\n").found == "");
  CHECK(with("rules: {value-lost: warning}\n").found == "");
}

TEST_CASE("rules and weights that there are not") {
  CHECK(with("rules: {uncitd: off}\n").found == "guide.yaml:3:9 value-unfit");
  CHECK(with("rules: {uncitd: off}\n").one().hint == "did you mean `uncited`?");
  CHECK(with("rules: {uncited: of}\n").found == "guide.yaml:3:18 value-unfit");
  CHECK(with("rules: {uncited: }\n").found == "guide.yaml:3:17 value-unfit");
  CHECK(with("rules: {uncited: [off]}\n").found == "guide.yaml:3:18 value-unfit");
  CHECK(with("rules: {uncited: off, uncited: note}\n").found == "guide.yaml:3:23 field-twice");
}

TEST_CASE("a waiver with its records in either form") {
  CHECK(waivers("{rule: uncited, record: treatment:a, because: x}") == "guide.yaml:4:12 waiver-unused");
  const Linked two = with(
      "waivers:\n  - {rule: code-shared, records: [treatment:a, treatment:b], because: An open question.}\n");
  REQUIRE(two.rules.waivers.size() == 1);
  CHECK(two.rules.waivers[0].records == std::vector<std::string>{"treatment:a", "treatment:b"});
  CHECK(two.rules.waivers[0].because == "An open question.");
  // A bare id will do where it is the only one of that name.
  const Linked bare = with("waivers: {rule: uncited, record: a, because: x}\n");
  REQUIRE(bare.rules.waivers.size() == 1);
  CHECK(bare.rules.waivers[0].records == std::vector<std::string>{"treatment:a"});
  CHECK(waivers("{rule: uncited, record: a, because: x}\n  - {rule: uncited, record: b, because: x}") ==
        "guide.yaml:4:12 waiver-unused\nguide.yaml:5:12 waiver-unused");
}

TEST_CASE("waivers that cannot be used") {
  CHECK(waivers("{rule: uncitd, record: a, because: x}") == "guide.yaml:4:12 waiver-unfit");
  CHECK(waivers("{rule: date-unreadable, record: a, because: x}") == "guide.yaml:4:12 waiver-unfit");
  CHECK(waivers("{rule: uncited, because: x}") == "guide.yaml:4:5 waiver-unfit");
  CHECK(waivers("{rule: uncited, record: none, because: x}") == "guide.yaml:4:5 waiver-unfit");
  CHECK(waivers("{rule: uncited, record: c, because: x}") == "guide.yaml:4:29 reference-missing");
  CHECK(waivers("{rule: uncited, records: [a, c], because: x}") == "guide.yaml:4:34 reference-missing");
  CHECK(waivers("{rule: uncited, record: a}") == "guide.yaml:4:5 value-unfit\nguide.yaml:4:12 waiver-unused");
  CHECK(waivers("{rule: [uncited], record: a, because: x}") == "guide.yaml:4:12 value-unfit");
  CHECK(waivers("{record: a, because: x}") == "guide.yaml:4:5 value-unfit");
  CHECK(with("waivers: uncited\n").found == "guide.yaml:3:10 value-unfit");
}

TEST_CASE("a waiver of a file of prose, for what stands at no record") {
  auto file = [](const std::string& waiver, const std::string& prose = "prose/the-firm.md") {
    return Linked(FilesOfGuide{{"records.yaml", kRecords},
                               {prose, "It is <b>bold</b>.\n"},
                               {"guide.yaml", "guide: T\nwaivers:\n  - " + waiver + "\n"}})
        .found;
  };
  CHECK(file("{rule: html-in-prose, file: prose/the-firm.md, because: quoted}") ==
        "prose/the-firm.md:1:7 html-in-prose waived");
  CHECK(file("{rule: html-in-prose, file: prose/the-frim.md, because: quoted}") ==
        "guide.yaml:3:33 waiver-unfit\nprose/the-firm.md:1:7 html-in-prose");
  CHECK(file("{rule: html-in-prose, file: prose/the-firm.md, record: treatment:a, because: quoted}") ==
        "guide.yaml:3:33 waiver-unfit\nprose/the-firm.md:1:7 html-in-prose");
  CHECK(file("{rule: html-in-prose, file: prose/the-firm.md, because: quoted}", "prose/other.md") ==
        "guide.yaml:3:33 waiver-unfit\nprose/other.md:1:7 html-in-prose");
  CHECK(file("{rule: html-in-prose, record: treatment:a, because: quoted}") ==
        "guide.yaml:3:12 waiver-unused\nprose/the-firm.md:1:7 html-in-prose");
}
