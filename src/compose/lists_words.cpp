#include <algorithm>
#include <set>

#include "base/text.h"
#include "compose/cautions_text.h"
#include "compose/corrections.h"
#include "compose/lists.h"
#include "compose/sources.h"
#include "linking/prose.h"
#include "reading/text_map.h"

// Lists of look-alikes, questions, statements, corrections, makers, words, sources, pictures and cautions.
namespace saggar::compose {

using choosing::Chosen;
using document::text;
using records::Entry;
using records::Value;

namespace {

bool isCorrection(const Page& page, const PublishedRecord& claim) {
  return claim.find("change"_f) != nullptr || claim.find("replaces"_f) != nullptr ||
         !referring(page, claim.index(), Kind::claim, "replaces"_f).empty();
}

Inlines ourMarkdown(std::string_view markdown) {
  const reading::NoTextMap nowhere;
  Blocks blocks = linking::parseProse(markdown, nowhere).blocks;
  return blocks.empty() ? Inlines() : std::move(blocks[0].inlines);
}

}  // namespace

Blocks lookAlikesList(Page& page, const Listing& listing) {
  std::vector<RecordIndex> chosen = listing.records();
  const bool ordered = std::any_of(listing.query.parts.begin(), listing.query.parts.end(),
                                   [](const choosing::Query& part) { return !part.inOrderOf.empty(); });
  if (!ordered) sortByDate(page, chosen);
  std::vector<Pair> pairs = pairsOf(page, chosen);
  Blocks out;
  constexpr std::pair<Kind, std::string_view> kGroups[] = {
      {Kind::shape, "Shapes"}, {Kind::motif, "Motifs"}, {Kind::treatment, "Decorations"}};
  std::size_t groups = 0;
  for (const auto& [kind, title] : kGroups)
    groups += std::any_of(pairs.begin(), pairs.end(),
                          [&, k = kind](const Pair& pair) { return page.record(pair.one).kind() == k; })
                  ? 1
                  : 0;
  for (const auto& [kind, title] : kGroups) {
    std::vector<Blocks> items;
    for (const Pair& pair : pairs) {
      if (page.record(pair.one).kind() != kind) continue;
      page.uses(pair.one);
      page.uses(pair.other);
      items.push_back(item(pairLine(page, pair)));
    }
    if (items.empty()) continue;
    if (groups > 1) out.push_back(document::paragraph({document::strong({text(std::string(title))})}));
    out.push_back(document::list(std::move(items)));
  }
  return out;
}

Blocks questionsList(Page& page, const Listing& listing) {
  Blocks out;
  for (const Chosen& one : listing.chosen)
    for (Block& block : questionBlocks(page, one.record)) out.push_back(std::move(block));
  return out;
}

Blocks claimsList(Page& page, const Listing& listing) {
  std::vector<Blocks> items;
  for (const Chosen& one : listing.chosen)
    if (!isCorrection(page, page.record(one.record))) items.push_back(item(claimLine(page, one.record)));
  if (items.empty()) return {};
  return {document::list(std::move(items))};
}

Blocks correctionsList(Page& page, const Listing& listing) {
  Blocks out;
  for (const Chosen& one : listing.chosen) {
    const PublishedRecord claim = page.record(one.record);
    Blocks blocks = correctionBlocks(page.words().materials(), &page.book().places(), {one});
    if (blocks.empty()) continue;
    // Its own anchor and those of the statements it replaces, which stand in it struck through.
    Inlines anchors;
    auto anchor = [&](RecordIndex record) {
      if (std::string name = page.takeAnchor(record); !name.empty())
        anchors.push_back(document::anchorAt(std::move(name)));
      page.uses(record);
      page.lists(record);
    };
    anchor(one.record);
    if (const Value* replaces = claim.find("replaces"_f); replaces != nullptr && replaces->said())
      for (const Value& old : replaces->each())
        if (old.target() != records::kNoRecord) anchor(old.target());
    const bool home = page.isHome(one.record);
    Inlines& first = blocks[0].inlines;
    if (home && !anchors.empty()) {
      blocks[0] =
          document::heading(page.level, {text(document::plainText(first))}, std::move(anchors[0].text));
      anchors.erase(anchors.begin());
      if (!anchors.empty() && blocks.size() > 1)
        blocks[1].inlines.insert(blocks[1].inlines.begin(), anchors.begin(), anchors.end());
    } else if (!home) {
      first = page.words().linked(one.record, std::move(first));
    }
    for (Block& block : blocks) out.push_back(std::move(block));
  }
  return out;
}

Blocks makersList(Page& page, const Listing& listing) {
  Blocks out;
  std::vector<Blocks> elsewhere;
  for (const Chosen& one : listing.chosen) {
    Blocks entry = entryOf(page, one.record);
    if (!entry.empty()) {
      for (Block& block : entry) out.push_back(std::move(block));
      continue;
    }
    const PublishedRecord maker = page.record(one.record);
    page.uses(one.record);
    page.lists(one.record);
    Inlines line = listedName(page, one);
    std::vector<std::string> parts;
    if (const Value* trade = maker.find("trade"_f); trade != nullptr && trade->said())
      parts.push_back(page.words().plainValue(trade, nullptr, maker));
    if (const std::string_view place = maker.text("place"_f); !place.empty()) parts.emplace_back(place);
    const auto date = [&](records::Field field) {
      return page.words().plainValue(maker.find(field), records::specOf(Kind::maker, field), maker);
    };
    if (maker.find("active"_f) != nullptr) {
      parts.push_back(date("active"_f));
    } else if (maker.find("founded"_f) != nullptr || maker.find("closed"_f) != nullptr) {
      parts.push_back(date("founded"_f) + " to " + date("closed"_f));
    }
    if (!parts.empty()) put(line, ": " + base::joined(parts, ", "));
    put(line, " (");
    put(line, page.words().recordEvidence(maker));
    put(line, ")");
    elsewhere.push_back(item(std::move(line)));
  }
  if (!elsewhere.empty()) out.push_back(document::list(std::move(elsewhere)));
  return out;
}

Blocks glossaryList(Page& page, const Listing& listing) {
  std::vector<Chosen> chosen = listing.chosen;
  const choosing::Query* query = listing.query.of(Kind::term);
  if (query == nullptr || query->inOrderOf.empty()) sortByName(page, chosen);
  Blocks out;
  for (const Chosen& one : chosen) out.push_back(termBlock(page, one.record));
  return out;
}

Blocks sourcesList(Page& page, const Listing& listing) {
  std::vector<Blocks> items;
  for (const Chosen& one : listing.chosen) {
    page.uses(one.record);
    page.lists(one.record);
    Inlines line = listedName(page, one);
    put(line, ". ");
    put(line, sourceInBrief(page, one.record));
    items.push_back(item(std::move(line)));
  }
  if (items.empty()) return {};
  return {document::list(std::move(items))};
}

Blocks creditsList(Page& page, const Listing& listing) {
  Blocks out;
  for (const Chosen& one : listing.chosen)
    if (page.wants(one.record)) out.push_back(pictureBlock(page, one.record));
  // Pictures of one credit are told together; one of which there is more to say by itself.
  struct Credit {
    std::string credit, rights, permission;
    std::vector<Inlines> names;
    Inlines note;
  };
  std::vector<Credit> credits;
  for (const Chosen& one : listing.chosen) {
    const PublishedRecord photo = page.record(one.record);
    page.uses(one.record);
    page.lists(one.record);
    const Value* note = photo.find("note"_f);
    Credit own{std::string(photo.text("credit"_f)),
               std::string(photo.text("rights"_f)),
               std::string(photo.text("permission"_f)),
               {listedName(page, one)},
               {}};
    if (note != nullptr && note->said()) own.note = page.words().proseLine(photo, *note);
    const auto same = std::find_if(credits.begin(), credits.end(), [&](const Credit& other) {
      return other.credit == own.credit && other.rights == own.rights && other.permission == own.permission &&
             other.note.empty() && own.note.empty();
    });
    if (same == credits.end()) {
      credits.push_back(std::move(own));
    } else {
      same->names.push_back(std::move(own.names[0]));
    }
  }
  std::vector<Blocks> items;
  for (Credit& one : credits) {
    const bool several = one.names.size() > 1;
    Inlines whose{text(one.credit.empty() ? std::string("credit not recorded") : one.credit)};
    put(whose, "; ");
    put(whose, one.rights.empty()                             ? Inlines{text("rights not recorded")}
               : several && base::folded(one.rights) == "own" ? Inlines{text("the author's own pictures")}
                                                              : rightsInWords(one.rights));
    if (!one.permission.empty()) put(whose, "; " + one.permission);
    Inlines line;
    if (several) {
      line = capitalised(std::move(whose));
      put(line, ": ");
      put(line, sentence(separated(std::move(one.names), "; ")));
    } else {
      line = std::move(one.names[0]);
      put(line, ": ");
      put(line, sentence(std::move(whose)));
    }
    if (!one.note.empty()) {
      put(line, " ");
      put(line, std::move(one.note));
    }
    items.push_back(item(std::move(line)));
  }
  if (!items.empty()) out.push_back(document::list(std::move(items)));
  return out;
}

Blocks cautionsList(Page& page, const Listing& listing) {
  Blocks out;
  const choosing::Query* query = listing.query.of(Kind::feature);
  if (query == nullptr || query->where.always()) {
    out.push_back(document::paragraph({text(std::string(kCautionOpening))}));
    std::vector<Blocks> facts;
    for (const CautionFact& fact : kCautionFacts)
      facts.push_back(item(ourMarkdown(std::string(fact.says) + " (" + std::string(fact.source) + ")")));
    out.push_back(document::list(std::move(facts)));
    out.push_back(document::paragraph({document::strong({text(std::string(kCautionClosing))})}));
  }
  std::vector<Blocks> items;
  for (const Chosen& one : listing.chosen) {
    const Value* values = page.record(one.record).find("values"_f);
    if (values == nullptr) continue;
    for (const Entry& entry : values->entries()) {
      const Value* caution = entry.value.find("caution"_f);
      if (caution == nullptr || !caution->said()) continue;
      page.uses(one.record);
      const std::string name =
          Words::featureInWords(page.words().plainFeature(one.record), {std::string(entry.key)});
      Inlines words{document::strong(page.words().linked(one.record, {text(capitalised(name))}))};
      put(words, ": ");
      put(words, sentence({text(std::string(caution->text))}));
      items.push_back(item(std::move(words)));
    }
  }
  if (!items.empty()) out.push_back(document::list(std::move(items)));
  return out;
}

}  // namespace saggar::compose
