#include <nlohmann/json.hpp>

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "commands/command.h"
#include "commands/pipeline.h"
#include "compose/words.h"

// Records and prose that mention the words: case, accents and punctuation folded, whole words first, then beginnings,
// then one letter wrong.
namespace saggar::commands {
namespace {

using Json = nlohmann::ordered_json;
using linking::RecordIndex;
using records::Entry;
using records::Record;
using records::Value;

struct Hit {
  std::string record;  // "kind:id", or empty: a prose file
  std::string file;
  std::string field;
  source::Span span;
  std::string excerpt;
  int score = 0;
};

// 3 for the whole word, 2 for its beginning, 1 for one letter wrong, 0 for none.
int match(std::string_view wanted, std::string_view word) {
  if (word == wanted) return 3;
  if (word.starts_with(wanted)) return 2;
  if (wanted.size() >= 4 && base::editDistance(wanted, word, 1) <= 1) return 1;
  return 0;
}

class Search {
 public:
  Search(const Guide& guide, std::vector<std::string> words) : guide_(guide), words_(std::move(words)) {}

  std::vector<Hit> run() {
    for (RecordIndex i = 0; i < guide_.collection.size(); ++i) record(i);
    for (const records::ProseFile& prose : guide_.collection.read().prose) proseFile(prose);
    std::stable_sort(hits_.begin(), hits_.end(), [](const Hit& a, const Hit& b) { return a.score > b.score; });
    return std::move(hits_);
  }

 private:
  // How well a text matches all words: the sum of the best match of each; 0 if one is missing.
  int score(std::string_view text) const {
    const std::string folded = base::foldedForFinding(text);
    const auto pieces = base::split(folded, ' ');
    int total = 0;
    for (const std::string& wanted : words_) {
      int best = 0;
      for (std::string_view piece : pieces) best = std::max(best, match(wanted, piece));
      if (best == 0) return 0;
      total += best;
    }
    return total;
  }

  void record(RecordIndex index) {
    const Record& record = guide_.collection[index];
    Hit best;
    auto look = [&](std::string_view text, std::string_view field, records::Extent place, int bonus) {
      const int own = score(text);
      if (own == 0 || own * 4 + bonus <= best.score) return;
      best = {record.reference(), {}, std::string(field), record.span(place), base::shortened(base::trimmed(text), 90), own * 4 + bonus};
    };
    look(record.id, name(record.kind), record.idPlace, 2);
    for (const Entry& entry : record.fields) {
      const bool title = entry.known && (entry.field == "name"_f || entry.field == "title"_f || entry.field == "code"_f || entry.field == "also"_f);
      visit(entry.value, [&](const Value& value) { look(value.text, entry.key, value.place, title ? 3 : 0); });
    }
    if (best.score != 0) hits_.push_back(std::move(best));
  }

  template <class Look>
  static void visit(const Value& value, Look&& look) {
    if (!value.text.empty()) look(value);
    for (const Value& item : value.items()) visit(item, look);
    for (const Entry& entry : value.entries()) visit(entry.value, look);
  }

  void proseFile(const records::ProseFile& prose) {
    const std::string_view text = guide_.collection.sources().text(prose.file);
    std::size_t at = 0;
    while (at < text.size()) {  // paragraph by paragraph
      std::size_t end = text.find("\n\n", at);
      if (end == std::string_view::npos) end = text.size();
      const std::string_view paragraph = text.substr(at, end - at);
      if (const int own = score(paragraph); own != 0) {
        const source::Span span{prose.file, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(end)};
        hits_.push_back({{}, prose.path, {}, span, base::shortened(base::trimmed(paragraph), 90), own * 4});
      }
      at = end + 2;
    }
  }

  const Guide& guide_;
  std::vector<std::string> words_;
  std::vector<Hit> hits_;
};

}  // namespace

int find(const Environment& environment, const FindArguments& arguments) {
  const bool json = arguments.format == "json";
  std::string error;
  std::string hint;
  const auto folder = findGuideFolder(environment, arguments.folder, error, hint);
  if (!folder) return cannot(environment, json, error, hint);
  std::vector<std::string> words;
  for (const std::string& word : arguments.words)
    for (std::string_view piece : base::split(base::foldedForFinding(word), ' '))
      if (!piece.empty()) words.emplace_back(piece);
  if (words.empty()) return cannot(environment, json, "there is nothing to look for", "write one word or several, as `saggar find quince bough`");
  PipelineOptions options;
  options.checks = false;
  const auto guide = runPipeline(environment, *folder, options);
  const std::vector<Hit> hits = Search(*guide, std::move(words)).run();
  const auto& sources = guide->collection.sources();
  if (json) {
    Json out;
    out["query"] = base::joined(arguments.words, " ");
    out["hits"] = Json::array();
    for (const Hit& hit : hits) {
      Json one;
      if (hit.record.empty()) {
        one["file"] = hit.file;
      } else {
        one["record"] = hit.record;
        one["field"] = hit.field;
      }
      const source::Place place = sources.place(hit.span);
      one["line"] = place.line;
      one["column"] = place.column;
      one["excerpt"] = hit.excerpt;
      one["score"] = hit.score;
      out["hits"].push_back(std::move(one));
    }
    environment.out(out.dump(-1, ' ', false, Json::error_handler_t::replace) + '\n');
    return kFine;
  }
  if (hits.empty()) environment.out("nothing mentions `" + base::joined(arguments.words, " ") + "`\n");
  constexpr std::size_t kMost = 60;
  for (std::size_t i = 0; i < std::min(hits.size(), kMost); ++i) {
    const Hit& hit = hits[i];
    const source::Place place = sources.place(hit.span);
    environment.out((hit.record.empty() ? std::string(place.path) : hit.record) + "  " + (hit.field.empty() ? "" : hit.field + ": ") + hit.excerpt + "  (" +
                    std::string(place.path) + ':' + std::to_string(place.line) + ")\n");
  }
  if (hits.size() > kMost) environment.out("… and " + std::to_string(hits.size() - kMost) + " more; add a word to narrow it down\n");
  return kFine;
}

}  // namespace saggar::commands
