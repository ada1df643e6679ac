#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "compose/contents.h"
#include "compose/planner.h"

// `contents` of guide.yaml: divisions, and in them files of prose, chapters made from records, and blocks that stand as
// a chapter of their own.
namespace saggar::compose {

using records::Entry;
using records::Value;
using records::ValueType;

void Planner::report(diagnostics::Rule rule, records::Extent place, std::string message, std::string hint) {
  findings_.add({.rule = rule,
                 .span = materials_.records.guide()->span(place),
                 .message = std::move(message),
                 .hint = std::move(hint),
                 .field = "contents"});
}

void Planner::readContents(const Value& contents) {
  for (const Value& item : contents.each()) readItem(item, {}, 0);
}

void Planner::readItem(const Value& item, const std::string& division, int depth) {
  if (item.type == ValueType::text) return readWord(item, division);
  if (item.find("a-chapter-for-every") != nullptr) return readForEvery(item, division);
  const Value* title = item.find("division");
  const Value* holds = item.find("holds");
  if (title == nullptr && holds == nullptr) {
    if (item.type != ValueType::unfit)
      report("value-unfit"_rule, item.place, "this is no chapter",
             "type a file (`prose/name.md`), a block's name (`glossary`), or `a-chapter-for-every: shape`");
    return;
  }
  if (depth > 0) {
    report("value-unfit"_rule, item.place, "a division stands inside a division",
           "move it out: there is one level of divisions");
    return;
  }
  if (title == nullptr || title->type != ValueType::text)
    report("value-unfit"_rule, item.place, "a division needs a title",
           "write `division: The shapes` above `holds:`");
  if (holds == nullptr)
    report("value-unfit"_rule, item.place, "a division without chapters", "list its chapters under `holds:`");
  for (const Entry& entry : item.entries())
    if (entry.key != "division" && entry.key != "holds")
      report("field-unknown"_rule, entry.keyPlace,
             "a division has no `" + base::shortened(entry.key, 40) + "`", "it takes `division` and `holds`");
  if (holds == nullptr) return;
  const std::string name = title == nullptr ? std::string() : std::string(title->text);
  for (const Value& one : holds->each()) readItem(one, name, depth + 1);
}

bool Planner::isUnreadable(const std::string& path) const {
  if (hasProse(path)) return false;
  const source::SourceSet& files = materials_.chooser.collection().sources();
  for (std::size_t i = 0; i < files.size(); ++i)
    if (files.path(static_cast<source::FileId>(i)) == path) return true;
  return false;
}

void Planner::readWord(const Value& item, const std::string& division) {
  const std::string word(item.text);
  if (word.ends_with(".md") || word.find('/') != std::string::npos) {
    if (isUnreadable(word)) return;
    if (!hasProse(word)) {
      std::vector<std::string_view> known;
      for (const auto& [path, index] : proseFiles_) known.push_back(path);
      const std::string inProse = "prose/" + word;
      const auto near = base::nearest(word, known);
      report("link-missing"_rule, item.place, "there is no file `" + base::shortened(word, 80) + "`",
             hasProse(inProse) ? "write `" + inProse + "`"
             : near            ? "did you mean `" + std::string(*near) + "`?"
                               : "prose stands in files like `prose/the-firm.md`");
      return;
    }
    if (places_.proseChapter_.contains(word)) {
      report("value-unfit"_rule, item.place, "`" + word + "` is a chapter already",
             "take one of the two lines out");
      return;
    }
    addProse(word, division);
    return;
  }
  if (!chapterTitle(word).empty() || word == "index") return addGenerated(word, division);
  std::vector<std::string_view> known;
  for (std::string_view block : records::blockNames())
    if (!chapterTitle(block).empty()) known.push_back(block);
  const auto near = base::nearest(word, known);
  std::vector<std::string> shown(known.begin(), known.end());
  report("value-unfit"_rule, item.place, "`" + base::shortened(word, 40) + "` is no chapter",
         near ? "did you mean `" + std::string(*near) + "`?"
              : "type a file (`prose/name.md`), `a-chapter-for-every: shape`, or one of " +
                    base::listedInWords(shown, "or"));
}

void Planner::readForEvery(const Value& item, const std::string& division) {
  // What cannot be read in it is reported once, by the check of all conditions.
  diagnostics::Findings known;
  const source::FileId file = materials_.records.guide()->file;
  const choosing::Collection& collection = materials_.chooser.collection();
  const Value& every = *item.find("a-chapter-for-every");
  const auto kind = choosing::readKind(every, file, known, "a-chapter-for-every");
  if (!kind) return;
  if (*kind == Kind::source) {
    report("value-unfit"_rule, every.place, "sources have a chapter of their own, which is always there",
           "take this line out");
    return;
  }
  for (const Entry& entry : item.entries())
    if (entry.key != "a-chapter-for-every" && entry.key != "where" && entry.key != "in-order-of" &&
        entry.key != "sure")
      report("field-unknown"_rule, entry.keyPlace,
             "a chapter for every record has no `" + base::shortened(entry.key, 40) + "`",
             "it takes `where`, `in-order-of` and `sure`");
  const choosing::Query query = choosing::readQuery(item, *kind, collection, file, known);
  std::vector<choosing::Chosen> chosen = materials_.chooser.choose(*kind, query.where, query.sure);
  if (!query.inOrderOf.empty()) materials_.chooser.sort(chosen, query.inOrderOf);
  for (const choosing::Chosen& one : chosen) addRecord(one.record, division);
}

void Planner::takeEverything() {
  for (const auto& [path, index] : proseFiles_) {
    const auto parts = base::split(path, '/');
    bool ofRecord = false;
    for (std::size_t i = 0; parts.size() == 3 && i + 1 < records::kKindCount; ++i)
      if (records::kKindNames[i].many == parts[1])
        ofRecord = materials_.records.find(static_cast<Kind>(i), parts[2].substr(0, parts[2].size() - 3))
                       .has_value();
    if (!ofRecord) addProse(path, {});
  }
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) {
    const Kind kind = static_cast<Kind>(i);
    if (kind == Kind::source) continue;
    for (RecordIndex record : materials_.records.ofKind(kind))
      if (kind == Kind::shape || hasProse(proseOf(materials_.records[record]))) addRecord(record, {});
  }
  auto any = [&](Kind kind) { return !materials_.records.ofKind(kind).empty(); };
  if (any(Kind::mark)) addGenerated("marks", {});
  if (any(Kind::form)) addGenerated("forms", {});
  if (any(Kind::treatment)) addGenerated("codes", {});
  if (any(Kind::question)) addGenerated("questions", {});
  if (any(Kind::term)) addGenerated("glossary", {});
  const auto claims = materials_.records.ofKind(Kind::claim);
  if (std::any_of(claims.begin(), claims.end(),
                  [&](RecordIndex one) { return isCorrection(materials_.records[one]); }))
    addGenerated("corrections", {});
}

}  // namespace saggar::compose
