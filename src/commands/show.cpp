#include <nlohmann/json.hpp>

#include <algorithm>

#include "base/text.h"
#include "checks/doubts.h"
#include "commands/columns.h"
#include "commands/command.h"
#include "commands/pipeline.h"
#include "commands/reason_output.h"
#include "commands/resolve_reference.h"
#include "commands/show_days.h"
#include "compose/claim_tests.h"
#include "compose/words.h"

// Everything known about one record. It is for its author, so private fields are shown too.
namespace saggar::commands {
namespace {

using Json = nlohmann::ordered_json;
using linking::BackReference;
using linking::RecordIndex;
using records::Citation;
using records::Entry;
using records::Evidence;
using records::FieldSpec;
using records::FieldType;
using records::Record;
using records::Value;

struct Fact {
  const Entry* entry;
  std::string value;
  std::vector<std::string> lines;        // the value as it is shown: a member of a list a line
  std::vector<const Citation*> sources;  // its own
  std::string judged;
  std::string standing;  // as a word, and in words; empty for what wants no source and has none
  std::string standingInWords;
  bool asTyped = false;        // the lines are those of the file
  bool restsOnRecord = false;  // it has no source of its own, and the record's `cite` is for it
};

class Show {
 public:
  Show(const Guide& guide, RecordIndex index)
      : guide_(guide), record_(guide.collection[index]), index_(index), words_(*guide.materials, nullptr) {
    for (const Entry& entry : record_.fields) {
      Fact fact{.entry = &entry,
                .value = valueOf(entry, entry.value),
                .lines = linesOf(entry),
                .sources = {},
                .judged = {},
                .standing = {},
                .standingInWords = {}};
      fact.asTyped = entry.known && isKeptAsTyped(*records::specOf(record_.kind, entry.field));
      gather(entry.value, fact);
      const bool wants =
          entry.known && entry.value.said() &&
          (checks::wantsEvidence(record_, entry) ||
           (record_.kind == records::Kind::claim && entry.field == "says"_f && record_.evidence != nullptr));
      const bool own = !fact.sources.empty() || !fact.judged.empty();
      fact.restsOnRecord = wants && !own && record_.evidence != nullptr && !record_.evidence->cite.empty();
      const evidence::Weighed weighed = guide.weights->weigh(index, entry.value);
      if (wants || (entry.known && weighed.own)) {
        fact.standing = weighed.word();
        fact.standingInWords = guide.weights->inWords(weighed);
      }
      facts_.push_back(std::move(fact));
    }
  }

  std::string asText() const {
    const source::Place place = guide_.collection.sources().place(record_.span());
    std::string out = words_.plainName(index_) + '\n' + record_.reference() + ", " + std::string(place.path) +
                      ':' + std::to_string(place.line) + "\n\n";
    if (record_.broken) out += "Part of this record could not be read; `saggar check` says what.\n";
    if (record_.broken && !facts_.empty()) out += '\n';
    for (const Fact& fact : facts_) {
      putFact(out, fact);
      if (fact.entry->known && fact.entry->field == "test"_f) putOutcome(out);
    }
    for (const DaysNotRecorded& days : daysNotRecorded(guide_, index_)) {
      putColumns(out, days.field, "not recorded", kColumn);
      for (const std::string& line : days.lines) putColumns(out, "", line, kColumn + 2);
    }
    if (record_.evidence != nullptr && !record_.evidence->cite.empty()) {
      const bool all =
          std::all_of(facts_.begin(), facts_.end(), [](const Fact& fact) { return fact.sources.empty(); });
      out += all ? "\nfrom\n" : "\nwhat has no source of its own is from\n";
      for (const Citation& citation : record_.evidence->cite)
        putColumns(out, "", document::plainText(words_.citation(citation)), 2);
    }
    if (record_.kind == records::Kind::treatment)
      out += "\nhow it is known\n  " + std::string(inWords(guide_.weights->knownBy(index_))) + '\n';
    putBackReferences(out, "referred to by", guide_.collection.referredBy(index_), true);
    putBackReferences(out, "cited by", guide_.collection.citedBy(index_), false);
    putMentions(out);
    if (const auto published = guide_.places->of(index_))
      putList(out, "published in", {"guide/" + published->file + ".md#" + published->anchor});
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
      if (!fact.standing.empty()) one["standing"] = fact.standing;
      const source::Place place = guide_.collection.sources().place(record_.span(fact.entry->value.place));
      one["file"] = place.path;
      one["line"] = place.line;
      one["column"] = place.column;
      one["sources"] = Json::array();
      for (const Citation* citation : fact.sources) one["sources"].push_back(citationAsJson(*citation));
      if (fact.restsOnRecord)
        for (const Citation& citation : record_.evidence->cite)
          one["sources"].push_back(citationAsJson(citation));
      if (fact.entry->known)
        if (Json proven = provenAsJson(guide_, index_, fact.entry->field); !proven.is_null())
          one["proven"] = std::move(proven);
      out["facts"].push_back(std::move(one));
    }
    out["known_as"] = knownAs();
    out["referred_to_by"] = Json::array();
    for (const BackReference& back : guide_.collection.referredBy(index_))
      out["referred_to_by"].push_back(
          {{"record", guide_.collection[back.from].reference()}, {"field", back.field.name()}});
    out["stated"] = statedPlaces();
    out["published"] = Json::array();
    if (const auto published = guide_.places->of(index_))
      out["published"].push_back(
          {{"file", "guide/" + published->file + ".md"}, {"anchor", published->anchor}});
    return out.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
  }

 private:
  static constexpr std::size_t kColumn = 18;

  std::string valueOf(const Entry& entry, const Value& value) const {
    const linking::PublishedRecord own(record_, index_);
    if (!entry.known) return plain(value);
    return words_.plainValue(&value, records::specOf(record_.kind, entry.field), own);
  }

  // References stand in one line, whatever has parts of its own or is a sentence in a line each; what the language keeps
  // as typed (rules of codes, conditions, tests) is shown as typed.
  std::vector<std::string> linesOf(const Entry& entry) const {
    if (!entry.known) return {plain(entry.value)};
    if (entry.field == "also"_f) return knownAs();
    const FieldSpec& spec = *records::specOf(record_.kind, entry.field);
    if (isKeptAsTyped(spec)) return typedLines(entry.value);
    std::vector<std::string> lines;
    const auto items = entry.value.each();
    const bool members = std::any_of(items.begin(), items.end(), [](const Value& item) {
      return item.type == records::ValueType::mapping || item.type == records::ValueType::prose;
    });
    if (spec.type == FieldType::headings && entry.value.type == records::ValueType::mapping) {
      for (const Entry& one : entry.value.entries())
        lines.push_back(std::string(one.key) + ": " + plain(one.value));
    } else if (spec.type == FieldType::structureMap && entry.value.type == records::ValueType::mapping) {
      for (const Entry& one : entry.value.entries())
        lines.push_back(std::string(one.key) + ": " + structure(one.value, spec));
    } else if (members && !spec.inner.empty()) {
      for (const Value& item : items) lines.push_back(structure(item, spec));
    } else if (members && entry.value.type == records::ValueType::list) {
      for (const Value& item : items) lines.push_back(valueOf(entry, item));
    } else {
      lines.push_back(entry.field == "by"_f ? somebody(entry.value) : valueOf(entry, entry.value));
    }
    return lines;
  }

  // Who made or saw it, by name where the guide has a record of them.
  std::string somebody(const Value& value) const {
    if (!value.said()) return plain(value);
    std::vector<std::string> names;
    for (const Value& one : value.each()) names.push_back(words_.plainSomebody(one.text));
    return base::listedInWords(names);
  }

  static bool isKeptAsTyped(const FieldSpec& spec) {
    if (records::isKeptAsTyped(spec.type)) return true;
    return std::any_of(spec.inner.begin(), spec.inner.end(),
                       [](const FieldSpec& one) { return records::isKeptAsTyped(one.type); });
  }

  // The lines of the file, without what they are all indented by.
  std::vector<std::string> typedLines(const Value& value) const {
    const std::string_view text = guide_.collection.sources().text(record_.file);
    const std::size_t end = std::min<std::size_t>(value.place.end, text.size());
    std::size_t begin = std::min<std::size_t>(value.place.begin, end);
    while (begin > 0 && (text[begin - 1] == ' ' || text[begin - 1] == '-')) --begin;
    std::vector<std::string> lines;
    std::size_t indent = SIZE_MAX;
    for (std::string_view line : base::split(text.substr(begin, end - begin), '\n')) {
      const std::size_t first = line.find_first_not_of(" \r");
      if (first == std::string_view::npos) continue;
      indent = std::min(indent, first);
      lines.emplace_back(line.ends_with('\r') ? line.substr(0, line.size() - 1) : line);
    }
    for (std::string& line : lines) line.erase(0, indent);
    return lines;
  }

  // "Opening; time: 2:00": the first part is what it is, the others have their names; long sentences are cut.
  std::string structure(const Value& value, const FieldSpec& spec) const {
    if (value.type != records::ValueType::mapping)
      return words_.plainValue(&value, &spec, linking::PublishedRecord(record_, index_));
    constexpr std::size_t kLongest = 160;
    std::string out;
    for (const Entry& entry : value.entries()) {
      const FieldSpec* inner = nullptr;
      for (const FieldSpec& one : spec.inner)
        if (entry.known && one.field == entry.field) inner = &one;
      const bool named = inner != nullptr && inner->type == FieldType::text && inner->field == "by"_f;
      const std::string words = base::shortened(
          named ? somebody(entry.value)
                : words_.plainValue(&entry.value, inner, linking::PublishedRecord(record_, index_)),
          kLongest);
      out += out.empty() ? (isBareNumber(words) ? std::string(entry.key) + ' ' + words : words)
                         : joinedBy(entry.key) + words;
    }
    return out;
  }

  // "edition 1" where "1" alone says nothing.
  static bool isBareNumber(std::string_view words) {
    return !words.empty() && words.size() < 4 && std::all_of(words.begin(), words.end(), base::isDigit);
  }

  // "Osmary, by at least 6 years".
  static std::string joinedBy(std::string_view key) {
    if (key == "at-least") return ", by at least ";
    if (key == "within") return ", within ";
    return "; " + std::string(key) + ": ";
  }

  static std::string plain(const Value& value) {
    std::vector<std::string> parts;
    for (const Value& item : value.items()) parts.push_back(plain(item));
    for (const Entry& entry : value.entries())
      parts.push_back(std::string(entry.key) + ": " + plain(entry.value));
    return parts.empty() ? std::string(value.text) : base::joined(parts, ", ");
  }

  static void add(const Evidence* evidence, Fact& fact) {
    if (evidence == nullptr) return;
    for (const Citation& citation : evidence->cite) fact.sources.push_back(&citation);
    if (!evidence->judged().empty()) fact.judged = std::string(evidence->judged());
  }

  static void gather(const Value& value, Fact& fact) {
    add(value.evidence, fact);
    for (const Value& item : value.items()) gather(item, fact);
    for (const Entry& entry : value.entries()) gather(entry.value, fact);
  }

  void putFact(std::string& out, const Fact& fact) const {
    std::string key(fact.entry->key);
    // The words of a judgement say that it is one.
    const std::string standing = fact.judged.empty() ? fact.standingInWords : std::string();
    const bool beside = !standing.empty() && fact.lines.size() == 1 && !fact.asTyped;
    for (const std::string& line : fact.lines) {
      if (fact.asTyped) {
        key.resize(std::max(key.size() + (key.empty() ? 0 : 2), kColumn), ' ');
        out += key + line + '\n';
      } else {
        putColumns(out, key, beside ? line + " (" + standing + ')' : line, kColumn,
                   fact.lines.size() > 1 ? 2 : 0);
      }
      key.clear();
    }
    if (fact.lines.empty()) putColumns(out, key, "", kColumn);
    if (!standing.empty() && !beside) putColumns(out, "", standing, kColumn + 2);
    std::vector<std::string> told;
    for (const Citation* citation : fact.sources) {
      std::string from = document::plainText(words_.citation(*citation));
      if (std::find(told.begin(), told.end(), from) != told.end()) continue;
      // "not found in …", "by inference from …", "a piece seen: …" say so themselves.
      const bool plainly = citation->kind == records::Kind::source && citation->says == records::Says::direct;
      putColumns(out, "", (plainly ? "from " : "") + from, kColumn + 2);
      told.push_back(std::move(from));
    }
    if (!fact.judged.empty()) putColumns(out, "", "the author's judgement: " + fact.judged, kColumn + 2);
    if (fact.entry->known)
      for (const std::string& line : provenLines(guide_, index_, fact.entry->field))
        putColumns(out, "", line, kColumn + 2);
  }

  // What came of a claim's tests.
  std::string outcome() const {
    if (record_.kind != records::Kind::claim || record_.find("test"_f) == nullptr) return {};
    return choosing::isRetired(guide_.collection, index_)
               ? "not tested, since it was replaced or withdrawn"
               : document::plainText(compose::testInWords(words_, index_));
  }
  void putOutcome(std::string& out) const {
    if (const std::string told = outcome(); !told.empty()) putColumns(out, "tested", told, 18);
  }

  // Those of one kind together, and within them those that name it in the same field: "treatment (shape)  jm-018, jm-045".
  void putBackReferences(std::string& out, const std::string& heading, std::span<const BackReference> all,
                         bool withFields) const {
    std::vector<std::pair<std::string, std::vector<std::string>>> groups;
    for (const BackReference& back : all) {
      const Record& from = guide_.collection[back.from];
      const std::string group =
          std::string(name(from.kind)) + (withFields ? " (" + std::string(back.field.name()) + ")" : "");
      auto place =
          std::find_if(groups.begin(), groups.end(), [&](const auto& one) { return one.first == group; });
      if (place == groups.end()) place = groups.insert(groups.end(), {group, {}});
      if (place->second.empty() || place->second.back() != from.id) place->second.emplace_back(from.id);
    }
    if (groups.empty()) return;
    std::sort(groups.begin(), groups.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    out += '\n' + heading + '\n';
    for (auto& [group, ids] : groups) {
      std::sort(ids.begin(), ids.end());
      ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
      constexpr std::size_t kMost = 60;
      const std::size_t more = ids.size() > kMost ? ids.size() - kMost : 0;
      ids.resize(ids.size() - more);
      putColumns(out, "  " + group,
                 base::joined(ids, ", ") + (more != 0 ? " … and " + std::to_string(more) + " more" : ""), 26);
    }
  }

  // A file a line, with the lines in it: "prose/numbers.md:23, 25, 57".
  void putMentions(std::string& out) const {
    std::vector<std::string> files;
    std::string_view file;
    std::size_t line = 0;
    for (const linking::Mention& mention : guide_.collection.mentions()) {
      if (mention.target != index_) continue;
      const source::Place at = guide_.collection.sources().place(mention.span);
      if (at.path != file) {
        files.push_back(std::string(at.path) + ':' + std::to_string(at.line));
      } else if (at.line != line) {
        files.back() += ", " + std::to_string(at.line);
      }
      file = at.path;
      line = at.line;
    }
    putList(out, "mentioned in", files);
  }

  static void putList(std::string& out, const std::string& heading, const std::vector<std::string>& all) {
    if (all.empty()) return;
    constexpr std::size_t kMost = 40;
    out += '\n' + heading + '\n';
    for (std::size_t i = 0; i < std::min(all.size(), kMost); ++i) putColumns(out, "", all[i], 2);
    if (all.size() > kMost) out += "  … and " + std::to_string(all.size() - kMost) + " more\n";
  }

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

  const Guide& guide_;
  const Record& record_;
  RecordIndex index_;
  compose::Words words_;
  std::vector<Fact> facts_;
};

}  // namespace

int show(const Environment& environment, const ShowArguments& arguments) {
  const bool json = arguments.format == "json";
  const auto guide = openGuide(environment, arguments.folder, json);
  if (guide == nullptr) return kCannot;
  std::string error;
  std::string hint;
  const auto index = recordNamed(guide->collection, arguments.reference, error, hint);
  if (!index) return cannot(environment, json, error, hint);
  const Show view(*guide, *index);
  environment.out(json ? view.asJson() : view.asText());
  sayFindings(environment, *guide);
  return guide->collection[*index].broken ? kFindings : kFine;
}

}  // namespace saggar::commands
