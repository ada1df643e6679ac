#include "base/text.h"
#include "commands/command.h"
#include "commands/pipeline.h"
#include "commands/resolve_reference.h"
#include "compose/guide.h"

// A stage's result as text, for contributors and for tests that pin it.
namespace saggar::commands {
namespace {

using linking::RecordIndex;
using records::Entry;
using records::Evidence;
using records::Record;
using records::Value;
using records::ValueType;

constexpr std::string_view kTypes[] = {"text",    "prose",  "date",   "between", "reference", "event",
                                       "measure", "number", "length", "yes-no",  "list",      "mapping",
                                       "unknown", "none",   "all",    "unfit"};

class Dump {
 public:
  Dump(const linking::Collection& collection, bool links) : collection_(collection), links_(links) {}

  void record(std::string& out, RecordIndex index) const {
    const Record& record = collection_[index];
    const source::Place place = collection_.sources().place(record.span());
    out += record.reference() + "  " + std::string(place.path) + ':' + std::to_string(place.line) +
           (record.broken ? "  broken" : "") + '\n';
    if (record.evidence != nullptr) evidence(out, *record.evidence, 1);
    for (const Entry& entry : record.fields) {
      out += "  " + std::string(entry.key);
      value(out, entry.value, 1);
    }
    if (!links_) return;
    for (const linking::BackReference& back : collection_.referredBy(index))
      out += "  <- " + collection_[back.from].reference() + '.' + std::string(back.field.name()) + '\n';
    for (const linking::BackReference& back : collection_.citedBy(index))
      out +=
          "  <- cited by " + collection_[back.from].reference() + '.' + std::string(back.field.name()) + '\n';
  }

 private:
  void value(std::string& out, const Value& value, int depth) const {
    out += "  " + std::string(kTypes[static_cast<std::size_t>(value.type)]);
    if (!value.text.empty()) out += " \"" + base::shortened(value.text, 200) + '"';
    if (links_ && value.target() != records::kNoRecord)
      out += " -> " + collection_[value.target()].reference() +
             (value.eventFieldTyped ? '.' + std::string(value.eventField.name()) : std::string());
    out += '\n';
    const std::string indent(static_cast<std::size_t>(depth) * 2 + 2, ' ');
    if (value.evidence != nullptr) evidence(out, *value.evidence, depth + 1);
    for (const Value& item : value.items()) {
      out += indent + "-";
      this->value(out, item, depth + 1);
    }
    for (const Entry& entry : value.entries()) {
      out += indent + std::string(entry.key);
      this->value(out, entry.value, depth + 1);
    }
  }

  void evidence(std::string& out, const Evidence& evidence, int depth) const {
    const std::string indent(static_cast<std::size_t>(depth) * 2, ' ');
    constexpr std::string_view kSays[] = {"", " indirect", " not-found"};
    for (const records::Citation& citation : evidence.cite)
      out += indent + "cite " + std::string(name(citation.kind)) + ':' + std::string(citation.id) +
             (citation.at.empty() ? "" : " \"" + std::string(citation.at) + '"') +
             std::string(kSays[static_cast<std::size_t>(citation.says)]) + '\n';
    if (!evidence.judged.empty()) out += indent + "judged \"" + std::string(evidence.judged) + "\"\n";
    if (!evidence.doubted.empty()) out += indent + "doubted \"" + std::string(evidence.doubted) + "\"\n";
    if (evidence.note != nullptr)
      out += indent + "note \"" + base::shortened(evidence.note->text, 200) + "\"\n";
    for (const records::Alternative& one : evidence.but) {
      out += indent + "but";
      value(out, one.is, depth);
    }
    if (evidence.complete) out += indent + "complete\n";
  }

  const linking::Collection& collection_;
  bool links_;
};

}  // namespace

int stage(const Environment& environment, const StageArguments& arguments) {
  std::string error;
  std::string hint;
  const auto folder = findGuideFolder(environment, arguments.folder, error, hint);
  if (!folder) return cannot(environment, false, error, hint);
  PipelineOptions options;
  options.checks = false;
  const auto guide = runPipeline(environment, *folder, options);
  if (arguments.stage == "document") {
    diagnostics::Findings findings;
    bool found = false;
    compose::composeGuide(
        *guide->materials, *guide->places,
        [&](compose::Composed made) {
          if (!arguments.reference.empty() && made.document.file != arguments.reference) return;
          found = true;
          environment.out(document::dump(made.document));
        },
        findings);
    return found ? kFine
                 : cannot(environment, false, "there is no chapter `" + arguments.reference + "`",
                          "name it as its file is named, without `.md`");
  }
  const Dump dump(guide->collection, arguments.stage == "links");
  std::string out;
  if (arguments.reference.empty()) {
    for (RecordIndex i = 0; i < guide->collection.size(); ++i) dump.record(out, i);
  } else {
    const auto index = recordNamed(guide->collection, arguments.reference, error, hint);
    if (!index) return cannot(environment, false, error, hint);
    dump.record(out, *index);
  }
  environment.out(out);
  return kFine;
}

}  // namespace saggar::commands
