// What a choice has left proves no more than what ruled the others out, and names it where it matters. All data is
// invented.
#include "reasoned.h"

using namespace saggar;
using namespace saggar::chronology;
using testing::Reasoned;

namespace {

const std::string kSources =
    "- {source: books, title: Order books, type: decoration-book, date: 1900/1960}\n"
    "- {source: gossip, title: Gossip, type: hearsay, date: 1990}\n";

std::string dated(const std::string& code, const std::string& worksCite) {
  return kSources +
         "- maker: q\n"
         "  works: [{works: alder, letter: A, used: {is: 1900/1936, cite: " +
         worksCite +
         "}}]\n"
         "  codes:\n"
         "    - {rule: date letters, on: specimen.date-code, written: WORKS-YY, cite: books,\n"
         "       parts: {WORKS: maker.works.letter, YY: year 19YY}}\n"
         "  cite: books\n"
         "- {shape: s, maker: q, cite: books}\n"
         "- {specimen: p, shape: s, date-code: " +
         code + ", seen: {on: 2019, how: in-hand}}\n";
}

}  // namespace

TEST_CASE("a reading that hearsay ruled out proves nothing of the others") {
  for (const std::string code : {"'A-3?'", "[A-36, A-38]"}) {
    CAPTURE(code);
    const Reasoned hearsay(dated(code, "gossip"));
    const Node made = hearsay.node("specimen:p", "made"_f);
    CHECK(hearsay.chronology.bounds(made, BoundsOf::likely).latest.toString() == "1936-12-31");
    CHECK(hearsay.chronology.bounds(made, BoundsOf::proven).latest.toString() != "1936-12-31");
    const Reasoned documented(dated(code, "books"));
    CHECK(documented.chronology.bounds(documented.node("specimen:p", "made"_f), BoundsOf::proven)
              .latest.toString() == "1936-12-31");
  }
}

TEST_CASE("a chain names what was struck out only where the bound rests on it") {
  const Reasoned guide(kSources +
                       "- {maker: q, founded: 1931, cite: books}\n"
                       "- {shape: a, maker: q, introduced: \"[1929,1932]\", cite: books}\n");
  const Node a = guide.node("shape:a", "introduced"_f);
  CHECK(guide.days(a, BoundsOf::proven) == "1932-01-01 … 1932-12-31");
  CHECK(guide.because(a, BoundsOf::proven, dates::End::Latest).find("founded") == std::string::npos);
  CHECK(guide.because(a, BoundsOf::proven, dates::End::Earliest).find("`q` was founded in 1931") !=
        std::string::npos);
}
