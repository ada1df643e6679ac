// A treatment against its shape and its motif (SEMANTICS, "Moments, spans, bounds" and "The relations records imply").
#include "small_guide.h"

using namespace saggar;
using namespace saggar::checks::testing;

namespace {

// A treatment `a` of shape `s` and motif `m`; its dates begin on line 4.
std::string guide(const std::string& dates, const std::string& shape,
                  const std::string& motif = "introduced: 1900", const std::string& onShape = "s",
                  const std::string& withMotif = "m") {
  return "- treatment: a\n  shape: " + onShape + "\n  motif: " + withMotif + "\n  " + dates +
         "\n  cite: books\n- {shape: s, " + shape + ", cite: books}\n- {motif: m, " + motif +
         ", cite: books}\n" + kBooks;
}

std::string found(const std::string& dates, const std::string& shape,
                  const std::string& motif = "introduced: 1900") {
  return Small(guide(dates, shape, motif)).found;
}

}  // namespace

TEST_CASE("before and after the shape and the motif") {
  silent(guide("introduced: 1936", "introduced: 1936, withdrawn: 1952", "introduced: 1936, withdrawn: 1940"));
  caught(guide("introduced: 1930", "introduced: 1936"), "4:15", "date-before-shape");
  caught(guide("introduced: 1953", "introduced: 1936, withdrawn: 1952"), "4:15", "date-after-shape");
  caught(guide("withdrawn: 1953", "introduced: 1936, withdrawn: 1952"), "4:14", "date-after-shape");
  caught(guide("withdrawn: 1930", "introduced: 1936"), "4:14", "date-before-shape");
  caught(guide("introduced: 1931", "introduced: 1926", "introduced: 1933"), "4:15", "date-before-motif");
  caught(guide("introduced: 1945", "introduced: 1926", "introduced: 1930, withdrawn: 1944"), "4:15",
         "date-after-motif");
  caught(guide("withdrawn: 1945", "introduced: 1926", "introduced: 1930, withdrawn: 1944"), "4:14",
         "date-after-motif");
}

TEST_CASE("what the finding says, and of which records it is") {
  const Small bad(guide("introduced: 1930", "introduced: 1936"));
  const auto& one = bad.one();
  CHECK(one.message ==
        "`a` is dated 1930, before its shape `s` was introduced (1936): at least 5 years too early");
  CHECK(one.record == "treatment:a");
  CHECK(one.field == "introduced");
  CHECK(one.records == std::vector<std::string>{"treatment:a", "shape:s"});
  CHECK(one.related.size() == 2);
  CHECK(one.facts.size() == 3);
  CHECK(one.shortByDays == 1827);  // from 31 December 1930 to 1 January 1936, 1932 being a leap year
  CHECK(Small(guide("withdrawn: 1953-03", "introduced: 1936, withdrawn: 1952")).one().message ==
        "`a` was last offered 1953-03, after its shape `s` was withdrawn (1952): at least 2 months too late");
  CHECK(Small(guide("introduced: 1936-02-27", "introduced: 1936-03-01"))
            .one()
            .message.ends_with(": 3 days too early"));  // both to the day: it is no more
  auto ends = [](std::string_view own, std::string_view shapes, std::string_view gap) {
    CAPTURE(own);
    CHECK(Small(guide(std::string(own), std::string(shapes))).one().message.ends_with(gap));
  };
  ends("introduced: by 1936-02-27", "introduced: 1936-03-01", ": at least 3 days too early");
  ends("introduced: 1936-02", "introduced: 1936-03-01", ": at least 1 day too early");
  // 639 days: not yet two years, though nearer to two than to one.
  ends("introduced: 1934-06-01", "introduced: 1936-03-01", ": at least 1 year too early");
  ends("introduced: by 1934-06-01", "introduced: 1936-03-01", ": at least 1 year too early");
  ends("introduced: 1935-03-02", "introduced: 1936-03-01",
       ": at least 1 year too early");  // 365 days can be one
  ends("introduced: 1935-03-03", "introduced: 1936-03-01", ": at least 11 months too early");
}

TEST_CASE("the same day, the same year, an overlap") {
  CHECK(found("introduced: 1936-03-01", "introduced: 1936-03-01") == "");
  CHECK(found("introduced: 1936-02-29", "introduced: 1936-03-01") == "4:15 date-before-shape");
  CHECK(found("introduced: 1930/1936", "introduced: 1936") == "");
  CHECK(found("introduced: 1936", "introduced: 1936-12") == "");
  CHECK(found("introduced: by 1935", "introduced: 1936") == "4:15 date-before-shape");
  CHECK(found("introduced: by 1940", "introduced: 1936") == "");
  CHECK(found("introduced: from 1930", "introduced: 1936") == "");
  CHECK(found("introduced: \"[1930,1940]\"", "introduced: 1936") == "");
  CHECK(found("introduced: 1930s", "introduced: 1939") == "");
  CHECK(found("introduced: 1930s", "introduced: 1940") == "4:15 date-before-shape");
}

TEST_CASE("a shape that was there by a year leaves room before it") {
  CHECK(found("introduced: 1930", "introduced: by 1936") == "");
  CHECK(found("introduced: 1930", "introduced: ../1936") == "");
  CHECK(found("introduced: 1953", "introduced: 1936, withdrawn: 1950/..") == "");
  CHECK(found("introduced: 1953", "introduced: 1936, withdrawn: unknown") == "");
  CHECK(found("introduced: 1953", "introduced: 1936") == "");
}

TEST_CASE("about a year reaches five years either way, or as the guide sets") {
  CHECK(found("introduced: about 1931", "introduced: 1936") == "4:15 date-at-face-value");
  CHECK(found("introduced: about 1930", "introduced: 1936") == "4:15 date-before-shape");
  CHECK(found("introduced: 1930", "introduced: about 1935") == "4:15 date-at-face-value");
  const std::string records = guide("introduced: about 1931", "introduced: 1936");
  CHECK(Small(FilesOfGuide{{"records.yaml", records},
                           {"guide.yaml", "guide: An example\nsettings: {circa: 2y}\n"}})
            .found == "4:15 date-before-shape");
  CHECK(Small(FilesOfGuide{{"records.yaml", guide("introduced: about 1930", "introduced: 1936")},
                           {"guide.yaml", "guide: An example\nsettings: {circa: 10y}\n"}})
            .found == "4:15 date-at-face-value");
}

TEST_CASE("a date that is doubted binds nothing") {
  CHECK(found("introduced: 1930?", "introduced: 1936") == "4:15 date-at-face-value");
  CHECK(found("introduced: perhaps 1930", "introduced: 1936") == "4:15 date-at-face-value");
  CHECK(found("introduced: 1930%", "introduced: 1936") == "4:15 date-at-face-value");
  CHECK(found("introduced: {is: 1930, doubted: the last figure is worn}", "introduced: 1936") == "");
  CHECK(found("introduced: 1930", "introduced: {is: 1936, doubted: a later hand}") == "");
  // Only the end that is doubted.
  CHECK(found("introduced: 1929?/1930", "introduced: 1936") == "4:15 date-before-shape");
  CHECK(found("introduced: 1929/1930?", "introduced: 1936") == "4:15 date-at-face-value");
}

TEST_CASE("of several shapes it is enough that one admits the date") {
  const std::string more = "- {shape: t, introduced: 1932, withdrawn: 1935, cite: books}\n";
  auto both = [&](const std::string& dates, const std::string& shapes = "[s, t]") {
    return Small(guide(dates, "introduced: 1936, withdrawn: 1952", "introduced: 1900", shapes) + more);
  };
  CHECK(both("introduced: 1933").found == "");
  CHECK(both("introduced: 1950").found == "");
  const Small early = both("introduced: 1930");
  CHECK(early.found == "4:15 date-before-shape");
  CHECK(early.one().message ==
        "`a` is dated 1930, before any of its shapes was introduced (`s` 1936 and `t` 1932): at least 1 year "
        "too early");
  CHECK(early.one().records == std::vector<std::string>{"treatment:a", "shape:s", "shape:t"});
  CHECK(early.one().facts.size() == 4);
  const Small late = both("introduced: 1953");
  CHECK(late.one().message ==
        "`a` is dated 1953, after any of its shapes was withdrawn (`s` 1952 and `t` 1935): at least 1 day "
        "too late");
  // Each relation by itself: one shape may admit the beginning, the other the end.
  CHECK(both("introduced: 1932\n  withdrawn: 1952").found == "");
  // What is doubted or not there may be what admits it.
  CHECK(both("introduced: 1930", "[s, {is: t, doubted: seen once}]").found == "");
  CHECK(both("introduced: 1930", "[s, tt]").found.find("date-before-shape") == std::string::npos);
}

TEST_CASE("a motif that is none, unknown or doubted says nothing of dates") {
  for (const char* motif : {"none", "unknown", "{is: m, doubted: a blurred picture}"})
    CHECK(Small(guide("introduced: 1931", "introduced: 1926",
                      "introduced: 1933, cite: books, note: \"[b](source:books)\"", "s", motif))
              .found.find("date-") == std::string::npos);
}

TEST_CASE("one finding a limit: the date of introduction goes before the other") {
  CHECK(found("introduced: 1930\n  withdrawn: 1932", "introduced: 1936") == "4:15 date-before-shape");
  CHECK(found("introduced: 1930\n  withdrawn: 1960", "introduced: 1936, withdrawn: 1952") ==
        "4:15 date-before-shape\n5:14 date-after-shape");
  CHECK(found("introduced: 1930", "introduced: 1936", "introduced: 1933") == "4:15 date-before-shape");
}

TEST_CASE("a season that alone decides is named") {
  const Small north(guide("introduced: by 1937-02", "introduced: spring 1937"));
  CHECK(north.found == "4:15 date-before-shape");
  CHECK(north.one().message ==
        "`a` is dated by 1937-02, before its shape `s` was introduced (spring 1937): at least 1 day too "
        "early; only "
        "the season "
        "decides it, taken as in the north");
  CHECK(Small(guide("introduced: by 1936", "introduced: spring 1937")).messages.find("season") ==
        std::string::npos);
  const std::string south = "guide: An example\nsettings: {hemisphere: south}\n";
  CHECK(Small(FilesOfGuide{{"records.yaml", guide("introduced: by 1937-02", "introduced: spring 1937")},
                           {"guide.yaml", south}})
            .one()
            .message.ends_with("6 months too early; only the season decides it, taken as in the south"));
  CHECK(Small(FilesOfGuide{{"records.yaml", guide("introduced: by 1937-10", "introduced: spring 1937")},
                           {"guide.yaml", south}})
            .found == "");
  const Small own(guide("withdrawn: spring 1937", "introduced: 1937-08"));
  CHECK(own.one().message.find("only the season decides it") != std::string::npos);
}

TEST_CASE("dates that end in an event are left to the reasons that know events") {
  CHECK(found("introduced: ../shape:s", "introduced: 1936") == "");
  CHECK(found("introduced: shape:s/1930", "introduced: 1936") == "4:15 dates-clash");
}

TEST_CASE("years beyond all calendars") {
  const Small far(guide("introduced: 1930", "introduced: Y99999999999999999999"), {"date-before-shape"_rule});
  CHECK(far.one().message.find(": more than a million years short") != std::string::npos);
  CHECK_FALSE(far.one().shortByDays);
}

TEST_CASE("nothing is concluded from a record of which a part could not be read") {
  CHECK(found("introduced: 1930", "introduced: 1936, withdrawn: never") == "6:43 date-unreadable");
}

TEST_CASE("orders that go round") {
  const std::string ring =
      "- {shape: a, after: shape:b, cite: books}\n- {shape: b, after: shape:a, cite: books}\n";
  CHECK(Small(ring + kBooks).one().message ==
        "`b` came after `a` was introduced, but `a` came after `b` was introduced: each would have to come "
        "before itself");
  CHECK(Small("- {shape: a, after: shape:a, cite: books}\n" + kBooks).one().message ==
        "`a` came after `a` was introduced, which cannot be");
}
