#include "dates/dates.h"

#include <string>

#include "base/utf8.h"
#include "fuzz.h"

// Date expressions and lengths: one text.
namespace {

using namespace saggar::dates;
using fuzz::demand;

bool isUtf8(std::string_view text) {
  return saggar::base::firstInvalidUtf8(text) == std::string_view::npos;
}

bool notBefore(Day later, Day earlier) {
  return later.isUnknown() || earlier.isUnknown() || later >= earlier;
}

void lookAtError(std::string_view text, const Error& error, const Options& options) {
  demand(!error.message.empty() && isUtf8(error.sentence()), "an error says in words what is wrong");
  demand(error.byte <= text.size() && error.bytes <= text.size() - error.byte,
         "an error points inside the text");
  demand(error.suggestion.empty() || parse(error.suggestion, options), "what is suggested can be read");
}

// inTable promises to be read back, but for dates such as these.
bool hasOddParts(const Expression& expression) {
  for (std::size_t i = 0; i < expression.size(); ++i)
    for (const Date* date : {&expression.piece(i).from, &expression.piece(i).last()})
      if (date->isMasked() || date->significant > 0 || date->hasTime || !date->isEvenlyQualified())
        return true;
  return false;
}

void lookAt(const Expression& expression, const Options& options) {
  const Bounds plain = expression.plain(options);
  const Bounds wide = expression.wide(options);
  demand(notBefore(plain.latest, plain.earliest), "the earliest day is not after the latest");
  demand(notBefore(plain.earliest, wide.earliest) && notBefore(wide.latest, plain.latest),
         "wide bounds are no narrower than plain ones");
  demand(plain.earliest.isUnknown() == wide.earliest.isUnknown() &&
             plain.latest.isUnknown() == wide.latest.isUnknown(),
         "what is unknown plainly is unknown widely");
  for (const Reading reading : {Reading::Plain, Reading::Wide}) {
    const Bounds moment = momentDays(expression, reading, options);
    demand(moment.earliest <= moment.latest, "a moment's earliest day is not after its latest");
    const SpanDays span = spanDays(expression, reading, options);
    demand(span.begin.earliest <= span.end.latest, "a span does not end before it begins");
    for (const Bounds& member : expression.memberBounds(reading, options))
      demand(notBefore(member.latest, member.earliest), "a member's earliest day is not after its latest");
  }
  const std::string written = canonical(expression);
  const Result again = parse(written, options);
  demand(static_cast<bool>(again), "the canonical form can be read");
  demand(again->plain(options) == plain && again->wide(options) == wide,
         "the canonical form has the same days");
  demand(again->size() == expression.size() && again->isAllOf() == expression.isAllOf(),
         "the canonical form has the same members");
  for (const End end : {End::Earliest, End::Latest})
    demand(again->isDoubted(end) == expression.isDoubted(end), "the canonical form has the same doubts");
  demand(canonical(*again) == written, "the canonical form of the canonical form is itself");
  for (const std::string& words : {inTable(expression), inWords(expression), happened(expression),
                                   lasted(expression), describeBounds(plain), describeBounds(wide)})
    demand(!words.empty() && isUtf8(words), "every date can be said in words");
  if (hasOddParts(expression)) return;
  const Result printed = parse(inTable(expression), options);
  demand(printed && printed->plain(options) == plain, "what a table prints is read with the same days");
}

void lookAtLength(std::string_view text) {
  const LengthResult read = parseLength(text);
  demand(read.length.has_value() == read.error.empty() && read.at <= text.size(),
         "a length, or an error in the text");
  if (!read.length) return;
  demand(read.length->fewestDays() <= read.length->mostDays(), "the fewest days are not more than the most");
  demand(read.length->inWords() != "", "a length can be said in words");
  demand(parseLength(read.length->toString()).length == read.length, "a length as typed is read as itself");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzz::textOf(data, size);
  for (const Hemisphere hemisphere : {Hemisphere::North, Hemisphere::South}) {
    Options options;
    options.hemisphere = hemisphere;
    const Result result = parse(text, options);
    if (result) {
      lookAt(*result, options);
      if (const auto two = meantInTwoWays(text))
        demand(two->byte + two->bytes <= text.size() && !two->hint.empty(),
               "what can be meant in two ways stands in the text");
    } else {
      lookAtError(text, result.error(), options);
    }
    demand(isUtf8(readLine(text, options)), "the line of JSON is UTF-8");
  }
  if (const Result strict = parseEdtf(text)) {
    const Result either = parse(text);
    demand(either && either->wide() == strict->wide(), "EDTF means the same among words");
  }
  lookAtLength(text);
  return 0;
}
