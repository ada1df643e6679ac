#pragma once
#include <map>
#include <mutex>
#include <set>
#include <string>
#include <vector>

#include "commands/pipeline.h"

// What is found only while pages are set: fonts that are not there, signs that no font has. Gathered from several threads,
// told once each, at the place where an author can mend it.
namespace saggar::commands {

class PrintFaults {
 public:
  explicit PrintFaults(const Guide& guide) : guide_(guide) {}

  // The layout of a checklist names the file `wanted`, and `used` was taken (empty: nothing was left to take). Here and
  // below `checklist` is kNoRecord for the sheet of what is wanted, which is no record.
  void fontMissing(linking::RecordIndex checklist, const std::string& layout, const std::string& wanted,
                   const std::string& used);

  // No font of its layout has the sign, given as "U+1F600"; `records` are those it was made from.
  void signMissing(linking::RecordIndex checklist, const std::string& layout, const std::string& sign,
                   std::size_t words, const std::vector<linking::RecordIndex>& records);

  // One finding a font file and one a sign, each about all checklists it concerns; the same whatever the order of threads.
  diagnostics::Findings findings() const;

 private:
  struct Fault {
    std::set<linking::RecordIndex> checklists;
    std::string layout;     // of the first checklist
    std::string used;       // of a font
    std::size_t words = 0;  // of a sign
    source::Span span;      // of a sign, where it was typed
  };
  source::Span placeOfFont(const std::string& wanted, const Fault& fault) const;
  source::Span placeOfLayoutName(linking::RecordIndex checklist) const;
  source::Span placeOfSign(const std::string& sign, const std::vector<linking::RecordIndex>& records) const;
  std::vector<std::string> references(const Fault& fault) const;  // of its checklists
  std::string firstOf(const Fault& fault) const;  // the first of them; empty for the sheet alone
  std::string sheetsInWords(const Fault& fault) const;

  const Guide& guide_;
  std::mutex lock_;
  std::map<std::string, Fault> fonts_;
  std::map<std::string, Fault> signs_;
};

}  // namespace saggar::commands
