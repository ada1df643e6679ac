#include <nlohmann/json.hpp>

#include <algorithm>

#include "base/text.h"
#include "commands/command.h"
#include "commands/pipeline.h"
#include "commands/resolve_reference.h"
#include "compose/words.h"

// Everything known about one record. It is for its author, so private fields are shown too.
namespace saggar::commands {
namespace {

using Json = nlohmann::ordered_json;
using linking::RecordIndex;
using records::Entry;
using records::Evidence;
using records::Record;
using records::Value;

struct Fact {
  const Entry* entry;
  std::string value;
  std::vector<const records::Citation*> sources;
  std::string judged;
};

class Show {
 public:
  Show(const Guide& guide, RecordIndex index) : guide_(guide), record_(guide.collection[index]), index_(index), words_(*guide.materials, nullptr) {
    for (const Entry& entry : record_.fields) {
      Fact fact{&entry, valueOf(entry), {}, {}};
      gather(entry.value, fact);
      if (entry.value.evidence == nullptr && record_.evidence != nullptr && records::needsEvidence(record_.kind, entry.field)) add(record_.evidence, fact);
      facts_.push_back(std::move(fact));
    }
  }

  std::string asText() const {
    const source::Place place = guide_.collection.sources().place(record_.span());
    std::string out = words_.plainName(index_) + '\n' + record_.reference() + ", " + std::string(place.path) + ':' + std::to_string(place.line) + "\n\n";
    for (const Fact& fact : facts_) {
      std::string line(fact.entry->key);
      line.resize(std::max<std::size_t>(line.size() + 2, 18), ' ');
      out += line + fact.value + '\n';
      for (const records::Citation* citation : fact.sources) out += std::string(18, ' ') + "from " + citationInWords(*citation) + '\n';
      if (!fact.judged.empty()) out += std::string(18, ' ') + "the author's judgement: " + fact.judged + '\n';
    }
    const auto names = knownAs();
    if (!names.empty()) out += "\nknown as\n" + lines(names);
    std::vector<std::string> from;
    for (const linking::BackReference& back : guide_.collection.referredBy(index_)) from.push_back(guide_.collection[back.from].reference() + " (" + std::string(back.field.name()) + ")");
    if (!from.empty()) out += "\nreferred to by\n" + lines(from);
    std::vector<std::string> cited;
    for (const linking::BackReference& back : guide_.collection.citedBy(index_)) cited.push_back(guide_.collection[back.from].reference() + " (" + std::string(back.field.name()) + ")");
    std::sort(cited.begin(), cited.end());
    cited.erase(std::unique(cited.begin(), cited.end()), cited.end());
    if (!cited.empty()) out += "\ncited by\n" + lines(cited);
    std::vector<std::string> mentions;
    for (const linking::Mention& mention : guide_.collection.mentions()) {
      if (mention.target != index_) continue;
      const source::Place at = guide_.collection.sources().place(mention.span);
      mentions.push_back(std::string(at.path) + ':' + std::to_string(at.line));
    }
    if (!mentions.empty()) out += "\nmentioned in\n" + lines(mentions);
    if (const auto stated = statedPlaces(); !stated.empty()) out += "\nstated in\n" + lines(stated);
    if (const auto published = guide_.places->of(index_)) out += "\npublished in\n  guide/" + published->file + ".md#" + published->anchor + '\n';
    return out;
  }

  std::string asJson() const {
    Json out;
    out["record"] = record_.reference();
    out["kind"] = name(record_.kind);
    out["name"] = words_.plainName(index_);
    out["facts"] = Json::array();
    for (const Fact& fact : facts_) {
      Json one;
      one["record"] = record_.reference();
      one["field"] = fact.entry->key;
      one["value"] = fact.value;
      const source::Place place = guide_.collection.sources().place(record_.span(fact.entry->value.place));
      one["file"] = place.path;
      one["line"] = place.line;
      one["column"] = place.column;
      one["sources"] = Json::array();
      for (const records::Citation* citation : fact.sources) {
        Json source{{"source", citation->kind == records::Kind::source ? std::string(citation->id) : std::string(name(citation->kind)) + ":" + std::string(citation->id)}};
        if (!citation->at.empty()) source["at"] = citation->at;
        one["sources"].push_back(std::move(source));
      }
      out["facts"].push_back(std::move(one));
    }
    out["known_as"] = knownAs();
    out["referred_to_by"] = Json::array();
    for (const linking::BackReference& back : guide_.collection.referredBy(index_))
      out["referred_to_by"].push_back({{"record", guide_.collection[back.from].reference()}, {"field", back.field.name()}});
    out["stated"] = statedPlaces();
    out["published"] = Json::array();
    if (const auto published = guide_.places->of(index_)) out["published"].push_back({{"file", "guide/" + published->file + ".md"}, {"anchor", published->anchor}});
    return out.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
  }

 private:
  std::string valueOf(const Entry& entry) const {
    const linking::PublishedRecord own(record_, index_);
    if (!entry.known) return plain(entry.value);
    return words_.plainValue(&entry.value, records::specOf(record_.kind, entry.field), own);
  }

  static std::string plain(const Value& value) {
    std::vector<std::string> parts;
    for (const Value& item : value.items()) parts.push_back(plain(item));
    for (const Entry& entry : value.entries()) parts.push_back(std::string(entry.key) + ": " + plain(entry.value));
    return parts.empty() ? std::string(value.text) : base::joined(parts, ", ");
  }

  static void add(const Evidence* evidence, Fact& fact) {
    if (evidence == nullptr) return;
    for (const records::Citation& citation : evidence->cite) fact.sources.push_back(&citation);
    if (!evidence->judged.empty()) fact.judged = std::string(evidence->judged);
  }

  static void gather(const Value& value, Fact& fact) {
    add(value.evidence, fact);
    for (const Value& item : value.items()) gather(item, fact);
    for (const Entry& entry : value.entries()) gather(entry.value, fact);
  }

  std::string citationInWords(const records::Citation& citation) const { return document::plainText(words_.citation(citation)); }

  std::vector<std::string> knownAs() const {
    std::vector<std::string> names;
    if (const Value* also = record_.find("also"_f); also != nullptr && also->said())
      for (const Value& one : also->each()) {
        const Value* own = one.find("name"_f);
        if (own == nullptr) continue;
        std::string words(own->text);
        if (const Value* by = one.find("by"_f)) words += " (" + std::string(by->text) + ")";
        names.push_back(std::move(words));
      }
    return names;
  }

  std::vector<std::string> statedPlaces() const {
    std::vector<std::string> places;
    const Value* stated = record_.find("stated"_f);
    if (stated == nullptr || !stated->said()) return places;
    for (const Value& one : stated->each()) places.push_back(plain(one));
    return places;
  }

  static std::string lines(const std::vector<std::string>& all) {
    constexpr std::size_t kMost = 40;
    std::string out;
    for (std::size_t i = 0; i < std::min(all.size(), kMost); ++i) out += "  " + all[i] + '\n';
    if (all.size() > kMost) out += "  … and " + std::to_string(all.size() - kMost) + " more\n";
    return out;
  }

  const Guide& guide_;
  const Record& record_;
  RecordIndex index_;
  compose::Words words_;
  std::vector<Fact> facts_;
};

}  // namespace

int show(const Environment& environment, const ShowArguments& arguments) {
  const bool json = arguments.format == "json";
  std::string error;
  std::string hint;
  const auto folder = findGuideFolder(environment, arguments.folder, error, hint);
  if (!folder) return cannot(environment, json, error, hint);
  const auto guide = runPipeline(environment, *folder);
  const auto index = recordNamed(guide->collection, arguments.reference, error, hint);
  if (!index) return cannot(environment, json, error, hint);
  const Show view(*guide, *index);
  environment.out(json ? view.asJson() : view.asText());
  sayFindings(environment, *guide);
  return guide->collection[*index].broken ? kFindings : kFine;
}

}  // namespace saggar::commands
