#include <nlohmann/json.hpp>

#include <algorithm>

#include "commands/command.h"
#include "records/rights.h"
#include "records/tables.h"

// The record language as a JSON Schema (2020-12), for editors and for checks by others. Made from the field tables.
namespace saggar::commands {
namespace {

using Json = nlohmann::ordered_json;
using records::FieldSpec;
using records::FieldType;
using records::Kind;

constexpr const char* kId = "[a-z0-9][a-z0-9-]*";

Json definition(const char* name) {
  return {{"$ref", std::string("#/$defs/") + name}};
}

std::string kindsPattern(records::KindSet kinds) {
  std::string names;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    if (kinds.has(static_cast<Kind>(i)))
      names += (names.empty() ? "" : "|") + std::string(records::kKindNames[i].one);
  return names;
}

Json evidenceProperties();
Json backed(Json plain);
Json structureOf(std::span<const FieldSpec> fields);

Json bare(const FieldSpec& spec);

// A structure; a plain value stands for its first field, where no other is needed.
Json wholeOrFirst(const FieldSpec& spec) {
  Json whole = structureOf(spec.inner);
  if (spec.inner.data() == records::codeRuleFields().data())
    whole["anyOf"] = {{{"required", {"written"}}}, {{"required", {"pattern"}}}, {{"required", {"like"}}}};
  const bool more = std::any_of(spec.inner.begin() + 1, spec.inner.end(),
                                [](const FieldSpec& one) { return one.has(records::kRequired); });
  if (more || spec.has(records::kMapping)) return whole;
  Json either = Json::array();
  either.push_back(std::move(whole));
  either.push_back(bare(spec.inner[0]));
  return {{"anyOf", std::move(either)}};
}

// The plain value, without evidence round it.
Json bare(const FieldSpec& spec) {
  switch (spec.type) {
    case FieldType::text:
      if (spec.field == "rights"_f) return {{"type", "string"}, {"pattern", records::rightsPattern()}};
      return definition("words");
    case FieldType::prose: return definition("words");
    case FieldType::moment:
    case FieldType::span: return definition("date");
    case FieldType::reference: {
      const std::string kinds = kindsPattern(spec.kinds);
      return {{"type", "string"}, {"pattern", "^((" + kinds + "):)?" + kId + "$"}};
    }
    case FieldType::event: return definition("event");
    case FieldType::choice: {
      Json words = Json::array();
      for (std::string_view word : spec.words) words.push_back(word);
      return {{"enum", std::move(words)}};
    }
    case FieldType::measure: return definition("measure");
    case FieldType::number: return definition("number");
    case FieldType::clock: return {{"type", "string"}, {"pattern", "^[0-9]{1,3}(:[0-5][0-9]){1,2}$"}};
    case FieldType::length:
      return {{"type", "string"},
              {"pattern",
               "^[0-9]+ ?(y|m|w|d|years?|months?|weeks?|days?)( ?[0-9]+ "
               "?(y|m|w|d|years?|months?|weeks?|days?))*$"}};
    case FieldType::yesNo: return {{"enum", {"yes", "no", true, false}}};
    case FieldType::path: return {{"type", "string"}, {"minLength", 1}};
    case FieldType::address: return {{"type", "string"}, {"pattern", "^https?://[^\\s<>\"]+$"}};
    case FieldType::look: return definition("look");
    case FieldType::headings: return definition("headings");
    case FieldType::where: return {{"type", "object"}};
    case FieldType::route: return definition("route");
    case FieldType::columns: return definition("columns");
    case FieldType::dateTable:
      return {{"anyOf",
               {{{"enum", {"none", "unknown"}}},
                {{"type", "object"},
                 {"additionalProperties", {{"anyOf", {definition("date"), backed(definition("date"))}}}}}}}};
    case FieldType::reasons:
      return {
          {"anyOf",
           {definition("words"),
            {{"type", "array"}, {"items", definition("words")}},
            {{"type", "object"},
             {"additionalProperties", {{"anyOf", {definition("words"), backed(definition("words"))}}}}}}}};
    case FieldType::severities:
      return {{"type", "object"}, {"additionalProperties", {{"enum", {"off", "note", "warning", "error"}}}}};
    case FieldType::comparison:
      return {{"type", "array"}, {"items", {{"type", "string"}}}, {"minItems", 3}, {"maxItems", 3}};
    case FieldType::citations: return definition("cite");
    case FieldType::madeIn: return definition("made-in");
    case FieldType::structure: return wholeOrFirst(spec);
    case FieldType::structureMap: return {{"type", "object"}, {"additionalProperties", wholeOrFirst(spec)}};
    case FieldType::tree: return true;
  }
  return true;
}

// `{is: …}` with evidence beside it.
Json backed(Json plain) {
  Json properties = evidenceProperties();
  properties["is"] = std::move(plain);
  return {{"type", "object"},
          {"properties", std::move(properties)},
          {"required", {"is"}},
          {"additionalProperties", false}};
}

Json evidenceProperties() {
  Json properties;
  properties["cite"] = definition("cite");
  properties["judged"] = definition("words");
  properties["doubted"] = definition("words");
  properties["but"] = definition("but");
  properties["note"] = definition("words");
  properties["complete"] = {{"enum", {"yes", "no", true, false}}};
  return properties;
}

bool hasEvidence(FieldType type) {
  return !records::isKeptAsTyped(type) && type != FieldType::citations;
}

// The value with all that may stand in its place: unknown, none, evidence, a list.
Json valueOf(const FieldSpec& spec) {
  if (!hasEvidence(spec.type)) return bare(spec);
  Json one = Json::array();
  one.push_back(bare(spec));
  one.push_back({{"enum", {"unknown", "none"}}});
  Json plain = {{"anyOf", one}};
  const bool many = spec.has(records::kMany);
  const Json wrapped = backed(many ? Json{{"anyOf", {plain, {{"type", "array"}, {"items", plain}}}}} : plain);
  Json item = {{"anyOf", {plain, wrapped}}};
  Json all = Json::array();
  all.push_back(plain);
  all.push_back(wrapped);
  if (many) all.push_back({{"type", "array"}, {"items", item}});
  return {{"anyOf", std::move(all)}};
}

Json described(const FieldSpec& spec) {
  Json value = valueOf(spec);
  if (value.is_boolean()) value = Json::object();
  Json out;
  out["description"] =
      std::string(spec.meaning) +
      (spec.has(records::kPrivate) && std::string(spec.meaning).find("private") == std::string::npos
           ? " (private)"
           : "");
  if (!spec.example.empty()) out["examples"] = {std::string(spec.example)};
  for (auto& [key, inner] : value.items()) out[key] = inner;
  return out;
}

Json structureOf(std::span<const FieldSpec> fields) {
  Json properties;
  Json required = Json::array();
  const Json beside = evidenceProperties();
  for (auto& [key, value] : beside.items()) properties[key] = value;
  for (const FieldSpec& field : fields) {
    properties[std::string(field.field.name())] = described(field);
    if (field.has(records::kRequired)) required.push_back(field.field.name());
  }
  Json out = {{"type", "object"}, {"properties", std::move(properties)}, {"additionalProperties", false}};
  if (!required.empty()) out["required"] = std::move(required);
  return out;
}

Json recordOf(const records::KindSpec& kind) {
  Json properties;
  const std::string name(records::name(kind.kind));
  properties[name] =
      kind.kind == Kind::guide
          ? Json{{"type", "string"}, {"minLength", 1}}
          : Json{{"type", "string"},
                 {"pattern", std::string("^") + kId + "$"},
                 {"description", "its id, unique among " + std::string(records::plural(kind.kind))}};
  for (const FieldSpec* field : records::fieldsOf(kind.kind)) {
    const std::string key(field->field.name());
    if (!properties.contains(key)) properties[key] = described(*field);
  }
  if (kind.kind != Kind::guide) properties["cite"] = definition("cite");
  Json out;
  out["description"] = kind.meaning;
  out["type"] = "object";
  out["properties"] = std::move(properties);
  if (kind.kind != Kind::guide) out["patternProperties"] = {{"^my-", true}};
  out["required"] = {name};
  for (const FieldSpec* field : records::fieldsOf(kind.kind))
    if (field->has(records::kEssential)) out["required"].push_back(field->field.name());
  out["additionalProperties"] = false;
  return out;
}

Json sharedDefinitions() {
  Json defs;
  defs["words"] = {{"type", {"string", "number", "boolean", "null"}}, {"pattern", "\\S"}};
  defs["date"] = {{"description",
                   "EDTF (Library of Congress, 4 February 2019) or date words: 1932, about 1932, by 1935, "
                   "1926/1935, 5 May 1932"},
                  {"anyOf", {{{"type", "integer"}}, {{"type", "string"}, {"pattern", "[0-9X]"}}}}};
  defs["number"] = {
      {"anyOf", {{{"type", "integer"}, {"minimum", 0}}, {{"type", "string"}, {"pattern", "^[0-9]+$"}}}}};
  defs["measure"] = {{"type", "string"},
                     {"description", "9 1/8 in, 232 mm, 9 x 6 3/4 in, 24 fl oz, 36s"},
                     {"pattern",
                      "^([0-9]+s|[0-9½¼¾⅛⅜⅝⅞][0-9 ./x×½¼¾⅛⅜⅝⅞]* ?(in\\.?|inch|inches|\"|″|mm|cm|fl oz|fl\\. "
                      "oz\\.|oz|ml|cl|l|litres?))$"}};
  defs["event"] = {{"type", "string"},
                   {"pattern", "^(" + kindsPattern(records::KindSet::any()) + "):" + kId +
                                   "(\\.[a-z-]+(\\.(from|until|on))?)?$"}};
  defs["citation"] = {
      {"description", "source-id, or source-id: where in it, or in full {source, at, dated, says}"},
      {"anyOf",
       {{{"type", "string"}, {"pattern", std::string("^((source|specimen|photo):)?") + kId + "(: .*)?$"}},
        {{"type", "object"},
         {"properties",
          {{"source",
            {{"type", "string"}, {"pattern", std::string("^((source|specimen|photo):)?") + kId + "$"}}},
           {"at", definition("words")},
           {"dated", definition("date")},
           {"says", {{"enum", {"direct", "indirect", "not-found"}}}}}},
         {"required", {"source"}},
         {"additionalProperties", false}},
        {{"type", "object"},
         {"propertyNames",
          {{"pattern", std::string("^((source|specimen|photo):)?") + kId + "$"},
           {"not", {{"enum", {"source", "at", "dated", "says"}}}}}},
         {"additionalProperties", definition("words")},
         {"minProperties", 1}}}}};
  defs["cite"] = {
      {"anyOf", {definition("citation"), {{"type", "array"}, {"items", definition("citation")}}}}};
  defs["but"] = {
      {"description", "what another source says instead"},
      {"anyOf", {definition("alternative"), {{"type", "array"}, {"items", definition("alternative")}}}}};
  defs["alternative"] = {
      {"type", "object"},
      {"properties", {{"is", true}, {"cite", definition("cite")}, {"set-aside", definition("words")}}},
      {"required", {"is"}},
      {"additionalProperties", false}};
  defs["route"] = {{"type", "string"},
                   {"description", "a field of what is listed, or a path to one: motif.supplier"},
                   {"pattern", "^[a-z0-9-]+(\\.[^.]+)*$"}};
  const Json column = {
      {"anyOf", {definition("route"), {{"type", "object"}, {"additionalProperties", definition("route")}}}}};
  defs["columns"] = {{"anyOf", {column, {{"type", "array"}, {"items", column}}}}};
  defs["look"] = {{"type", "object"},
                  {"propertyNames", {{"anyOf", {{{"pattern", std::string("^") + kId + "$"}}}}}},
                  {"additionalProperties", {{"type", {"string", "array", "object", "number", "boolean"}}}}};
  defs["headings"] = {
      {"type", "object"},
      {"additionalProperties", {{"type", {"string", "array", "object", "number", "boolean"}}}}};
  const Json one = {{"type", "string"}, {"pattern", std::string("^(shape:)?") + kId + "$"}};
  const Json shapes = {{"type", "array"}, {"items", {{"anyOf", {one, backed(one)}}}}};
  defs["made-in"] = {{"anyOf",
                      {{{"type", "string"}, {"pattern", std::string("^(all|(shape:)?") + kId + ")$"}},
                       shapes,
                       {{"type", "object"},
                        {"properties",
                         [&] {
                           Json p = evidenceProperties();
                           p["all-but"] = {{"anyOf", {one, shapes}}};
                           return p;
                         }()},
                        {"additionalProperties", false}}}}};
  return defs;
}

}  // namespace

int schema(const Environment& environment, const SchemaArguments& arguments) {
  if (arguments.page) {
    environment.out(referencePage());
    return kFine;
  }
  Json out;
  out["$schema"] = "https://json-schema.org/draft/2020-12/schema";
  out["$id"] = "saggar-records.schema.json";
  out["title"] = "Records of a guide";
  out["description"] =
      "A file of records is a list of records, or one record; guide.yaml holds one mapping that begins with "
      "`guide`.";
  Json defs = sharedDefinitions();
  for (const records::KindSpec& kind : records::kindSpecs()) {
    const std::string name = "record-" + std::string(records::name(kind.kind));
    defs[name] = recordOf(kind);
  }
  Json oneOf = Json::array();
  for (const records::KindSpec& kind : records::kindSpecs())
    if (kind.kind != Kind::guide)
      oneOf.push_back(definition(("record-" + std::string(records::name(kind.kind))).c_str()));
  defs["record"] = {{"type", "object"}, {"anyOf", std::move(oneOf)}};
  out["anyOf"] = {
      {{"type", "array"}, {"items", definition("record")}}, definition("record"), definition("record-guide")};
  out["$defs"] = std::move(defs);
  environment.out(out.dump(2) + '\n');
  return kFine;
}

}  // namespace saggar::commands
