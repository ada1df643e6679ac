#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>

#include "base/edit_distance.h"
#include "base/text.h"
#include "commands/command.h"
#include "commands/pipeline.h"
#include "commands/reason_output.h"
#include "compose/words.h"
#include "linking/names.h"

// What a code can mean: by every rule, what of it the records allow, and which of them carry it.
namespace saggar::commands {
namespace {

using choosing::Against;
using choosing::CodeReadings;
using choosing::MakerRule;
using linking::RecordIndex;
using records::Record;
using records::Value;
using Json = nlohmann::ordered_json;

constexpr std::size_t kMostInFull = 6;   // readings told part by part
constexpr std::size_t kMostListed = 40;  // readings and records listed at all

std::string moreOf(std::size_t count) {
  return count > kMostListed ? "  … and " + std::to_string(count - kMostListed) + " more\n" : std::string();
}

// What is said of several readings: each text once, with the rules that say it.
class Lines {
 public:
  void add(std::string text, const std::string& rule) {
    const auto [at, isNew] = known_.try_emplace(text, all_.size());
    if (isNew) all_.push_back({std::move(text), {}});
    std::vector<std::string>& rules = all_[at->second].rules;
    if (std::find(rules.begin(), rules.end(), '`' + rule + '`') == rules.end())
      rules.push_back('`' + rule + '`');
  }

  std::string inWords() const {
    std::string out;
    for (std::size_t i = 0; i < std::min(all_.size(), kMostListed); ++i)
      out += "  " + all_[i].text + "  (" + base::listedShortly(all_[i].rules, 3) + ")\n";
    return out + moreOf(all_.size());
  }

 private:
  struct Line {
    std::string text;
    std::vector<std::string> rules;
  };
  std::vector<Line> all_;
  std::map<std::string, std::size_t> known_;
};

class Answer {
 public:
  Answer(const Guide& guide, std::string text, CodeReadings::Loose found)
      : guide_(guide), words_(*guide.materials, nullptr), text_(std::move(text)), found_(std::move(found)) {
    for (const CodeReadings::LooseReading& reading : found_.readings)
      (reading.possible ? possible_ : ruledOut_).push_back(&reading);
  }

  bool readable() const { return !possible_.empty(); }

  std::string asText() const {
    std::string out = heading() + "\n";
    if (possible_.size() > kMostInFull) {
      Lines lines;
      for (const auto* reading : possible_) lines.add(inOneLine(*reading), reading->rule->name);
      out += lines.inWords();
    } else {
      for (const auto* reading : possible_) out += "\n" + inFull(*reading);
    }
    if (!ruledOut_.empty()) {
      out += possible_.empty() ? "\n" : "\nruled out\n";
      std::vector<std::string> told;
      for (const auto* reading : ruledOut_)
        if (std::string why = whyNot(*reading); std::find(told.begin(), told.end(), why) == told.end())
          told.push_back(std::move(why));
      for (std::size_t i = 0; i < std::min(told.size(), kMostListed); ++i) out += told[i];
      out += moreOf(told.size());
    }
    if (possible_.empty() && found_.nearest != nullptr && found_.begun.empty())
      out += (found_.readings.empty() ? "  by `" : "\nnot read\n  by `") + found_.nearest->name + "`\n    " +
             found_.whyNot + '\n';
    if (!found_.begun.empty()) out += "\nit is the beginning of\n" + listed(found_.begun);
    if (possible_.empty() && !found_.matches.empty()) out += "\nit stands on\n" + listed(found_.matches);
    if (!found_.similar.empty()) {
      Lines lines;
      for (const CodeReadings::Alike& alike : found_.similar)
        lines.add(alike.code.text + "  " + meaningsOf(alike), alike.rule->name);
      out += "\nthe eye could also take it for\n" + lines.inWords();
      if (found_.moreSimilar) out += "  … and perhaps more\n";
    }
    if (!found_.faulty.empty()) out += '\n' + faultyInWords() + '\n';
    return out;
  }

  std::string asJson() const {
    Json out;
    out["code"] = text_;
    out["readings"] = Json::array();
    for (const CodeReadings::LooseReading& reading : found_.readings) {
      Json one = readingAsJson(*reading.rule, reading.reading, &reading);
      one["possible"] = reading.possible;
      one["against"] = Json::array();
      for (const Against& against : reading.against) one["against"].push_back(reason(against, *reading.rule));
      one["matches"] = references(reading.matches);
      out["readings"].push_back(std::move(one));
    }
    if (found_.readings.empty() && !found_.whyNot.empty()) out["unread"] = found_.whyNot;
    if (!found_.faulty.empty()) out["faulty"] = faultyInWords();
    if (!found_.begun.empty()) out["begun"] = references(found_.begun);
    if (!found_.similar.empty()) {
      out["similar"] = Json::array();
      for (const CodeReadings::Alike& alike : found_.similar) {
        Json one{{"code", alike.code.text}, {"readings", Json::array()}};
        for (std::size_t i = 0; i < alike.code.readings.size(); ++i) {
          Json reading = readingAsJson(*alike.rule, alike.code.readings[i], nullptr);
          reading["possible"] = alike.against[i].empty();
          reading["against"] = Json::array();
          for (const Against& against : alike.against[i])
            reading["against"].push_back(reason(against, *alike.rule));
          one["readings"].push_back(std::move(reading));
        }
        out["similar"].push_back(std::move(one));
      }
    }
    return out.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
  }

 private:
  // "the rule `date letters` could not be read; see `saggar check`"
  std::string faultyInWords() const {
    std::vector<std::string> names;
    for (const std::string& name : found_.faulty)
      if (!name.empty()) names.push_back('`' + base::shortened(name, 60) + '`');
    const bool one = names.size() == 1;
    return (names.empty() ? std::string("part of the rules")
                          : (one ? "the rule " : "the rules ") + base::listedInWords(names)) +
           " could not be read; see `saggar check`";
  }

  std::string heading() const {
    const std::string code = '`' + base::shortened(text_, 60) + '`';
    if (found_.readings.empty())
      return "no rule reads " + code +
             (found_.nearest != nullptr || found_.whyNot.empty() ? "" : ": " + found_.whyNot);
    if (possible_.empty()) return code + " can be read, but nothing on record allows it";
    if (possible_.size() == 1) return code + " can be read in one way";
    return code + " can be read in " + (found_.more ? "more than " : "") + std::to_string(possible_.size()) +
           " ways";
  }

  static std::string padded(std::string text, std::size_t width) {
    std::size_t signs = 0;
    for (char c : text) signs += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    if (signs < width) text.append(width - signs, ' ');
    return text;
  }

  // What the text of a part stands for: what a path leads to by name, else what the rule says.
  std::string meaningOf(const codes::Reading& reading, std::size_t part,
                        const CodeReadings::LooseReading* loose) const {
    const auto need = std::find_if(reading.paths.begin(), reading.paths.end(),
                                   [&](const codes::PathNeed& one) { return one.part == part; });
    if (need == reading.paths.end()) return reading.parts[part].means;
    std::vector<std::string> names;
    auto add = [&](std::string name) {
      if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(std::move(name));
    };
    if (loose != nullptr)
      for (const CodeReadings::Named& named : loose->named)
        if (named.part == part) add(linking::nameForAuthor(guide_.collection, named.record));
    return base::listedInWords(names, "or");
  }

  // The same for a reader: a look as the guide prints it ("a gold edge line"), unless the rule has words of its own.
  std::string inWordsOfTheGuide(const codes::Reading& reading, std::size_t part,
                                const CodeReadings::LooseReading* loose) const {
    std::string means = meaningOf(reading, part, loose);
    if (!means.empty() && means.find(": ") == std::string::npos) return means;
    std::string look = words_.lookAskedFor(reading, part);
    return look.empty() ? means : look;
  }

  std::string inFull(const CodeReadings::LooseReading& reading) const {
    std::string out = "  by `" + reading.rule->name + "`, " +
                      linking::nameForAuthor(guide_.collection, reading.rule->maker) + '\n';
    const codes::Reading& read = reading.reading;
    std::size_t nameWidth = 6;
    std::size_t textWidth = 2;
    for (const codes::PartReading& part : read.parts) {
      nameWidth = std::max(nameWidth, part.name.size());
      textWidth = std::max(textWidth, part.text.size());
    }
    for (std::size_t i = 0; i < read.parts.size(); ++i) {
      const codes::PartReading& part = read.parts[i];
      const std::string means = inWordsOfTheGuide(read, i, &reading);
      out += "    " + padded(std::string(part.name), nameWidth + 2) +
             (means.empty() ? part.text : padded(part.text, textWidth + 2) + means) + '\n';
    }
    if (!read.date.empty()) out += "    " + padded("date", nameWidth + 2) + read.dateInWords() + '\n';
    if (!reading.matches.empty()) {
      out += "    " + padded("on", nameWidth + 2);
      const std::size_t shown = std::min(reading.matches.size(), kMostListed / 4);
      for (std::size_t i = 0; i < shown; ++i)
        out += (i == 0 ? "" : "\n    " + std::string(nameWidth + 2, ' ')) +
               guide_.collection[reading.matches[i]].reference();
      if (shown < reading.matches.size())
        out += "\n    " + std::string(nameWidth + 2, ' ') + "… and " +
               std::to_string(reading.matches.size() - shown) + " more";
      out += '\n';
    }
    return out;
  }

  std::string inWords(const codes::Reading& reading, const CodeReadings::LooseReading* loose) const {
    std::vector<std::string> words;
    for (std::size_t i = 0; i < reading.parts.size(); ++i) {
      const bool ofDate = !reading.date.empty() && !reading.parts[i].row &&
                          std::none_of(reading.paths.begin(), reading.paths.end(),
                                       [&](const auto& need) { return need.part == i; });
      std::string means = inWordsOfTheGuide(reading, i, loose);
      if (means.empty()) means = reading.parts[i].text;
      if (!ofDate) words.push_back(std::move(means));
    }
    if (!reading.date.empty()) words.push_back(reading.dateInWords());
    return base::joined(words, ", ");
  }

  std::string inOneLine(const CodeReadings::LooseReading& reading) const {
    std::string out = inWords(reading.reading, &reading);
    if (!reading.matches.empty()) out += "  on " + guide_.collection[reading.matches[0]].reference();
    if (reading.matches.size() > 1) out += " and " + base::counted(reading.matches.size() - 1, "more record");
    return out;
  }

  std::string whyNot(const CodeReadings::LooseReading& reading) const {
    std::string out = "  by `" + reading.rule->name + "`";
    const std::string words = reading.reading.date.empty() ? std::string() : reading.reading.dateInWords();
    if (!words.empty()) out += " (" + words + ")";
    out += '\n';
    for (const Against& against : reading.against) {
      const source::Place place = guide_.collection.sources().place(against.span);
      out +=
          "    " + against.says + "  (" + std::string(place.path) + ':' + std::to_string(place.line) + ")\n";
    }
    return out;
  }

  std::string meaningsOf(const CodeReadings::Alike& alike) const {
    std::vector<std::string> all;
    const bool possible = alike.possible();
    for (std::size_t i = 0; i < alike.code.readings.size(); ++i) {
      if (possible && !alike.against[i].empty()) continue;
      std::string words = inWords(alike.code.readings[i], nullptr);
      if (!possible) words = "ruled out: " + alike.against[i].front().says;
      if (std::find(all.begin(), all.end(), words) == all.end()) all.push_back(std::move(words));
    }
    constexpr std::size_t kMost = 4;
    const std::size_t left = all.size() > kMost ? all.size() - kMost : 0;
    if (left != 0) all.resize(kMost);
    return base::joined(all, "; or ") +
           (left != 0 ? " and " + base::counted(left, "more reading") : std::string());
  }

  std::string listed(const std::vector<RecordIndex>& all) const {
    std::string out;
    for (std::size_t i = 0; i < std::min(all.size(), kMostListed); ++i) {
      const Record& record = guide_.collection[all[i]];
      out += "  " + record.reference();
      if (const Value* code = record.find("code"_f); code != nullptr && code->said()) {
        std::vector<std::string> texts;
        for (const Value& one : code->each()) texts.emplace_back(one.text);
        out += "  " + base::joined(texts, ", ");
      }
      out += '\n';
    }
    return out + moreOf(all.size());
  }

  Json references(const std::vector<RecordIndex>& all) const {
    Json out = Json::array();
    for (RecordIndex index : all) out.push_back(guide_.collection[index].reference());
    return out;
  }

  Json readingAsJson(const MakerRule& rule, const codes::Reading& reading,
                     const CodeReadings::LooseReading* loose) const {
    Json out;
    out["maker"] = guide_.collection[rule.maker].reference();
    out["rule"] = rule.name;
    out["parts"] = Json::object();
    for (std::size_t i = 0; i < reading.parts.size(); ++i) {
      Json part{{"text", reading.parts[i].text}};
      std::string means = meaningOf(reading, i, loose);
      if (!means.empty()) part["means"] = std::move(means);
      out["parts"][std::string(reading.parts[i].name)] = std::move(part);
    }
    if (!reading.date.empty()) out["date"] = reading.dateInWords();
    if (reading.when) {
      out["earliest"] = reading.when->earliest.toString();
      out["latest"] = reading.when->latest.toString();
    }
    return out;
  }

  Json reason(const Against& against, const MakerRule& rule) const {
    Json out;
    out["says"] = against.says;
    const Record& record = guide_.collection[against.record];
    out["record"] = record.reference();
    out["field"] = against.field.name();
    const records::Evidence* evidence = against.value != nullptr ? against.value->evidence : nullptr;
    if (evidence == nullptr && against.record == rule.maker && against.field == "codes"_f)
      evidence = rule.source->evidence;
    if (evidence == nullptr) evidence = record.evidence;
    out["sources"] = Json::array();
    if (evidence != nullptr)
      for (const records::Citation& citation : evidence->cite)
        out["sources"].push_back(citationAsJson(citation));
    const source::Place place = guide_.collection.sources().place(against.span);
    out["file"] = place.path;
    out["line"] = place.line;
    out["column"] = place.column;
    return out;
  }

  const Guide& guide_;
  compose::Words words_;
  std::string text_;
  CodeReadings::Loose found_;
  std::vector<const CodeReadings::LooseReading*> possible_;
  std::vector<const CodeReadings::LooseReading*> ruledOut_;
};

std::optional<RecordIndex> makerNamed(const linking::Collection& collection, std::string_view id,
                                      std::string& error, std::string& hint) {
  if (id.starts_with("maker:")) id.remove_prefix(6);
  if (const auto found = collection.find(records::Kind::maker, id)) return found;
  std::vector<std::string_view> ids;
  std::vector<std::string> withCodes;
  for (RecordIndex index : collection.ofKind(records::Kind::maker)) {
    ids.push_back(collection[index].id);
    if (collection[index].find("codes"_f) != nullptr)
      withCodes.push_back('`' + std::string(collection[index].id) + '`');
  }
  const auto near = base::nearest(id, ids);
  error = "there is no maker `" + base::shortened(id, 60) + '`';
  hint = near                ? "did you mean `--maker " + std::string(*near) + "`?"
         : withCodes.empty() ? "no maker has rules under `codes` yet"
                             : "rules stand under " + base::listedInWords(withCodes);
  return std::nullopt;
}

}  // namespace

int code(const Environment& environment, const CodeArguments& arguments) {
  const bool json = arguments.format == "json";
  const auto guide = openGuide(environment, arguments.folder, json);
  if (guide == nullptr) return kCannot;
  if (base::trimmed(arguments.text).empty())
    return cannot(environment, json, "there is no code to read",
                  "write it as it stands on the piece: `saggar code JM-203-C/1`");
  std::string error;
  std::string hint;
  std::optional<RecordIndex> maker;
  if (!arguments.maker.empty()) {
    maker = makerNamed(guide->collection, arguments.maker, error, hint);
    if (!maker) return cannot(environment, json, error, hint);
  }
  const Answer answer(*guide, arguments.text, guide->codes.readLoose(arguments.text, maker));
  environment.out(json ? answer.asJson() : answer.asText());
  sayFindings(environment, *guide);
  return answer.readable() ? kFine : kFindings;
}

}  // namespace saggar::commands
