#include "base/text.h"
#include "checks/rules.h"
#include "talks/timing.h"

namespace saggar::checks {

using records::Record;
using records::RecordIndex;

void talkTimes(const Context& context, diagnostics::Findings& findings) {
  for (RecordIndex index : context.collection.ofKind(records::Kind::talk)) {
    const Record& talk = context.collection[index];
    const records::Entry* budget = talk.entry("budget"_f);
    if (talk.broken || budget == nullptr || budget->value.type != records::ValueType::number) continue;
    const talks::TalkTimes times = talks::timesOf(context.collection, index);
    if (times.segments.empty()) continue;
    const std::int64_t planned = budget->value.number();
    diagnostics::Finding finding{.rule = "talk-sum"_rule,
                                 .span = talk.span(budget->value.place),
                                 .message = {},
                                 .record = talk.reference(),
                                 .field = "budget"};
    if (times.allGiven && times.total != planned) {
      finding.message = "the segments of `" + std::string(talk.id) + "` add up to " +
                        talks::asClock(times.total) + ", the budget is " + talks::asClock(planned);
      finding.hint = times.total > planned ? "shorten a segment by " + talks::asClock(times.total - planned) +
                                                 ", or raise the budget"
                                           : "there are " + talks::asClock(planned - times.total) +
                                                 " to spare: give them to a segment, or lower the budget";
    } else if (!times.allGiven && times.total > planned) {
      finding.rule = "talk-over-budget"_rule;
      finding.message = "given and estimated times of `" + std::string(talk.id) + "` come to " +
                        talks::asClock(times.total) + ", the budget is " + talks::asClock(planned);
      finding.hint = "shorten what is said, or drop a segment that is `keep: may`; estimates take " +
                     std::to_string(times.pace) + " words a minute and " +
                     std::to_string(talks::kSecondsAPiece) + " seconds a piece";
    } else {
      continue;
    }
    for (const talks::SegmentTime& segment : times.segments) {
      const records::Value* title = segment.segment->find("title"_f);
      finding.related.push_back(
          {talk.span(title == nullptr ? segment.segment->place : title->place),
           (title == nullptr ? std::string("a segment") : '`' + base::shortened(title->text, 60) + '`') +
               " takes " + talks::asClock(segment.length) + (segment.given ? "" : " (estimated)")});
    }
    findings.add(std::move(finding));
  }
}

}  // namespace saggar::checks
