#include <nlohmann/json.hpp>

#include "diagnostics/report.h"

namespace saggar::diagnostics {
namespace {

using Json = nlohmann::ordered_json;

void putPlace(Json& object, const source::Span& span, const source::SourceSet& sources) {
  const source::Place place = sources.place(span);
  if (place.line == 0) return;
  object["file"] = place.path;
  object["line"] = place.line;
  object["column"] = place.column;
}

Json factNote(const FactNote& fact, const source::SourceSet& sources) {
  Json object;
  object["record"] = fact.record;
  object["field"] = fact.field;
  object["value"] = fact.value;
  if (!fact.standing.empty()) object["standing"] = fact.standing;
  putPlace(object, fact.span, sources);
  return object;
}

Json toJson(const Finding& finding, const source::SourceSet& sources) {
  Json object;
  object["rule"] = finding.rule.id();
  object["severity"] = toString(finding.weight());
  if (!finding.record.empty()) object["record"] = finding.record;
  if (!finding.field.empty()) object["field"] = finding.field;
  putPlace(object, finding.span, sources);
  if (const source::Place place = sources.place(finding.span); place.line != 0) {
    object["end_line"] = place.endLine;
    object["end_column"] = place.endColumn;
  }
  object["message"] = finding.message;
  if (!finding.hint.empty()) object["hint"] = finding.hint;
  Json related = Json::array();
  for (const Related& one : finding.related) {
    Json place;
    putPlace(place, one.span, sources);
    place["message"] = one.message;
    related.push_back(std::move(place));
  }
  object["related"] = std::move(related);
  Json facts = Json::array();
  for (const FactNote& fact : finding.facts) facts.push_back(factNote(fact, sources));
  object["facts"] = std::move(facts);
  if (finding.shortByDays) object["short_by_days"] = *finding.shortByDays;
  if (finding.waived) {
    Json waived;
    waived["because"] = finding.waived->because;
    const source::Place place = sources.place(finding.waived->span);
    waived["file"] = place.path;
    waived["line"] = place.line;
    object["waived"] = std::move(waived);
  } else {
    object["waived"] = nullptr;
  }
  return object;
}

}  // namespace

std::string asJson(const Report& report, const source::SourceSet& sources) {
  Json object;
  Json findings = Json::array();
  const auto shown = report.shown();
  for (const Finding* finding : shown) findings.push_back(toJson(*finding, sources));
  object["findings"] = std::move(findings);
  object["doubts"] = Json::array();
  for (const std::vector<FactNote>& set : report.doubts) {
    Json facts = Json::array();
    for (const FactNote& fact : set) facts.push_back(factNote(fact, sources));
    object["doubts"].push_back(std::move(facts));
  }
  object["counts"] = {{"error", report.errors},
                      {"warning", report.warnings},
                      {"note", report.notes},
                      {"waived", report.waived}};
  object["not_shown"] = report.findings.size() - shown.size();
  return object.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
}

}  // namespace saggar::diagnostics
