#include <algorithm>
#include <map>

#include "base/text.h"
#include "commands/command.h"
#include "commands/reason_output.h"
#include "commands/resolve_event.h"
#include "dates/print.h"
#include "study/misread.h"

// `saggar date EVENT`: its earliest and latest day, proven and likely, and the reasons for each.
namespace saggar::commands {

using chronology::BoundsOf;
using chronology::Choice;
using chronology::Clash;
using chronology::Event;
using chronology::FactId;
using chronology::Node;
using records::Value;
using Json = nlohmann::ordered_json;

namespace {

constexpr std::size_t kMostListed = 10;

class Answer {
 public:
  Answer(const Guide& guide, const Event& event)
      : guide_(guide),
        chronology_(guide.chronology),
        event_(event),
        node_(guide.chronology.events().nodeOf(event)) {
    for (const Clash& clash : chronology_.clashes()) {
      if (clash.atFaceValue) continue;
      for (const chronology::EdgeId edge : clash.edges) {
        const chronology::Edge& one = chronology_.edge(edge);
        if (one.from != node_ && one.to != node_) continue;
        clashes_.push_back(&clash);
        break;
      }
    }
  }

  bool contradiction() const { return !clashes_.empty(); }

  std::string asText() const {
    const records::Record& record = guide_.collection[event_.record];
    std::string out = chronology_.events().text(event_) + ": when " + guide_.reasons->called(event_.record) +
                      ' ' + chronology::Reasons::happened(record.kind, event_.field, event_.end) + '\n';
    const std::string proven = boundsInWords(guide_, node_, BoundsOf::proven);
    const std::string likely = boundsInWords(guide_, node_, BoundsOf::likely);
    out += "recorded: " + recorded() + '\n' + otherwise() + "\nproven\n" + proven + leftOpen();
    out += "\nlikely\n" + (likely == proven ? "  the same\n" : likely);
    if (const Choice* choice = chronology_.choiceOf(node_)) out += members(*choice);
    return out + contradictions();
  }

  std::string asJson() const {
    Json out{{"event", chronology_.events().text(event_)}};
    const Value* value = guide_.collection[event_.record].find(event_.field);
    if (value != nullptr)
      out["value"] = event_.field == "seen"_f ? sightings(*value) : std::string(value->text);
    out["proven"] = boundsAsJson(guide_, node_, BoundsOf::proven);
    out["likely"] = boundsAsJson(guide_, node_, BoundsOf::likely);
    if (const Choice* choice = chronology_.choiceOf(node_)) {
      out["members"] = Json::array();
      for (const Choice::Member& member : choice->members) {
        Json one{{"date", dates::describeBounds(member.plain)}, {"ruled_out", nullptr}};
        if (member.struckOut) {
          one["ruled_out"] = Json::array();
          for (const FactId fact : member.against) one["ruled_out"].push_back(reasonAsJson(guide_, fact));
        }
        out["members"].push_back(std::move(one));
      }
    }
    out["contradiction"] = contradiction();
    return out.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
  }

 private:
  static std::string sightings(const Value& value) {
    std::vector<std::string> days;
    for (const Value& one : value.each())
      if (const Value* on = one.find("on"_f)) days.push_back(base::onOneLine(on->text));
    return days.empty() ? "not recorded" : base::joined(days, "; ");
  }

  std::string recorded() const {
    const Value* value = guide_.collection[event_.record].find(event_.field);
    if (value == nullptr) return "nothing";
    if (event_.field == "seen"_f) return sightings(*value);
    return value->said() ? base::onOneLine(value->text)
                         : std::string(value->text.empty() ? "none" : value->text.view());
  }

  // What other sources say instead: "  or 1941, Price List No. 12  (shapes.yaml:14)".
  std::string otherwise() const {
    const records::Record& record = guide_.collection[event_.record];
    const Value* value = record.find(event_.field);
    std::string out;
    if (value == nullptr || value->evidence == nullptr) return out;
    for (const records::Alternative& other : value->evidence->but()) {
      std::vector<std::string> parts;
      if (!other.is.text.empty()) parts.push_back(base::onOneLine(other.is.text));
      for (const records::Citation& citation : other.cite) parts.push_back(citationInWords(guide_, citation));
      out += (other.setAside.empty() ? "  or " : "  not ") + base::joined(parts, ", ");
      if (!other.setAside.empty()) out += ": " + base::onOneLine(other.setAside);
      out += placeInWords(guide_, record.span(other.place)) + '\n';
    }
    return out;
  }

  std::string leftOpen() const {
    const std::vector<FactId> open = chronology_.open(node_);
    if (open.empty()) return {};
    std::string out = "  left open, since these clash with other facts" +
                      std::string(clashes_.empty() ? "" : ", as listed below") + '\n';
    for (std::size_t i = 0; i < std::min(open.size(), kMostListed); ++i)
      out += "    " + reasonInWords(guide_, open[i]) + '\n';
    return out + moreOf(open.size(), "    ");
  }

  // One list for all sets with the same dates: what else ties these is told behind it.
  std::string contradictions() const {
    struct Told {
      std::vector<FactId> dates;
      const Clash* clash;
      std::vector<FactId> otherTies;
    };
    std::vector<Told> all;
    std::map<std::vector<FactId>, std::size_t> known;
    for (const Clash* clash : clashes_) {
      std::vector<FactId> dates = chronology::datesIn(chronology_, *clash);
      const auto [at, isNew] = known.try_emplace(dates, all.size());
      if (isNew) {
        all.push_back({std::move(dates), clash, {}});
        continue;
      }
      Told& told = all[at->second];
      for (const FactId fact : clash->facts)
        if (std::find(told.clash->facts.begin(), told.clash->facts.end(), fact) == told.clash->facts.end() &&
            std::find(told.otherTies.begin(), told.otherTies.end(), fact) == told.otherTies.end())
          told.otherTies.push_back(fact);
    }
    std::string out;
    for (std::size_t i = 0; i < std::min(all.size(), kMostListed); ++i) {
      out += "\nthese cannot all be true\n" + listed(all[i].clash->facts);
      if (!all[i].otherTies.empty()) out += "  what else ties the same dates\n" + listed(all[i].otherTies);
      for (const study::Misreading& one : study::misreadings(guide_.codes, chronology_, *all[i].clash))
        out += "  the eye can take " + inWords(one, chronology_) + ", and then the rest could all be true\n";
    }
    return out + moreOf(all.size(), "\n");
  }

  std::string listed(const std::vector<FactId>& facts) const {
    std::string out;
    for (const FactId fact : facts) out += "    " + reasonInWords(guide_, fact) + '\n';
    return out;
  }

  static std::string moreOf(std::size_t count, const std::string& before) {
    return count > kMostListed ? before + "and " + std::to_string(count - kMostListed) + " more\n"
                               : std::string();
  }

  std::string members(const Choice& choice) const {
    std::string out = "\none of these\n";
    for (const Choice::Member& member : choice.members) {
      out += "  " + dates::describeBounds(member.plain) + (member.struckOut ? ": ruled out\n" : "\n");
      for (const FactId fact : member.against) out += "    " + reasonInWords(guide_, fact) + '\n';
    }
    return out;
  }

  const Guide& guide_;
  const chronology::Chronology& chronology_;
  Event event_;
  Node node_;
  std::vector<const Clash*> clashes_;
};

}  // namespace

int eventDays(const Environment& environment, const EventArguments& arguments) {
  const bool json = arguments.format == "json";
  const auto guide = openGuide(environment, arguments.folder, json);
  if (guide == nullptr) return kCannot;
  std::string error;
  std::string hint;
  const auto event =
      eventNamed(guide->collection, guide->chronology.events(), arguments.events[0], error, hint);
  if (!event) return cannot(environment, json, error, hint);
  const Answer answer(*guide, *event);
  environment.out(json ? answer.asJson() : answer.asText());
  sayFindings(environment, *guide);
  return answer.contradiction() ? kFindings : kFine;
}

}  // namespace saggar::commands
