#include "compose/checklist.h"

#include <algorithm>

#include "base/text.h"
#include "compose/words.h"

// A list to print and tick: who is on it, in which groups and order, and in which columns.
namespace saggar::compose {

using choosing::Chosen;
using choosing::Path;
using choosing::Reached;
using document::cell;
using document::Inlines;
using document::paragraph;
using document::text;
using records::Entry;
using records::Value;
using records::ValueType;

namespace {

struct Column {
  std::string heading;
  Path path;
};

std::string headingOf(const Path& path) {
  const choosing::Step& last = path.steps().back();
  std::string words = last.type == choosing::Step::Type::field       ? std::string(last.field.name())
                      : last.type == choosing::Step::Type::backwards ? std::string(plural(last.kind))
                      : last.type == choosing::Step::Type::itself    ? std::string("id")
                                                                     : last.key;
  if (words == "code") return "Number";
  std::replace(words.begin(), words.end(), '-', ' ');
  if (!words.empty() && base::isLower(words[0])) words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::optional<Kind> kindShown(const PublishedRecord& checklist) { return records::kindNamed(checklist.text("show"_f)); }

class Maker {
 public:
  Maker(const Materials& materials, RecordIndex index)
      : materials_(materials), words_(materials, nullptr), checklist_(materials.records[index]), kind_(kindShown(checklist_).value_or(Kind::treatment)) {
    readColumns();
  }

  ChecklistHead head(const std::vector<Chosen>& chosen) const {
    ChecklistHead head;
    Document& document = head.document;
    document.file = std::string(checklist_.id());
    document.title = words_.plainName(checklist_.index());
    document.language = materials_.records.settings().language;
    document.authors = materials_.records.settings().authors;
    document.draft = materials_.draft;
    if (const std::int64_t edition = materials_.records.settings().edition; edition > 0) document.edition = materials_.records.settings().title + ", edition " + std::to_string(edition);
    document.blocks.push_back(document::heading(1, {text(document.title)}));
    if (const Value* note = checklist_.find("note"_f))
      for (Block& block : words_.prose(checklist_, *note)) document.blocks.push_back(std::move(block));
    const bool perhaps = std::any_of(chosen.begin(), chosen.end(), [](const Chosen& one) { return !one.sure; });
    std::string use = "Tick the box when you have seen the piece itself, and write the date beside it. “Not recorded” means that nobody has looked "
                      "or written it down; “not known” that somebody looked and could not tell.";
    if (perhaps) use += " A line marked “perhaps” may not belong here: what would decide it is not recorded.";
    document.blocks.push_back(paragraph({text(use)}));
    document.blocks.push_back(document::notice(
        "incomplete", {paragraph({text("This is not a complete list. It holds " + base::counted(chosen.size(), std::string(name(kind_)), std::string(plural(kind_))) +
                                       " on record; others may turn up.")})}));
    document.blocks.push_back(document::notice(
        "caution", {paragraph({text("Old overglaze colours and glazes can give off lead and cadmium, and some red and orange glazes hold uranium; the look of a piece tells "
                                    "nothing. Do not use it for food or drink unless it has been tested; keep acid food, the dishwasher and the microwave away from it. Local "
                                    "rules and a laboratory decide. This list is no appraisal.")})}));
    head.columns.head.push_back(cell(""));
    head.columns.align.push_back(document::Align::left);
    for (const Column& column : columns_) {
      head.columns.head.push_back(cell(column.heading));
      const records::FieldSpec* spec = column.path.endSpec();
      const bool figures = spec != nullptr && (spec->type == records::FieldType::number);
      head.columns.align.push_back(figures ? document::Align::right : document::Align::left);
    }
    return head;
  }

  std::vector<Chosen> choose() const {
    choosing::Condition condition;
    diagnostics::Findings none;  // reported by checkConditions
    const auto& collection = materials_.chooser.collection();
    if (const Value* where = checklist_.find("where"_f)) condition = choosing::Condition::compile(*where, kind_, collection, checklist_.span().file, none);
    const Value* sure = checklist_.find("sure"_f);
    std::vector<Chosen> chosen = materials_.chooser.choose(kind_, condition, sure != nullptr && sure->number() == 1);
    std::vector<Path> order;
    if (const Value* by = checklist_.find("in-order-of"_f); by != nullptr && by->said())
      for (const Value& one : by->each())
        if (Path path = compiled(one.text); !path.empty()) order.push_back(std::move(path));
    if (!order.empty()) materials_.chooser.sort(chosen, order);
    return chosen;
  }

  void rows(const std::vector<Chosen>& chosen, const std::function<void(document::Row)>& take) const {
    const Path by = compiled(checklist_.text("grouped"_f));
    if (by.empty()) {
      for (const Chosen& one : chosen) take(row(one));
      return;
    }
    for (const choosing::Chooser::Group& group : materials_.chooser.group(chosen, by)) {
      document::Row head;
      head.groupHead = true;
      head.cells.push_back(cell(groupName(group.key, by)));
      take(std::move(head));
      for (const Chosen& one : group.members) take(row(one));
    }
  }

 private:
  Path compiled(std::string_view text) const {
    if (text.empty()) return {};
    choosing::PathProblem problem;
    return Path::compile(text, kind_, materials_.chooser.collection(), problem);
  }

  void readColumns() {
    auto add = [&](std::string_view path, std::string_view heading) {
      Path compiledPath = compiled(path);
      if (compiledPath.empty()) return;
      std::string words = heading.empty() ? headingOf(compiledPath) : std::string(heading);
      columns_.push_back({std::move(words), std::move(compiledPath)});
    };
    if (const Value* columns = checklist_.find("columns"_f)) {
      for (const Value& one : columns->each()) {
        if (one.type == ValueType::mapping) {
          for (const Entry& entry : one.entries()) add(entry.value.text, entry.key);
        } else {
          add(one.text, {});
        }
      }
    }
    if (!columns_.empty()) return;
    for (std::string_view usual : {"code", "name", "title", "motif", "introduced"}) add(usual, {});
  }

  document::Row row(const Chosen& chosen) const {
    document::Row row;
    row.cells.push_back(cell(Inlines{document::tickBox()}));
    bool first = true;
    for (const Column& column : columns_) {
      std::string words = valueOf(chosen.record, column.path);
      if (first && !chosen.sure) words += " (perhaps)";
      first = false;
      row.cells.push_back(cell(std::move(words)));
    }
    return row;
  }

  std::string valueOf(RecordIndex record, const Path& path) const {
    std::vector<std::string> parts;
    for (const Reached& reached : path.from(record, materials_.chooser.collection())) {
      std::string words = inWords(reached);
      if (std::find(parts.begin(), parts.end(), words) == parts.end()) parts.push_back(std::move(words));
    }
    return base::joined(parts, ", ");
  }

  std::string inWords(const Reached& reached) const {
    switch (reached.state) {
      case Reached::State::absent: return "not recorded";
      case Reached::State::unknown: return "not known";
      case Reached::State::none: return "none";
      case Reached::State::record: return words_.plainName(reached.record);
      case Reached::State::value: break;
    }
    if (reached.value == nullptr) return std::string(materials_.records[reached.record].id());
    return words_.plainValue(reached.value, reached.spec, materials_.records[reached.record]);
  }

  std::string groupName(const Reached& key, const Path& by) const {
    if (key.state == Reached::State::absent) return headingOf(by) + " not recorded";
    if (key.state == Reached::State::unknown) return headingOf(by) + " not known";
    std::string words = inWords(key);
    if (!words.empty() && base::isLower(words[0])) words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
  }

  const Materials& materials_;
  Words words_;
  PublishedRecord checklist_;
  Kind kind_;
  std::vector<Column> columns_;
};

}  // namespace

void composeChecklist(const Materials& materials, RecordIndex checklist, const ChecklistSink& sink, std::vector<RecordIndex>& madeFrom) {
  const Maker maker(materials, checklist);
  const std::vector<Chosen> chosen = maker.choose();
  sink.begin(maker.head(chosen));
  maker.rows(chosen, sink.row);
  madeFrom.push_back(checklist);
  for (const Chosen& one : chosen) madeFrom.push_back(one.record);
  std::sort(madeFrom.begin(), madeFrom.end());
  madeFrom.erase(std::unique(madeFrom.begin(), madeFrom.end()), madeFrom.end());
}

std::string layoutNameOf(const Materials& materials, RecordIndex checklist) {
  const std::string_view own = materials.records[checklist].text("layout"_f);
  return own.empty() ? materials.records.settings().layout : std::string(own);
}

}  // namespace saggar::compose
