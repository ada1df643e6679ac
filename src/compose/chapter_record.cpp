#include <algorithm>
#include <set>

#include "base/text.h"
#include "compose/chapters.h"

// A chapter made from a record. What its prose lists by a block is not listed again; what it does not list is added.
namespace saggar::compose {

using choosing::Chosen;
using document::text;
using records::Value;

namespace {

// The facts at the head of a chapter.
Blocks headOf(Page& page, const PublishedRecord& record) {
  std::vector<Blocks> items;
  if (auto names = namesFact(page, record)) items.push_back(std::move(*names));
  if (record.kind() == Kind::shape) {
    items.push_back(fact(page, record, "maker"_f));
    items.push_back(datesFact(page, record));
    for (Blocks& one :
         facts(page, record, {"maker"_f, "introduced"_f, "withdrawn"_f, "forms"_f, "resembles"_f}))
      items.push_back(std::move(one));
    if (auto sources = sourcesFact(page, record)) items.push_back(std::move(*sources));
  } else {
    Blocks entry = entryOf(page, record.index());
    for (Block& block : entry)
      if (block.kind == document::BlockKind::list)
        for (Block& one : block.blocks) items.push_back(std::move(one.blocks));
  }
  Blocks out;
  if (!items.empty()) out.push_back(document::list(std::move(items)));
  for (Block& block : noteOf(page, record)) out.push_back(std::move(block));
  for (Block& block : picturesOf(page, record.index())) out.push_back(std::move(block));
  return out;
}

std::vector<Chosen> sure(const std::vector<RecordIndex>& records) {
  std::vector<Chosen> out;
  for (RecordIndex one : records) out.push_back({one, true});
  return out;
}

class RecordChapter {
 public:
  RecordChapter(Page& page, const PublishedRecord& record) : page_(page), record_(record) {}

  void add(std::string_view title, Blocks blocks) {
    if (blocks.empty()) return;
    out_.push_back(ownHeading(page_, 2, std::string(title)));
    for (Block& block : blocks) out_.push_back(std::move(block));
  }

  void pieces(bool listed) {
    if (record_.kind() != Kind::shape || listed) return;
    std::vector<Chosen> chosen;
    choosing::PathProblem problem;
    const choosing::Path path = choosing::Path::compile(
        "forms", Kind::shape, page_.words().materials().chooser.collection(), problem);
    std::set<RecordIndex> seen;
    if (!path.empty())
      for (const choosing::Reached& reached :
           path.from(record_.index(), page_.words().materials().chooser.collection())) {
        const RecordIndex form = reached.state == choosing::Reached::State::record  ? reached.record
                                 : reached.state == choosing::Reached::State::value ? reached.value->target()
                                                                                    : records::kNoRecord;
        if (form != records::kNoRecord && seen.insert(form).second) chosen.push_back({form, true});
      }
    std::sort(chosen.begin(), chosen.end(),
              [](const Chosen& a, const Chosen& b) { return a.record < b.record; });
    const Query query = wholeQuery("forms");
    add("Pieces", formsList(page_, {query, std::move(chosen), false}));
  }

  void decorations() {
    std::vector<RecordIndex> rest;
    std::set<RecordIndex> taken;
    bool some = false;
    for (records::Field field : {"shape"_f, "motif"_f, "for"_f, "decorated-by"_f})
      for (RecordIndex one : referring(page_, record_.index(), Kind::treatment, field)) {
        if (page_.hasListed(one)) some = true;
        if (!page_.hasListed(one) && taken.insert(one).second) rest.push_back(one);
      }
    if (rest.empty()) return;
    const Query query = wholeQuery("treatments");
    page_.level = 3;
    add(some ? "Further decorations" : "Decorations", treatmentsList(page_, {query, sure(rest), false}));
  }

  void marks() {
    std::vector<RecordIndex> rest;
    std::set<RecordIndex> taken;
    for (records::Field field : {"shapes"_f, "maker"_f})
      for (RecordIndex one : referring(page_, record_.index(), Kind::mark, field))
        if (!page_.hasListed(one) && taken.insert(one).second) rest.push_back(one);
    if (rest.empty()) return;
    const Query query = wholeQuery("marks");
    page_.level = 3;
    add("Marks", marksList(page_, {query, sure(rest), false}));
  }

  void lookAlikes(bool listed) {
    if (listed) return;
    const Query query = wholeQuery("look-alikes");
    add("Look-alikes", lookAlikesList(page_, {query, {{record_.index(), true}}, false}));
  }

  void knownPieces() {
    struct Group {
      RecordIndex treatment;
      std::vector<RecordIndex> pieces;
    };
    std::vector<Group> groups;
    auto take = [&](RecordIndex treatment, const std::vector<RecordIndex>& pieces) {
      Group group{treatment, {}};
      for (RecordIndex one : pieces)
        if (page_.wants(one)) group.pieces.push_back(one);
      if (!group.pieces.empty()) groups.push_back(std::move(group));
    };
    for (records::Field field : {"shape"_f, "motif"_f, "for"_f})
      for (RecordIndex treatment : referring(page_, record_.index(), Kind::treatment, field))
        take(treatment, referring(page_, treatment, Kind::specimen, "treatment"_f));
    for (records::Field field : {"shape"_f, "motif"_f})
      take(records::kNoRecord, referring(page_, record_.index(), Kind::specimen, field));
    if (groups.empty()) return;
    Blocks out;
    std::vector<RecordIndex> all;
    for (const Group& group : groups) all.insert(all.end(), group.pieces.begin(), group.pieces.end());
    for (Block& block : whoSaw(page_, all)) out.push_back(std::move(block));
    for (const Group& group : groups) {
      Inlines title;
      if (group.treatment != records::kNoRecord) {
        title = page_.words().name(group.treatment);
      } else {
        put(title, "Without a decoration on record");
      }
      out.push_back(document::paragraph({document::strong(std::move(title))}));
      std::vector<Blocks> items;
      for (RecordIndex piece : group.pieces) items.push_back(item(specimenLine(page_, piece)));
      out.push_back(document::list(std::move(items)));
      for (RecordIndex piece : group.pieces)
        for (Block& block : picturesOf(page_, piece)) out.push_back(std::move(block));
    }
    add("Known pieces", std::move(out));
  }

  void questions() {
    std::vector<RecordIndex> rest;
    std::set<RecordIndex> taken;
    auto take = [&](RecordIndex about) {
      for (RecordIndex one : referring(page_, about, Kind::question, "about"_f))
        if (!page_.hasListed(one) && taken.insert(one).second) rest.push_back(one);
    };
    take(record_.index());
    for (RecordIndex treatment : referring(page_, record_.index(), Kind::treatment, "shape"_f))
      take(treatment);
    Blocks out;
    page_.level = 3;
    for (RecordIndex one : rest)
      for (Block& block : questionBlocks(page_, one)) out.push_back(std::move(block));
    add("Open questions", std::move(out));
  }

  Blocks take() { return std::move(out_); }

 private:
  Page& page_;
  PublishedRecord record_;
  Blocks out_;
};

}  // namespace

Blocks recordChapter(Page& page, diagnostics::Findings& findings) {
  const PublishedRecord record = page.record(page.chapter().record);
  std::string anchor;
  if (record.kind() == Kind::shape) {
    anchor = page.takeAnchor(record.index());
    page.lists(record.index());
  } else {
    anchor = anchorOf(record);
  }
  Blocks head = headOf(page, record);
  page.takeAnchor(record.index());
  Blocks out;
  std::set<std::string> listed;
  if (page.chapter().path.empty()) {
    out.push_back(document::heading(1, {text(page.chapter().title)}));
    for (Block& block : head) out.push_back(std::move(block));
  } else {
    out = proseBlocks(page, page.chapter().path, std::move(head), findings);
    const bool titled = !out.empty() && out[0].kind == document::BlockKind::heading && out[0].level == 1;
    if (!titled) out.insert(out.begin(), document::heading(1, {text(page.chapter().title)}));
    listed.insert(page.blocks.begin(), page.blocks.end());
  }
  // The record's own anchor stands in front of everything.
  if (out[0].anchor.empty()) {
    out[0].anchor = anchor;
  } else {
    Block place = document::paragraph({document::anchorAt(anchor)});
    out.insert(out.begin() + 1, std::move(place));
  }
  RecordChapter rest(page, record);
  rest.pieces(listed.contains("forms") || listed.contains("measures"));
  rest.decorations();
  rest.marks();
  rest.lookAlikes(listed.contains("look-alikes"));
  rest.knownPieces();
  rest.questions();
  for (Block& block : rest.take()) out.push_back(std::move(block));
  page.level = 2;
  return out;
}

}  // namespace saggar::compose
