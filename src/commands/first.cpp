#include <algorithm>

#include "chronology/precedence.h"
#include "commands/command.h"
#include "commands/reason_output.h"
#include "commands/resolve_event.h"
#include "dates/print.h"

// `saggar first EVENT EVENT`: which came first, whether that is proven, why, and what would settle it.
namespace saggar::commands {

using chronology::BoundsOf;
using chronology::Event;
using chronology::FactId;
using chronology::Node;
using chronology::Precedence;
using chronology::Settling;
using chronology::WhichFirst;
using dates::End;
using Json = nlohmann::ordered_json;

namespace {

std::string_view word(WhichFirst which) {
  constexpr std::string_view kWords[] = {"first", "second", "same-day", "undecided", "contradiction"};
  return kWords[static_cast<std::size_t>(which)];
}

class Answer {
 public:
  Answer(const Guide& guide, const Event& first, const Event& second)
      : guide_(guide),
        events_(guide.chronology.events()),
        first_(first),
        second_(second),
        found_(chronology::Precedences(guide.chronology).of(events_.nodeOf(first), events_.nodeOf(second))) {}

  bool contradiction() const { return found_.answer == WhichFirst::contradiction; }

  std::string asText() const {
    std::string out = sentence() + '\n';
    if (!found_.because.empty()) out += "\nbecause\n";
    const bool proven = found_.answer != WhichFirst::undecided && !contradiction();
    for (const FactId fact : found_.because)
      out += "    " + (proven ? stepInWords : reasonInWords)(guide_, fact) + '\n';
    if (const std::vector<FactId>* why = orderKnown()) {
      out += '\n' + noLater() + "; that is proven\n";
      for (const FactId fact : *why) out += "    " + stepInWords(guide_, fact) + '\n';
    }
    for (const Event* event : {&first_, &second_})
      out += '\n' + events_.text(*event) + ", proven\n" +
             boundsInWords(guide_, events_.nodeOf(*event), BoundsOf::proven);
    if (!found_.settle.empty()) out += "\nwhat would settle it\n";
    for (const Settling& one : found_.settle)
      out += "  evidence that " + what(one.first ? first_ : second_) +
             (one.bound == End::Latest ? " by " : " not before ") + dates::describeDay(one.day) + ": then " +
             called(one.thenFirst ? first_ : second_) + " was first\n";
    return out;
  }

  std::string asJson() const {
    Json out{{"answer", word(found_.answer)},
             {"proven", found_.answer != WhichFirst::undecided && !contradiction()},
             {"likely_answer", word(found_.likely)}};
    for (const Event* event : {&first_, &second_})
      out[event == &first_ ? "first" : "second"] =
          Json{{"event", events_.text(*event)},
               {"proven", boundsAsJson(guide_, events_.nodeOf(*event), BoundsOf::proven)}};
    out["because"] = Json::array();
    for (const FactId fact : found_.because) out["because"].push_back(reasonAsJson(guide_, fact));
    if (const std::vector<FactId>* why = orderKnown())
      for (const FactId fact : *why)
        if (std::find(found_.because.begin(), found_.because.end(), fact) == found_.because.end())
          out["because"].push_back(reasonAsJson(guide_, fact));
    out["settle"] = Json::array();
    for (const Settling& one : found_.settle)
      out["settle"].push_back(Json{{"event", events_.text(one.first ? first_ : second_)},
                                   {"bound", one.bound == End::Latest ? "latest" : "earliest"},
                                   {"day", dayAsJson(one.day)},
                                   {"then", one.thenFirst ? "first" : "second"}});
    return out.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
  }

 private:
  std::string called(const Event& event) const { return guide_.reasons->called(event.record); }
  std::string what(const Event& event) const {
    return called(event) + ' ' +
           chronology::Reasons::happened(guide_.collection[event.record].kind, event.field, event.end);
  }

  // Why one of the two is proven not to be before the other, where that is all that is known of their order.
  const std::vector<FactId>* orderKnown() const {
    if (found_.answer != WhichFirst::undecided) return nullptr;
    return found_.notFirst ? &found_.whyNotFirst : found_.notSecond ? &found_.whyNotSecond : nullptr;
  }

  // "Plain Linnavere was introduced no later than Harbour Lantern".
  std::string noLater() const {
    const Event& early = found_.notFirst ? second_ : first_;
    const Event& late = found_.notFirst ? first_ : second_;
    const bool alike = early.field == late.field && early.end == late.end;
    return what(early) + " no later than " + (alike ? called(late) : what(late));
  }

  std::string sentence() const {
    const std::string a = what(first_);
    const std::string b = what(second_);
    switch (found_.answer) {
      case WhichFirst::first: return a + " before " + b + "; that is proven";
      case WhichFirst::second: return b + " before " + a + "; that is proven";
      case WhichFirst::sameDay: return a + " on the day that " + b;
      case WhichFirst::contradiction: return "what is on record of the two cannot all be true";
      case WhichFirst::undecided: break;
    }
    std::string out = "undecided: whether " + called(first_) + " or " + called(second_) + " was first";
    if (found_.likely == WhichFirst::first) out += "; likely it was " + called(first_);
    if (found_.likely == WhichFirst::second) out += "; likely it was " + called(second_);
    return out;
  }

  const Guide& guide_;
  const chronology::Events& events_;
  Event first_, second_;
  Precedence found_;
};

}  // namespace

int first(const Environment& environment, const EventArguments& arguments) {
  const bool json = arguments.format == "json";
  const auto guide = openGuide(environment, arguments.folder, json);
  if (guide == nullptr) return kCannot;
  std::string error;
  std::string hint;
  std::vector<Event> events;
  for (const std::string& typed : arguments.events) {
    const auto event = eventNamed(guide->collection, guide->chronology.events(), typed, error, hint);
    if (!event) return cannot(environment, json, error, hint);
    events.push_back(*event);
  }
  const Answer answer(*guide, events[0], events[1]);
  environment.out(json ? answer.asJson() : answer.asText());
  sayFindings(environment, *guide);
  return answer.contradiction() ? kFindings : kFine;
}

}  // namespace saggar::commands
