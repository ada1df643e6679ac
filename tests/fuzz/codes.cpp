#include <optional>
#include <string>

#include "base/text.h"
#include "base/utf8.h"
#include "codes/rule.h"
#include "fuzz.h"

// Code rules and texts: lines `written: …`, `pattern: …`, `alone: …`, `order: …`, `alike: …`, `unlike: …`, `missing: …`,
// `first-of: …` and `= text` to be read; any other line `NAME: …` is a part, with ` | ` between the members of a list, or
// `NAME: * a=month:3 b=` for a table.
namespace {

using namespace saggar::codes;
using fuzz::demand;

template <class T>
std::optional<T> valueOf(Parsed<T> parsed) {
  demand(parsed.value.has_value() == parsed.message.empty(), "a value, or what is wrong");
  demand(parsed.value.has_value() || !parsed.hint.empty(), "what is wrong comes with what to type");
  return std::move(parsed.value);
}

std::vector<std::string> pieces(std::string_view text, char between) {
  std::vector<std::string> all;
  for (const std::string_view piece : saggar::base::split(text, between)) all.emplace_back(piece);
  return all;
}

TablePart tableOf(std::string_view text) {
  TablePart table;
  for (const std::string& row : pieces(text, ' ')) {
    TableRow one;
    const std::size_t at = row.find('=');
    one.text = row.substr(0, at);
    const std::string fact = at == std::string::npos ? "" : row.substr(at + 1);
    const std::size_t colon = fact.find(':');
    if (colon != std::string::npos)
      if (const auto value = valueOf(parseFact(fact.substr(0, colon), fact.substr(colon + 1)))) {
        if (fact[0] == 'y') one.date.years.push_back(*value);
        if (fact[0] == 'q') one.date.quarters.push_back(*value);
        if (fact[0] == 'm') one.date.months.push_back(*value);
        if (fact[0] == 'w') one.date.weeks.push_back(*value);
        if (fact[0] == 'd') one.date.days.push_back(*value);
      }
    table.rows.push_back(std::move(one));
  }
  return table;
}

struct Input {
  RuleSpec spec;
  std::vector<std::string> texts;
};

void takeLine(std::string_view line, Input& input) {
  RuleSpec& spec = input.spec;
  if (line.starts_with("= ")) {
    input.texts.emplace_back(line.substr(2));
    return;
  }
  const std::size_t at = line.find(": ");
  if (at == std::string_view::npos) return;
  const std::string key(line.substr(0, at));
  const std::string value(line.substr(at + 2));
  const saggar::dates::Bounds year{saggar::dates::Day::fromCivil(1900, 1, 1),
                                   saggar::dates::Day::fromCivil(1900, 12, 31)};
  if (key == "written") {
    spec.written = value;
  } else if (key == "pattern") {
    spec.pattern = value;
  } else if (key == "alone") {
    spec.alone = value;
  } else if (key == "order") {
    if (auto order = valueOf(parseOrder(value))) spec.order = std::move(order);
  } else if (key == "alike") {
    if (!spec.alike) spec.alike.emplace();
    if (auto signs = valueOf(parseAlike(value))) spec.alike->push_back(std::move(*signs));
  } else if (key == "unlike") {
    spec.unlike = {{value, "because"}};
  } else if (key == "missing") {
    spec.missing = {{value, "because"}};
  } else if (key == "first-of") {
    spec.firstOf = {{value, year}};
  } else if (value.starts_with("* ")) {
    spec.parts.push_back({key, tableOf(value.substr(2))});
  } else if (value.find('|') != std::string::npos) {
    if (auto part = valueOf(parsePartList(pieces(value, '|')))) spec.parts.push_back({key, std::move(*part)});
  } else if (auto part = valueOf(parsePart(value))) {
    spec.parts.push_back({key, std::move(*part)});
  }
}

void lookAtReading(const Reading& reading, const std::string& text) {
  std::size_t end = 0;
  for (const PartReading& part : reading.parts) {
    demand(part.offset >= end && part.offset <= text.size(), "parts stand in their order");
    demand(text.compare(part.offset, part.text.size(), part.text) == 0, "a part is what stands there");
    end = part.offset + part.text.size();
    demand(end <= text.size(), "a part ends inside the text");
  }
  demand(reading.when.has_value() == reading.date.year.has_value(), "what has a year has days");
  demand(!reading.when || reading.when->earliest <= reading.when->latest,
         "the earliest day is not after the latest");
  for (const PathNeed& path : reading.paths)
    demand(path.part < reading.parts.size() && (path.text.empty() || path.metBy(path.text)),
           "what is asked of a path meets itself");
  for (const LookAsked& look : reading.look)
    demand(look.part < reading.parts.size() && look.need != nullptr, "a look is asked by a part");
}

void lookAt(const Rule& rule, const std::string& text) {
  constexpr std::size_t kMost = 50;
  const Readings readings = rule.read(text, kMost);
  demand(readings.all.size() <= kMost, "no more readings than wanted");
  demand(readings.notOfRule.empty() || readings.all.empty(), "what is not of the rule is not read");
  for (const Reading& reading : readings.all) lookAtReading(reading, text);
  for (const Reading& reading : rule.readAlone(text, kMost).all) lookAtReading(reading, text);
  const Explanation told = rule.explain(text);
  demand(told.fits == told.message.empty() && told.offset <= text.size(), "a fault has words and a place");
  demand(told.progress >= 0 && told.progress <= 1, "progress is between 0 and 1");
  demand(readings.more || told.fits == !readings.all.empty(), "what fits is read");
  const Readings few = rule.read(text, 1);
  demand(readings.more || few.all.empty() == readings.all.empty(), "one reading if there is any");
  const Similars similars = rule.similar(text, 10);
  demand(similars.all.size() <= 10, "no more similar codes than wanted");
  for (const Similar& similar : similars.all) {
    demand(similar.text != text && similar.exchanges > 0, "a similar code is another");
    demand(!rule.read(similar.text, 1).all.empty(), "a similar code can be read");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > 2'000) return 0;
  Input input;
  input.spec.name = "rule";
  for (const std::string_view line : saggar::base::split(fuzz::textOf(data, size), '\n'))
    takeLine(line, input);
  const Rule::Compiled result = Rule::compile(input.spec);
  demand(result.rule.has_value() == result.problems.empty(), "a rule, or problems");
  for (const Problem& problem : result.problems)
    demand(!problem.field.empty() && !problem.message.empty(),
           "a problem names its field and says what is wrong");
  if (!result.rule) return 0;
  for (std::size_t i = 0; i < input.texts.size() && i < 4; ++i) lookAt(*result.rule, input.texts[i]);
  return 0;
}
