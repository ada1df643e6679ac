#include "study/misread.h"

#include "dates/print.h"

namespace saggar::study {

namespace {

constexpr std::size_t kMostTexts = 4;

// The one reading of a code that is a fact; null where there are several.
const choosing::CodeReading* onlyReading(const choosing::CodeReadings& codes, const chronology::Fact& fact) {
  for (const choosing::CodeOnRecord& code : codes.of(fact.record))
    if (code.value == fact.value) return code.only();
  return nullptr;
}

}  // namespace

std::optional<dates::Bounds> daysOfCode(const choosing::CodeReadings& codes, const chronology::Fact& fact) {
  if (fact.says != chronology::Says::dateCode) return std::nullopt;
  const choosing::CodeReading* only = onlyReading(codes, fact);
  if (only == nullptr || !only->reading.when()) return std::nullopt;
  return *only->reading.when();
}

std::vector<Misreading> misreadings(const choosing::CodeReadings& codes,
                                    const chronology::Chronology& chronology,
                                    const chronology::Clash& clash) {
  std::vector<Misreading> out;
  for (const chronology::EdgeId id : clash.edges) {
    const chronology::Edge& edge = chronology.edge(id);
    if (edge.fact == chronology::kNoFact) continue;
    const chronology::Fact& fact = chronology.fact(edge.fact);
    if (fact.says != chronology::Says::dateCode) continue;
    const choosing::CodeReading* only = onlyReading(codes, fact);
    if (only == nullptr || !only->reading.when()) continue;
    const dates::Bounds now = *only->reading.when();
    const bool latest = edge.from == chronology::kOrigin;
    for (const codes::Similar& similar : only->rule->rule->similar(fact.value->text, kMostTexts).all)
      for (const auto& reading : codes.readLoose(similar.text, only->rule->maker).readings) {
        if (!reading.possible || !reading.reading.when) continue;
        const dates::Bounds& days = *reading.reading.when;
        const chronology::Days moved = latest ? days.latest.number() - now.latest.number()
                                              : now.earliest.number() - days.earliest.number();
        if (moved >= clash.shortBy) out.push_back({edge.fact, similar.text, days});
      }
  }
  return out;
}

std::string inWords(const Misreading& misreading, const chronology::Chronology& chronology) {
  return '`' + std::string(chronology.fact(misreading.fact).value->text) + "` for `" + misreading.text +
         "`, of " + dates::describeBounds(misreading.days);
}

}  // namespace saggar::study
