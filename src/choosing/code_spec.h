#pragma once
#include "codes/rule_spec.h"
#include "diagnostics/finding.h"
#include "linking/collection.h"

// From a rule under `codes` as it was typed to the rule as data. Not for other rooms.
namespace saggar::choosing {

struct ReadSpec {
  codes::RuleSpec spec;
  bool whole = true;     // nothing in it was unreadable
  bool noAlone = false;  // `alone: none`
};

// Findings value-unfit, field-unknown, date-unreadable, reference-missing at what is wrong; it is then left out.
class SpecReader {
 public:
  SpecReader(const linking::Collection& collection, const records::Record& maker,
             diagnostics::Findings& findings)
      : collection_(collection), maker_(maker), findings_(findings) {}

  ReadSpec read(const records::Value& rule);

  // What compiling found wrong, at the part, row or entry it means.
  void report(const records::Value& rule, const codes::Problem& problem);

  void report(diagnostics::Rule id, records::Extent place, std::string message, std::string hint);

 private:
  template <class T>
  bool take(const codes::Parsed<T>& parsed, records::Extent place);
  void unfit(records::Extent place, std::string message, std::string hint);

  void readParts(const records::Value& parts);
  std::optional<codes::PartSpec> readPart(std::string_view name, const records::Value& value);
  std::optional<codes::PartSpec> readTable(const records::Value& table);
  void readRow(const records::Entry& entry, const records::Value& value, codes::TablePart& table);
  bool readRowKey(const records::Entry& entry, codes::TableRow& row);
  void readLook(const records::Value& look, codes::TableRow& row);
  bool fitsFeature(const records::Record& feature, const records::Value& value);
  void readOrder(const records::Value& value);
  std::optional<std::vector<codes::DatedNumber>> readDates(const records::Value* table,
                                                           std::string_view field);
  void readMissing(const records::Value& value);
  void readUnlike(const records::Value& value);

  const linking::Collection& collection_;
  const records::Record& maker_;
  diagnostics::Findings& findings_;
  ReadSpec out_;
};

}  // namespace saggar::choosing
