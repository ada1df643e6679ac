#include "compose/row_standings.h"

#include <algorithm>

#include "base/text.h"
#include "compose/phrases.h"

namespace saggar::compose {

using records::Value;

namespace {

// How what the column of sources names stands: dates that stand so too say nothing.
std::string standingOfRow(const Words& words, const PublishedRecord& record) {
  const std::string own = words.standingOfSources(record);
  if (!own.empty()) return own;
  const bool cited = words.materials().weights.isDocumented(record.index());
  return std::string(evidence::inWords(cited ? evidence::Standing::documented : evidence::Standing::uncited));
}

}  // namespace

RowStandings::RowStandings(const Page& page, const std::vector<choosing::Chosen>& rows) {
  const evidence::Weights& weights = page.words().materials().weights;
  for (const choosing::Chosen& row : rows) {
    const PublishedRecord record = page.record(row.record);
    Said& said = said_[row.record];
    said.parts[dates] = page.words().standingOfDates(record, standingOfRow(page.words(), record), false);
    said.parts[sources] = page.words().standingOfSources(record);
    const evidence::KnownBy best = weights.knownBy(row.record);
    if (best != evidence::KnownBy::inHand) said.parts[known] = std::string(evidence::inWords(best));
  }
  if (said_.size() < 2) return;
  for (std::size_t part = 0; part < kParts; ++part) {
    const std::string& first = said_.begin()->second.parts[part];
    common_[part] = !first.empty() && std::all_of(said_.begin(), said_.end(), [&](const auto& one) {
      return one.second.parts[part] == first;
    });
  }
}

Inlines RowStandings::ofDates(RecordIndex record) const {
  Inlines out;
  if (!common_[dates]) put(out, said_.at(record).parts[dates]);
  return out;
}

Inlines RowStandings::ofSources(RecordIndex record) const {
  std::vector<Inlines> parts;
  for (const Part part : {sources, known})
    if (const std::string& said = said_.at(record).parts[part]; !common_[part] && !said.empty())
      parts.push_back({document::text(said)});
  return separated(std::move(parts), "; ");
}

Blocks RowStandings::below() const {
  std::vector<std::string> parts;
  for (const Part part : {dates, sources, known})
    if (common_[part]) parts.push_back(said_.begin()->second.parts[part]);
  if (parts.empty()) return {};
  return {document::paragraph(
      {document::text("Of every decoration in this table: " + base::joined(parts, "; ") + ".")})};
}

}  // namespace saggar::compose
