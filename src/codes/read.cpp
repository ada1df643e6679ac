#include <fmt/format.h>

#include <algorithm>

#include "base/utf8.h"
#include "codes/rule_impl.h"

namespace saggar::codes {
namespace {

// A combination of parts is a step. Sensible codes take a few dozen.
constexpr std::size_t kMostSteps = 100'000;
constexpr std::size_t kMostChoices = 20'000;
constexpr char kBetweenSeries = '\x1f';

std::string foldedText(std::span<const Sign> signs) {
  std::string text;
  for (const Sign& sign : signs) base::appendUtf8(text, sign.folded == kAnySign ? U'?' : sign.folded);
  return text;
}

std::string_view typedText(std::string_view text, std::span<const Sign> signs) {
  return signs.empty() ? std::string_view()
                       : text.substr(signs.front().begin, signs.back().end - signs.front().begin);
}

std::optional<std::int64_t> numberOf(std::span<const Sign> signs) {
  constexpr std::size_t kMostDigits = 18;
  if (signs.empty() || signs.size() > kMostDigits) return std::nullopt;
  std::int64_t number = 0;
  for (const Sign& sign : signs) {
    if (!isDigitSign(sign)) return std::nullopt;
    number = number * 10 + static_cast<std::int64_t>(sign.folded - U'0');
  }
  return number;
}

}  // namespace

bool PathNeed::metBy(std::string_view value) const {
  if (last == 0) return sameText(text, value);
  const std::vector<Sign> signs = toSigns(value, Questions::literal);
  const auto need = static_cast<std::size_t>(last);
  if (signs.size() < need) return false;
  return sameText(text, value.substr(signs[signs.size() - need].begin));
}

const PartReading* Reading::part(std::string_view name) const {
  const auto found =
      std::find_if(parts.begin(), parts.end(), [&](const PartReading& p) { return p.name == name; });
  return found == parts.end() ? nullptr : &*found;
}

std::optional<std::string> unfit(std::span<const Sign> signs) {
  if (signs.empty()) return "nothing is written there";
  if (signs.size() > kLongestCode) {
    return fmt::format("a text of {} signs is no code: {} are the most", signs.size(), kLongestCode);
  }
  for (const Sign& sign : signs) {
    if (sign.folded == kBrokenSign) return "the text has bytes that are not UTF-8";
  }
  return std::nullopt;
}

Fit::Fit(const Rule::Impl& rule, const Form& form, std::span<const Sign> signs)
    : rule_(rule), form_(form), signs_(signs), answers_(form.size() * (signs.size() + 1), Answer::unasked) {}

void Fit::ends(std::size_t element, std::size_t at, std::vector<std::size_t>& out) const {
  const Element& wanted = form_[element];
  switch (wanted.kind) {
    case WrittenPiece::Kind::join:
      out.push_back(at < signs_.size() && signs_[at].folded == U' ' ? at + 1 : at);
      break;
    case WrittenPiece::Kind::text: {
      std::size_t n = 0;
      while (n < wanted.text.size() && at + n < signs_.size() && codes::fits(signs_[at + n], wanted.text[n]))
        ++n;
      if (n == wanted.text.size()) out.push_back(at + n);
      break;
    }
    case WrittenPiece::Kind::part: rule_.parts[wanted.part].ends(signs_, at, out); break;
  }
}

bool Fit::fits(std::size_t element, std::size_t at) {
  if (element == form_.size()) return at == signs_.size();
  const std::size_t key = element * (signs_.size() + 1) + at;
  if (answers_[key] == Answer::unasked) {
    const std::size_t base = stack_.size();
    ends(element, at, stack_);
    bool any = false;
    for (std::size_t i = base; i < stack_.size() && !any; ++i) any = fits(element + 1, stack_[i]);
    stack_.resize(base);
    answers_[key] = any ? Answer::yes : Answer::no;
  }
  return answers_[key] == Answer::yes;
}

template <class Next>
void Gatherer::choose(std::size_t part, std::size_t from, std::size_t to, const DateChoice& date, Next next) {
  const PartMatcher& matcher = rule_.parts[part];
  bool more = false;
  const std::vector<Choice> all = choices(matcher, signs_.subspan(from, to - from), kMostChoices, more);
  for (const Choice& choice : all) {
    if (full()) return;
    if (++work_ > kMostSteps) {
      found_.more = true;
      return;
    }
    DateChoice sum = date;
    if (!choice.date.empty()) {
      const std::optional<DateChoice> both = together(date, choice.date);
      const bool possible = both && daysOf(*both);
      if (!possible) {
        noDay_ = both ? whyNoDay(*both)
                      : fmt::format("{} and {} do not go together", inWords(date), inWords(choice.date));
        noDayAt_ = from;
        noDayPart_ = matcher.name;
        continue;
      }
      sum = *both;
    }
    steps_.push_back({part, from, to, choice});
    next(sum);
    steps_.pop_back();
  }
  found_.more = found_.more || more;
}

void Gatherer::walk(const Form& form, Fit& fit, std::size_t element, std::size_t at, const DateChoice& date) {
  if (element == form.size()) {
    finish(date);
    return;
  }
  const std::size_t base = ends_.size();
  fit.ends(element, at, ends_);
  for (std::size_t i = base; i < ends_.size() && !full(); ++i) {
    const std::size_t end = ends_[i];
    if (!fit.fits(element + 1, end)) continue;
    if (form[element].kind == WrittenPiece::Kind::part) {
      choose(form[element].part, at, end, date,
             [&](const DateChoice& sum) { walk(form, fit, element + 1, end, sum); });
    } else {
      walk(form, fit, element + 1, end, date);
    }
  }
  ends_.resize(base);
}

void Gatherer::gather(const Form& form) {
  form_ = &form;
  Fit fit(rule_, form, signs_);
  if (fit.fits(0, 0)) walk(form, fit, 0, 0, DateChoice{});
  if (found_.all.size() > most_) {
    found_.all.resize(most_);
    found_.more = true;
  }
}

void Gatherer::gatherPattern() {
  std::vector<Pattern::Group> groups;
  if (!rule_.pattern->match(signs_, groups)) return;
  std::vector<Placed> placed(rule_.parts.size());
  for (std::size_t i = 0; i < groups.size(); ++i) {
    const std::span<const Sign> signs = signs_.subspan(groups[i].from, groups[i].to - groups[i].from);
    if (groups[i].taken && !rule_.parts[i].fitsAll(signs)) return;
    placed[i] = {groups[i].from, groups[i].to, groups[i].taken};
  }
  walkGroups(placed, 0, DateChoice{});
  if (found_.all.size() > most_) {
    found_.all.resize(most_);
    found_.more = true;
  }
}

void Gatherer::walkGroups(const std::vector<Placed>& groups, std::size_t next, const DateChoice& date) {
  while (next < groups.size() && !groups[next].placed) ++next;
  if (next == groups.size()) {
    finish(date);
    return;
  }
  choose(next, groups[next].from, groups[next].to, date,
         [&](const DateChoice& sum) { walkGroups(groups, next + 1, sum); });
}

void Gatherer::finish(const DateChoice& date) {
  Reading reading;
  std::vector<Placed> placed(rule_.parts.size());
  for (const Step& step : steps_) {
    const PartMatcher& part = rule_.parts[step.part];
    const std::span<const Sign> signs = signs_.subspan(step.from, step.to - step.from);
    placed[step.part] = {step.from, step.to, true};
    const std::size_t at = reading.parts.size();
    reading.parts.push_back({part.name, std::string(typedText(text_, signs)), signs.front().begin,
                             meaning(part, step.choice), step.choice.row});
    if (!part.spec) continue;
    if (const auto* path = std::get_if<PathPart>(&*part.spec)) {
      reading.paths.push_back({at, path->paths, reading.parts[at].text, path->last});
    } else if (const auto* table = std::get_if<TablePart>(&*part.spec); table && step.choice.row) {
      for (const LookNeed& need : table->rows[*step.choice.row].look) reading.look.push_back({at, &need});
    }
  }
  reading.date = date;
  if (date.year) reading.when = daysOf(date);
  const auto keyOf = [&](const Form& form) {
    std::string key;
    for (const Element& element : form) {
      if (element.kind == WrittenPiece::Kind::text) {
        for (const char32_t sign : element.text) base::appendUtf8(key, sign);
      } else if (element.kind == WrittenPiece::Kind::part) {
        const Placed& place = placed[element.part];
        if (!place.placed) return std::string();
        key += foldedText(signs_.subspan(place.from, place.to - place.from));
      }
    }
    return key;
  };
  reading.key = form_ != nullptr ? keyOf(*form_) : foldedText(signs_);
  if (rule_.alone) reading.alone = keyOf(*rule_.alone);
  if (rule_.counts && placed[*rule_.counts].placed) {
    const Placed& place = placed[*rule_.counts];
    const auto number = numberOf(signs_.subspan(place.from, place.to - place.from));
    CodeNumber code{{}, number.value_or(0)};
    bool known = number.has_value();
    for (const std::size_t part : rule_.within) {
      if (!code.series.empty()) code.series += kBetweenSeries;
      const std::string text =
          foldedText(signs_.subspan(placed[part].from, placed[part].to - placed[part].from));
      known = known && placed[part].placed && text.find('?') == std::string::npos;
      code.series += text;
    }
    if (known) reading.number = std::move(code);
  }
  found_.all.push_back(std::move(reading));
}

Readings Rule::read(std::string_view text, std::size_t most) const {
  const std::vector<Sign> signs = toSigns(text, Questions::anySign);
  if (unfit(signs)) return {};
  if (!impl_->unlike.empty()) {
    if (const auto found = impl_->unlike.find(foldedKey(text)); found != impl_->unlike.end()) {
      return {{}, false, found->second};
    }
  }
  Gatherer gatherer(*impl_, text, signs, most);
  if (impl_->pattern) {
    gatherer.gatherPattern();
  } else {
    gatherer.gather(impl_->whole);
  }
  return gatherer.take();
}

Readings Rule::readAlone(std::string_view text, std::size_t most) const {
  const std::vector<Sign> signs = toSigns(text, Questions::anySign);
  if (!impl_->alone || unfit(signs)) return {};
  Gatherer gatherer(*impl_, text, signs, most);
  gatherer.gather(*impl_->alone);
  return gatherer.take();
}

}  // namespace saggar::codes
