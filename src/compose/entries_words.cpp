#include <algorithm>

#include "base/text.h"
#include "compose/claim_tests.h"
#include "compose/claims.h"
#include "compose/entries.h"
#include "compose/question_days.h"

// Questions, statements and words.
namespace saggar::compose {

using document::text;
using records::Value;

// --- questions

namespace {

void addReasons(Page& page, const PublishedRecord& record, records::Field field, std::string_view label,
                Blocks& out) {
  const Value* reasons = record.find(field);
  if (reasons == nullptr || !reasons->said()) return;
  std::vector<Blocks> items;
  for (const Value& one : reasons->each()) {
    const Value* says = one.type == records::ValueType::mapping ? one.find("says"_f) : &one;
    if (says == nullptr) continue;
    Inlines words = page.words().proseLine(record, *says);
    Inlines evidence = page.words().evidenceBeside(record, one);
    if (evidence.empty()) evidence = {text("no source recorded")};
    items.push_back(item(sentenceWithNote(std::move(words), std::move(evidence))));
  }
  if (items.empty()) return;
  out.push_back(document::paragraph({document::strong({text(std::string(label))})}));
  out.push_back(document::list(std::move(items)));
}

}  // namespace

Blocks questionBlocks(Page& page, RecordIndex index) {
  const PublishedRecord record = page.record(index);
  const Value* asks = record.find("asks"_f);
  const bool named = !record.text("name"_f).empty();
  page.lists(index);
  if (!page.wants(index)) {
    page.uses(index);
    Blocks body;
    if (asks != nullptr) body = page.words().prose(record, *asks);
    Inlines line;
    put(line, "What is known, and what would settle it: ");
    put(line, page.words().linked(index, {text(named ? page.words().plainName(index)
                                                     : std::string("the question in full"))}));
    put(line, ".");
    if (body.empty() || body.back().kind != document::BlockKind::paragraph) {
      body.push_back(document::paragraph(std::move(line)));
    } else {
      put(body.back().inlines, " ");
      put(body.back().inlines, std::move(line));
    }
    return {document::notice(
        record.text("status"_f) == "settled" ? "A question that was settled" : "An open question",
        std::move(body))};
  }
  Blocks out{document::heading(page.level, {text(page.words().plainName(index))}, page.takeAnchor(index))};
  if (asks != nullptr && named)
    for (Block& block : page.words().prose(record, *asks)) out.push_back(std::move(block));
  if (record.text("status"_f) == "settled") {
    Inlines line;
    put(line, "Settled");
    if (const Value* answer = record.find("answer"_f);
        answer != nullptr && answer->target() != records::kNoRecord) {
      put(line, ": ");
      put(line, page.words().name(answer->target()));
    }
    out.push_back(document::paragraph(sentence(std::move(line))));
  }
  for (Block& block : sharedNumbers(page, record)) out.push_back(std::move(block));
  // Before the reasons: behind the last of their lists they would pass for part of it.
  std::vector<Blocks> items;
  if (record.text("status"_f) != "settled" && record.find("answer"_f) != nullptr)
    items.push_back(fact(page, record, "answer"_f, "Proposed answer"));
  for (Blocks& one :
       facts(page, record,
             {"asks"_f, "for"_f, "against"_f, "would-settle"_f, "status"_f, "answer"_f, "first"_f}))
    items.push_back(std::move(one));
  if (Blocks first = whichWasFirst(page, record); !first.empty()) items.push_back(std::move(first));
  if (auto names = namesFact(page, record)) items.push_back(std::move(*names));
  if (auto sources = sourcesFact(page, record)) items.push_back(std::move(*sources));
  if (!items.empty()) out.push_back(document::list(std::move(items)));
  addReasons(page, record, "for"_f, "What is known", out);
  addReasons(page, record, "against"_f, "What stands against it", out);
  for (Block& block : whatCannotAllBeTrue(page, record)) out.push_back(std::move(block));
  std::vector<Blocks> ways;
  if (const Value* settle = record.find("would-settle"_f); settle != nullptr && settle->said())
    for (const Value& one : settle->each())
      ways.push_back(item(sentence(page.words().proseLine(record, one))));
  for (Blocks& one : whatWouldDecide(page, record)) ways.push_back(std::move(one));
  if (!ways.empty()) {
    out.push_back(document::paragraph({document::strong({text("What would settle it")})}));
    out.push_back(document::list(std::move(ways)));
  }
  for (Block& block : noteOf(page, record)) out.push_back(std::move(block));
  return out;
}

// --- statements

Inlines claimLine(Page& page, RecordIndex index) {
  const PublishedRecord record = page.record(index);
  page.lists(index);
  page.uses(index);
  Inlines out;
  if (std::string anchor = page.takeAnchor(index); !anchor.empty())
    out.push_back(document::anchorAt(std::move(anchor)));
  const std::string_view status = record.text("status"_f);
  if (const std::string_view name = record.text("name"_f); !name.empty()) {
    out.push_back(document::strong(sentence(
        capitalised(page.isHome(index) ? Inlines{text(std::string(name))} : page.words().name(index)))));
    put(out, " ");
  }
  Inlines said;
  if (const Value* says = record.find("says"_f); says != nullptr && says->said()) {
    Inlines words = page.words().proseLine(record, *says);
    if (status == "withdrawn") {
      Inline struck;
      struck.kind = document::InlineKind::struck;
      struck.children = std::move(words);
      out.push_back(std::move(struck));
    } else {
      said = sentence(std::move(words));
    }
  }
  std::vector<Inlines> notes;
  if (status == "supposed") notes.push_back({text("supposed")});
  if (status == "doubted") notes.push_back({text("doubted")});
  if (status == "withdrawn") notes.push_back({text("withdrawn")});
  for (RecordIndex later : referring(page, index, Kind::claim, "replaces"_f)) {
    Inlines note;
    put(note, "replaced: ");
    put(note, page.words().linked(later, {text("see the correction")}));
    notes.push_back(std::move(note));
  }
  notes.push_back(claimEvidence(page.words(), record));
  if (const Value* against = record.find("against"_f);
      against != nullptr && against->evidence != nullptr && !against->evidence->cite.empty()) {
    Inlines note;
    put(note, "against it: ");
    put(note, page.words().citations(against->evidence->cite));
    notes.push_back(std::move(note));
  }
  if (said.empty()) {
    put(out, " (");
    put(out, separated(std::move(notes), "; "));
    put(out, ").");
  } else {
    for (Inline& one : sentenceWithNote(std::move(said), separated(std::move(notes), "; ")))
      out.push_back(std::move(one));
  }
  if (const Value* because = record.find("because"_f); because != nullptr && because->said()) {
    put(out, " ");
    put(out, sentence(page.words().proseLine(record, *because)));
  }
  if (const Value* about = record.find("about"_f); about != nullptr && about->said()) {
    put(out, " See ");
    put(out, sentence(page.words().value(about, nullptr, record)));
  }
  putRest(page.words(), record, {"also"_f, "more"_f, "note"_f, "see"_f}, out);
  return out;
}

// --- words

Block termBlock(Page& page, RecordIndex index) {
  const PublishedRecord record = page.record(index);
  Block block;
  block.kind = document::BlockKind::definition;
  block.anchor = page.takeAnchor(index);
  page.uses(index);
  page.lists(index);
  Inlines word{text(page.words().plainName(index))};
  block.inlines = block.anchor.empty() ? page.words().linked(index, std::move(word)) : std::move(word);
  if (const Value* means = record.find("means"_f); means != nullptr && means->said())
    block.blocks = page.words().prose(record, *means);
  Inlines line;
  if (const Value* also = record.find("also"_f); also != nullptr && also->said()) {
    std::vector<std::string> names;
    for (const Value& one : also->each())
      if (const Value* name = one.find("name"_f); name != nullptr && name->said())
        names.emplace_back(name->text);
    if (!names.empty()) put(line, " Also " + base::listedInWords(names) + ".");
  }
  if (const Value* broader = record.find("broader"_f); broader != nullptr && broader->said()) {
    put(line, " See under ");
    put(line, sentence(page.words().value(broader, nullptr, record)));
  }
  std::vector<Inlines> see;
  for (records::Field field : {"related"_f, "see"_f})
    if (const Value* related = record.find(field); related != nullptr && related->said())
      for (const Value& one : related->each()) see.push_back(page.words().value(&one, nullptr, record));
  if (!see.empty()) {
    // A word that has two names, "decal, decalcomania", is still one word in the list.
    const bool commas = std::any_of(see.begin(), see.end(), [](const Inlines& one) {
      return document::plainText(one).find(',') != std::string::npos;
    });
    put(line, " See also ");
    put(line, sentence(commas ? separated(std::move(see), "; ") : listed(std::move(see))));
  }
  Inlines rest;
  putRest(page.words(), record, {"more"_f, "note"_f, "cite"_f}, rest);
  if (!rest.empty()) put(line, " ");
  put(line, std::move(rest));
  if (block.blocks.empty() || block.blocks.back().kind != document::BlockKind::paragraph)
    block.blocks.push_back(document::paragraph({}));
  put(block.blocks.back().inlines, std::move(line));
  return block;
}

}  // namespace saggar::compose
