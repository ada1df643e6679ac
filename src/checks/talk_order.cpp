#include "base/edit_distance.h"
#include "base/text.h"
#include "checks/rules.h"
#include "talks/order.h"

// A segment that names another in `after` and does not come after it.
namespace saggar::checks {

using records::Record;
using records::RecordIndex;
using records::Value;

namespace {

std::string titleOf(const talks::SegmentTime& segment) {
  const Value* title = segment.segment->find("title"_f);
  return title == nullptr || !title->said() ? "without a title" : base::shortened(title->text, 60);
}

source::Span placeOf(const Record& talk, const talks::SegmentTime& segment) {
  const Value* title = segment.segment->find("title"_f);
  return talk.span(title == nullptr ? segment.segment->place : title->place);
}

std::string hintFor(const talks::TalkTimes& times, const talks::OrderFault& fault) {
  std::vector<std::string_view> titles;
  for (const talks::SegmentTime& segment : times.segments)
    if (const Value* title = segment.segment->find("title"_f); title != nullptr && title->said())
      titles.push_back(title->text);
  const auto near = base::nearest(fault.after->text, titles);
  return near ? "did you mean `" + base::shortened(*near, 60) + "`?"
              : "name a segment of this talk by its title, letter for letter";
}

}  // namespace

void talkOrder(const Context& context, diagnostics::Findings& findings) {
  for (RecordIndex index : context.collection.ofKind(records::Kind::talk)) {
    const Record& talk = context.collection[index];
    if (talk.broken) continue;
    const talks::TalkTimes times = talks::timesOf(context.collection, index);
    for (const talks::OrderFault& fault : talks::orderFaults(times)) {
      const std::string own = '`' + titleOf(times.segments[fault.segment]) + '`';
      const std::string named = '`' + base::shortened(fault.after->text, 60) + '`';
      diagnostics::Finding finding{.rule = "talk-order"_rule,
                                   .span = talk.span(fault.after->place),
                                   .message = {},
                                   .record = talk.reference(),
                                   .field = "segments"};
      if (!fault.stands) {
        finding.message =
            "the segment " + own + " is to come after " + named + ", and no segment has that title";
        finding.hint = hintFor(times, fault);
      } else if (*fault.stands == fault.segment) {
        finding.message = "the segment " + own + " is to come after itself";
        finding.hint = "take it out of its own `after`";
      } else {
        finding.message = "the segment " + own + " is to come after " + named + ", which comes only at " +
                          talks::asClock(times.segments[*fault.stands].start);
        finding.hint = "move one of the two, or take this out of `after` if the order does not matter";
        finding.related.push_back({placeOf(talk, times.segments[*fault.stands]), "it stands here"});
      }
      findings.add(std::move(finding));
    }
  }
}

}  // namespace saggar::checks
