#include "base/text.h"
#include "commands/command.h"
#include "commands/reason_output.h"
#include "commands/resolve_event.h"
#include "dates/print.h"

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
    out += "recorded: " + recorded() + "\n\nproven\n" + boundsInWords(guide_, node_, BoundsOf::proven);
    if (const auto open = chronology_.open(node_); !open.empty()) {
      out += "  left open, since these cannot all be true:\n";
      for (const FactId fact : open) out += "    " + reasonInWords(guide_, fact) + '\n';
    }
    out += "\nlikely\n" + boundsInWords(guide_, node_, BoundsOf::likely);
    if (const Choice* choice = chronology_.choiceOf(node_)) out += members(*choice);
    for (const Clash* clash : clashes_) {
      out += "\nthese cannot all be true\n";
      for (const FactId fact : clash->facts) out += "    " + reasonInWords(guide_, fact) + '\n';
    }
    return out;
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
    if (value == nullptr) return "not recorded";
    if (event_.field == "seen"_f) return sightings(*value);
    return value->said() ? base::onOneLine(value->text)
                         : std::string(value->text.empty() ? "none" : value->text.view());
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
