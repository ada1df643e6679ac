#pragma once
#include <doctest/doctest.h>

#include <fstream>
#include <string>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "codes/rule.h"
#include "codes/signs.h"

// Rules for tests, said as shortly as an author would.
namespace saggar::codes {

inline NamedPart part(std::string name, std::string_view text) {
  Parsed<PartSpec> parsed = parsePart(text);
  REQUIRE_MESSAGE(parsed.value, parsed.message);
  return {std::move(name), *parsed.value};
}

inline NamedPart parts(std::string name, const std::vector<std::string>& texts) {
  Parsed<PartSpec> parsed = parsePartList(texts);
  REQUIRE_MESSAGE(parsed.value, parsed.message);
  return {std::move(name), *parsed.value};
}

inline NamedPart table(std::string name, std::vector<TableRow> rows) {
  return {std::move(name), TablePart{std::move(rows)}};
}

inline RuleSpec rule(std::string name, std::string written, std::vector<NamedPart> named) {
  RuleSpec spec;
  spec.name = std::move(name);
  spec.written = std::move(written);
  spec.parts = std::move(named);
  return spec;
}

inline RuleSpec like(std::string name, const RuleSpec& base, std::vector<NamedPart> named) {
  RuleSpec derived;
  derived.name = std::move(name);
  derived.parts = std::move(named);
  return inherit(base, derived);
}

inline OrderSpec order(std::string_view text) {
  Parsed<OrderSpec> parsed = parseOrder(text);
  REQUIRE_MESSAGE(parsed.value, parsed.message);
  return *parsed.value;
}

inline Rule compiled(RuleSpec spec) {
  Rule::Compiled result = Rule::compile(std::move(spec));
  const std::string fault = result.problems.empty() ? std::string() : result.problems[0].message;
  REQUIRE_MESSAGE(result.rule, fault);
  return *result.rule;
}

inline std::vector<Problem> problemsOf(RuleSpec spec) {
  Rule::Compiled result = Rule::compile(std::move(spec));
  CHECK(result.rule.has_value() == result.problems.empty());
  return std::move(result.problems);
}

inline std::string days(const std::optional<dates::Bounds>& when) {
  return when ? when->earliest.toString() + " to " + when->latest.toString() : std::string("no date");
}

// "PREFIX=JM SERIAL=203", one string a reading.
inline std::vector<std::string> divisions(const Readings& readings) {
  std::vector<std::string> all;
  for (const Reading& reading : readings.all) {
    std::string one;
    for (const PartReading& p : reading.parts)
      one += (one.empty() ? "" : " ") + std::string(p.name) + "=" + p.text;
    all.push_back(std::move(one));
  }
  return all;
}

inline dates::Bounds yearBounds(int year) {
  return {dates::Day::fromCivil(year, 1, 1), dates::Day::fromCivil(year, 12, 31)};
}

// The rows of a table of values, without its comments and its head.
inline std::vector<std::vector<std::string>> rowsOf(const std::string& file) {
  std::ifstream in(std::string(TEST_DATA) + "/" + file);
  REQUIRE(in.good());
  std::vector<std::vector<std::string>> rows;
  bool head = true;
  for (std::string line; std::getline(in, line);) {
    if (line.empty() || line[0] == '#') continue;
    if (!head) {
      std::vector<std::string> row;
      for (const std::string_view cell : base::split(line, '\t')) row.emplace_back(cell);
      rows.push_back(std::move(row));
    }
    head = false;
  }
  return rows;
}

}  // namespace saggar::codes
