#include "codes/rule.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "codes/rule_impl.h"

namespace saggar::codes {
namespace {

constexpr std::size_t kMostParts = 60;
constexpr std::size_t kMostRows = 20'000;
constexpr std::size_t kMostGroups = 100;

bool allWithin(const std::vector<int>& values, int low, int high) {
  return std::all_of(values.begin(), values.end(), [&](int v) { return v >= low && v <= high; });
}

struct Check {
  const std::string& name;
  std::vector<Problem>& problems;

  void fault(std::string message, std::string hint) const {
    problems.push_back({"parts", name, std::move(message), std::move(hint)});
  }

  void counts(const Counts& c) const {
    if (c.least() < 1 || c.most() > kMostSigns) {
      fault(fmt::format("`{}` does not say how many signs it has", name),
            fmt::format("from 1 to {}: `2 digits`, `2 or 3 digits`", kMostSigns));
    }
  }
  void operator()(const DigitsPart& p) const { counts(p.counts); }
  void operator()(const LettersPart& p) const { counts(p.counts); }
  void operator()(const RangePart& p) const {
    if (p.low < 0 || p.high < p.low || p.high > 999'999'999'999'999'999 || p.width < 0 || p.width > 18 ||
        (p.width != 0 && fmt::format("{}", p.high).size() > static_cast<std::size_t>(p.width))) {
      fault(fmt::format("the range of `{}` is unfit", name), "the smaller number first: `1 to 2880`");
    }
  }
  void operator()(const TextPart& p) const { text(p.text); }
  void operator()(const PathPart& p) const {
    if (p.paths.empty() || p.last < 0 || p.last > kMostSigns) {
      fault(fmt::format("`{}` does not say where its text is found", name), "write a path: `shape.prefix`");
    }
  }
  void operator()(const YearPart& p) const {
    const auto fit = [&](const std::string& form) {
      const std::size_t ys = form.find('Y');
      return form.size() == 4 && ys != std::string::npos && ys == p.templates[0].find('Y') &&
             std::all_of(form.begin(), form.begin() + static_cast<std::ptrdiff_t>(ys), base::isDigit) &&
             form.find_first_not_of('Y', ys) == std::string::npos;
    };
    if (p.templates.empty() || p.templates.size() > 100 ||
        !std::all_of(p.templates.begin(), p.templates.end(), fit)) {
      fault(fmt::format("`{}` does not say which year its signs stand for", name), "write `year 19YY`");
    }
  }
  void operator()(const UnitPart& p) const {
    if (p.low < 1 || p.low > p.high || p.high > unitMost(p.unit) ||
        (!p.oneDigit && !p.padded && p.high < 10)) {
      fault(fmt::format("there is no {} from {} to {}", unitName(p.unit), p.low, p.high),
            fmt::format("the numbers lie between 1 and {}", unitMost(p.unit)));
    }
  }
  void operator()(const TablePart& p) const {
    if (p.rows.empty() || p.rows.size() > kMostRows) {
      fault(p.rows.empty() ? fmt::format("the table of `{}` has no row", name)
                           : fmt::format("the table of `{}` has {} rows", name, p.rows.size()),
            "a row is what stands in the code, and what it means: `A: a line or stamp only`");
    }
    for (const TableRow& row : p.rows) {
      text(row.text);
      if (!allWithin(row.date.years, kFirstYear, kLastYear) || !allWithin(row.date.quarters, 1, 4) ||
          !allWithin(row.date.months, 1, 12) || !allWithin(row.date.weeks, 1, 53) ||
          !allWithin(row.date.days, 1, 31)) {
        fault(fmt::format("`{}` in the table of `{}` names a date that there is not", row.text, name),
              "year from 1 to 9999, quarter to 4, month to 12, week to 53, day to 31");
      }
    }
  }

  void text(const std::string& fixed) const {
    const std::u32string signs = foldedSigns(fixed);
    if (signs.empty()) {
      fault(fmt::format("`{}` has a text without a sign in it", name),
            "say what stands in the code; for a form without this part write a further rule with `like`");
    } else if (signs.size() > kMostSigns || signs.find(kBrokenSign) != std::u32string::npos) {
      fault(fmt::format("`{}` has a text that cannot stand in a code", name),
            fmt::format("at most {} signs, in UTF-8", kMostSigns));
    }
  }
};

std::vector<std::string> partNames(const RuleSpec& spec) {
  std::vector<std::string> names;
  for (const NamedPart& part : spec.parts) names.push_back(part.name);
  return names;
}

std::string nameHint(const std::string& missed, const std::vector<std::string>& names) {
  const std::vector<std::string_view> views(names.begin(), names.end());
  if (const auto near = base::nearest(missed, views)) return fmt::format("did you mean `{}`?", *near);
  return names.empty() ? "the rule has no parts" : "its parts are " + base::listedInWords(names);
}

class Compiler {
 public:
  explicit Compiler(RuleSpec spec) { impl_.spec = std::move(spec); }

  Rule::Impl& impl() { return impl_; }
  std::vector<Problem>& problems() { return problems_; }

  void run() {
    if (impl_.spec.orderFrom.empty()) impl_.spec.orderFrom = impl_.spec.name;
    checkParts();
    if (!problems_.empty()) return;
    names_ = partNames(impl_.spec);
    for (const NamedPart& part : impl_.spec.parts) impl_.parts.emplace_back(part.name, part.spec);
    if (impl_.spec.written && impl_.spec.pattern) {
      fault("pattern", {}, "the rule has both `written` and `pattern`",
            "keep one: each says the whole form of the code");
    } else if (impl_.spec.pattern) {
      compilePattern();
    } else if (impl_.spec.written) {
      compileWritten();
    } else {
      fault("written", {}, "the rule does not say how the code is written",
            "write the parts in order: `written: PREFIX-SERIAL-GROUP/LINING`");
    }
    if (!problems_.empty()) return;
    compileAlone();
    compileOrder();
    compileAlike();
    if (impl_.spec.unlike) {
      for (const UnlikeText& unlike : *impl_.spec.unlike)
        impl_.unlike.emplace(foldedKey(unlike.text), unlike.because);
    }
  }

 private:
  void fault(std::string field, std::string entry, std::string message, std::string hint) {
    problems_.push_back({std::move(field), std::move(entry), std::move(message), std::move(hint)});
  }

  void checkParts() {
    const std::vector<NamedPart>& parts = impl_.spec.parts;
    if (parts.size() > kMostParts) {
      fault("parts", {}, fmt::format("{} parts are too many for a code", parts.size()),
            fmt::format("at most {}", kMostParts));
    }
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const NamedPart& part = parts[i];
      if (base::trimmed(part.name).empty() || base::trimmed(part.name).size() != part.name.size()) {
        fault("parts", part.name, "a part without a name",
              "give it the word that stands for it in `written`");
      }
      const bool twice = std::any_of(parts.begin(), parts.begin() + static_cast<std::ptrdiff_t>(i),
                                     [&](const NamedPart& other) { return other.name == part.name; });
      if (twice)
        fault("parts", part.name, fmt::format("`{}` is said twice", part.name), "keep one of the two");
      std::visit(Check{part.name, problems_}, part.spec);
    }
  }

  Form formOf(const std::vector<WrittenPiece>& pieces) const {
    Form form;
    for (const WrittenPiece& piece : pieces) {
      Element element;
      element.kind = piece.kind;
      if (piece.kind == WrittenPiece::Kind::text) {
        element.text = foldedSigns(piece.text);
        element.typed = piece.text;
      } else if (piece.kind == WrittenPiece::Kind::part) {
        element.part =
            static_cast<std::size_t>(std::find(names_.begin(), names_.end(), piece.text) - names_.begin());
      }
      form.push_back(std::move(element));
    }
    return form;
  }

  void compileWritten() {
    const auto parsed = parseWritten(*impl_.spec.written, names_);
    if (!parsed.value) {
      fault("written", {}, parsed.message, parsed.hint);
      return;
    }
    for (const std::string& name : names_) {
      const bool used = std::find(parsed.value->begin(), parsed.value->end(),
                                  WrittenPiece{WrittenPiece::Kind::part, name}) != parsed.value->end();
      if (used) continue;
      std::string hint = "put it where it belongs, or leave it away";
      for (const WrittenPiece& piece : *parsed.value) {
        if (piece.kind == WrittenPiece::Kind::text && piece.text.find(name) != std::string::npos) {
          hint =
              "parts that run together are written with a blank between, which needs none in the code: `YY "
              "WW`";
        }
      }
      fault("parts", name, fmt::format("the part `{}` is not in `written`", name), hint);
    }
    impl_.whole = formOf(*parsed.value);
  }

  void compilePattern() {
    auto parsed = Pattern::compile(*impl_.spec.pattern);
    if (!parsed.value) {
      fault("pattern", {}, parsed.message, parsed.hint);
      return;
    }
    const std::vector<std::string>& groups = parsed.value->groups();
    for (const std::string& name : names_) {
      if (std::find(groups.begin(), groups.end(), name) != groups.end()) continue;
      fault("parts", name, fmt::format("the pattern has no group called `{}`", name),
            fmt::format("write its place in the pattern as `(?P<{}>...)`, or leave the part away", name));
    }
    if (groups.size() > kMostParts)
      fault("pattern", {}, "too many groups", fmt::format("at most {}", kMostParts));
    std::vector<PartMatcher> ordered;
    for (const std::string& group : groups) {
      const auto known = std::find_if(impl_.parts.begin(), impl_.parts.end(),
                                      [&](const PartMatcher& part) { return part.name == group; });
      ordered.push_back(known == impl_.parts.end() ? PartMatcher(group, std::nullopt) : *known);
    }
    impl_.parts = std::move(ordered);
    names_ = groups;
    impl_.pattern = std::move(parsed.value);
  }

  void compileAlone() {
    if (!impl_.spec.alone) return;
    const auto parsed = parseWritten(*impl_.spec.alone, names_);
    if (!parsed.value) {
      fault("alone", {}, parsed.message, parsed.hint);
      return;
    }
    const bool some = std::any_of(parsed.value->begin(), parsed.value->end(), [](const WrittenPiece& piece) {
      return piece.kind == WrittenPiece::Kind::part;
    });
    if (!some) {
      fault("alone", {}, "`alone` names no part of the code", nameHint(*impl_.spec.alone, names_));
      return;
    }
    impl_.alone = formOf(*parsed.value);
  }

  std::optional<std::size_t> partCalled(const std::string& name) {
    const auto found = std::find(names_.begin(), names_.end(), name);
    if (found != names_.end()) return static_cast<std::size_t>(found - names_.begin());
    fault("order", name, fmt::format("`order` names `{}`, which is no part of the code", name),
          nameHint(name, names_));
    return std::nullopt;
  }

  // Digits, or a text that a path gives, which may be digits.
  bool canCount(std::size_t part) const {
    const std::optional<PartSpec>& spec = impl_.parts[part].spec;
    return !spec || std::holds_alternative<DigitsPart>(*spec) || std::holds_alternative<RangePart>(*spec) ||
           std::holds_alternative<PathPart>(*spec);
  }

  void compileOrder() {
    const std::optional<OrderSpec>& order = impl_.spec.order;
    if (order && !order->none()) {
      impl_.counts = partCalled(order->number);
      for (const std::string& name : order->within) {
        if (const auto part = partCalled(name)) impl_.within.push_back(*part);
      }
      if (impl_.counts && !canCount(*impl_.counts)) {
        fault("order", order->number, fmt::format("`{}` does not count: it is no number", order->number),
              "name the part that is a running number: `SERIAL within PREFIX`");
      }
      return;
    }
    std::vector<std::size_t> numbers;
    for (std::size_t i = 0; i < impl_.parts.size(); ++i) {
      const std::optional<PartSpec>& spec = impl_.parts[i].spec;
      if (spec && (std::holds_alternative<DigitsPart>(*spec) || std::holds_alternative<RangePart>(*spec))) {
        numbers.push_back(i);
      }
    }
    if (numbers.size() == 1) impl_.counts = numbers[0];
    const bool tables = impl_.spec.firstOf || impl_.spec.onDate || impl_.spec.lastOf || impl_.spec.missing;
    if (tables && !impl_.counts) {
      fault("order", {}, "the rule has a table of numbers, but does not say which part is the number",
            "name it: `order: NUMBER`, or `order: SERIAL within PREFIX`");
    }
  }

  void compileAlike() {
    if (!impl_.spec.alike) return;
    if (impl_.spec.alike->size() > kMostGroups) {
      fault("alike", {}, "too many groups of signs that are alike", fmt::format("at most {}", kMostGroups));
      return;
    }
    for (const std::vector<std::string>& group : *impl_.spec.alike) {
      std::vector<std::u32string> folded;
      for (const std::string& sign : group) folded.push_back(foldedSigns(sign));
      const bool bad =
          std::any_of(folded.begin(), folded.end(), [](const std::u32string& s) { return s.empty(); });
      if (group.size() < 2 || bad) {
        fault("alike", group.empty() ? std::string() : group[0], "one sign alone is like nothing",
              "name at least two signs with a blank between: `[4 9]`");
      }
      impl_.alike.push_back(std::move(folded));
    }
  }

  Rule::Impl impl_;
  std::vector<Problem> problems_;
  std::vector<std::string> names_;
};

// The tables of numbers, whose codes only the compiled rule can read.
class SeriesCompiler {
 public:
  SeriesCompiler(const Rule& rule, const Rule::Impl& impl, std::vector<Problem>& problems)
      : rule_(rule), impl_(impl), problems_(problems) {}

  Series compile() {
    const RuleSpec& spec = impl_.spec;
    std::vector<Series::Entry> entries;
    const auto table = [&](const std::optional<std::vector<DatedNumber>>& numbers, SeriesTable which) {
      if (!numbers) return;
      for (const DatedNumber& dated : *numbers) {
        if (const auto number = codeNumber(dated.code, std::string(tableName(which)), dated.code)) {
          entries.push_back({*number, which, dated.when.opened(), dated.code});
        }
      }
    };
    table(spec.firstOf, SeriesTable::firstOf);
    table(spec.onDate, SeriesTable::onDate);
    table(spec.lastOf, SeriesTable::lastOf);
    std::vector<Series::Lost> lost;
    if (spec.missing) {
      for (const MissingNumbers& stretch : *spec.missing) addMissing(stretch, lost);
    }
    Series series(entries, lost);
    for (const Series::Clash& clash : series.clashes(spec.order && !spec.order->none())) {
      problems_.push_back(
          {std::string(tableName(clash.higher.table)), fmt::format("{}", clash.higher.at.number),
           fmt::format("number {} under `{}` and number {} under `{}` contradict each other",
                       clash.lower.at.number, tableName(clash.lower.table), clash.higher.at.number,
                       tableName(clash.higher.table)),
           "a higher number is not dated before a lower one, and none stands above the last"});
    }
    return series;
  }

 private:
  std::optional<CodeNumber> codeNumber(std::string_view code, const std::string& field,
                                       const std::string& entry) {
    if (!impl_.counts) return std::nullopt;  // reported already
    if (impl_.within.empty()) {
      if (const auto plain = plainNumber(base::trimmed(code))) {
        if (const auto* range = impl_.parts[*impl_.counts].spec
                                    ? std::get_if<RangePart>(&*impl_.parts[*impl_.counts].spec)
                                    : nullptr;
            range && (*plain < range->low || *plain > range->high)) {
          problems_.push_back(
              {field, entry,
               fmt::format("the number {} is not from {} to {}", *plain, range->low, range->high),
               "put the number right, or the range of the part"});
          return std::nullopt;
        }
        return CodeNumber{{}, *plain};
      }
    }
    std::vector<CodeNumber> found, known;
    for (const bool alone : {true, false}) {
      const Readings readings = alone ? rule_.readAlone(code) : rule_.read(code);
      for (const Reading& reading : readings.all) {
        if (!reading.number) continue;
        addOnce(found, *reading.number);
        if (isKnown(reading)) addOnce(known, *reading.number);
      }
    }
    if (known.size() == 1) return known[0];
    if (found.size() == 1) return found[0];
    const std::string how = impl_.within.empty() ? "write the number alone: `1187`"
                                                 : fmt::format("write it with its {}, as in a code",
                                                               impl_.parts[impl_.within[0]].name);
    problems_.push_back({field, entry,
                         found.empty()
                             ? fmt::format("`{}` is no number of this rule", code)
                             : fmt::format("`{}` can be {} numbers of this rule", code, found.size()),
                         how});
    return std::nullopt;
  }

  static void addOnce(std::vector<CodeNumber>& all, const CodeNumber& one) {
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(one);
  }

  // Whether each text that a path has to give is one that it gives.
  bool isKnown(const Reading& reading) const {
    return std::all_of(reading.paths.begin(), reading.paths.end(), [&](const PathNeed& need) {
      const NamedPart* part = impl_.spec.part(reading.parts[need.part].name);
      const auto* path = part != nullptr ? std::get_if<PathPart>(&part->spec) : nullptr;
      return path != nullptr && std::any_of(path->known.begin(), path->known.end(),
                                            [&](const std::string& text) { return need.metBy(text); });
    });
  }

  void addMissing(const MissingNumbers& stretch, std::vector<Series::Lost>& lost) {
    const std::string_view text = base::trimmed(stretch.codes);
    if (impl_.within.empty()) {
      const Parsed<MissingRange> plain = parseMissing(text);
      if (plain.value) {
        lost.push_back({{}, {plain.value->first, plain.value->last, stretch.because}});
        return;
      }
      problems_.push_back({"missing", stretch.codes, plain.message, plain.hint});
      return;
    }
    constexpr std::string_view kTo = " to ";
    const std::size_t to = text.find(kTo);
    const auto first = codeNumber(text.substr(0, to), "missing", stretch.codes);
    const auto last = to == std::string_view::npos
                          ? first
                          : codeNumber(text.substr(to + kTo.size()), "missing", stretch.codes);
    if (!first || !last) return;
    if (first->series != last->series || first->number > last->number) {
      problems_.push_back({"missing", stretch.codes,
                           fmt::format("`{}` is no stretch of one series", stretch.codes),
                           "the lower number first, both within one prefix: `JM-045 to JM-050`"});
      return;
    }
    lost.push_back({first->series, {first->number, last->number, stretch.because}});
  }

  const Rule& rule_;
  const Rule::Impl& impl_;
  std::vector<Problem>& problems_;
};

}  // namespace

Rule::Compiled Rule::compile(RuleSpec spec) {
  Compiler compiler(std::move(spec));
  compiler.run();
  std::vector<Problem> problems = std::move(compiler.problems());
  if (!problems.empty()) return {std::nullopt, std::move(problems)};
  const auto impl = std::make_shared<Impl>(std::move(compiler.impl()));
  Rule rule(impl);
  impl->series = SeriesCompiler(rule, *impl, problems).compile();
  if (!problems.empty()) return {std::nullopt, std::move(problems)};
  return {std::move(rule), {}};
}

const RuleSpec& Rule::spec() const {
  return impl_->spec;
}

bool Rule::ordered() const {
  return impl_->spec.order && !impl_->spec.order->none();
}

const Series& Rule::series() const {
  return impl_->series;
}

}  // namespace saggar::codes
