#include <algorithm>

#include "base/text.h"
#include "commands/command.h"
#include "commands/pipeline.h"
#include "commands/resolve_reference.h"
#include "commands/stage_bounds.h"
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
    if (!evidence.judged().empty()) out += indent + "judged \"" + std::string(evidence.judged()) + "\"\n";
    if (!evidence.doubted().empty()) out += indent + "doubted \"" + std::string(evidence.doubted()) + "\"\n";
    if (evidence.note() != nullptr)
      out += indent + "note \"" + base::shortened(evidence.note()->text, 200) + "\"\n";
    for (const records::Alternative& one : evidence.but()) {
      out += indent + "but";
      value(out, one.is, depth);
    }
    if (evidence.complete()) out += indent + "complete\n";
  }

  const linking::Collection& collection_;
  bool links_;
};

// What each citation is worth and where each fact stands.
class EvidenceDump {
 public:
  explicit EvidenceDump(const Guide& guide) : guide_(guide), weights_(*guide.weights) {}

  void record(std::string& out, RecordIndex index) const {
    const Record& record = guide_.collection[index];
    const source::Place place = guide_.collection.sources().place(record.span());
    out += record.reference() + "  " + std::string(place.path) + ':' + std::to_string(place.line) + '\n';
    if (record.kind == records::Kind::source || record.kind == records::Kind::specimen) source(out, index);
    if (record.kind == records::Kind::treatment)
      out += "  known: " + std::string(word(weights_.knownBy(index))) + '\n';
    if (record.evidence != nullptr) {
      out += "  its own cite\n";
      static const Value kNothing{};
      for (const records::Citation& one : record.evidence->cite) citation(out, one, kNothing, {});
    }
    std::vector<Part> parts;
    weights_.eachFact(
        index,
        [&](const Entry& field) {
          return record.kind == records::Kind::claim ? field.field == "says"_f : true;
        },
        [&](const Entry& field, const Value& value, const evidence::Weighed& weighed) {
          if (!weighed.own && !records::needsEvidence(record.kind, field.field) &&
              record.kind != records::Kind::claim)
            return;
          if (!parts.empty() && parts.front().field != &field) fact(out, index, parts);
          parts.push_back({&field, &value, weighed});
        });
    fact(out, index, parts);
  }

 private:
  struct Part {
    const Entry* field;
    const Value* value;
    evidence::Weighed weighed;
    bool operator==(const Part& other) const {
      return weighed.evidence == other.weighed.evidence && weighed.standing == other.weighed.standing &&
             weighed.disputed == other.weighed.disputed && weighed.tooEarly == other.weighed.tooEarly;
    }
  };

  // One line a field, or one for each part that weighs otherwise than the part before it.
  void fact(std::string& out, RecordIndex index, std::vector<Part>& parts) const {
    const bool all =
        std::all_of(parts.begin(), parts.end(), [&](const Part& one) { return one == parts[0]; });
    for (std::size_t i = 0; i < parts.size(); ++i) {
      const auto& [field, value, weighed] = parts[i];
      if (i != 0 && parts[i] == parts[i - 1]) continue;
      out += "  " + std::string(field->key) +
             (all || value->text.empty() ? "" : " \"" + base::shortened(value->text, 60) + '"') + "  " +
             (weighed.disputed ? "disputed, " : "") + std::string(word(weighed.standing)) + '\n';
      if (weighed.evidence == nullptr || (!weighed.own && weighed.tooEarly == nullptr)) continue;
      const evidence::Backing backing = weights_.backingOf(index, *value);
      for (const records::Citation& one : weighed.evidence->cite) citation(out, one, *value, backing);
      if (const std::size_t count = weights_.independentCitations(*value, backing); count > 1)
        out += "    independent of one another: " + std::to_string(count) + '\n';
    }
    parts.clear();
  }

  void source(std::string& out, RecordIndex index) const {
    const evidence::Worth worth = weights_.worthOf(index);
    constexpr std::string_view kShows[] = {"nothing of dates", "existed by", "existed by, on offer then",
                                           "design existed by"};
    out += "  " + std::string(word(worth.form)) + ' ' + std::string(word(worth.information)) +
           (worth.direct ? "" : " indirect") + ", shows " +
           std::string(kShows[static_cast<std::size_t>(worth.shows)]) +
           (weights_.wantsLocator(index) ? ", wants a locator" : "") + (worth.known ? "" : ", not known") +
           '\n';
  }

  void citation(std::string& out, const records::Citation& one, const Value& part,
                const evidence::Backing& backing) const {
    const evidence::Worth worth = weights_.worthOf(one);
    out += "    " + std::string(name(one.kind)) + ':' + std::string(one.id) + ' ';
    switch (weights_.counts(one, part, backing)) {
      case evidence::Counts::notFound: out += "not counted: not found there\n"; return;
      case evidence::Counts::tooEarly: out += "not counted: too early\n"; return;
      case evidence::Counts::yes: break;
    }
    out += !worth.known ? "leads nowhere\n"
                        : std::string(word(worth.form)) + ' ' + std::string(word(worth.information)) +
                              (worth.direct ? " direct" : " indirect") +
                              (worth.laterWords() ? ", later words\n" : "\n");
  }

  const Guide& guide_;
  const evidence::Weights& weights_;
};

}  // namespace

int stage(const Environment& environment, const StageArguments& arguments) {
  PipelineOptions options;
  options.checks = false;
  const auto guide = openGuide(environment, arguments.folder, false, options);
  if (guide == nullptr) return kCannot;
  std::string error;
  std::string hint;
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
  const EvidenceDump evidence(*guide);
  std::string out;
  const auto put = [&](RecordIndex index) {
    if (arguments.stage == "bounds") return putBounds(out, *guide, index);
    arguments.stage == "evidence" ? evidence.record(out, index) : dump.record(out, index);
  };
  if (arguments.reference.empty()) {
    for (RecordIndex i = 0; i < guide->collection.size(); ++i) put(i);
  } else {
    const auto index = recordNamed(guide->collection, arguments.reference, error, hint);
    if (!index) return cannot(environment, false, error, hint);
    put(*index);
  }
  environment.out(out);
  return kFine;
}

}  // namespace saggar::commands
