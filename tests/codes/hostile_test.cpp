// Any rule and any text: no crash, no hang, and what is promised of every answer.
#include <chrono>

#include "codes/pattern.h"
#include "codes/written.h"
#include "making.h"

using namespace saggar::codes;

namespace {

class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  std::size_t below(std::size_t n) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return static_cast<std::size_t>(state_ >> 33) % n;
  }
  bool once(std::size_t in) { return below(in) == 0; }

 private:
  std::uint64_t state_;
};

const std::vector<std::string> kScraps = {
    "A",  "B",  "AB",     "1",    "12",           "0",        "9",         "-",    "/",  " ",  "  ",  "?",
    "?",  "X",  "JM",     "203",  "\xE2\x80\x93", "\xC3\xA9", "e\xCC\x81", "\xFF", "\"", "YY", "a.b", "to",
    "or", "of", "digits", "last", "year",         "19YY",     "(",         "(?P<", "\\", "[",  "*",   "{",
    ".",  "\t", "\n",     "week"};

std::string scraps(Random& random, std::size_t most) {
  std::string text;
  for (std::size_t n = random.below(most + 1); n > 0; --n) text += kScraps[random.below(kScraps.size())];
  return text;
}

std::vector<int> someNumbers(Random& random, int most) {
  std::vector<int> all;
  while (random.once(3))
    all.push_back(static_cast<int>(random.below(static_cast<std::size_t>(most))) +
                  (random.once(20) ? -2 : 1));
  return all;
}

PartSpec anyPart(Random& random) {
  switch (random.below(9)) {
    case 0: return DigitsPart{Counts(static_cast<int>(random.below(3)), static_cast<int>(random.below(5)))};
    case 1: return LettersPart{Counts(1, static_cast<int>(random.below(4)) + 1)};
    case 2: {
      const auto low = static_cast<std::int64_t>(random.below(300));
      return RangePart{low, low + static_cast<std::int64_t>(random.below(300)), random.once(4) ? 3 : 0};
    }
    case 3: return TextPart{scraps(random, 3)};
    case 4: {
      TablePart table;
      for (std::size_t n = random.below(6); n > 0; --n) {
        table.rows.push_back({scraps(random, 2), "", {}, {}});
        if (random.once(3)) table.rows.back().look.push_back({"edge", {"gold"}});
        table.rows.back().date = {someNumbers(random, 1900), someNumbers(random, 4), someNumbers(random, 12),
                                  someNumbers(random, 53), someNumbers(random, 31)};
      }
      return table;
    }
    case 5: return PathPart{{"shape.prefix"}, static_cast<int>(random.below(4))};
    case 6: return YearPart{{random.once(2) ? "19YY" : "YYYY"}};
    case 7: return UnitPart{static_cast<Unit>(random.below(4)), 1, 4, random.once(2), true};
    default: {
      const Parsed<PartSpec> parsed = parsePart(scraps(random, 5));
      CHECK((parsed.value.has_value() || !parsed.hint.empty()));
      return parsed.value ? *parsed.value : PartSpec(TextPart{"x"});
    }
  }
}

RuleSpec anyRule(Random& random) {
  RuleSpec spec;
  spec.name = scraps(random, 1);
  std::string form;
  const std::size_t size = random.below(5);
  for (std::size_t i = 0; i < size; ++i) {
    const std::string name = "P" + std::to_string(i);
    spec.parts.push_back({name, anyPart(random)});
    form += name + (random.once(3) ? "-" : random.once(3) ? "/x" : " ");
  }
  if (random.once(15)) form += scraps(random, 3);
  spec.written = form;
  if (random.once(8)) {
    spec.written.reset();
    spec.pattern = random.once(2) ? scraps(random, 8) : "(?P<P0>..?)(?P<P1>.*)";
    if (!random.once(4)) spec.parts.resize(std::min<std::size_t>(spec.parts.size(), 2));
  }
  if (random.once(4)) spec.alone = random.once(3) ? scraps(random, 3) : "P0";
  if (random.once(3)) {
    const Parsed<OrderSpec> parsed = parseOrder(random.once(3) ? scraps(random, 4) : "P0 within P1");
    if (parsed.value) spec.order = parsed.value;
  }
  if (random.once(3)) spec.alike = {{"1", "A", "AB"}, {"0", "9"}};
  if (random.once(8)) spec.unlike = std::vector<UnlikeText>{{scraps(random, 2), "because"}};
  if (random.once(6)) spec.firstOf = {{scraps(random, 3), yearBounds(1900)}, {"12", yearBounds(1905)}};
  if (random.once(6)) spec.missing = std::vector<MissingNumbers>{{scraps(random, 3), "because"}};
  return spec;
}

// A text that may well fit: each part's place in the form taken by something like it, now and then with a
// sign changed.
std::string likelyText(const RuleSpec& spec, Random& random) {
  std::string text = spec.written.value_or(scraps(random, 4));
  for (const NamedPart& named : spec.parts) {
    std::string own = kScraps[random.below(kScraps.size())];
    if (const auto* table = std::get_if<TablePart>(&named.spec))
      own = table->rows[random.below(table->rows.size())].text;
    if (const auto* fixed = std::get_if<TextPart>(&named.spec)) own = fixed->text;
    if (std::holds_alternative<DigitsPart>(named.spec)) own = std::to_string(random.below(100));
    if (std::holds_alternative<RangePart>(named.spec)) own = std::to_string(random.below(500));
    if (std::holds_alternative<UnitPart>(named.spec)) own = std::to_string(1 + random.below(4));
    if (std::holds_alternative<YearPart>(named.spec)) own = random.once(2) ? "34" : "1934";
    const std::size_t at = text.find(named.name);
    if (at != std::string::npos) text.replace(at, named.name.size(), own);
  }
  if (!text.empty() && random.once(3)) text[random.below(text.size())] = "?1A-\xFF "[random.below(6)];
  return text;
}

void checkPromises(const Rule& rule, const std::string& text) {
  const Readings readings = rule.read(text, 50);
  CHECK(readings.all.size() <= 50);
  for (const Reading& reading : readings.all) {
    for (const PartReading& part : reading.parts) {
      const bool there = part.offset + part.text.size() <= text.size() &&
                         text.substr(part.offset, part.text.size()) == part.text;
      if (!there) CHECK(there);
    }
    const bool dated = reading.when.has_value() == reading.date.year.has_value();
    if (!dated) CHECK(dated);
    const bool inOrder = !reading.when || reading.when->earliest <= reading.when->latest;
    if (!inOrder) CHECK(inOrder);
  }
  const Explanation told = rule.explain(text);
  const bool agrees =
      told.fits == told.message.empty() && told.offset <= text.size() && told.progress >= 0 &&
      told.progress <= 1 && (readings.more || told.fits == !readings.all.empty()) &&
      (readings.more || rule.read(text, 1).all.size() == std::min<std::size_t>(1, readings.all.size()));
  if (!agrees) {
    CAPTURE(text);
    CHECK(agrees);
  }
}

}  // namespace

TEST_CASE("a hundred thousand random rules and texts") {
  Random random(2024);
  std::size_t faulty = 0;
  std::size_t readTexts = 0;
  for (int rules = 0; rules < 25'000;) {
    const RuleSpec spec = anyRule(random);
    const Rule::Compiled result = Rule::compile(spec);
    const bool one = result.rule.has_value() == result.problems.empty();
    if (!one) CHECK(one);
    if (!result.rule) {
      ++faulty;
      continue;
    }
    ++rules;
    for (int t = 0; t < 4; ++t) {
      const std::string text = t == 0 ? scraps(random, 8) : likelyText(spec, random);
      CAPTURE(text);
      checkPromises(*result.rule, text);
      const Readings alone = result.rule->readAlone(text, 50);
      if (t == 0) CHECK(result.rule->similar(text, 10).all.size() <= 10);
      readTexts += result.rule->read(text, 1).all.empty() && alone.all.empty() ? 0 : 1;
    }
  }
  CHECK(faulty > 5'000);
  CHECK(readTexts > 20'000);
}

TEST_CASE("random texts for each small language") {
  Random random(99);
  const std::vector<std::string> names = {"A", "YY", "JM"};
  for (int i = 0; i < 50'000; ++i) {
    const std::string text = scraps(random, 7);
    const auto fits = [&](const auto& parsed) {
      const bool told =
          parsed.value.has_value() == parsed.message.empty() && (parsed.value || !parsed.hint.empty());
      if (!told) {
        CAPTURE(text);
        CHECK(told);
      }
    };
    fits(parsePart(text));
    fits(parsePartList(std::vector<std::string>{text, "A"}));
    fits(parsePath(text));
    fits(parseAlike(text));
    fits(parseWritten(text, names));
    fits(parseOrder(text));
    fits(parseMissing(text));
    fits(Pattern::compile(text));
  }
}

// Rules made to be slow, each asked the texts that suit it worst. The limit is generous: it is there to tell
// a thousandth of a second from a thousand years.
TEST_CASE("no rule can be made slow") {
  std::vector<NamedPart> any;
  std::vector<NamedPart> two;
  std::vector<NamedPart> impossible;
  std::string form;
  TablePart months{{{"A", "", {}, {}}, {"a", "", {}, {}}, {"AA", "", {}, {}}}};
  TablePart years = months;
  for (std::size_t i = 0; i < 3; ++i) {
    for (int n = 1; n <= 12; ++n) months.rows[i].date.months.push_back(n);
    for (int n = 1; n <= 9999; ++n) years.rows[i].date.years.push_back(n);
  }
  for (int i = 0; i < 60; ++i) {
    const std::string name = "P" + std::to_string(i);
    any.push_back(part(name, "shape.prefix"));
    two.push_back(part(name, "1 to 5 digits"));
    impossible.push_back({name, i == 0    ? PartSpec(years)
                                : i == 59 ? part(name, "text B").spec
                                          : PartSpec(months)});
    form += name + " ";
  }
  TablePart wide;
  for (int n = 0; n < 20'000; ++n) wide.rows.push_back({std::to_string(n), "", {}, {}});
  const std::vector<RuleSpec> slow = {rule("any", form, any), rule("two", form, two),
                                      rule("impossible", form, impossible),
                                      rule("wide", "N M", {{"N", wide}, {"M", wide}})};
  std::vector<std::string> texts = {std::string(120, 'A'),
                                    std::string(120, '1'),
                                    std::string(120, '?'),
                                    std::string(61, 'A'),
                                    std::string(90, 'A') + "B",
                                    "A" + std::string(100, '?') + "C",
                                    "????????",
                                    std::string(1'000'000, '?'),
                                    std::string(100'000, ' ')};
  for (int i = 0; i < 60; ++i) texts.back() += "A ";
  for (const RuleSpec& spec : slow) {
    const Rule rule = compiled(spec);
    for (const std::string& text : texts) {
      CAPTURE(spec.name);
      CAPTURE(text.substr(0, 130));
      const auto start = std::chrono::steady_clock::now();
      const Readings readings = rule.read(text);
      const Explanation told = rule.explain(text);
      CHECK(readings.all.size() <= Rule::kMostReadings);
      CHECK((told.fits || !told.message.empty()));
      CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(5));
    }
  }
  RuleSpec alike = rule("alike", "WORD", {part("WORD", "60 letters")});
  alike.alike = {{"a", "b", "c", "d"}, {"a", "aa", "aaa"}};
  const Similars similar = compiled(alike).similar(std::string(60, 'a'));
  CHECK(similar.more);
  CHECK(similar.all.size() <= Rule::kMostSimilar);
}

TEST_CASE("many readings: as many as asked for, and told that there are more") {
  const Rule rule =
      compiled(saggar::codes::rule("years", "YYYY M", {part("YYYY", "year YYYY"), part("M", "month")}));
  const Readings all = rule.read("???? ?", 100'000);
  CHECK(all.all.size() == 9999 * 9);
  CHECK_FALSE(all.more);
  const Readings some = rule.read("???? ?");
  CHECK(some.all.size() == Rule::kMostReadings);
  CHECK(some.more);
}
