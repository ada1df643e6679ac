#pragma once
#include "choosing/code_rules.h"

// Whether a reading can be meant where it stands. Not for other rooms.
namespace saggar::choosing {

// Where a code stands.
struct Standing {
  RecordIndex record = records::kNoRecord;
  RecordIndex treatment = records::kNoRecord;  // the record itself, or a specimen's
  CodeField field = CodeField::code;
  const records::Value* value = nullptr;  // the code as typed
  bool booked = true;                     // the treatment's only or first code: booked when it was introduced
};

class Judge {
 public:
  Judge(const Collection& collection, const Bounds& bounds) : collection_(collection), bounds_(bounds) {}

  bool possible(const CompiledRule& rule, const codes::Reading& reading, const Standing& standing) const {
    return look(rule, reading, standing, nullptr);
  }
  bool possibleButForWorks(const CompiledRule& rule, const codes::Reading& reading,
                           const Standing& standing) const {
    return look(rule, reading, standing, nullptr, false);
  }
  std::vector<Against> against(const CompiledRule& rule, const codes::Reading& reading,
                               const Standing& standing) const {
    std::vector<Against> all;
    look(rule, reading, standing, &all);
    return all;
  }

  // The parts of that, for texts that stand on no record.
  bool reads(const CompiledRule& rule, const codes::Reading& reading, std::vector<Against>* all,
             bool works = true) const;  // its own date and works
  bool path(const CompiledRule& rule, const codes::Reading& reading, const codes::PathNeed& need,
            const Standing& standing, std::vector<Against>* all) const;
  Answer where(const CompiledRule& rule, const Standing& standing) const;

  static std::string whereInWords(const CompiledRule& rule);

 private:
  bool look(const CompiledRule& rule, const codes::Reading& reading, const Standing& standing,
            std::vector<Against>* all, bool works = true) const;
  bool dates(const CompiledRule& rule, const Standing& standing, std::vector<Against>* all) const;
  bool makerPath(const PathChoice& choice, const CompiledRule& rule, const codes::PathNeed& need, bool& open,
                 bool& gave, std::vector<Against>& said) const;
  bool feature(const codes::Reading& reading, const codes::LookAsked& asked, const Standing& standing,
               std::vector<Against>* all) const;
  const PartPaths& pathsOf(const CompiledRule& rule, std::string_view part) const;
  source::Span spanOf(RecordIndex record, const records::Value& value) const;

  const Collection& collection_;
  const Bounds& bounds_;
};

}  // namespace saggar::choosing
