// Why a text does not fit a rule.
//
// The problem: a text that does not fit can fail in many places, one for each way of dividing it; an author
// wants the one place where the eye sees it. The choice: the division that gets through most of the rule,
// then the one that gets furthest into the part that fails, then the one that leaves least to parts which
// take any text; where too many digits stand, the part that they belong to is blamed, not the sign that was
// expected after it. The cost: with a rule that begins with any text (a path) it is a guess, though a good
// one.
#include <fmt/format.h>

#include <algorithm>

#include "codes/rule_impl.h"

namespace saggar::codes {
namespace {

constexpr std::size_t kNowhere = static_cast<std::size_t>(-1);
constexpr std::size_t kMostQuoted = 20;

struct Failure {
  std::size_t element = 0;
  std::size_t at = 0;
  std::size_t begun = 0;  // signs of the element that fit
};

std::string quoted(std::string_view text, std::span<const Sign> signs) {
  if (signs.empty()) return {};
  const bool cut = signs.size() > kMostQuoted;
  const std::size_t end = signs[std::min(signs.size(), kMostQuoted) - 1].end;
  return fmt::format("\"{}{}\"", text.substr(signs[0].begin, end - signs[0].begin), cut ? "..." : "");
}

bool countsSigns(const PartMatcher& part) {
  return part.spec &&
         (std::holds_alternative<DigitsPart>(*part.spec) || std::holds_alternative<RangePart>(*part.spec) ||
          std::holds_alternative<YearPart>(*part.spec) || std::holds_alternative<UnitPart>(*part.spec));
}

bool isPlural(const PartMatcher& part) {
  if (const auto* digits = std::get_if<DigitsPart>(&*part.spec)) return digits->counts.most() > 1;
  if (const auto* letters = std::get_if<LettersPart>(&*part.spec)) return letters->counts.most() > 1;
  if (const auto* path = std::get_if<PathPart>(&*part.spec)) return path->last > 1;
  return false;
}

class Explainer {
 public:
  Explainer(const Rule::Impl& rule, std::string_view text, std::span<const Sign> signs)
      : rule_(rule), form_(rule.whole), text_(text), signs_(signs), fit_(rule, rule.whole, signs) {}

  Explanation explain() {
    reach();
    Failure failure = furthest();
    if (const auto earlier = partWithTooManyDigits(failure)) failure = *earlier;
    Explanation told;
    told.progress = progress(failure);
    const std::size_t wrong = std::min(failure.at + (isCounted(failure) ? 0 : failure.begun), signs_.size());
    told.offset = wrong < signs_.size() ? signs_[wrong].begin : signs_.empty() ? 0 : signs_.back().end;
    if (failure.element < form_.size() && form_[failure.element].kind == WrittenPiece::Kind::part) {
      told.part = rule_.parts[form_[failure.element].part].name;
    }
    told.message = message(failure);
    return told;
  }

 private:
  // A place that some division of the text leads to: where the last element began, and how many signs went to
  // parts that take any text (of several ways there the one with the fewest).
  struct Way {
    std::size_t from = kNowhere;
    std::size_t swallowed = 0;
  };

  Way& way(std::size_t element, std::size_t at) { return ways_[element * (signs_.size() + 1) + at]; }

  void reach() {
    ways_.assign((form_.size() + 1) * (signs_.size() + 1), Way{});
    way(0, 0).from = 0;
    std::vector<std::size_t> after;
    for (std::size_t element = 0; element < form_.size(); ++element) {
      for (std::size_t at = 0; at <= signs_.size(); ++at) {
        if (way(element, at).from == kNowhere) continue;
        after.clear();
        fit_.ends(element, at, after);
        for (const std::size_t end : after) {
          const Way here{at, way(element, at).swallowed + (takesAnyText(element) ? end - at : 0)};
          Way& known = way(element + 1, end);
          if (known.from == kNowhere || here.swallowed < known.swallowed) known = here;
        }
      }
    }
  }

  // Of the signs, the share that was recognised; what of the rule was got through decides between equal ones.
  double progress(const Failure& failure) {
    const double recognised =
        static_cast<double>(failure.at - way(failure.element, failure.at).swallowed + failure.begun);
    return 0.9 * recognised / static_cast<double>(signs_.size()) +
           0.08 * static_cast<double>(failure.element) / static_cast<double>(form_.size() + 1);
  }

  std::size_t begun(std::size_t element, std::size_t at) const {
    if (element == form_.size()) return 0;
    const Element& wanted = form_[element];
    if (wanted.kind == WrittenPiece::Kind::part) return rule_.parts[wanted.part].begun(signs_, at);
    std::size_t n = 0;
    while (n < wanted.text.size() && at + n < signs_.size() && fits(signs_[at + n], wanted.text[n])) ++n;
    return n;
  }

  Failure furthest() {
    Failure best;
    for (std::size_t element = form_.size() + 1; element-- > 0;) {
      bool found = false;
      std::size_t least = 0;
      const bool ignore = element == 0 || takesAnyText(element - 1);
      for (std::size_t at = 0; at <= signs_.size(); ++at) {
        if (way(element, at).from == kNowhere) continue;
        const Failure here{element, at, begun(element, at)};
        const std::size_t swallowed = ignore ? 0 : way(element, at).swallowed;
        if (found && (here.begun < best.begun || (here.begun == best.begun && swallowed > least))) continue;
        best = here;
        least = swallowed;
        found = true;
      }
      if (found) return best;
    }
    return best;
  }

  bool takesAnyText(std::size_t element) const {
    if (form_[element].kind != WrittenPiece::Kind::part) return false;
    const auto& spec = rule_.parts[form_[element].part].spec;
    return !spec || (std::holds_alternative<PathPart>(*spec) && std::get<PathPart>(*spec).last == 0);
  }

  bool isCounted(const Failure& failure) const {
    return failure.element < form_.size() && form_[failure.element].kind == WrittenPiece::Kind::part &&
           countsSigns(rule_.parts[form_[failure.element].part]);
  }

  // A digit stands where fixed text or the end is wanted, right after a part made of digits.
  std::optional<Failure> partWithTooManyDigits(const Failure& failure) {
    if (failure.at >= signs_.size() || !isDigitSign(signs_[failure.at]) || failure.begun > 0)
      return std::nullopt;
    if (failure.element < form_.size() && form_[failure.element].kind == WrittenPiece::Kind::part)
      return std::nullopt;
    std::size_t element = failure.element;
    std::size_t at = failure.at;
    while (element > 0) {
      const std::size_t before = way(element, at).from;
      --element;
      if (form_[element].kind == WrittenPiece::Kind::join && before == at) continue;
      if (form_[element].kind != WrittenPiece::Kind::part || !countsSigns(rule_.parts[form_[element].part]))
        break;
      return Failure{element, before, begun(element, before)};
    }
    return std::nullopt;
  }

  // What stands there: a run of letters and digits, or the one sign.
  std::string found(std::size_t at) const {
    const auto plain = [](const Sign& s) {
      return isDigitSign(s) || isLetterSign(s) || s.folded == kAnySign;
    };
    std::size_t n = 1;
    while (plain(signs_[at]) && at + n < signs_.size() && plain(signs_[at + n])) ++n;
    return signs_[at].folded == U' ' ? "a blank" : quoted(text_, signs_.subspan(at, n));
  }

  std::string message(const Failure& failure) const {
    const std::string where = failure.at == 0 ? std::string() : "after " + beforeText(failure.at) + " ";
    if (failure.element == form_.size()) {
      return fmt::format("{}the code is at its end, here follows {}", where, found(failure.at));
    }
    const Element& element = form_[failure.element];
    const bool ended = failure.at + failure.begun >= signs_.size();
    if (element.kind != WrittenPiece::Kind::part) {
      const std::string here = ended ? "the code ends there" : "here is " + found(failure.at + failure.begun);
      return fmt::format("{}\"{}\" is wanted, {}", where, element.typed, here);
    }
    const PartMatcher& part = rule_.parts[element.part];
    const std::string what = part.spec ? wanted(*part.spec) : std::string("a text");
    const bool plural = part.spec && isPlural(part);
    return fmt::format("{}{} {} wanted ({}), {}", where, what, plural ? "are" : "is", part.name,
                       seen(part, failure.at));
  }

  std::string seen(const PartMatcher& part, std::size_t at) const {
    if (at >= signs_.size()) return "the code ends there";
    std::size_t digits = 0;
    while (at + digits < signs_.size() &&
           (isDigitSign(signs_[at + digits]) || signs_[at + digits].folded == kAnySign)) {
      ++digits;
    }
    const bool counted = part.spec && std::holds_alternative<DigitsPart>(*part.spec);
    if (countsSigns(part) && digits > 0) {
      const std::string text = quoted(text_, signs_.subspan(at, digits));
      if (!counted) return "here is " + text;
      return fmt::format("here {} {}: {}", digits == 1 ? "is" : "are",
                         numberWord(static_cast<std::int64_t>(digits)), text);
    }
    return "here is " + found(at);
  }

  std::string beforeText(std::size_t at) const {
    const std::size_t shown = std::min(at, kMostQuoted);
    const std::size_t begin = signs_[at - shown].begin;
    return fmt::format("\"{}{}\"", shown < at ? "..." : "", text_.substr(begin, signs_[at - 1].end - begin));
  }

  const Rule::Impl& rule_;
  const Form& form_;
  std::string_view text_;
  std::span<const Sign> signs_;
  Fit fit_;
  std::vector<Way> ways_;
};

// Under a pattern only a part can be blamed, and only if the pattern fits.
Explanation explainPattern(const Rule::Impl& rule, std::string_view text, std::span<const Sign> signs) {
  Explanation told;
  std::vector<Pattern::Group> groups;
  if (!rule.pattern->match(signs, groups)) {
    told.message =
        fmt::format("{} does not have the form that the pattern of this rule wants", quoted(text, signs));
    return told;
  }
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const std::span<const Sign> here = signs.subspan(groups[i].from, groups[i].to - groups[i].from);
    if (!groups[i].taken || rule.parts[i].fitsAll(here)) continue;
    told.progress = 0.9;
    told.offset = here.front().begin;
    told.part = rule.parts[i].name;
    told.message = fmt::format("{} {} wanted ({}), here is {}", wanted(*rule.parts[i].spec),
                               isPlural(rule.parts[i]) ? "are" : "is", told.part, quoted(text, here));
    return told;
  }
  return told;
}

}  // namespace

Explanation Rule::explain(std::string_view text) const {
  constexpr double kAllButTheDate = 0.99;
  const std::vector<Sign> signs = toSigns(text, Questions::anySign);
  Explanation told;
  if (const auto reason = unfit(signs)) {
    told.message = *reason;
    return told;
  }
  if (const auto unlike = impl_->unlike.find(foldedKey(text)); unlike != impl_->unlike.end()) {
    told.progress = 1;
    told.message = fmt::format("{} is none of these codes: {}", quoted(text, signs), unlike->second);
    return told;
  }
  Gatherer gatherer(*impl_, text, signs, 1);
  if (impl_->pattern) {
    gatherer.gatherPattern();
  } else {
    gatherer.gather(impl_->whole);
  }
  const Readings readings = gatherer.take();
  if (!readings.all.empty()) {
    told.fits = true;
    told.progress = 1;
    return told;
  }
  if (readings.more) {
    told.message = fmt::format("{} can be read in too many ways to try them all", quoted(text, signs));
    return told;
  }
  if (!gatherer.noDay().empty()) {
    told.progress = kAllButTheDate;
    told.offset = signs[gatherer.noDayAt()].begin;
    told.part = gatherer.noDayPart();
    told.message = gatherer.noDay();
    return told;
  }
  return impl_->pattern ? explainPattern(*impl_, text, signs) : Explainer(*impl_, text, signs).explain();
}

Explanation furthest(const std::vector<const Rule*>& rules, std::string_view text, const Rule** which) {
  Explanation best;
  bool any = false;
  for (const Rule* rule : rules) {
    Explanation told = rule->explain(text);
    if (any && told.progress <= best.progress) continue;
    best = std::move(told);
    any = true;
    if (which != nullptr) *which = rule;
  }
  return best;
}

}  // namespace saggar::codes
