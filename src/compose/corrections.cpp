#include "compose/corrections.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "compose/words.h"
#include "dates/print.h"

// What a correction must hold: that it is one, and of which kind (Elsevier policy on errata and corrigenda, 2011; a new
// finding is an update, no error: ICMJE Recommendations); the original's title, edition and exact place (COPE Retraction
// Guidelines, 2019); what it said, what it should say, when and why it changed, on what evidence and by whom (ICMJE,
// COPE); what is withdrawn stays to be seen, marked so (idea of NISO RP-45-2024); a link both ways (NLM).
namespace saggar::compose {

using document::heading;
using document::paragraph;
using document::strong;
using document::text;
using records::Value;

namespace {

void put(Inlines& out, Inlines more) { out.insert(out.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end())); }

std::string kindInWords(std::string_view change) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kWords{{
      {"erratum", "Erratum: a slip in production"},
      {"corrigendum", "Corrigendum: the author was wrong"},
      {"addendum", "Addendum: a fact that was not known"},
      {"update", "Update: a new finding; what was printed was no error when it was printed"},
      {"withdrawal", "Withdrawal: a statement taken back"},
  }};
  for (const auto& [word, meaning] : kWords)
    if (word == change) return std::string(meaning);
  return "Correction";
}

std::string shortKind(std::string_view change) {
  if (change.empty()) return "Correction";
  std::string out(change);
  out[0] = static_cast<char>(out[0] - 'a' + 'A');
  return out;
}

std::string ordinal(std::int64_t number) {
  constexpr std::string_view kWords[] = {"", "First", "Second", "Third", "Fourth", "Fifth", "Sixth", "Seventh", "Eighth", "Ninth", "Tenth"};
  if (number > 0 && number < 11) return std::string(kWords[number]);
  return std::to_string(number) + "th";
}

class Maker {
 public:
  Maker(const Materials& materials, const Places* places) : materials_(materials), words_(materials, places), places_(places) {}

  Blocks entry(const PublishedRecord& claim, bool anchored) const {
    Blocks out;
    const std::string change(claim.text("change"_f));
    out.push_back(heading(3, {text(titleOf(claim))}, anchored ? anchorOf(claim) : std::string()));
    auto line = [&](std::string_view label, Inlines words) {
      Inlines inlines{strong({text(std::string(label))}), text(" ")};
      put(inlines, std::move(words));
      out.push_back(paragraph(std::move(inlines)));
    };
    std::string kind = kindInWords(change) + ".";
    const std::string_view weighs = claim.text("weighs"_f);
    if (weighs == "misleading") kind += " The old words mislead.";
    if (weighs == "minor") kind += " Of minor weight.";
    line("Kind.", {text(kind)});
    line("Where.", placesOf(claim));
    for (Inlines& old : oldWords(claim)) line("It said.", std::move(old));
    if (const Value* says = claim.find("says"_f))
      line(change == "addendum" ? "To be added." : change == "withdrawal" ? "It is withdrawn." : "It should say.", words_.proseLine(claim, *says));
    if (const Value* because = claim.find("because"_f)) line("Why.", words_.proseLine(claim, *because));
    Inlines evidence = words_.evidenceOfRecord(claim);
    evidence.push_back(text("."));
    line("Evidence.", std::move(evidence));
    std::string issued = words_.shortDate(claim.find("issued"_f));
    const auto& authors = materials_.records.settings().authors;
    if (!authors.empty()) issued += ", by " + base::listedInWords(authors);
    line("Issued.", {text(issued + ".")});
    Inlines about = aboutOf(claim);
    if (!about.empty()) line("Corrected text.", std::move(about));
    return out;
  }

  std::string titleOf(const PublishedRecord& claim) const {
    std::string what;
    if (!claim.text("name"_f).empty()) {
      what = std::string(claim.text("name"_f));
    } else if (const Value* about = claim.find("about"_f); about != nullptr && about->said() && !about->each().empty() && about->each()[0].target() != records::kNoRecord) {
      what = words_.plainName(about->each()[0].target());
    } else {
      what = words_.plainName(claim.index());
    }
    const Value* issued = claim.find("issued"_f);
    return shortKind(claim.text("change"_f)) + ": " + what + (issued != nullptr && issued->said() ? ", " + words_.shortDate(issued) : "");
  }

  Inlines placesOf(const PublishedRecord& claim) const {
    std::vector<std::string> all;
    auto take = [&](const Value* stated, bool editionsOnly) {
      if (stated == nullptr || !stated->said()) return;
      for (const Value& one : stated->each()) {
        std::string words;
        if (const Value* edition = one.find("edition"_f)) {
          words = editionInWords(edition->number());
        } else if (const Value* talk = one.find("talk"_f); talk != nullptr && talk->target() != records::kNoRecord && !editionsOnly) {
          words = "the talk “" + words_.plainName(talk->target()) + "”";
        } else {
          continue;
        }
        if (const Value* at = one.find("at"_f); at != nullptr && at->said()) words += ", " + std::string(at->text);
        all.push_back(std::move(words));
      }
    };
    take(claim.find("belongs"_f), false);
    for (RecordIndex old : replacedBy(claim)) take(materials_.records[old].find("stated"_f), false);
    if (all.empty()) take(claim.find("stated"_f), true);
    if (all.empty()) return {text("place not recorded.")};
    return {text(base::joined(all, "; ") + ".")};
  }

  std::vector<RecordIndex> replacedBy(const PublishedRecord& claim) const {
    std::vector<RecordIndex> out;
    if (const Value* replaces = claim.find("replaces"_f))
      for (const Value& one : replaces->each())
        if (one.target() != records::kNoRecord) out.push_back(one.target());
    return out;
  }

 private:
  // What was printed: the words of each claim it replaces, and its own `was`.
  std::vector<Inlines> oldWords(const PublishedRecord& claim) const {
    std::vector<Inlines> out;
    for (RecordIndex index : replacedBy(claim)) {
      const PublishedRecord old = materials_.records[index];
      Inlines words;
      if (places_ == nullptr || !places_->of(index)) words.push_back(document::anchorAt(anchorOf(old)));
      Inline crossed;
      crossed.kind = document::InlineKind::struck;
      if (const Value* says = old.find("says"_f)) crossed.children = words_.proseLine(old, *says);
      words.push_back(std::move(crossed));
      out.push_back(std::move(words));
    }
    if (const Value* was = claim.find("was"_f)) {
      Inline crossed;
      crossed.kind = document::InlineKind::struck;
      crossed.children = words_.proseLine(claim, *was);
      out.push_back({std::move(crossed)});
    }
    return out;
  }

  std::string editionInWords(std::int64_t number) const {
    std::string words = ordinal(number) + " edition";
    const records::Record* guide = materials_.records.guide();
    const Value* editions = guide == nullptr ? nullptr : guide->find("editions"_f);
    const Value* edition = editions == nullptr ? nullptr : editions->find(std::to_string(number));
    std::string title = materials_.records.settings().title;
    std::string date;
    if (edition != nullptr) {
      if (const Value* own = edition->find("title"_f); own != nullptr && own->said()) title = std::string(own->text);
      if (const Value* when = edition->find("date"_f)) date = words_.shortDate(when);
    }
    if (!title.empty()) words = title + ", " + words;
    if (!date.empty()) words += " (" + date + ")";
    return words;
  }

  Inlines aboutOf(const PublishedRecord& claim) const {
    Inlines out;
    const Value* about = claim.find("about"_f);
    if (about == nullptr || !about->said()) return out;
    for (const Value& one : about->each()) {
      if (one.target() == records::kNoRecord) continue;
      if (!out.empty()) out.push_back(text("; "));
      put(out, words_.name(one.target()));
    }
    if (!out.empty()) out.push_back(text("."));
    return out;
  }

  const Materials& materials_;
  Words words_;
  const Places* places_;
};

bool corrects(const PublishedRecord& claim) { return claim.find("change"_f) != nullptr || claim.find("replaces"_f) != nullptr || claim.find("was"_f) != nullptr; }

}  // namespace

Blocks correctionBlocks(const Materials& materials, const Places* places, const std::vector<choosing::Chosen>& chosen) {
  const Maker maker(materials, places);
  Blocks out;
  for (const choosing::Chosen& one : chosen) {
    const PublishedRecord claim = materials.records[one.record];
    if (!corrects(claim)) continue;
    for (Block& block : maker.entry(claim, false)) {
      if (block.kind == document::BlockKind::heading) block = paragraph({strong({text(maker.titleOf(claim))})});
      out.push_back(std::move(block));
    }
  }
  return out;
}

Composed composeCorrections(const Materials& materials, const Places* places) {
  Composed made;
  Document& document = made.document;
  document.file = "corrections";
  document.title = "Corrections";
  document.language = materials.records.settings().language;
  document.authors = materials.records.settings().authors;
  document.draft = materials.draft;
  const Maker maker(materials, places);
  const Words words(materials, places);
  std::vector<choosing::Chosen> chosen;
  for (RecordIndex index : materials.records.ofKind(Kind::claim))
    if (corrects(materials.records[index])) chosen.push_back({index, true});
  choosing::PathProblem problem;
  const auto issued = choosing::Path::compile("issued", Kind::claim, materials.chooser.collection(), problem);
  materials.chooser.sort(chosen, std::span(&issued, 1));

  Blocks& blocks = document.blocks;
  const std::string title = materials.records.settings().title;
  blocks.push_back(heading(1, {text("Corrections" + (title.empty() ? "" : " to " + title))}));
  if (chosen.empty()) {
    blocks.push_back(paragraph({text("No correction has been issued.")}));
    return made;
  }
  blocks.push_back(paragraph({text("These are corrections to what was printed or said before, in the order in which they were issued. What was "
                                   "said is struck out and stays to be read; earlier editions are not changed. A correction that is marked as "
                                   "misleading should be entered by hand in every copy.")}));
  document::Table table;
  table.head = {document::cell("Issued"), document::cell("Kind"), document::cell("About"), document::cell("Where"), document::cell("Weight")};
  table.align.assign(5, document::Align::left);
  for (const choosing::Chosen& one : chosen) {
    const PublishedRecord claim = materials.records[one.record];
    made.madeFrom.insert(claim.reference());
    document::Row row;
    row.cells.push_back(document::cell(words.shortDate(claim.find("issued"_f))));
    row.cells.push_back(document::cell(shortKind(claim.text("change"_f))));
    row.cells.push_back(document::cell(Inlines{document::link({text(words.plainName(claim.index()))}, {{}, anchorOf(claim), {}})}));
    row.cells.push_back(document::cell(maker.placesOf(claim)));
    row.cells.push_back(document::cell(std::string(claim.text("weighs"_f).empty() ? "not said" : claim.text("weighs"_f))));
    table.rows.push_back(std::move(row));
  }
  blocks.push_back(document::table(std::move(table)));
  for (const choosing::Chosen& one : chosen)
    for (Block& block : maker.entry(materials.records[one.record], true)) blocks.push_back(std::move(block));
  return made;
}

}  // namespace saggar::compose
