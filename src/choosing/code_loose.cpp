#include <algorithm>

#include "base/text.h"
#include "choosing/code_state.h"
#include "codes/signs.h"

// A code that somebody has in front of them and has not recorded yet: what it can mean, as far as the records tell.
namespace saggar::choosing {

using codes::PathNeed;
using records::FieldSpec;
using records::FieldType;
using records::Value;

namespace {

constexpr std::size_t kMostNamed = 8;
constexpr std::size_t kMostSimilar = 20;
constexpr std::size_t kMostReadings = 200;  // by one rule
constexpr std::size_t kMostByAll = 400;
constexpr std::size_t kFewest = 20;  // … and yet of each rule so many

class LooseReader {
 public:
  LooseReader(const CodeReadings& codes, const CodeState& state, std::string_view text,
              std::optional<RecordIndex> maker)
      : codes_(codes), state_(state), text_(text), maker_(maker) {}

  CodeReadings::Loose read() {
    findCarriers();
    std::vector<std::uint32_t> indices;
    const RuleGroup& group = state_.rules.group(maker_.value_or(records::kNoRecord));
    out_.faulty = group.unread;
    if (group.incomplete && out_.faulty.empty()) out_.faulty.emplace_back();
    for (const auto& list : group.by) indices.insert(indices.end(), list.begin(), list.end());
    std::sort(indices.begin(), indices.end());
    const std::size_t most =
        std::clamp(kMostByAll / std::max<std::size_t>(indices.size(), 1), kFewest, kMostReadings);
    for (std::uint32_t index : indices) {
      const CompiledRule& rule = state_.rules[index];
      codes::Readings found = rule.rule.read(text_, most);
      out_.more |= found.more;
      for (codes::Reading& reading : found.all) ways_.push_back({&rule, std::move(reading), {}});
      codes::Similars similar = rule.rule.similar(text_, kMostSimilar);
      out_.moreSimilar |= similar.more;
      for (codes::Similar& one : similar.all) out_.similar.push_back(judged(rule, std::move(one)));
    }
    meetCarriers();
    for (Way& way : ways_) judge(way);
    treatmentsFirst(out_.matches);
    std::stable_sort(out_.similar.begin(), out_.similar.end(), [](const auto& a, const auto& b) {
      return a.possible() != b.possible() ? a.possible() : a.code.exchanges < b.code.exchanges;
    });
    if (out_.similar.size() > kMostSimilar) {
      out_.similar.erase(out_.similar.begin() + kMostSimilar, out_.similar.end());
      out_.moreSimilar = true;
    }
    const bool possible =
        std::any_of(out_.readings.begin(), out_.readings.end(), [](const auto& one) { return one.possible; });
    if (!possible) {
      findBegun(indices);
      explain(indices);
    }
    return std::move(out_);
  }

 private:
  void findCarriers() {
    const std::string key = codes::foldedKey(text_);
    const bool anySign = text_.find('?') != std::string_view::npos;
    for (const CodeOnRecord& code : codes_.all()) {
      if (maker_ && code.field != "registered"_f) {
        const RecordIndex own = state_.makerOf(code.record);
        if (own != *maker_ && own != records::kNoRecord) continue;
      }
      const std::string_view typed = code.value->text;
      const bool same =
          anySign ? codes::sameText(text_, typed) : typed == text_ || codes::foldedKey(typed) == key;
      if (!same) continue;
      carriers_.push_back(&code);
      if (out_.matches.empty() || out_.matches.back() != code.record) out_.matches.push_back(code.record);
    }
  }

  void treatmentsFirst(std::vector<RecordIndex>& records) const {
    std::stable_sort(records.begin(), records.end(), [&](RecordIndex a, RecordIndex b) {
      return carrierOf(state_.collection[a].kind) < carrierOf(state_.collection[b].kind);
    });
  }

  // One way to read the text, and the codes on record that can be read like this.
  struct Way {
    const CompiledRule* rule;
    codes::Reading reading;
    std::vector<const CodeOnRecord*> on;
  };

  // A text with `?` can stand on very many records: each code is read in full once.
  void meetCarriers() {
    if (ways_.empty()) return;
    for (const CodeOnRecord* code : carriers_) {
      const std::vector<codes::Reading> full = state_.inFull(*code);
      for (std::size_t i = 0; i < full.size(); ++i) {
        const CompiledRule& rule = state_.rules.of(*code->readings[i].rule);
        for (auto way = std::lower_bound(
                 ways_.begin(), ways_.end(), &rule,
                 [](const Way&one, const CompiledRule*of) { return one.rule->shown < of->shown; });
             way != ways_.end() && way->rule == &rule; ++way)
          if ((way->on.empty() || way->on.back() != code) && same(way->reading, full[i]))
            way->on.push_back(code);
      }
    }
  }

  static bool same(const codes::Reading& a, const codes::Reading& b) {
    return a.date == b.date && std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), b.parts.end(),
                                          [](const codes::PartReading& one, const codes::PartReading& other) {
                                            return one.row == other.row &&
                                                   codes::sameText(one.text, other.text);
                                          });
  }

  void judge(Way& way) {
    const CompiledRule& rule = *way.rule;
    CodeReadings::LooseReading loose{rule.shown, std::move(way.reading), true, {}, {}, {}};
    const bool stands = !way.on.empty();
    std::vector<Against> against;
    for (const CodeOnRecord* code : way.on) {
      std::vector<Against> here = state_.judge.against(rule, loose.reading, state_.standingOf(*code));
      if (here.empty()) {
        if (loose.matches.empty() || loose.matches.back() != code->record)
          loose.matches.push_back(code->record);
      } else if (against.empty()) {
        against = std::move(here);
      }
    }
    missing_.clear();
    for (const PathNeed& need : loose.reading.paths) nameOf(rule, need, loose);
    treatmentsFirst(loose.matches);
    if (stands) {
      loose.possible = !loose.matches.empty();
      if (!loose.possible) loose.against = std::move(against);
    } else {
      judgeWithout(rule, loose);
    }
    out_.readings.push_back(std::move(loose));
  }

  // Everything that a path's first step can lead to, and what the rest of the path reaches from there.
  struct Reach {
    bool known = false;  // something on record gives the path a text
    bool open = false;
    bool met = false;
  };

  Reach reach(const CompiledRule& rule, const PathChoice& choice, const PathNeed& need,
              CodeReadings::LooseReading& loose) {
    Reach reach;
    if (choice.ofMaker) {
      reach.known = !choice.texts.empty();
      reach.open = choice.open;
      reach.met = std::any_of(choice.texts.begin(), choice.texts.end(),
                              [&](const MakerText& text) { return need.metBy(text.text); });
      return reach;
    }
    const std::size_t dot = choice.text.find('.');
    const auto first = records::fieldNamed(choice.text.substr(0, dot));
    const FieldSpec* spec = nullptr;
    for (Kind kind : kCarriers)
      if (spec == nullptr && first) spec = records::specOf(kind, *first);
    if (dot == std::string_view::npos || spec == nullptr || spec->type != FieldType::reference) {
      reach.open = true;
      return reach;
    }
    for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) {
      const Kind kind = static_cast<Kind>(i);
      if (!spec->kinds.has(kind)) continue;
      PathProblem problem;
      const Path path = Path::compile(choice.text.substr(dot + 1), kind, state_.collection, problem);
      if (path.empty()) continue;
      for (RecordIndex record : state_.collection.ofKind(kind)) {
        if (kind == Kind::shape && rule.on != CodeField::registered) {
          const RecordIndex maker = state_.makerOf(record);
          if (maker != records::kNoRecord && maker != rule.shown->maker) continue;
        }
        bool met = false;
        for (const Reached& reached : path.from(record, state_.collection)) {
          if (reached.state == Reached::State::unknown) reach.open = true;
          if (reached.state != Reached::State::value) continue;
          reach.known = true;
          met |= need.metBy(reached.value->text);
        }
        if (!met) continue;
        reach.met = true;
        if (loose.named.size() < kMostNamed) loose.named.push_back({need.part, record});
      }
    }
    return reach;
  }

  const PartPaths* pathsOf(const CompiledRule& rule, const CodeReadings::LooseReading& loose,
                           const PathNeed& need) const {
    for (const PartPaths& paths : rule.paths)
      if (paths.part == loose.reading.parts[need.part].name) return &paths;
    return nullptr;
  }

  void nameOf(const CompiledRule& rule, const PathNeed& need, CodeReadings::LooseReading& loose) {
    Reach all;
    std::vector<std::string> shown;
    const PartPaths* paths = pathsOf(rule, loose, need);
    if (paths == nullptr) return;
    for (const PathChoice& choice : paths->paths) {
      const Reach one = reach(rule, choice, need, loose);
      all.known |= one.known;
      all.open |= one.open;
      all.met |= one.met;
      shown.push_back('`' + std::string(choice.text) + '`');
    }
    if (all.met || all.open || !all.known) return;
    missing_.push_back({.reason = Against::Reason::path,
                        .says = "nothing on record has `" + need.text +
                                (need.last == 0 ? "` as its " : "` at the end of its ") +
                                base::listedInWords(shown, "or"),
                        .span = ruleSpan(rule),
                        .record = rule.shown->maker,
                        .field = "codes"_f,
                        .value = rule.shown->source});
  }

  source::Span ruleSpan(const CompiledRule& rule) const {
    const Value* name = rule.shown->source->find("rule"_f);
    return state_.collection[rule.shown->maker].span(name != nullptr ? name->place
                                                                     : rule.shown->source->place);
  }

  void judgeWithout(const CompiledRule& rule, CodeReadings::LooseReading& loose) {
    loose.against = std::move(missing_);
    missing_.clear();
    state_.judge.reads(rule, loose.reading, &loose.against);
    if (rule.on == CodeField::code && rule.whereValue != nullptr && loose.against.empty())
      judgeWhere(rule, loose);
    loose.possible = loose.against.empty();
  }

  CodeReadings::Alike judged(const CompiledRule& rule, codes::Similar similar) {
    CodeReadings::Alike alike{rule.shown, std::move(similar)};
    for (const codes::Reading& reading : alike.code.readings) {
      CodeReadings::LooseReading loose{rule.shown, reading, true, {}, {}, {}};
      missing_.clear();
      for (const PathNeed& need : reading.paths) nameOf(rule, need, loose);
      judgeWithout(rule, loose);
      alike.against.push_back(std::move(loose.against));
    }
    return alike;
  }

  // `where` of the treatments that have the same prefix and whatever else the paths ask.
  void judgeWhere(const CompiledRule& rule, CodeReadings::LooseReading& loose) {
    bool any = false;
    for (RecordIndex record : state_.collection.ofKind(Kind::treatment)) {
      const Standing standing{record, record, CodeField::code, nullptr, true};
      if (!reaches(loose, standing)) continue;
      if (state_.judge.where(rule, standing) != Answer::no) return;
      any = true;
    }
    if (!any) return;
    loose.against.push_back(
        {.reason = Against::Reason::where,
         .says = "the rule holds only where " + state_.judge.whereInWords(rule),
         .span = {rule.whereFile, rule.whereValue->place.begin, rule.whereValue->place.end},
         .record = rule.shown->maker,
         .field = "codes"_f,
         .value = rule.whereValue});
  }

  // The rule that comes furthest, of those that do not read it and hold for most of the treatments it could stand on.
  // Where a reading fails by more than `where`, that says enough.
  void explain(const std::vector<std::uint32_t>& indices) {
    const bool onlyWhere = std::all_of(out_.readings.begin(), out_.readings.end(), [](const auto& one) {
      return std::all_of(one.against.begin(), one.against.end(),
                         [](const Against& against) { return against.reason == Against::Reason::where; });
    });
    if (!onlyWhere) return;
    std::vector<std::size_t> holds;
    std::vector<const CompiledRule*> rules;
    for (std::uint32_t index : indices) {
      const CompiledRule& rule = state_.rules[index];
      if (!standsIn(rule.on)) continue;
      const bool reads = std::any_of(out_.readings.begin(), out_.readings.end(),
                                     [&](const auto& one) { return one.rule == rule.shown; });
      if (reads) continue;
      rules.push_back(&rule);
      holds.push_back(0);
    }
    if (!out_.readings.empty()) {
      for (RecordIndex record : state_.collection.ofKind(Kind::treatment)) {
        const Standing standing{record, record, CodeField::code, nullptr, true};
        const bool could =
            std::any_of(out_.readings.begin(), out_.readings.end(),
                        [&](const CodeReadings::LooseReading& one) { return reaches(one, standing); });
        for (std::size_t i = 0; could && i < rules.size(); ++i)
          holds[i] += rules[i]->on == CodeField::code
                          ? static_cast<std::size_t>(state_.judge.where(*rules[i], standing))
                          : 0;
      }
    }
    const std::size_t most = holds.empty() ? 0 : *std::max_element(holds.begin(), holds.end());
    std::vector<const codes::Rule*> asked;
    for (std::size_t i = 0; i < rules.size(); ++i)
      if (holds[i] == most) asked.push_back(&rules[i]->explaining());
    const codes::Rule* which = nullptr;
    const codes::Explanation told = codes::furthest(asked, text_, &which);
    for (const CompiledRule* rule : rules)
      if (&rule->explaining() == which) out_.nearest = rule->shown;
    if (out_.nearest != nullptr) out_.whyNot = told.message;
    if (indices.empty())
      out_.whyNot = out_.faulty.empty() ? "no rule for codes is recorded" : "no rule for codes could be read";
  }

  // Where the text is on record it is no code of another field.
  bool standsIn(CodeField on) const {
    return carriers_.empty() || std::any_of(carriers_.begin(), carriers_.end(), [&](const CodeOnRecord* one) {
             return state_.standingOf(*one).field == on ||
                    (on == CodeField::code && state_.standingOf(*one).field == CodeField::codeSeen);
           });
  }

  bool reaches(const CodeReadings::LooseReading& loose, const Standing& standing) const {
    const CompiledRule& rule = state_.rules.of(*loose.rule);
    const RecordIndex maker = state_.makerOf(standing.record);
    if (maker != records::kNoRecord && maker != rule.shown->maker) return false;
    return std::all_of(loose.reading.paths.begin(), loose.reading.paths.end(), [&](const PathNeed& need) {
      return state_.judge.path(rule, loose.reading, need, standing, nullptr);
    });
  }

  void findBegun(const std::vector<std::uint32_t>& indices) {
    std::vector<std::string> alones;
    for (std::uint32_t index : indices)
      for (const codes::Reading& reading : state_.rules[index].rule.readAlone(text_, kMostReadings).all)
        alones.push_back(reading.alone);
    if (alones.empty()) return;
    for (const CodeOnRecord& code : codes_.all()) {
      if (code.field != "code"_f) continue;
      const bool begun =
          std::any_of(code.readings.begin(), code.readings.end(), [&](const CodeReading& reading) {
            const bool ofMaker = !maker_ || reading.rule->maker == *maker_;
            return ofMaker && reading.possible &&
                   std::find(alones.begin(), alones.end(), reading.reading.alone) != alones.end();
          });
      if (begun && (out_.begun.empty() || out_.begun.back() != code.record))
        out_.begun.push_back(code.record);
    }
  }

  const CodeReadings& codes_;
  const CodeState& state_;
  std::string_view text_;
  std::optional<RecordIndex> maker_;
  std::vector<const CodeOnRecord*> carriers_;
  std::vector<Way> ways_;         // in the order of the rules, as they stand in the rule book
  std::vector<Against> missing_;  // of the reading at hand: texts that nothing on record gives
  CodeReadings::Loose out_;
};

}  // namespace

CodeReadings::Loose CodeReadings::readLoose(std::string_view text, std::optional<RecordIndex> maker) const {
  if (!state_) return {};
  return LooseReader(*this, *state_, text, maker).read();
}

}  // namespace saggar::choosing
