#include "compose/checklist.h"
#include "compose/cautions_text.h"

#include <algorithm>
#include <optional>

#include "base/text.h"
#include "compose/checklist_cells.h"
#include "compose/checklist_standing.h"
#include "compose/claims.h"
#include "compose/facts.h"
#include "compose/phrases.h"

// A list to print and tick: who is on it, in which groups and order, and in which columns.
namespace saggar::compose {

using choosing::Chosen;
using document::paragraph;
using document::text;
using records::Value;

namespace {

constexpr std::string_view kEmSpace = "\u2003";  // between entries of the legend: lines break there

constexpr records::KindSet kWare(Kind::shape, Kind::form, Kind::motif, Kind::treatment, Kind::set, Kind::mark,
                                 Kind::specimen);

class Maker {
 public:
  Maker(const Materials& materials, RecordIndex index)
      : materials_(materials),
        words_(materials, nullptr),
        checklist_(materials.records[index]),
        query_(queryOf(materials, index)),
        cells_(words_, query_.kind) {
    if (query_.columns.empty()) query_.columns = usualColumns(query_.kind, materials.chooser.collection());
  }

  std::vector<Chosen> choose() const {
    std::vector<Chosen> chosen = materials_.chooser.choose(query_.kind, query_.where, query_.sure);
    if (!query_.inOrderOf.empty()) materials_.chooser.sort(chosen, query_.inOrderOf);
    return chosen;
  }

  ChecklistHead head(const std::vector<Chosen>& chosen) {
    ChecklistHead head;
    standing_.emplace(words_, query_, chosen);
    Document& document = head.document;
    setUpSheet(document, materials_, std::string(checklist_.id()), words_.plainName(checklist_.index()));
    if (const Value* note = checklist_.find("note"_f); note != nullptr && note->said())
      for (Block& block : words_.prose(checklist_, *note)) document.blocks.push_back(std::move(block));
    Inlines rest;
    putRest(words_, checklist_, {"more"_f, "see"_f, "cite"_f}, rest);
    if (!rest.empty()) document.blocks.push_back(paragraph(std::move(rest)));
    const auto perhaps = static_cast<std::size_t>(
        std::count_if(chosen.begin(), chosen.end(), [](const Chosen& one) { return !one.sure; }));
    document.blocks.push_back(document::notice("legend", {paragraph(legend(perhaps != 0))}));
    document.blocks.push_back(
        document::notice("incomplete", {paragraph({text(howMany(chosen.size(), perhaps))})}));
    if (std::string standing = standing_->legend(); !standing.empty())
      document.blocks.push_back(document::notice("standing", {paragraph({text(std::move(standing))})}));
    if (kWare.has(query_.kind))
      document.blocks.push_back(
          document::notice("caution", {paragraph({text(std::string(kCautionOnSheets))})}));
    head.hasRows = !chosen.empty();
    head.columns = columns();
    return head;
  }

  void rows(const std::vector<Chosen>& chosen, const std::function<void(document::Row)>& take) {
    if (query_.grouped.empty()) {
      for (const Chosen& one : chosen) take(row(one));
      return;
    }
    for (const choosing::Chooser::Group& group : materials_.chooser.group(chosen, query_.grouped)) {
      document::Row head;
      head.groupHead = true;
      head.cells.push_back(document::cell(cells_.groupName(group.key, query_.grouped)));
      take(std::move(head));
      for (const Chosen& one : group.members) take(row(one));
    }
  }

 private:
  static choosing::Query queryOf(const Materials& materials, RecordIndex index) {
    diagnostics::Findings reportedBefore;
    auto query = choosing::readQuery(index, materials.chooser.collection(), reportedBefore);
    if (query) return std::move(*query);
    choosing::Query usual;
    usual.kind = Kind::treatment;
    return usual;
  }

  Inlines legend(bool perhaps) const {
    Inlines out{document::tickBox()};
    put(out, query_.kind == Kind::specimen ? " tick when you have held it"
             : kWare.has(query_.kind)      ? " tick when you have held one"
                                           : " tick when done");
    put(out, std::string(kEmSpace) + std::string(kNotRecorded) + " not recorded");
    put(out, std::string(kEmSpace) + std::string(kNotKnown) + " looked for, and not known");
    if (perhaps) {
      put(out, std::string(kEmSpace));
      out.push_back(document::emphasis({text("perhaps")}));
      put(out, " what would place it here is not recorded");
    }
    return out;
  }

  std::string howMany(std::size_t count, std::size_t perhaps) const {
    if (count == 0) return "Nothing on record belongs on this list yet.";
    std::string out = "This is not a complete list. It has the " +
                      countedInWords(count, kindInWords(query_.kind), kindInWords(query_.kind, true)) +
                      " on record";
    if (query_.sure) {
      out += std::string(" that surely belong") + (count == 1 ? "s" : "") + " here";
    } else if (perhaps != 0) {
      out += perhaps == count ? std::string(", perhaps")
                              : ", " + countedInWords(perhaps, "of them", "of them") + " perhaps";
    }
    return out + "; others may turn up.";
  }

  document::Table columns() const {
    document::Table table;
    table.head.push_back(document::cell(std::string()));
    table.align.push_back(document::Align::left);
    for (const choosing::Column& column : query_.columns) {
      table.head.push_back(
          document::cell(column.heading.empty() ? columnHead(column.path, query_.kind) : column.heading));
      const records::FieldSpec* spec = column.path.endSpec();
      const bool figures = spec != nullptr && spec->type == records::FieldType::number;
      table.align.push_back(figures ? document::Align::right : document::Align::left);
    }
    if (kWare.has(query_.kind)) table.writeIn = "Date seen";
    return table;
  }

  document::Row row(const Chosen& chosen) {
    document::Row row;
    row.cells.reserve(query_.columns.size() + 1);
    row.cells.push_back(document::cell(Inlines{document::tickBox()}));
    const std::vector<std::string> standing = standing_->behind(chosen.record);
    for (std::size_t i = 0; i < query_.columns.size(); ++i) {
      std::string words = cells_.cell(query_.columns[i].path, chosen.record, i == 0);
      if (!standing[i].empty()) words += " (" + standing[i] + ")";
      if (i == 0 && !chosen.sure) {
        Inlines marked{text(std::move(words) + " ")};
        marked.push_back(document::emphasis({text("perhaps")}));
        row.cells.push_back(document::cell(std::move(marked)));
      } else {
        row.cells.push_back(document::cell(std::move(words)));
      }
    }
    return row;
  }

  const Materials& materials_;
  Words words_;
  PublishedRecord checklist_;
  choosing::Query query_;
  CellMaker cells_;
  std::optional<ChecklistStanding> standing_;  // once it is known who is on the list
};

}  // namespace

void setUpSheet(Document& document, const Materials& materials, std::string file, std::string title) {
  const linking::GuideSettings& settings = materials.records.settings();
  document.file = std::move(file);
  document.title = std::move(title);
  document.language = settings.language;
  document.authors = settings.authors;
  document.draft = materials.draft;
  document.edition = settings.title;
  if (settings.edition > 0)
    document.edition += (document.edition.empty() ? "" : ", ") + editionInWords(settings.edition);
  document.blocks.push_back(document::heading(1, {text(document.title)}));
}

void composeChecklist(const Materials& materials, RecordIndex checklist, const ChecklistSink& sink,
                      std::vector<RecordIndex>& madeFrom) {
  Maker maker(materials, checklist);
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
