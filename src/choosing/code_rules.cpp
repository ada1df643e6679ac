#include "choosing/code_rules.h"

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "choosing/code_spec.h"
#include "choosing/own_days.h"
#include "codes/signs.h"
#include "codes/written.h"

namespace saggar::choosing {

using codes::PartSpec;
using records::Entry;
using records::Field;
using records::KindSet;
using records::Record;
using records::Value;
using records::ValueType;

namespace {

constexpr std::array<std::string_view, kCodeFields> kOn = {"treatment.code", "specimen.code-seen",
                                                           "specimen.date-code", "registered"};
constexpr std::string_view kMaker = "maker.";

CodeField readsWhat(const Value* on) {
  for (std::size_t i = 0; on != nullptr && i < kOn.size(); ++i)
    if (kOn[i] == on->text) return static_cast<CodeField>(i);
  return CodeField::code;
}

// Whose fields a path or a condition of such a rule may name.
KindSet namedKinds(CodeField on) {
  switch (on) {
    case CodeField::code: return KindSet(Kind::treatment);
    case CodeField::registered: return KindSet(Kind::shape, Kind::motif, Kind::specimen);
    default: return KindSet(Kind::specimen);
  }
}

// The kinds that carry a code which such a rule reads.
KindSet carriers(CodeField on) {
  return on == CodeField::code ? KindSet(Kind::treatment, Kind::specimen) : namedKinds(on);
}

struct Signs {
  std::size_t least = 0;
  std::size_t most = SIZE_MAX;
};

struct PartSigns {
  Signs operator()(const codes::DigitsPart& p) const { return of(p.counts); }
  Signs operator()(const codes::LettersPart& p) const { return of(p.counts); }
  Signs operator()(const codes::RangePart& p) const {
    if (p.width != 0) return {static_cast<std::size_t>(p.width), static_cast<std::size_t>(p.width)};
    return {std::to_string(p.low).size(), std::to_string(p.high).size()};
  }
  Signs operator()(const codes::TextPart& p) const { return of(p.text); }
  Signs operator()(const codes::TablePart& p) const {
    Signs signs{SIZE_MAX, 0};
    for (const codes::TableRow& row : p.rows) {
      const Signs one = of(row.text);
      signs = {std::min(signs.least, one.least), std::max(signs.most, one.most)};
    }
    return signs;
  }
  Signs operator()(const codes::PathPart& p) const {
    if (p.last != 0) return {static_cast<std::size_t>(p.last), static_cast<std::size_t>(p.last)};
    return {1, codes::kLongestCode};
  }
  Signs operator()(const codes::YearPart& p) const {
    const std::size_t typed = p.templates.empty() ? 1
                                                  : p.templates[0].size() - std::min(p.templates[0].find('Y'),
                                                                                     p.templates[0].size());
    return {typed, typed};
  }
  Signs operator()(const codes::UnitPart&) const { return {1, 2}; }

  static Signs of(const codes::Counts& counts) {
    return {static_cast<std::size_t>(counts.least()), static_cast<std::size_t>(counts.most())};
  }
  static Signs of(std::string_view text) {
    const std::size_t size = codes::foldedSigns(text).size();
    return {size, size};
  }
};

QuickLook quickLookOf(const codes::RuleSpec& spec) {
  QuickLook quick;
  if (!spec.written) return quick;
  std::vector<std::string> names;
  for (const codes::NamedPart& part : spec.parts) names.push_back(part.name);
  const auto pieces = codes::parseWritten(*spec.written, names);
  if (!pieces.value) return quick;
  quick.most = 0;
  for (const codes::WrittenPiece& piece : *pieces.value) {
    if (piece.kind == codes::WrittenPiece::Kind::join) {
      ++quick.most;
    } else if (piece.kind == codes::WrittenPiece::Kind::text) {
      const std::u32string signs = codes::foldedSigns(piece.text);
      quick.least += signs.size();
      quick.most += signs.size();
      for (char32_t sign : signs)
        if (sign < 0x80 && quick.fixed.find(static_cast<char>(sign)) == std::string::npos)
          quick.fixed += static_cast<char>(sign);
    } else if (const codes::NamedPart* part = spec.part(piece.text)) {
      const Signs signs = std::visit(PartSigns{}, part->spec);
      quick.least += signs.least;
      quick.most += signs.most;
    }
  }
  return quick;
}

// Where the text of a path stands in the value that holds it.
records::Extent placeWithin(const Value& value, std::string_view path, const PathProblem& problem) {
  const std::size_t typed = value.place.end - value.place.begin;
  const std::size_t before = typed == value.text.size()       ? 0
                             : typed == value.text.size() + 2 ? 1
                                                              : std::string_view::npos;
  const std::size_t at = value.text.find(path);
  if (before == std::string_view::npos || at == std::string_view::npos) return value.place;
  const auto begin =
      value.place.begin + static_cast<std::uint32_t>(before + at + std::min(problem.at, path.size()));
  return {begin, begin + static_cast<std::uint32_t>(
                             std::min(problem.length, path.size() - std::min(problem.at, path.size())))};
}

// The texts of a path from the rule's own maker; a works letter comes with the years of its works.
void readMakerTexts(PathChoice& choice, const Path& path, RecordIndex maker, const Collection& collection) {
  const Value* works = collection[maker].find("works"_f);
  for (const Reached& reached : path.from(maker, collection)) {
    if (reached.state != Reached::State::value) {
      choice.open |= reached.state == Reached::State::unknown;
      continue;
    }
    MakerText text;
    text.text = std::string(reached.value->text);
    text.value = reached.value;
    if (works != nullptr && works->said()) {
      for (const Value& one : works->each()) {
        const bool inside = std::any_of(one.entries().begin(), one.entries().end(), [&](const Entry& entry) {
          const auto members = entry.value.each();
          return reached.value >= members.data() && reached.value < members.data() + members.size();
        });
        if (!inside) continue;
        text.used = one.find("used"_f);
        const Value* name = one.find("name"_f);
        if (name == nullptr || !name->said()) name = one.find("works"_f);
        if (name != nullptr && name != reached.value) text.means = std::string(name->text);
        text.days = spanDays(text.used, collection.settings().dates).hull();
      }
    }
    choice.texts.push_back(std::move(text));
  }
}

// Makes tables of the parts whose texts are all known.
std::vector<PartTexts> tabulate(codes::RuleSpec& spec, RecordIndex maker, const Collection& collection) {
  std::vector<PartTexts> tables;
  for (codes::NamedPart& part : spec.parts) {
    const auto* paths = std::get_if<codes::PathPart>(&part.spec);
    if (paths == nullptr || paths->last != 0) continue;
    PathChoice all;
    for (const std::string& text : paths->paths) {
      PathProblem problem;
      const bool ofMaker = std::string_view(text).starts_with(kMaker);
      const Path path = ofMaker ? Path::compile(std::string_view(text).substr(kMaker.size()), Kind::maker,
                                                collection, problem)
                                : Path();
      all.open |= path.empty();
      if (!path.empty()) readMakerTexts(all, path, maker, collection);
    }
    if (all.open || all.texts.empty()) continue;
    codes::TablePart table;
    for (const MakerText& text : all.texts) table.rows.push_back({text.text, text.means, {}, {}});
    part.spec = std::move(table);
    tables.push_back({part.name, std::move(all.texts)});
  }
  return tables;
}

// The prefixes and other texts that the records of this maker give a part by its path: `shape.prefix`.
void addKnown(codes::RuleSpec& spec, CodeField on, RecordIndex maker, const Collection& collection) {
  for (codes::NamedPart& part : spec.parts) {
    auto* paths = std::get_if<codes::PathPart>(&part.spec);
    if (paths == nullptr) continue;
    std::vector<std::string>& known = paths->known;
    for (const std::string& text : paths->paths) {
      const std::size_t dot = text.find('.');
      const auto first = records::fieldNamed(std::string_view(text).substr(0, dot));
      if (!first || dot == std::string::npos) continue;
      KindSet kinds;
      for (Kind kind : kCarriers)
        if (const records::FieldSpec* field =
                carriers(on).has(kind) ? records::specOf(kind, *first) : nullptr)
          if (field->type == records::FieldType::reference) kinds = field->kinds;
      for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) {
        if (!kinds.has(static_cast<Kind>(i))) continue;
        PathProblem problem;
        const Path path =
            Path::compile(std::string_view(text).substr(dot + 1), static_cast<Kind>(i), collection, problem);
        if (path.empty()) continue;
        for (const RecordIndex record : collection.ofKind(static_cast<Kind>(i))) {
          const Value* of = collection[record].find("maker"_f);
          if (of != nullptr && of->target() != records::kNoRecord && of->target() != maker) continue;
          for (const Reached& reached : path.from(record, collection))
            if (reached.state == Reached::State::value) known.emplace_back(reached.value->text);
        }
      }
    }
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
  }
}

std::optional<codes::Rule> strictly(const codes::RuleSpec& rule) {
  codes::RuleSpec spec = rule;
  bool any = false;
  for (codes::NamedPart& part : spec.parts) {
    const auto* paths = std::get_if<codes::PathPart>(&part.spec);
    if (paths == nullptr || paths->last != 0 || paths->known.empty()) continue;
    codes::TablePart table;
    for (const std::string& text : paths->known) table.rows.push_back({text, {}, {}, {}});
    part.spec = std::move(table);
    any = true;
  }
  if (!any) return std::nullopt;
  for (auto* numbers : {&spec.firstOf, &spec.onDate, &spec.lastOf}) numbers->reset();
  spec.missing.reset();
  return codes::Rule::compile(std::move(spec)).rule;
}

}  // namespace

bool QuickLook::mayFit(std::string_view text) const {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    const bool plain = c > ' ' && c < 0x7F && c != '?';
    const bool oneBlank = c == ' ' && i > 0 && i + 1 < text.size() && text[i - 1] != ' ';
    if (!plain && !oneBlank) return true;
  }
  if (text.size() < least || text.size() > most) return false;
  return std::all_of(fixed.begin(), fixed.end(), [&](char sign) {
    return text.find(sign) != std::string_view::npos ||
           (base::isLower(sign) && text.find(static_cast<char>(sign - 'a' + 'A')) != std::string_view::npos);
  });
}

// A rule on its way: what was typed, and the rules it is like, itself first.
struct RuleBook::Draft {
  const Value* typed = nullptr;
  ReadSpec read;
  std::vector<std::size_t> chain;
  bool good = true;
  std::vector<PartTexts> tables{};
};

void RuleBook::compile(const Collection& collection, diagnostics::Findings& findings) {
  for (RecordIndex maker : collection.ofKind(Kind::maker)) compileMaker(maker, collection, findings);
  for (std::size_t i = 0; i < shown_.size(); ++i) {
    compiled_[i].shown = &shown_[i];
    shown_[i].rule = &compiled_[i].rule;
  }
}

const RuleGroup& RuleBook::group(RecordIndex maker) const {
  if (maker == records::kNoRecord) return all_;
  const auto found = groups_.find(maker);
  return found == groups_.end() ? none_ : found->second;
}

void RuleBook::compileMaker(RecordIndex maker, const Collection& collection,
                            diagnostics::Findings& findings) {
  const Record& record = collection[maker];
  const Value* typed = record.find("codes"_f);
  if (typed == nullptr || !typed->said()) {
    if (!record.broken) return;
    groups_[maker].incomplete = true;
    all_.incomplete = true;
    return;
  }
  SpecReader reader(collection, record, findings);
  std::vector<Draft> drafts;
  std::vector<codes::RuleSpec> specs;
  std::unordered_map<std::string, std::size_t> byName;
  bool incomplete = record.broken;
  for (const Value& rule : typed->each()) {
    if (rule.type != ValueType::mapping) {
      incomplete = true;
      continue;
    }
    Draft draft{&rule, reader.read(rule), {}, true, {}};
    draft.good = draft.read.whole;
    const auto [first, fresh] = byName.emplace(draft.read.spec.name, drafts.size());
    if (!fresh && !draft.read.spec.name.empty()) {
      const Value* name = rule.find("rule"_f);
      reader.report("value-unfit"_rule, name->place,
                    "two rules of this maker are called `" + base::shortened(name->text, 60) + "`",
                    "give one of the two another name");
      findings.all().back().related.push_back(
          {record.span(drafts[first->second].typed->find("rule"_f)->place), "the first stands here"});
    }
    specs.push_back(draft.read.spec);
    drafts.push_back(std::move(draft));
  }
  for (std::size_t i = 0; i < drafts.size(); ++i) {
    for (std::size_t at = i; drafts[i].chain.size() <= drafts.size();) {
      drafts[i].chain.push_back(at);
      const auto next = specs[at].like ? byName.find(*specs[at].like) : byName.end();
      if (next == byName.end()) break;
      at = next->second;
      if (std::find(drafts[i].chain.begin(), drafts[i].chain.end(), at) != drafts[i].chain.end()) break;
    }
  }
  codes::Resolved resolved = codes::resolveLikes(std::move(specs));
  for (const codes::Resolved::At& at : resolved.problems) reader.report(*drafts[at.rule].typed, at.problem);

  std::vector<std::optional<codes::Rule>> rules(drafts.size());
  auto nearest = [&](const Draft& draft, Field field) -> std::pair<const Value*, std::size_t> {
    for (std::size_t at : draft.chain)
      if (const Value* value = drafts[at].typed->find(field)) return {value, at};
    return {nullptr, 0};
  };
  // The rules that another is like come first, so that what is wrong with one is not said of all.
  std::vector<std::size_t> order(drafts.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return drafts[a].chain.size() < drafts[b].chain.size();
  });
  for (std::size_t i : order) {
    Draft& draft = drafts[i];
    for (std::size_t at : draft.chain) draft.good = draft.good && drafts[at].good;
    draft.good = draft.good && resolved.usable[i];
    if (!draft.good) continue;
    for (std::size_t at : draft.chain) {
      if (drafts[at].typed->find("alone"_f) == nullptr) continue;
      if (drafts[at].read.noAlone) resolved.rules[i].alone.reset();
      break;
    }
    draft.tables = tabulate(resolved.rules[i], maker, collection);
    addKnown(resolved.rules[i], readsWhat(nearest(draft, "on"_f).first), maker, collection);
    codes::Rule::Compiled compiled = codes::Rule::compile(std::move(resolved.rules[i]));
    for (const codes::Problem& problem : compiled.problems) reader.report(*draft.typed, problem);
    rules[i] = std::move(compiled.rule);
    draft.good = rules[i].has_value();
  }

  RuleGroup& own = groups_[maker];
  for (std::size_t i = 0; i < drafts.size(); ++i) {
    Draft& draft = drafts[i];
    if (!draft.good) {
      incomplete = true;
      own.unread.push_back(draft.read.spec.name);
      all_.unread.push_back(draft.read.spec.name);
      continue;
    }
    const auto index = static_cast<std::uint32_t>(compiled_.size());
    CompiledRule& rule =
        compiled_.emplace_back(CompiledRule{nullptr,
                                            std::move(*rules[i]),
                                            {},
                                            {},
                                            std::move(draft.tables),
                                            {},
                                            nullptr,
                                            source::kNoFile,
                                            nullptr,
                                            {dates::Day::minusInfinity(), dates::Day::plusInfinity()},
                                            {}});
    rule.on = readsWhat(nearest(draft, "on"_f).first);
    rule.quick = quickLookOf(rule.rule.spec());
    rule.strict = strictly(rule.rule.spec());
    MakerRule shown;
    shown.maker = maker;
    shown.name = rule.rule.name();
    shown.on = std::string(kOn[static_cast<std::size_t>(rule.on)]);
    shown.usual = rule.rule.spec().usual.value_or(false);
    shown.source = draft.typed;
    shown.means = nearest(draft, "means"_f).first;
    if (const Value* used = nearest(draft, "used"_f).first; used != nullptr && used->date() != nullptr) {
      shown.used = used->date();
      rule.usedValue = used;
      rule.used = spanDays(used, collection.settings().dates).hull();
    }
    if (const Value* where = nearest(draft, "where"_f).first;
        where != nullptr && where->type == ValueType::mapping) {
      rule.whereValue = where;
      rule.whereFile = record.file;
      diagnostics::Findings saidElsewhere;
      shown.where = Condition::compile(*where, namedKinds(rule.on), collection, record.file, saidElsewhere);
      for (std::size_t k = 0; k < kCarriers.size(); ++k) {
        if (!carriers(rule.on).has(kCarriers[k])) continue;
        diagnostics::Findings missing;
        rule.where[k].condition = Condition::compile(*where, kCarriers[k], collection, record.file, missing);
        rule.where[k].asked = true;
        rule.where[k].partly = !missing.empty();
      }
    }
    shown_.push_back(std::move(shown));
    draft.good = addPaths(rule, draft, maker, collection, reader);
    own.by[static_cast<std::size_t>(rule.on)].push_back(index);
    all_.by[static_cast<std::size_t>(rule.on)].push_back(index);
    incomplete |= !draft.good;
  }
  own.incomplete = incomplete;
  all_.incomplete |= incomplete;
}

namespace {

const Value* valueOfPath(const Value& part, std::string_view path) {
  for (const Value& one : part.each())
    if (one.text.find(path) != std::string_view::npos) return &one;
  return &part;
}

}  // namespace

// False if a path is wrong, which is then reported and reaches nothing.
bool RuleBook::addPaths(CompiledRule& rule, const Draft& draft, RecordIndex maker,
                        const Collection& collection, SpecReader& reader) {
  bool good = true;
  for (const codes::NamedPart& part : rule.rule.spec().parts) {
    const auto* paths = std::get_if<codes::PathPart>(&part.spec);
    if (paths == nullptr) continue;
    // What this rule only takes over is reported where it stands.
    const Value* own = draft.typed->find("parts"_f);
    const Value* typed = own != nullptr ? own->find(part.name) : nullptr;
    PartPaths compiled{part.name, {}};
    for (const std::string& text : paths->paths) {
      PathChoice choice;
      choice.text = text;
      PathProblem problem;
      std::size_t skipped = 0;
      bool fits = false;
      if (std::string_view(text).starts_with(kMaker)) {
        choice.ofMaker = true;
        skipped = kMaker.size();
        const Path path =
            Path::compile(std::string_view(text).substr(skipped), Kind::maker, collection, problem);
        fits = !path.empty();
        if (fits) readMakerTexts(choice, path, maker, collection);
      } else {
        for (std::size_t k = 0; k < kCarriers.size(); ++k) {
          if (!carriers(rule.on).has(kCarriers[k])) continue;
          PathProblem ignored;
          const std::string self = std::string(records::name(kCarriers[k])) + '.';
          const std::string_view rest = std::string_view(text).starts_with(self)
                                            ? std::string_view(text).substr(self.size())
                                            : std::string_view(text);
          choice.from[k] = Path::compile(rest, kCarriers[k], collection, ignored);
          fits |= !choice.from[k].empty() && namedKinds(rule.on).has(kCarriers[k]);
        }
        if (!fits) {
          const KindSet kinds = namedKinds(rule.on);
          Path::compile(
              text,
              Scope{.type = Scope::Type::record,
                    .kinds = kinds,
                    .called = kinds.single() ? records::name(kinds.only()) : std::string_view("record")},
              collection, problem);
        }
      }
      if (!fits) {
        good = false;
        problem.at += skipped;
        if (typed != nullptr)
          reader.report("field-unknown"_rule, placeWithin(*valueOfPath(*typed, text), text, problem),
                        problem.message, problem.hint);
        choice.open = true;
      }
      compiled.paths.push_back(std::move(choice));
    }
    rule.paths.push_back(std::move(compiled));
  }
  return good;
}

}  // namespace saggar::choosing
