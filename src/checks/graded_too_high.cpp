#include "base/text.h"
#include "checks/rules.h"

// Whoever grades a source above its type says why.
namespace saggar::checks {

using evidence::Form;
using evidence::Information;
using records::Record;
using records::RecordIndex;
using records::Value;

namespace {

bool saysWhy(const Record& source, const Value& value) {
  const Value* note = source.find("note"_f);
  return (note != nullptr && note->said()) ||
         (value.evidence != nullptr && value.evidence->note() != nullptr);
}

}  // namespace

void gradedTooHigh(const Context& context, diagnostics::Findings& findings) {
  for (RecordIndex index : context.collection.ofKind(records::Kind::source)) {
    const Record& source = context.collection[index];
    const std::string_view typed = source.text("type"_f);
    const evidence::SourceType* type = evidence::sourceTypeNamed(typed);
    if (source.broken) continue;
    const Form form = type != nullptr ? type->form : Form::authored;
    const Information information = type != nullptr ? type->information : Information::undetermined;
    const evidence::Worth own = context.weights.worthOf(index);
    std::vector<std::string> raised;
    const Value* at = nullptr;
    const auto look = [&](records::Field field, bool higher, std::string_view to, std::string_view from) {
      const Value* value = higher ? source.find(field) : nullptr;
      if (value == nullptr || saysWhy(source, *value)) return;
      if (at == nullptr) at = value;
      raised.push_back(
          "`" + std::string(field.name()) + ": " + std::string(to) + "`, where " +
          (type != nullptr ? "its type `" + std::string(typed) + "` is " : "without a type it is ") +
          std::string(from));
    };
    look("record"_f, own.form < form, word(own.form), word(form));
    look("information"_f, own.information < information, word(own.information), word(information));
    if (at == nullptr) continue;
    findings.add(
        {.rule = "graded-too-high"_rule,
         .span = source.span(at->place),
         .message =
             "`" + std::string(source.id) + "` has " + base::listedInWords(raised) + ", and no note says why",
         .hint = "say in a `note` why it is worth more than others of its type, or take the line out",
         .record = source.reference(),
         .field = raised.size() == 1 ? std::string(at == source.find("record"_f) ? "record" : "information")
                                     : std::string()});
  }
}

}  // namespace saggar::checks
