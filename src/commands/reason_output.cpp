#include "commands/reason_output.h"

#include "base/text.h"
#include "dates/print.h"

namespace saggar::commands {

using chronology::BoundsOf;
using chronology::FactId;
using chronology::Node;
using chronology::Reason;
using dates::Day;
using dates::End;
using Json = nlohmann::ordered_json;

namespace {

Json factAsJson(const Guide& guide, FactId fact) {
  const Reason reason = guide.reasons->of(fact);
  const source::Place place = guide.collection.sources().place(reason.span);
  return Json{{"record", reason.record},         {"field", reason.field},
              {"value", reason.value},           {"standing", std::string(reason.word())},
              {"file", std::string(place.path)}, {"line", place.line},
              {"column", place.column}};
}

// Why its author doubts it: that is no word of the sources.
std::string doubtInWords(const Guide& guide, FactId id) {
  const chronology::Fact& fact = guide.chronology.fact(id);
  const records::Evidence* own = fact.cites() ? nullptr : fact.value->evidence;
  const std::string_view why = own != nullptr ? own->doubted() : std::string_view();
  return why.empty() ? "; doubted" : "; doubted: " + base::onOneLine(why);
}

std::string inWords(const Guide& guide, FactId fact, const std::string& standing, const std::string& beside) {
  const Reason reason = guide.reasons->of(fact);
  std::string out = reason.says + ": " + standing;
  std::vector<std::string> sources;
  for (const records::Citation* citation : reason.sources) {
    if (guide.chronology.fact(fact).cites()) break;  // it is said in the words
    sources.push_back(citationInWords(guide, *citation));
  }
  if (sources.size() > 3) {
    const std::size_t more = sources.size() - 2;
    sources.resize(2);
    sources.push_back(std::to_string(more) + " more");
  }
  if (!sources.empty()) out += " by " + base::joined(sources, "; ");
  if (reason.doubted) out += doubtInWords(guide, fact);
  if (!beside.empty()) out += "; " + beside;
  return out + placeInWords(guide, reason.span);
}

}  // namespace

Json dayAsJson(Day day) {
  return day.isFinite() ? Json(day.toString()) : Json(nullptr);
}

Json citationAsJson(const records::Citation& citation) {
  Json out{{"source", std::string(name(citation.kind)) + ':' + std::string(citation.id)}};
  if (!citation.at.empty()) out["at"] = std::string(citation.at);
  return out;
}

Json reasonAsJson(const Guide& guide, FactId fact) {
  const Reason reason = guide.reasons->of(fact);
  const source::Place place = guide.collection.sources().place(reason.span);
  Json sources = Json::array();
  for (const records::Citation* citation : reason.sources) sources.push_back(citationAsJson(*citation));
  return Json{{"says", reason.says},
              {"record", reason.record},
              {"field", reason.field},
              {"standing", std::string(reason.word())},
              {"sources", std::move(sources)},
              {"file", std::string(place.path)},
              {"line", place.line},
              {"column", place.column}};
}

Json boundsAsJson(const Guide& guide, Node event, BoundsOf which) {
  const dates::Bounds bounds = guide.chronology.bounds(event, which);
  Json out{{"earliest", dayAsJson(bounds.earliest)}, {"latest", dayAsJson(bounds.latest)}};
  for (const End end : {End::Earliest, End::Latest}) {
    Json chain = Json::array();
    for (const FactId fact : guide.chronology.because(event, which, end))
      chain.push_back(reasonAsJson(guide, fact));
    out["because"][end == End::Earliest ? "earliest" : "latest"] = std::move(chain);
  }
  out["open"] = Json::array();
  if (which == BoundsOf::proven)
    for (const FactId fact : guide.chronology.open(event)) out["open"].push_back(factAsJson(guide, fact));
  return out;
}

std::string citationInWords(const Guide& guide, const records::Citation& citation) {
  std::string out = citation.target == records::kNoRecord ? std::string(citation.id)
                                                          : guide.reasons->called(citation.target);
  if (!citation.at.empty()) out += ", " + base::onOneLine(citation.at);
  return out;
}

std::string placeInWords(const Guide& guide, const source::Span& span) {
  const source::Place place = guide.collection.sources().place(span);
  return "  (" + std::string(place.path) + ':' + std::to_string(place.line) + ')';
}

std::string reasonInWords(const Guide& guide, FactId fact) {
  return inWords(guide, fact, guide.reasons->standing(fact), {});
}

std::string stepInWords(const Guide& guide, FactId fact) {
  const std::string beside = guide.reasons->disputedBeside(fact);
  const std::string standing = beside.empty()
                                   ? guide.reasons->standing(fact)
                                   : std::string(evidence::inWords(guide.chronology.fact(fact).standing));
  return inWords(guide, fact, standing, beside);
}

std::string boundsInWords(const Guide& guide, Node event, BoundsOf which) {
  const dates::Bounds bounds = guide.chronology.bounds(event, which);
  std::string out;
  for (const End end : {End::Earliest, End::Latest}) {
    const Day day = bounds.at(end);
    const std::string_view side = end == End::Earliest ? "earliest" : "latest";
    if (!day.isFinite()) {
      out +=
          "  no " + std::string(side) + " day is " + (which == BoundsOf::proven ? "proven" : "known") + '\n';
      continue;
    }
    out += end == End::Earliest ? "  not before " : "  not after ";
    out += dates::describeDay(day) + '\n';
    for (const FactId fact : guide.chronology.because(event, which, end))
      out += "    " + (which == BoundsOf::proven ? stepInWords : reasonInWords)(guide, fact) + '\n';
  }
  return out;
}

}  // namespace saggar::commands
