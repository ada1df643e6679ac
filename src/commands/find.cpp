#include <nlohmann/json.hpp>

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "base/utf8.h"
#include "commands/command.h"
#include "commands/find_words.h"
#include "commands/pipeline.h"
#include "compose/words.h"

// Records and prose in which all the words stand: a record if each of them stands anywhere in it, prose paragraph by
// paragraph. How well the words fit decides before where they stand: a whole word before a beginning before a word with
// one letter wrong; then names and codes before other lines.
namespace saggar::commands {
namespace {

using Json = nlohmann::ordered_json;
using linking::RecordIndex;
using records::Entry;
using records::Record;
using records::Value;

struct Hit {
  RecordIndex record = records::kNoRecord;  // none: a prose file
  std::string_view file;
  std::string_view field;
  source::Span span;
  std::string excerpt;
  int score = 0;
};

// How much a place counts beside the fit of the word: a name, a code or the id is what one looks for.
enum Weight : int { kLine = 0, kId = 2, kHeading = 2, kName = 3 };

class Search {
 public:
  Search(const Guide& guide, const std::vector<std::string>& typed)
      : guide_(guide), names_(*guide.materials, nullptr) {
    for (const std::string& one : typed)
      for (std::string& word : wordsToFind(one)) wanted_.push_back(std::move(word));
  }

  std::vector<Hit> run() {
    for (RecordIndex i = 0; i < guide_.collection.size(); ++i) record(i);
    for (const records::ProseFile& prose : guide_.collection.read().prose) proseFile(prose);
    std::stable_sort(hits_.begin(), hits_.end(),
                     [](const Hit& a, const Hit& b) { return a.score > b.score; });
    return std::move(hits_);
  }

 private:
  // The best place of one wanted word so far.
  struct Best {
    int fit = 0;
    int weight = 0;
    const Value* value = nullptr;  // null: the id
    std::string_view field;
    std::size_t from = 0;  // where in the text
    std::size_t until = 0;
    int words = 0;  // in the text, if it is a name
  };

  static bool better(const Best& now, const Best& before) {
    return now.fit != before.fit ? now.fit > before.fit : now.weight > before.weight;
  }

  // Fit decides: 100 to 300, the mean over the words. Where they stand, how much of a name they are and whether they
  // stand in one line make less than the step from one fit to the next of a single word.
  static int score(const std::vector<Best>& best) {
    int fits = 0;
    int weights = 0;
    bool together = true;
    for (const Best& one : best) {
      fits += one.fit;
      weights += one.weight;
      together &= one.value == best[0].value && one.field == best[0].field;
    }
    const int count = static_cast<int>(best.size());
    const int named = together && best[0].words != 0 ? std::min(8, 8 * count / best[0].words) : 0;
    return fits * 100 / count + weights * 5 / count + named + (together ? 5 : 0);
  }

  void look(std::string_view text, const Value* value, std::string_view field, Weight weight,
            std::vector<Best>& best) const {
    int words = 0;
    if (weight == kName) eachWord(text, [&](const FoundWord& word) { words += word.partOfOne ? 0 : 1; });
    eachWord(text, [&](const FoundWord& word) {
      for (std::size_t i = 0; i < wanted_.size(); ++i) {
        const Best now{fit(wanted_[i], word.folded), weight, value, field, word.from, word.until, words};
        if (now.fit != 0 && better(now, best[i])) best[i] = now;
      }
    });
  }

  void record(RecordIndex index) {
    const Record& record = guide_.collection[index];
    std::vector<Best> best(wanted_.size());
    look(record.id, nullptr, name(record.kind), kId, best);
    for (const Entry& entry : record.fields) {
      const bool named = entry.known && (entry.field == "name"_f || entry.field == "title"_f ||
                                         entry.field == "code"_f || entry.field == "also"_f);
      visit(entry.value,
            [&](const Value& value) { look(value.text, &value, entry.key, named ? kName : kLine, best); });
    }
    // What is named after others, as a piece after its decoration, is found by that name too.
    std::string composed;
    const bool afterOthers =
        record.kind == records::Kind::treatment || record.kind == records::Kind::specimen;
    if (afterOthers && record.find("name"_f) == nullptr) {
      composed = names_.plainName(index);
      look(composed, nullptr, "name", kHeading, best);
    }
    if (std::any_of(best.begin(), best.end(), [](const Best& one) { return one.fit == 0; })) return;
    const Best& shown = *std::max_element(best.begin(), best.end(),
                                          [](const Best& a, const Best& b) { return better(b, a); });
    Hit hit{index, {}, shown.field, record.span(), std::string(record.id), score(best)};
    if (shown.value == nullptr && shown.field == "name") hit.excerpt = composed;
    if (shown.value != nullptr) {
      hit.span = record.span(shown.value->place);
      hit.excerpt = excerpt(shown.value->text, shown.from, shown.until);
      findInSource(hit.span,
                   std::string_view(shown.value->text).substr(shown.from, shown.until - shown.from));
    }
    hits_.push_back(std::move(hit));
  }

  // A text of several lines begins somewhere above the word: the place is where the word itself stands.
  void findInSource(source::Span& span, std::string_view word) const {
    const std::string_view text = guide_.collection.sources().text(span.file);
    const std::size_t at = text.substr(0, span.end).find(word, span.begin);
    if (at != std::string_view::npos)
      span = {span.file, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(at + word.size())};
  }

  template <class Look>
  static void visit(const Value& value, Look&& look) {
    if (!value.text.empty()) look(value);
    for (const Value& item : value.items()) visit(item, look);
    for (const Entry& entry : value.entries()) visit(entry.value, look);
  }

  void proseFile(const records::ProseFile& prose) {
    const std::string_view text = guide_.collection.sources().text(prose.file);
    for (std::size_t at = 0; at < text.size();) {
      const std::size_t end = paragraphEnd(text, at);
      paragraph(prose, text.substr(at, end - at), at);
      at = end;
      while (at < text.size() && base::isBlank(text[at])) ++at;
    }
  }

  // The next line that is empty, whichever line ends the file has.
  static std::size_t paragraphEnd(std::string_view text, std::size_t at) {
    for (std::size_t line = text.find('\n', at); line != std::string_view::npos;
         line = text.find('\n', line + 1)) {
      std::size_t next = line + 1;
      while (next < text.size() && text[next] != '\n' && base::isBlank(text[next])) ++next;
      if (next == text.size() || text[next] == '\n') return line;
    }
    return text.size();
  }

  void paragraph(const records::ProseFile& prose, std::string_view text, std::size_t begin) {
    std::vector<Best> best(wanted_.size());
    look(text, nullptr, {}, text.starts_with("#") ? kHeading : kLine, best);
    if (std::any_of(best.begin(), best.end(), [](const Best& one) { return one.fit == 0; })) return;
    const Best& shown = *std::max_element(best.begin(), best.end(),
                                          [](const Best& a, const Best& b) { return better(b, a); });
    hits_.push_back({records::kNoRecord,
                     prose.path,
                     {},
                     {prose.file, static_cast<std::uint32_t>(begin + shown.from),
                      static_cast<std::uint32_t>(begin + shown.until)},
                     excerpt(text, shown.from, shown.until),
                     score(best)});
  }

  const Guide& guide_;
  compose::Words names_;
  std::vector<std::string> wanted_;
  std::vector<Hit> hits_;
};

std::string asJson(const std::vector<Hit>& hits, const std::string& query, const Guide& guide) {
  Json out;
  out["query"] = query;
  out["hits"] = Json::array();
  for (const Hit& hit : hits) {
    Json one;
    if (hit.record == records::kNoRecord) {
      one["file"] = hit.file;
    } else {
      one["record"] = guide.collection[hit.record].reference();
      one["field"] = hit.field;
    }
    const source::Place place = guide.collection.sources().place(hit.span);
    if (hit.record != records::kNoRecord) one["file"] = place.path;
    one["line"] = place.line;
    one["column"] = place.column;
    one["excerpt"] = hit.excerpt;
    one["score"] = hit.score;
    out["hits"].push_back(std::move(one));
  }
  return out.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n';
}

// A record with its name, then where the words stand in it; prose with its place alone.
std::string asText(const std::vector<Hit>& hits, const Guide& guide) {
  const compose::Words names(*guide.materials, nullptr);
  constexpr std::size_t kMost = 40;
  std::string out;
  std::size_t records = 0;
  for (std::size_t i = 0; i < hits.size(); ++i) {
    const Hit& hit = hits[i];
    if (hit.record != records::kNoRecord) ++records;
    if (i >= kMost) continue;
    const source::Place place = guide.collection.sources().place(hit.span);
    const std::string at = std::string(place.path) + ':' + std::to_string(place.line);
    if (hit.record == records::kNoRecord) {
      out += at + "\n    " + hit.excerpt + '\n';
    } else {
      const std::string name = names.plainName(hit.record);
      out += guide.collection[hit.record].reference() + "  " + base::shortened(name, 80) + "\n    " + at;
      out += hit.excerpt == name ? "\n" : "  " + std::string(hit.field) + ": " + hit.excerpt + '\n';
    }
  }
  if (hits.size() > kMost) out += "… and " + std::to_string(hits.size() - kMost) + " more\n";
  const std::size_t passages = hits.size() - records;
  std::vector<std::string> counts;
  if (records != 0) counts.push_back(base::counted(records, "record"));
  if (passages != 0) counts.push_back(base::counted(passages, "paragraph") + " of prose");
  return out + '\n' + base::listedInWords(counts) +
         (hits.size() > kMost ? "; add a word to narrow them down\n" : "\n");
}

}  // namespace

int find(const Environment& environment, const FindArguments& arguments) {
  const bool json = arguments.format == "json";
  const auto guide = openGuide(environment, arguments.folder, json);
  if (guide == nullptr) return kCannot;
  const std::string query = base::joined(arguments.words, " ");
  if (base::foldedForFinding(query).empty())
    return cannot(environment, json, "there is no letter or figure in what is looked for",
                  "write one word or several, as `saggar find quince bough`");
  const std::vector<Hit> hits = Search(*guide, arguments.words).run();
  if (json) {
    environment.out(asJson(hits, query, *guide));
    return kFine;
  }
  environment.out(hits.empty() ? "nothing mentions `" + base::shortened(query, 60) + "`\n"
                               : asText(hits, *guide));
  sayFindings(environment, *guide);
  return kFine;
}

}  // namespace saggar::commands
