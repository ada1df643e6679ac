#include <set>

#include "records/tables.h"
#include "support.h"

// Every field the tables declare, of every kind and of the structures inside, is read from its own example without a
// finding, and reports a value that it cannot take.
using namespace reading_test;
using namespace saggar;
using records::Field;
using records::FieldSpec;
using records::FieldType;
using records::Kind;

namespace {

std::string exampleOf(const FieldSpec& spec) {
  if (!spec.example.empty()) return std::string(spec.example);
  return spec.words.empty() ? std::string() : std::string(spec.words[0]);
}

// A value that fits no field of that type.
std::string wrongFor(const FieldSpec& spec) {
  switch (spec.type) {
    case FieldType::text:
    case FieldType::prose:
    case FieldType::path: return "{zzqx: {a: b}}";
    case FieldType::moment:
    case FieldType::span: return "the day after never";
    case FieldType::reference: return "Not An Id!";
    case FieldType::event: return "no event";
    case FieldType::choice: return "zzqxzzqx";
    case FieldType::measure: return "rather tall";
    case FieldType::number: return "three";
    case FieldType::clock: return "6 minutes";
    case FieldType::length: return "long ago";
    case FieldType::yesNo: return "perhaps";
    case FieldType::address: return "somewhere";
    case FieldType::look:
    case FieldType::headings:
    case FieldType::structureMap: return "words alone";
    case FieldType::structure: return "{zzqx: 1}";
    case FieldType::citations: return "Not A Source!";
    case FieldType::madeIn: return "{zzqx: 1}";
    case FieldType::where:
    case FieldType::severities: return "round";
    case FieldType::route: return "{zzqx: {a: b}}";
    case FieldType::columns:
    case FieldType::comparison:
    case FieldType::dateTable:
    case FieldType::reasons:
    case FieldType::tree: return "";  // what they hold is looked at later: here, that they hold something
  }
  return "";
}

// A record of that kind with one more line, and behind it what the kind says nothing without.
std::string recordWith(Kind kind, const std::string& line) {
  if (kind == Kind::guide) return "guide: Tableware of Tollivane\n" + line + "\n";
  std::string text = "- " + std::string(records::name(kind)) + ": an-id\n  " + line + "\n";
  for (const FieldSpec* field : records::fieldsOf(kind))
    if (field->has(records::kEssential) && !line.starts_with(std::string(field->field.name()) + ":"))
      text += "  " + std::string(field->field.name()) + ": " + exampleOf(*field) + "\n";
  return text;
}

Read readOf(Kind kind, const std::string& text) {
  return readText(text, kind == Kind::guide ? "guide.yaml" : "records.yaml");
}

const records::Record& recordOf(const Read& read, Kind kind) {
  if (kind == Kind::guide) return read.guide.guide;
  REQUIRE(read.guide.records.size() == 1);
  return read.guide.records[0];
}

// {first: …, other: …} with what the structure needs, and `spec` with that value.
std::string structureWith(std::span<const FieldSpec> inner, const FieldSpec& spec, const std::string& value) {
  std::string out;
  for (const FieldSpec& field : inner) {
    const bool itself = field.field == spec.field;
    if (!itself && !field.has(records::kRequired)) continue;
    out += (out.empty() ? "{" : ", ") + std::string(field.field.name()) + ": " +
           (itself ? value : exampleOf(field));
  }
  return out + "}";
}

void checkWrong(const Read& read, const std::string& text) {
  INFO(text << read.report());
  REQUIRE(read.all().size() == 1);
  checkWording(read.all()[0]);
  CHECK((read.all()[0].weight() == diagnostics::Severity::error));
  CHECK_FALSE(read.all()[0].rule.info().waivable);
}

}  // namespace

TEST_CASE("every field is read from its example") {
  std::size_t fields = 0;
  for (const records::KindSpec& kind : records::kindSpecs()) {
    for (const FieldSpec* spec : records::fieldsOf(kind.kind)) {
      const std::string example = exampleOf(*spec);
      INFO((std::string(records::name(kind.kind)) + "." + std::string(spec->field.name())));
      REQUIRE_FALSE(example.empty());
      CHECK_FALSE(spec->meaning.empty());
      const std::string text = recordWith(kind.kind, std::string(spec->field.name()) + ": " + example);
      const Read read = readOf(kind.kind, text);
      CHECK_MESSAGE(read.all().empty(), (text + read.report()));
      const records::Value* value = recordOf(read, kind.kind).find(spec->field);
      REQUIRE(value != nullptr);
      CHECK(value->said());
      ++fields;
    }
  }
  CHECK(fields > 300);
}

TEST_CASE("every field of every structure is read from its example, and reports a wrong value") {
  std::size_t fields = 0;
  for (const records::KindSpec& kind : records::kindSpecs()) {
    for (const FieldSpec* outer : records::fieldsOf(kind.kind)) {
      const bool test = outer->inner.data() == records::testFields().data();
      for (const FieldSpec& spec : outer->inner) {
        INFO((std::string(records::name(kind.kind)) + "." + std::string(outer->field.name()) + "." +
              std::string(spec.field.name())));
        const std::string example = exampleOf(spec);
        REQUIRE_FALSE(example.empty());
        CHECK_FALSE(spec.meaning.empty());
        const bool map = outer->type == FieldType::structureMap;
        auto line = [&](const std::string& value) {
          std::string structure = structureWith(outer->inner, spec, value);
          const bool besideAWay = spec.field == "where"_f || spec.field == "has"_f || spec.field == "makes"_f;
          if (test && besideAWay) structure = "{count: shape, " + structure.substr(1);
          return std::string(outer->field.name()) + ": " + (map ? "{one: " + structure + "}" : structure);
        };
        const std::string text = recordWith(kind.kind, line(example));
        const Read read = readOf(kind.kind, text);
        CHECK_MESSAGE(read.all().empty(), (text + read.report()));
        const records::Value* value = recordOf(read, kind.kind).find(outer->field);
        REQUIRE(value != nullptr);
        const records::Value* inner =
            map ? value->entries()[0].value.find(spec.field) : value->find(spec.field);
        REQUIRE(inner != nullptr);
        CHECK(inner->said());
        const std::string wrong = recordWith(kind.kind, line(wrongFor(spec)));
        checkWrong(readOf(kind.kind, wrong), wrong);
        ++fields;
      }
    }
  }
  CHECK(fields > 60);
}

TEST_CASE("every field reports a value it cannot take, and nothing else") {
  for (const records::KindSpec& kind : records::kindSpecs())
    for (const FieldSpec* spec : records::fieldsOf(kind.kind)) {
      INFO((std::string(records::name(kind.kind)) + "." + std::string(spec->field.name())));
      const std::string text =
          recordWith(kind.kind, std::string(spec->field.name()) + ": " + wrongFor(*spec));
      checkWrong(readOf(kind.kind, text), text);
      const std::string list = recordWith(kind.kind, std::string(spec->field.name()) + ": [[a], [b]]");
      const bool anyList = records::isKeptAsTyped(spec->type) && spec->type != FieldType::where &&
                           spec->type != FieldType::severities;
      if (anyList) continue;
      const Read read = readOf(kind.kind, list);
      CHECK_MESSAGE(!read.all().empty(), list);
      const Read empty = readOf(kind.kind, recordWith(kind.kind, std::string(spec->field.name()) + ":"));
      CHECK(empty.all().size() == 1);
    }
}

TEST_CASE("every value takes evidence, unknown and none") {
  for (const records::KindSpec& kind : records::kindSpecs())
    for (const FieldSpec* spec : records::fieldsOf(kind.kind)) {
      INFO((std::string(records::name(kind.kind)) + "." + std::string(spec->field.name())));
      const bool takesAnything = records::isKeptAsTyped(spec->type) || spec->type == FieldType::citations;
      if (takesAnything) continue;
      const std::string name(spec->field.name());
      for (const FieldSpec& beside : records::evidenceFields()) {
        if (beside.field == "is"_f) continue;
        const bool complete = beside.field == "complete"_f;
        std::string but = exampleOf(beside);
        if (beside.field == "but"_f)
          but = "{is: " + exampleOf(*spec) + ", cite: dunnavick-1974, set-aside: it cites nothing}";
        const std::string text =
            recordWith(kind.kind, name + ": {is: " + exampleOf(*spec) + ", " +
                                      std::string(beside.field.name()) + ": " + but + "}");
        const Read read = readOf(kind.kind, text);
        CHECK_MESSAGE(read.all().empty(), (text + read.report()));
        const records::Value* value = recordOf(read, kind.kind).find(spec->field);
        REQUIRE(value != nullptr);
        REQUIRE(value->evidence != nullptr);
        const records::Evidence& evidence = *value->evidence;
        CHECK(evidence.complete() == complete);
        CHECK(evidence.cite.empty() == (beside.field != "cite"_f));
        CHECK(evidence.judged().empty() == (beside.field != "judged"_f));
        CHECK(evidence.doubted().empty() == (beside.field != "doubted"_f));
        CHECK((evidence.note() == nullptr) == (beside.field != "note"_f));
        CHECK(evidence.but().empty() == (beside.field != "but"_f));
      }
      const Read unknown = readOf(kind.kind, recordWith(kind.kind, name + ": unknown"));
      CHECK_MESSAGE(unknown.all().empty(), unknown.report());
      CHECK(recordOf(unknown, kind.kind).find(spec->field)->is(records::ValueType::unknown));
      const Read typo =
          readOf(kind.kind, recordWith(kind.kind, name + ": {is: " + exampleOf(*spec) + ", ctie: s}"));
      CHECK(typo.all().size() == 1);
    }
}

TEST_CASE("a record of a kind that says nothing without a field needs it") {
  std::set<std::string> kinds;
  for (const records::KindSpec& kind : records::kindSpecs())
    for (const FieldSpec* spec : records::fieldsOf(kind.kind)) {
      if (!spec->has(records::kEssential)) continue;
      const std::string name(records::name(kind.kind));
      kinds.insert(name);
      const Read missing = readText("- " + name + ": an-id\n  note: Words.\n");
      CAPTURE(missing.report());
      CHECK(missing.places() == "1:" + std::to_string(name.size() + 5) + " value-unfit\n");
      checkWording(missing.all().at(0));
      CHECK(missing.all().at(0).hint.starts_with("add `" + std::string(spec->field.name()) + ": "));
      // An unknown word may be what was meant by it: told once.
      CHECK(readText("- " + name + ": an-id\n  zzqx: Words.\n").places() == "2:3 field-unknown\n");
    }
  CHECK(kinds == std::set<std::string>{"checklist", "claim", "photo", "question", "term"});
}

TEST_CASE("a plain value stands for a structure's first field where that says enough") {
  CHECK(readText("- maker: a\n  works: upper-bench\n  took-over: b\n").all().empty());
  CHECK(readText("- maker: a\n  codes: old number\n").places() == "2:10 value-unfit\n");
  CHECK(readText("- claim: a\n  says: One.\n  test: shape\n").places() == "3:9 value-unfit\n");
  CHECK(readText("- claim: a\n  says: One.\n  test: {has: {maker: b}}\n").places() == "3:9 value-unfit\n");
  CHECK(readText("- claim: a\n  says: One.\n  test: {evry: shape}\n").places() == "3:10 field-unknown\n");
  CHECK(readText("guide: G\nwaivers: [code-shared]\n", "guide.yaml").places() == "2:11 value-unfit\n");
  CHECK(readText("guide: G\neditions: {1: Tableware}\n", "guide.yaml").places() == "2:15 value-unfit\n");
}

TEST_CASE("fields of evidence report what they cannot take") {
  auto wrong = [](const std::string& beside, diagnostics::Rule rule) {
    const Read read = readText("- shape: a\n  introduced: {is: 1936, " + beside + "}\n");
    CAPTURE(read.report());
    REQUIRE(read.all().size() == 1);
    CHECK(read.all()[0].rule == rule);
    checkWording(read.all()[0]);
  };
  wrong("cite: ", "value-unfit"_rule);
  wrong("cite: [a, [b]]", "value-unfit"_rule);
  wrong("cite: Some Book", "value-unfit"_rule);
  wrong("cite: shape:b", "value-unfit"_rule);
  wrong("cite: {source: }", "value-unfit"_rule);
  wrong("cite: {source: s, at: [1]}", "value-unfit"_rule);
  wrong("cite: {source: s, dated: someday}", "date-unreadable"_rule);
  wrong("cite: {source: s, says: loudly}", "value-unfit"_rule);
  wrong("cite: {source: s, page: 3}", "field-unknown"_rule);
  wrong("cite: {sorce: s, at: p. 3}", "value-unfit"_rule);
  wrong("judged: [a]", "value-unfit"_rule);
  wrong("judged: ", "value-unfit"_rule);
  wrong("doubted: ''", "value-unfit"_rule);
  wrong("note: {a: {b: c}}", "value-unfit"_rule);
  wrong("complete: perhaps", "value-unfit"_rule);
  wrong("but: 1937", "value-unfit"_rule);
  wrong("but: {cite: s}", "value-unfit"_rule);
  wrong("but: {is: never, cite: s}", "date-unreadable"_rule);
  wrong("but: {is: 1937, cite: s, becuase: x}", "field-unknown"_rule);
  wrong("but: {is: 1937, set-aside: }", "value-unfit"_rule);
}

TEST_CASE("every kind's own example is read") {
  for (const records::KindSpec& kind : records::kindSpecs()) {
    const Read read = readOf(kind.kind, std::string(kind.example) + "\n");
    CHECK_MESSAGE(read.all().empty(), read.report());
    CHECK(recordOf(read, kind.kind).kind == kind.kind);
  }
}

TEST_CASE("what no table has is told with the nearest that it has") {
  auto hint = [](const std::string& text, const std::string& where, const std::string& wanted) {
    const Read read = readText(text);
    CAPTURE(read.report());
    CHECK(read.places() == where + "\n");
    CHECK(read.all().at(0).hint.find(wanted) != std::string::npos);
    checkWording(read.all().at(0));
  };
  hint("- shape: a\n  introducd: 1936\n", "2:3 field-unknown", "`introduced`");
  hint("- shape: a\n  motif: heron pond\n", "2:3 field-unknown", "other kinds");
  hint("- shape: a\n  weight: 3\n", "2:3 field-unknown", "`more:`");
  hint("- sahpe: a\n", "1:3 kind-unknown", "`shape`");
  hint("- shapes: a\n", "1:3 kind-unknown", "`shape`");
  hint("- Shape: a\n", "1:3 kind-unknown", "`shape`");
  hint("- lamp: a\n", "1:3 kind-unknown", "`checklist`");
  hint("- name: A\n  shape: a\n", "1:3 kind-unknown", "`- shape: a`");
  hint("- shape: Jessamount\n", "1:10 value-unfit", "`shape: jessamount`");
  hint("- shape: St. Anne's Blue\n", "1:10 value-unfit", "`shape: st-annes-blue`");
  hint("- shape: Caf\xC3\xA9 Blue\n", "1:10 value-unfit", "`shape: cafe-blue`");
  hint("- shape: [a]\n", "1:10 value-unfit", "`shape: blue-rim`");
  hint("- shape: a\n  maker: shape:b\n", "2:10 value-unfit", "a maker");
  hint("- shape: a\n  see: shpae:b\n", "2:8 value-unfit", "`shape:b`");
  hint("- shape: a\n  maker: Wesperling\n", "2:10 value-unfit", "`wesperling`");
  hint("- treatment: a\n  met: rarly\n", "2:8 value-unfit", "`rarely`");
  hint("- treatment: a\n  met: seldom if ever\n", "2:8 value-unfit", "`often`");
  hint("- shape: a\n  forms: plate-8, cup, tea-pot\n", "2:10 value-unfit", "`[plate-8, cup, tea-pot]`");
  hint("- shape: a\n  forms: [plate-8 cup tea-pot]\n", "2:11 value-unfit", "`[plate-8, cup, tea-pot]`");
  hint("- shape: a\n  forms: sugar bowl\n", "2:10 value-unfit", "`sugar-bowl`");
  hint("- shape: a\n  maker: a-1, b-2\n", "2:10 value-unfit", "`a-1-b-2`");
  hint("- shape: a\n  introduced: none\n", "2:15 value-unfit", "`unknown`");
  hint("- mark: a\n  used: none\n", "2:9 value-unfit", "`unknown`");
  hint("- shape: a\n  introduced: \"{1932,1934}\"\n", "2:15 value-unfit", "`\"[1932,1934]\"`");
  hint("- specimen: a\n  seen: {on: \"{1932,1934}\"}\n", "2:14 value-unfit", "`\"[1932,1934]\"`");
  hint("- shape: a\n  cite: [{source: b, dated: \"{1932,1934}\"}]\n", "2:29 value-unfit",
       "`\"[1932,1934]\"`");
  hint("- shape: a\n  look: {Edge Line: gold}\n", "2:10 value-unfit", "`edge-line`");
  hint("- shape: a\n- specimen: b\n  seen: {by: x}\n", "3:9 value-unfit", "`on: ");
  hint("- treatment: a\n  specimen: b\n  form: plate-7\n", "2:3 yaml-broken", "`- specimen: b`");
  hint("just words\n", "1:1 kind-unknown", "`- shape: jessamount`");
  hint("- just words\n", "1:3 kind-unknown", "`- shape: jessamount`");
  hint("- [a, b]\n", "1:3 kind-unknown", "`- shape: jessamount`");
}

TEST_CASE("of a record that cannot be read the id is kept, as typed and as references have it") {
  auto lost = [](const std::string& text) {
    const Read read = readText(text);
    std::set<std::string> ids;
    for (std::string_view id : read.guide.lostIds) ids.emplace(id);
    return ids;
  };
  CHECK(lost("- sahpe: a\n") == std::set<std::string>{"a"});
  CHECK(lost("- shape: Jessamount\n").count("jessamount") == 1);
  CHECK(lost("- name: A\n  shape: b\n").count("b") == 1);
  CHECK(lost("- treatment: a\n  specimen: b\n").count("b") == 1);
  CHECK(lost("- shape:a\n").count("a") == 1);
  CHECK(lost("- shape: a\n\t- shape: b\n").count("b") == 1);
  CHECK(lost("shape: a\n  name: x\n- shape: b\n").count("b") == 0);
}
