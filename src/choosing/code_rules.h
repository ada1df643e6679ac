#pragma once
#include <array>
#include <deque>
#include <optional>
#include <unordered_map>
#include <vector>

#include "choosing/code_readings.h"

// All rules of all makers, compiled, and which of them read what. Not for other rooms.
namespace saggar::choosing {

class SpecReader;

// What a rule reads.
enum class CodeField : std::uint8_t { code, codeSeen, dateCode, registered };
inline constexpr std::size_t kCodeFields = 4;

// The kinds that carry a code, in the order of CarrierSet's members.
inline constexpr std::array kCarriers = {Kind::treatment, Kind::specimen, Kind::shape, Kind::motif};
constexpr std::size_t carrierOf(Kind kind) {
  for (std::size_t i = 0; i < kCarriers.size(); ++i)
    if (kCarriers[i] == kind) return i;
  return kCarriers.size();
}

// A text that a path from the rule's own maker reaches, and, of a works, when that worked.
struct MakerText {
  std::string text;
  std::string means;
  const records::Value* value = nullptr;
  const records::Value* used = nullptr;
  dates::Bounds days{dates::Day::minusInfinity(), dates::Day::plusInfinity()};
};

struct PathChoice {
  std::string_view text;  // as typed
  bool ofMaker = false;
  std::array<Path, kCarriers.size()> from;  // from each kind that can take it; else empty
  std::vector<MakerText> texts;             // of the maker
  bool open = false;                        // the maker has one that is not known
};

struct PartPaths {
  std::string_view part;
  std::vector<PathChoice> paths;
};

// A part whose texts are all known, since its paths start at the rule's own maker: compiled as a table, so that a text
// which is none of them does not fit at all. `texts` are its rows.
struct PartTexts {
  std::string part;
  std::vector<MakerText> texts;
};

// `where` as each kind is asked it. What a kind has no field for is left out; the rest then cannot say no.
struct WhereOf {
  Condition condition;
  bool asked = false;
  bool partly = false;
};

// Refuses most texts that do not fit, by their length and fixed signs, before they are taken apart.
struct QuickLook {
  std::size_t least = 0;
  std::size_t most = SIZE_MAX;
  std::string fixed;  // signs that must be there, small
  bool mayFit(std::string_view text) const;
};

struct CompiledRule {
  const MakerRule* shown = nullptr;
  codes::Rule rule;
  CodeField on = CodeField::code;
  std::vector<PartPaths> paths;
  std::vector<PartTexts> tables;
  std::array<WhereOf, kCarriers.size()> where;
  const records::Value* whereValue = nullptr;
  source::FileId whereFile = source::kNoFile;
  const records::Value* usedValue = nullptr;
  dates::Bounds used{dates::Day::minusInfinity(), dates::Day::plusInfinity()};
  QuickLook quick;
  // The same with the texts on record where a path gives one: any text at all would explain nothing.
  std::optional<codes::Rule> strict{};
  const codes::Rule& explaining() const { return strict ? *strict : rule; }
};

// The rules of one maker, or of all, by what they read; each list in the order of `compiled`.
struct RuleGroup {
  std::array<std::vector<std::uint32_t>, kCodeFields> by;
  bool incomplete = false;          // some rule could not be compiled
  std::vector<std::string> unread;  // the names of those
};

class RuleBook {
 public:
  void compile(const Collection& collection, diagnostics::Findings& findings);

  std::span<const MakerRule> shown() const { return shown_; }
  const CompiledRule& operator[](std::size_t index) const { return compiled_[index]; }
  const CompiledRule& of(const MakerRule& rule) const {
    return compiled_[static_cast<std::size_t>(&rule - shown_.data())];
  }
  std::size_t size() const { return compiled_.size(); }

  // kNoRecord: of all makers. A maker without rules has an empty group.
  const RuleGroup& group(RecordIndex maker) const;

 private:
  struct Draft;
  void compileMaker(RecordIndex maker, const Collection& collection, diagnostics::Findings& findings);
  bool addPaths(CompiledRule& rule, const Draft& draft, RecordIndex maker, const Collection& collection,
                SpecReader& reader);

  std::vector<MakerRule> shown_;
  std::deque<CompiledRule> compiled_;
  std::unordered_map<RecordIndex, RuleGroup> groups_;
  RuleGroup all_;
  RuleGroup none_;
};

// `carries` of a mark names a rule of its maker: value-unfit where it does not.
void checkMarkCodes(const Collection& collection, diagnostics::Findings& findings);

}  // namespace saggar::choosing
