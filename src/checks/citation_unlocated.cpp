#include "checks/rules.h"

// Some sources are so long that a citation without its place in them helps nobody.
namespace saggar::checks {

using records::Citation;
using records::Entry;
using records::Evidence;
using records::Record;
using records::Value;

namespace {

class Look {
 public:
  Look(const Context& context, diagnostics::Findings& findings) : context_(context), findings_(findings) {}

  void at(const Record& record, const Evidence* evidence) {
    if (evidence == nullptr) return;
    for (const Citation& citation : evidence->cite) at(record, citation);
    for (const records::Alternative& one : evidence->but())
      for (const Citation& citation : one.cite) at(record, citation);
  }

  void at(const Record& record, const Value& value) {
    at(record, value.evidence);
    for (const Value& item : value.items()) at(record, item);
    for (const Entry& entry : value.entries()) at(record, entry.value);
  }

 private:
  void at(const Record& record, const Citation& citation) {
    // Looked for in the whole of it, and not found: that has no place.
    if (citation.says == records::Says::notFound) return;
    if (!citation.at.empty() || citation.target == records::kNoRecord ||
        !context_.weights.wantsLocator(citation.target))
      return;
    const std::string id(citation.id);
    findings_.add({.rule = "citation-unlocated"_rule,
                   .span = record.span(citation.idPlace),
                   .message = "`" + id + "` is cited without the place in it",
                   .hint = "add the place: `" + id + ": p. 4`, on a line of its own",
                   .record = record.reference()});
  }

  const Context& context_;
  diagnostics::Findings& findings_;
};

}  // namespace

void citationUnlocated(const Context& context, diagnostics::Findings& findings) {
  Look look(context, findings);
  for (const Record& record : context.collection.records()) {
    look.at(record, record.evidence);
    for (const Entry& entry : record.fields) look.at(record, entry.value);
  }
}

}  // namespace saggar::checks
