#include "compose/corrections.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <set>

#include "base/text.h"
#include "compose/claims.h"
#include "compose/facts.h"
#include "compose/phrases.h"

// What a correction must hold: that it is one, and of which kind (Elsevier policy on errata and corrigenda, 2011; a new
// finding is an update, no error: ICMJE Recommendations); the original's title, edition and exact place (COPE Retraction
// Guidelines, 2019); what it said, what it should say, when and why it changed, on what evidence and by whom (ICMJE,
// COPE); earlier versions kept, and an old one says that there is a newer one (ICMJE); what is withdrawn stays to be seen,
// marked so (idea of NISO RP-45-2024); a link both ways (NLM); whether it misleads (Chicago Manual of Style, 14th ed.).
namespace saggar::compose {

using document::paragraph;
using document::strong;
using document::text;
using records::Value;

namespace {

std::string kindInFull(std::string_view change) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> kWords{{
      {"erratum", "Erratum: a slip in production"},
      {"corrigendum", "Corrigendum: the author was wrong"},
      {"addendum", "Addendum: a fact that was not known, or was left out"},
      {"update", "Update: a new finding; what stood there was no error when it was printed"},
      {"withdrawal", "Withdrawal: a statement taken back"},
  }};
  for (const auto& [word, meaning] : kWords)
    if (word == change) return std::string(meaning);
  return "Correction: of which kind is not recorded";
}

std::string weightInWords(const PublishedRecord& claim) {
  const std::string_view weighs = claim.text("weighs"_f);
  return weighs.empty() ? "not recorded" : std::string(weighs);
}

std::string issuedOn(const Words& words, const PublishedRecord& claim) {
  const Value* issued = claim.find("issued"_f);
  return issued == nullptr ? "not recorded" : words.shortDate(issued);
}

class Maker {
 public:
  Maker(const Materials& materials, const Places* places)
      : records_(materials.records), words_(materials, places) {}

  const Words& words() const { return words_; }

  // What the correction is about, in few words.
  std::string subjectOf(const PublishedRecord& claim) const {
    if (const std::string_view name = claim.text("name"_f); !name.empty()) return std::string(name);
    const Value* about = claim.find("about"_f);
    if (about != nullptr && about->said())
      for (const Value& one : about->each())
        if (one.target() != records::kNoRecord && records_[one.target()].kind() != Kind::claim)
          return words_.plainName(one.target());
    return words_.plainName(claim.index());
  }

  std::string titleOf(const PublishedRecord& claim) const {
    std::string title = capitalised(changeInWords(claim)) + ": " + subjectOf(claim);
    if (const Value* issued = claim.find("issued"_f); issued != nullptr && issued->said())
      title += ", " + words_.shortDate(issued);
    return title;
  }

  std::string placesInWords(const PublishedRecord& claim) const {
    const std::vector<std::string> all = oldPlaces(words_, claim);
    return all.empty() ? "place not recorded" : base::joined(all, "; ");
  }

  // All that is said of a correction under its title. `entries` are the anchors of this document, to which those of the
  // old words are added; null: it stands in the guide, which has them already.
  Blocks body(const PublishedRecord& claim, std::set<std::string>* entries) const {
    out_.clear();
    entries_ = entries;
    const std::string change = changeInWords(claim);
    const std::vector<OldWords> old = oldWords(words_, claim);
    std::string kind = kindInFull(change) + ".";
    const std::string_view weighs = claim.text("weighs"_f);
    if (weighs == "misleading") kind += " The old words mislead.";
    if (weighs == "minor") kind += " Of minor weight.";
    line("Kind.", {text(kind)});
    line(claim.find("belongs"_f) == nullptr ? "Where it stood." : "Where it belongs.",
         sentence({text(capitalised(placesInWords(claim)))}));
    for (const OldWords& one : old) {
      Inlines words;
      std::string anchor = anchorOf(records_[one.claim]);
      if (entries != nullptr && entries->insert(anchor).second)
        words.push_back(document::anchorAt(std::move(anchor)));
      put(words, one.words);
      line("It said.", std::move(words));
    }
    now(claim, change, old);
    if (const Value* because = claim.find("because"_f); because != nullptr && because->said())
      line("Why.", sentence(lineOf(words_, claim, *because)));
    line("Evidence.", sentence(capitalised(claimEvidence(words_, claim))));
    if (Inlines against = evidenceAgainst(words_, claim); !against.empty())
      line("Against it.", sentence(capitalised(std::move(against))));
    const bool dated = claim.find("issued"_f) != nullptr && claim.find("issued"_f)->said();
    std::string issued = dated ? capitalised(issuedOn(words_, claim)) : "On a day " + issuedOn(words_, claim);
    const std::vector<std::string>& authors = records_.settings().authors;
    if (!authors.empty()) issued += ", by " + base::listedInWords(authors);
    line("Issued.", sentence({text(issued)}));
    if (const auto since = newPlaces(words_, claim); !since.empty())
      line("Said so since.", sentence({text("In " + base::joined(since, "; in "))}));
    if (Inlines about = aboutOf(claim); !about.empty()) line("Corrected text.", sentence(std::move(about)));
    // What the author adds under headings of his own, and where to read on.
    if (Inlines rest; claim.find("note"_f) != nullptr || claim.find("more"_f) != nullptr ||
                      claim.find("see"_f) != nullptr || claim.find("also"_f) != nullptr) {
      putRest(words_, claim, {"also"_f, "more"_f, "note"_f, "see"_f}, rest);
      if (!rest.empty()) line("Note.", std::move(rest));
    }
    return std::move(out_);
  }

 private:
  void line(std::string_view label, Inlines words) const {
    Inlines inlines{strong({text(std::string(label))})};
    put(inlines, " ");
    put(inlines, std::move(words));
    out_.push_back(paragraph(std::move(inlines)));
  }

  // What holds now, and whether even that has been overtaken.
  void now(const PublishedRecord& claim, const std::string& change, const std::vector<OldWords>& old) const {
    const bool withdrawn = claim.text("status"_f) == "withdrawn";
    const bool ownIsOld =
        withdrawn && old.size() == 1 && old[0].claim == claim.index() && claim.find("was"_f) == nullptr;
    const Value* says = claim.find("says"_f);
    if (!ownIsOld && says != nullptr && says->said()) {
      Inlines words = lineOf(words_, claim, *says);
      const bool overtaken = withdrawn || !replacedBy(records_, claim.index()).empty();
      if (overtaken) {
        Inline crossed;
        crossed.kind = document::InlineKind::struck;
        crossed.children = std::move(words);
        words = {std::move(crossed)};
      } else {
        words = sentence(std::move(words));
      }
      line(change == "addendum"     ? "To be added."
           : change == "withdrawal" ? "Withdrawn."
           : change == "update"     ? "It says now."
                                    : "It should say.",
           std::move(words));
    }
    if (const std::vector<RecordIndex> later = replacedBy(records_, claim.index()); !later.empty()) {
      Inlines words;
      put(words, "This correction was itself corrected: see ");
      for (std::size_t i = 0; i < later.size(); ++i) {
        if (i != 0) put(words, " and ");
        const PublishedRecord one = records_[later[i]];
        Inlines label{text(changeAndDate(one))};
        put(words, entries_ == nullptr ? words_.linked(later[i], std::move(label))
                                       : Inlines{document::link(std::move(label), {{}, anchorOf(one), {}})});
      }
      line("Replaced since.", sentence(std::move(words)));
    } else if (withdrawn) {
      line(ownIsOld ? "Withdrawn." : "Withdrawn since.", {text("Nothing takes its place.")});
    }
  }

  std::string changeAndDate(const PublishedRecord& claim) const {
    std::string words = "the " + changeInWords(claim);
    if (const Value* issued = claim.find("issued"_f); issued != nullptr && issued->said())
      words += " of " + words_.shortDate(issued);
    return words;
  }

  Inlines aboutOf(const PublishedRecord& claim) const {
    std::vector<Inlines> parts;
    const Value* about = claim.find("about"_f);
    if (about != nullptr && about->said())
      for (const Value& one : about->each())
        if (one.target() != records::kNoRecord) parts.push_back(words_.name(one.target()));
    return separated(std::move(parts), "; ");
  }

  const Published& records_;
  Words words_;
  mutable Blocks out_;
  mutable std::set<std::string>* entries_ = nullptr;
};

// In the order in which they were issued; what has no date comes last, within one day the order of file and place.
std::vector<RecordIndex> inOrder(const Materials& materials) {
  std::vector<std::pair<std::pair<bool, dates::Day>, RecordIndex>> keyed;
  const dates::Options& options = materials.records.settings().dates;
  for (RecordIndex index : materials.records.ofKind(Kind::claim)) {
    const PublishedRecord claim = materials.records[index];
    if (!corrects(materials.records, claim)) continue;
    const Value* issued = claim.find("issued"_f);
    const bool dated = issued != nullptr && issued->date() != nullptr;
    const dates::Day day = dated ? issued->date()->plain(options).earliest : dates::Day::plusInfinity();
    keyed.push_back({{!dated, day}, index});
  }
  std::stable_sort(keyed.begin(), keyed.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<RecordIndex> out;
  for (const auto& one : keyed) out.push_back(one.second);
  return out;
}

// Links into the guide lead into its folder; what has its entry in this document is linked here.
class Mover {
 public:
  Mover(std::string_view folder, const std::set<std::string>& entries) : folder_(folder), entries_(entries) {}

  void move(Blocks& blocks) const {
    for (Block& block : blocks) {
      move(block.inlines);
      if (document::Table* table = block.table.given())
        for (document::Row& row : table->rows)
          for (document::Cell& cell : row.cells) move(cell.inlines);
      move(block.blocks);
    }
  }

 private:
  void move(Inlines& inlines) const {
    for (Inline& one : inlines) {
      if (document::Target* target = one.target.given(); target != nullptr && !target->file.empty()) {
        if (entries_.contains(target->anchor)) {
          target->file.clear();
        } else {
          target->file.insert(0, folder_);
        }
      }
      move(one.children);
    }
  }

  std::string_view folder_;
  const std::set<std::string>& entries_;
};

std::int64_t editionNumber(std::string_view key) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(key.data(), key.data() + key.size(), number);
  return error == std::errc() && end == key.data() + key.size() ? number : 0;
}

// What holders of an earlier edition must know before all else.
Inlines standingOfEditions(const Words& words) {
  const Published& records = words.materials().records;
  std::vector<std::string> printed;
  const records::Record* guide = records.guide();
  const Value* editions = guide == nullptr ? nullptr : guide->find("editions"_f);
  if (editions != nullptr)
    for (const records::Entry& entry : editions->entries()) {
      const std::int64_t number = editionNumber(entry.key);
      if (number <= 0) continue;
      std::string one = "the " + editionInWords(number);
      if (const Value* when = entry.value.find("date"_f); when != nullptr && when->said())
        one += " (" + words.shortDate(when) + ")";
      printed.push_back(std::move(one));
    }
  Inlines out;
  if (printed.empty()) return out;
  const bool several = printed.size() > 1;
  put(out, capitalised(base::listedInWords(printed)) + (several ? " stay" : " stays") +
               " as printed; where " + (several ? "they differ" : "it differs") +
               " from this list, the list holds.");
  if (const std::int64_t edition = records.settings().edition; edition > 0)
    put(out, " The " + editionInWords(edition) + " has these corrections in its text.");
  return out;
}

}  // namespace

Blocks correctionBlocks(const Materials& materials, const Places* places,
                        const std::vector<choosing::Chosen>& chosen) {
  const Maker maker(materials, places);
  Blocks out;
  for (const choosing::Chosen& one : chosen) {
    const PublishedRecord claim = materials.records[one.record];
    if (!corrects(materials.records, claim)) continue;
    out.push_back(paragraph({strong({text(maker.titleOf(claim))})}));
    for (Block& block : maker.body(claim, nullptr)) out.push_back(std::move(block));
  }
  return out;
}

Inlines correctionLinks(const Materials& materials, const Places& places, RecordIndex record) {
  const Words words(materials, &places);
  std::vector<Inlines> parts;
  for (RecordIndex index : correctionsAbout(materials.records, record)) {
    const auto place = places.of(index);
    if (!place) continue;
    const PublishedRecord claim = materials.records[index];
    std::string label = changeInWords(claim);
    if (const Value* issued = claim.find("issued"_f); issued != nullptr && issued->said())
      label += " of " + words.shortDate(issued);
    parts.push_back({document::link({text(std::move(label))}, *place)});
  }
  return listed(std::move(parts));
}

Composed composeCorrections(const Materials& materials, const Places* places, std::string_view folder) {
  Composed made;
  Document& document = made.document;
  const linking::GuideSettings& settings = materials.records.settings();
  document.file = "corrections";
  document.title = settings.title.empty() ? "Corrections" : "Corrections to " + settings.title;
  document.language = settings.language;
  document.authors = settings.authors;
  document.draft = materials.draft;
  const Maker maker(materials, places);
  const std::vector<RecordIndex> all = inOrder(materials);

  Blocks& blocks = document.blocks;
  blocks.push_back(document::heading(1, {text(document.title)}));
  if (all.empty()) {
    blocks.push_back(paragraph({text("No correction has been issued.")}));
    return made;
  }
  Inlines intro;
  put(intro,
      "Corrections to what was printed or said before, in the order in which they were issued. What no "
      "longer holds is struck "
      "out and stays to be read.");
  if (Inlines standing = standingOfEditions(maker.words()); !standing.empty()) {
    put(intro, " ");
    put(intro, std::move(standing));
  }
  put(intro, " What is marked as misleading should be entered by hand in every copy.");
  blocks.push_back(paragraph(std::move(intro)));

  std::set<std::string> entries;
  for (RecordIndex index : all) entries.insert(anchorOf(materials.records[index]));
  document::Table table = tableOf({"No.", "Issued", "Kind", "About", "Where it stood", "Weight"});
  table.align[0] = document::Align::right;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const PublishedRecord claim = materials.records[all[i]];
    made.madeFrom.insert(claim.reference());
    for (RecordIndex old : replacedClaims(claim)) made.madeFrom.insert(materials.records[old].reference());
    addRow(table, {{text(std::to_string(i + 1))},
                   {text(issuedOn(maker.words(), claim))},
                   {text(capitalised(changeInWords(claim)))},
                   {document::link({text(maker.subjectOf(claim))}, {{}, anchorOf(claim), {}})},
                   {text(maker.placesInWords(claim))},
                   {text(weightInWords(claim))}});
  }
  blocks.push_back(document::table(std::move(table)));
  for (std::size_t i = 0; i < all.size(); ++i) {
    const PublishedRecord claim = materials.records[all[i]];
    blocks.push_back(
        document::heading(2, {text(std::to_string(i + 1) + ". " + maker.titleOf(claim))}, anchorOf(claim)));
    for (Block& block : maker.body(claim, &entries)) blocks.push_back(std::move(block));
  }
  Mover(folder, entries).move(blocks);
  return made;
}

}  // namespace saggar::compose
