#pragma once
#include <doctest/doctest.h>

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "choosing/choose.h"
#include "linking/link.h"
#include "reading/guide_reader.h"

// Small guides typed in a test, and conditions asked of their records. All data is invented.
namespace saggar::choosing::testing {

class Guide {
 public:
  explicit Guide(std::string records, std::string guideYaml = {}) {
    auto read = std::make_unique<records::ReadGuide>();
    if (!guideYaml.empty()) reading::readRecords(*read, "guide.yaml", std::move(guideYaml), findings);
    reading::readRecords(*read, "records.yaml", std::move(records), findings);
    collection = linking::link(std::move(*read), findings, rules);
    before_ = findings.all().size();
    own = std::make_unique<OwnBounds>(collection, dates::Reading::Plain);
    chooser = std::make_unique<Chooser>(collection, *own);
  }

  RecordIndex at(std::string_view reference) const {
    const auto found = collection.find(reference);
    REQUIRE_MESSAGE(found.has_value(), std::string(reference));
    return found.value_or(0);
  }

  // A condition typed in braces, read as a checklist would hold it.
  Condition condition(std::string_view braces, Kind kind) {
    trees_.push_back(std::make_unique<records::ReadGuide>());
    records::ReadGuide& read = *trees_.back();
    conditionFindings = {};
    reading::readRecords(read, "where.yaml",
                         "- checklist: c\n  show: " + std::string(records::name(kind)) +
                             "\n  where: " + std::string(braces) + "\n",
                         conditionFindings);
    REQUIRE(read.records.size() == 1);
    const records::Value* where = read.records[0].find("where"_f);
    REQUIRE(where != nullptr);
    return Condition::compile(*where, kind, collection, read.records[0].file, conditionFindings);
  }

  std::string ask(std::string_view braces, std::string_view reference) {
    const RecordIndex record = at(reference);
    const Condition compiled = condition(braces, collection[record].kind);
    for (const diagnostics::Finding& one : conditionFindings.all()) return "finding: " + one.message;
    return word(compiled.of(record, collection, *own));
  }

  static std::string word(Answer answer) {
    return answer == Answer::yes ? "yes" : answer == Answer::no ? "no" : "maybe";
  }

  // The ids that a condition chooses, those that are only perhaps meant with a `?`.
  std::string chosen(std::string_view braces, Kind kind, bool sureOnly = false) {
    return ids(chooser->choose(kind, condition(braces, kind), sureOnly));
  }

  std::string ids(const std::vector<Chosen>& chosen) const {
    std::string all;
    for (const Chosen& one : chosen) {
      if (!all.empty()) all += ' ';
      all += std::string(collection[one.record].id) + (one.sure ? "" : "?");
    }
    return all;
  }

  Path path(std::string_view text, Kind kind) {
    PathProblem problem;
    Path read = Path::compile(text, kind, collection, problem);
    REQUIRE_MESSAGE(!read.empty(), (std::string(text) + ": " + problem.message));
    return read;
  }

  std::string sorted(Kind kind, const std::vector<std::string_view>& by) {
    std::vector<Path> paths;
    for (std::string_view one : by) paths.push_back(path(one, kind));
    auto all = chooser->choose(kind, Condition());
    chooser->sort(all, paths);
    return ids(all);
  }

  // What a path reaches, in words.
  std::string reached(std::string_view text, std::string_view reference) {
    const RecordIndex record = at(reference);
    std::string all;
    for (const Reached& one : path(text, collection[record].kind).from(record, collection)) {
      if (!all.empty()) all += ", ";
      switch (one.state) {
        case Reached::State::value:
          all += one.value->type == records::ValueType::mapping ? "{}" : std::string(one.value->text);
          break;
        case Reached::State::record: all += collection[one.record].reference(); break;
        case Reached::State::absent: all += "(absent)"; break;
        case Reached::State::unknown: all += "(unknown)"; break;
        case Reached::State::none: all += "(none)"; break;
      }
      if (one.assumed) all += '*';
    }
    return all;
  }

  std::string problem(std::string_view text, Kind kind) const {
    PathProblem problem;
    const Path read = Path::compile(text, kind, collection, problem);
    if (!read.empty()) return {};
    return std::string(text.substr(problem.at, problem.length)) + ": " + problem.message + " | " +
           problem.hint;
  }

  // Findings of reading and linking, for guides that should have none.
  std::string faults() const {
    std::string all;
    for (std::size_t i = 0; i < before_; ++i) all += findings.all()[i].message + '\n';
    return all;
  }

  diagnostics::Findings findings;
  diagnostics::Settings rules;
  linking::Collection collection;
  std::unique_ptr<OwnBounds> own;
  std::unique_ptr<Chooser> chooser;
  diagnostics::Findings conditionFindings;

 private:
  std::size_t before_ = 0;
  std::vector<std::unique_ptr<records::ReadGuide>> trees_;
};

// The guide most tests ask. Invented: makers Ambry and Brock, shapes round and square, a few decorations and pieces.
inline constexpr const char* kRecords = R"(
- maker: ambry
  name: Ambry & Sons
  trade: pottery
  founded: 1889
  active: 1890/1930
  prefix: A
- maker: brock
  name: Brock
  trade: [pottery, retailer]
  active: about 1900
- maker: cole
  name: Cole
  trade: decal supplier
- maker: dunn
  name: Dunn
  trade:
    is: [retailer, wholesaler]
    complete: yes
- feature: edge
  of: [shape, treatment]
  values: {gold: a gold line, silver: a silver line, none: no line}
- feature: outline
  of: shape
  values: {round: a circle, square: a square, scalloped: a wavy edge}
- form: plate
  name: Plate
  ware: flat
  nominal: 7 in
  actual: 9 1/8 in
- form: teapot
  name: Teapot
  ware: hollow
  holds: 24 fl oz
  made-in: all
- form: platter
  name: Platter
  ware: flat
  actual: 12 x 9 in
  made-in: {all-but: [square]}
- form: cup
  name: Cup
  ware: hollow
  nominal: 36s
  made-in: [round]
- form: bowl
  ware: hollow
- shape: round
  name: Round
  maker: ambry
  prefix: RD
  introduced: 1932
  withdrawn: none
  look: {outline: round, edge: [gold, silver]}
  forms: [plate, cup]
- shape: square
  name: Square
  maker: brock
  introduced: 1936/1938
  look: {outline: square}
  forms: {is: [plate], complete: yes}
- shape: third
  name: Third
  maker: unknown
  introduced: "[1932,1934]"
- shape: fourth
  name: Café
  more: {Body: hard and white, "No. 9": in pencil}
- motif: rose
  name: Rose
  supplier: cole
  supplier-number: 402
- motif: fern
  name: Fern
  supplier: unknown
- motif: star
  name: Star
- treatment: t1
  shape: round
  motif: rose
  code: RD-10
  look: {edge: gold}
  introduced: 1933
- treatment: t2
  shape: [round, square]
  motif: none
  code: [RD-2, RD-30]
  look: {edge: none}
  introduced: by 1935
  status: sample
- treatment: t3
  shape: square
  motif: fern
  code: unknown
  look: {edge: unknown}
  introduced: 1940/1942
  status: doubtful
- treatment: t4
  shape: third
  motif: star
- treatment: t5
  shape: {is: [round, square], complete: yes}
  motif: unknown
  for: brock
- mark: k1
  maker: ambry
  used: 1925/1951
  shapes: [round]
- mark: k2
  maker: brock
  used: 1937/..
- specimen: s1
  treatment: t1
  form: plate
  marks: [k1, {mark: k2, at: beside it}]
  seen: {on: 2019-05-14, by: Anna}
  size: 232 mm
- specimen: s2
  shape: square
  form: cup
  marks: none
  seen: [{on: 2018, how: photograph}, {on: 2020, how: reported}]
- specimen: s3
  form: plate
  seen: 2021
  code-seen: "0203"
- claim: c1
  says: One.
  about: [shape:round, motif:rose]
- claim: c2
  says: Two.
  status: withdrawn
  about: maker:brock
  change: erratum
- talk: t
  title: A talk
  number: 3
  budget: 28:00
  segments:
    - title: Opening
      about: [shape:round]
      time: 2:00
)";

}  // namespace saggar::choosing::testing
