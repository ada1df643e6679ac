#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "commands/pipeline.h"

// Reasons and bounds as commands print them: for people, and as JSON in the shapes that are documented.
namespace saggar::commands {

nlohmann::ordered_json dayAsJson(dates::Day day);  // null for no bound
nlohmann::ordered_json citationAsJson(const records::Citation& citation);
nlohmann::ordered_json reasonAsJson(const Guide& guide, chronology::FactId fact);
nlohmann::ordered_json boundsAsJson(const Guide& guide, chronology::Node event, chronology::BoundsOf which);

// "Linnavere was introduced in March 1936: documented, decoration-books, vol. 5 (ware/shapes.yaml:12)"
std::string reasonInWords(const Guide& guide, chronology::FactId fact);
// The same as a step of a proof.
std::string stepInWords(const Guide& guide, chronology::FactId fact);

// "Order books, vol. 5"; "  (ware/shapes.yaml:12)".
std::string citationInWords(const Guide& guide, const records::Citation& citation);
std::string placeInWords(const Guide& guide, const source::Span& span);

// The proven (likely) days of an event with the reasons for each, as indented lines.
std::string boundsInWords(const Guide& guide, chronology::Node event, chronology::BoundsOf which);

}  // namespace saggar::commands
