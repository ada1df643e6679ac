#pragma once
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "choosing/choose.h"
#include "chronology/code_days.h"
#include "codes/rule.h"
#include "diagnostics/finding.h"

// Every code of every record, read by every rule that applies to it. SEMANTICS, "Codes". What those pages leave open
// is decided thus:
// - A `registered` rule of anybody reads all records; the other rules read the ware of their maker, and ware whose
//   maker is not known.
// - Of several paths one must give the text. A reference that the treatment leaves out (`for`) is no customer, so that
//   a wrong prefix is found; whatever is `unknown`, or not recorded further on, rules nothing out.
// - A specimen has the look of its treatment where its own says nothing, and `where` is asked of its treatment.
// - A list of `date-code` is one code of which the eye allows several.
namespace saggar::choosing {

// A maker's rule, compiled, with all that `like` gives it.
struct MakerRule {
  RecordIndex maker = records::kNoRecord;
  std::string name;
  std::string on;  // "treatment.code", "specimen.code-seen", "specimen.date-code", "registered"
  const codes::Rule* rule = nullptr;
  Condition where;
  const dates::Expression* used = nullptr;
  bool usual = false;                      // a disagreement is a note
  const records::Value* source = nullptr;  // the rule's mapping: its places and evidence
  const records::Value* means = nullptr;   // prose; may stand in the rule that this one is like
};

// Why a reading cannot be meant.
struct Against {
  enum class Reason : std::uint8_t { path, look, used, where, dates } reason = Reason::path;
  std::string says;   // in words an author would write: "the prefix of Linnavere is `LV`, not `JM`"
  source::Span span;  // of the value that disagrees
  RecordIndex record = records::kNoRecord;  // in which it stands
  records::Field field{};
  const records::Value* value = nullptr;  // the value itself, if there is one
};

// What is kept of one way to read a text. A large guide has a hundred thousand of them, and few are ever printed: the
// parts are read again where they are wanted (CodeReadings::inFull).
struct KeptReading {
  codes::DateChoice date;
  std::optional<codes::CodeNumber> number;
  std::string key;  // as codes::Reading has them
  std::string alone;
  const records::Value* worksUsed = nullptr;  // the years of the works that it names

  std::string dateInWords() const { return codes::inWords(date); }
  // Set if the date has a year.
  std::optional<dates::Bounds> when() const { return date.year ? codes::daysOf(date) : std::nullopt; }
};

// Readings of equal texts are shared and live as long as the CodeReadings they come from.
struct CodeReading {
  const MakerRule* rule = nullptr;
  const KeptReading& reading;
  bool possible = true;
};

// One code as it stands on one record.
struct CodeOnRecord {
  RecordIndex record = records::kNoRecord;
  records::Field field{};  // code, code-seen, date-code, registered
  const records::Value* value = nullptr;
  std::span<const CodeReading> readings;  // in the order of the rules; impossible ones too
  bool applies = false;  // some rule reads this field here, and all such rules could be compiled
  bool more = false;     // there are more readings than were kept
  const std::string* unlike = nullptr;  // a rule says that this text is none of its codes: why

  std::size_t possibleCount() const;
  const CodeReading* only() const;  // the one possible reading, or null
};

struct CodeState;

class CodeReadings {
 public:
  // Compiles every rule (findings: value-unfit, field-unknown … at the place in `codes`) and reads every code. In
  // parallel. The chooser must outlive what is made. Conditions have their findings from checkConditions.
  static CodeReadings read(const Chooser& chooser, diagnostics::Findings& findings);

  std::span<const MakerRule> rules() const;
  std::span<const CodeOnRecord> all() const;  // by record, then field, then as typed
  std::span<const CodeOnRecord> of(RecordIndex record) const;

  // The readings of a code with their parts, in the order of `readings`.
  std::vector<codes::Reading> inFull(const CodeOnRecord& code) const;

  // What rules a reading of a code out; empty if it is possible.
  std::vector<Against> against(const CodeOnRecord& code, const CodeReading& reading) const;

  // The rules that read such a code of this record.
  std::vector<const MakerRule*> rulesFor(RecordIndex record, records::Field field) const;

  // Why it is not read: of the rules that hold for the record and do not read it, the one that comes furthest, which
  // `rule` receives. Nothing is set if every rule reads it.
  codes::Explanation whyUnread(const CodeOnRecord& code, const MakerRule** rule = nullptr) const;

  // `saggar code`: a text on no record, by the rules of one maker or of all. Where records carry the text it is judged
  // on them, and a reading is ruled out if it is on each. Else something on record must give each path its text, as far
  // as is known, and `where` must not say no of every treatment that has the same.
  struct Named {
    std::size_t part = 0;  // of the reading
    RecordIndex record = records::kNoRecord;
  };
  struct LooseReading {
    const MakerRule* rule = nullptr;
    codes::Reading reading;
    bool possible = true;
    std::vector<Against> against;
    std::vector<Named> named;          // what the text of a path's part stands for: JM for shape:jessamount
    std::vector<RecordIndex> matches;  // records that carry the text, on which this reading is possible
  };
  struct Alike {
    const MakerRule* rule = nullptr;
    codes::Similar code;
    std::vector<std::vector<Against>> against{};  // of each reading, what rules it out
    bool possible() const {
      return std::any_of(against.begin(), against.end(), [](const auto& one) { return one.empty(); });
    }
  };
  struct Loose {
    std::vector<LooseReading> readings;
    std::vector<RecordIndex> matches;  // treatments, specimens, shapes and motifs that carry this text
    // If no reading is possible: treatments of which it is the number that may stand alone; and what the rule that comes
    // nearest, of those that do not read it, wants instead.
    std::vector<RecordIndex> begun;
    std::string whyNot;
    const MakerRule* nearest = nullptr;
    // Rules that might read it, and that have faults of their own: their names, of one without a name empty.
    std::vector<std::string> faulty;
    std::vector<Alike> similar;  // what the eye could take it for, possible ones first, then fewest exchanges
    bool more = false, moreSimilar = false;  // there are, or may be, more readings, more such texts
  };
  Loose readLoose(std::string_view text, std::optional<RecordIndex> maker) const;

  // What the possible readings say of days, for the network of dates. Codes and readings are numbered as in all(). These
  // readings must outlive it.
  std::unique_ptr<chronology::CodeDates> days() const;

  // Documented dates rule a reading out: from then on it is not possible, and against() tells why.
  struct StruckOut {
    std::size_t code = 0;  // in all()
    std::size_t reading = 0;
    std::vector<Against> because;
  };
  void strikeOut(std::vector<StruckOut> struck);

  // The maker whose rules apply to a record: of its shape; kNoRecord if not known, or if its shapes have several.
  RecordIndex makerOf(RecordIndex record) const;

  // The treatment that a code of this record stands on: the record itself or a specimen's treatment; else kNoRecord.
  RecordIndex treatmentOf(RecordIndex record) const;

 private:
  std::shared_ptr<CodeState> state_;
};

}  // namespace saggar::choosing
