#include "compose/planner.h"

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "compose/contents.h"
#include "compose/prose.h"
#include "compose/words.h"
#include "document/address.h"
#include "linking/prose.h"
#include "reading/markdown.h"
#include "reading/text_map.h"
#include "source/files.h"

// Chapters first, then prose is looked through once (headings, links, blocks), then every record gets its home.
namespace saggar::compose {

using document::BlockKind;
using document::InlineKind;
using records::Value;

namespace {

std::string smallLetters(std::string_view words) {
  return base::folded(words);
}

std::string titleFromStem(std::string stem) {
  std::replace(stem.begin(), stem.end(), '-', ' ');
  if (!stem.empty() && base::isLower(stem[0])) stem[0] = static_cast<char>(stem[0] - 'a' + 'A');
  return stem;
}

}  // namespace

std::span<const std::string_view> generatedHeadings() {
  static constexpr std::string_view kHeadings[] = {
      "at-a-glance",  "pieces",         "decorations", "marks",    "look-alikes",
      "known-pieces", "open-questions", "pictures",    "see-also", "also-described-here"};
  return kHeadings;
}

std::string stemOf(std::string_view path) {
  const std::size_t slash = path.rfind('/');
  std::string_view name = slash == std::string_view::npos ? path : path.substr(slash + 1);
  if (name.ends_with(".md")) name.remove_suffix(3);
  return std::string(name);
}

Planner::Planner(const Materials& materials, Places& places, diagnostics::Findings& findings)
    : materials_(materials), places_(places), findings_(findings), names_{"readme", "sources", "index"} {
  const auto& files = materials.records.prose();
  for (std::size_t i = 0; i < files.size(); ++i) proseFiles_.emplace(files[i].path, i);
  prose_.resize(files.size());
}

std::size_t Planner::add(Chapter chapter) {
  if (chapter.file.empty()) chapter.file = "chapter";
  const std::string wanted = chapter.file;
  for (int n = 2; !names_.insert(smallLetters(chapter.file)).second; ++n)
    chapter.file = wanted + '-' + std::to_string(n);
  places_.chapters_.push_back(std::move(chapter));
  return places_.chapters_.size() - 1;
}

std::string Planner::proseOf(const PublishedRecord& record) const {
  return "prose/" + std::string(plural(record.kind())) + '/' + std::string(record.id()) + ".md";
}

std::size_t Planner::addProse(const std::string& path, const std::string& division) {
  const auto parts = base::split(path, '/');
  for (std::size_t i = 0; parts.size() == 3 && i + 1 < records::kKindCount; ++i) {
    if (records::kKindNames[i].many != parts[1] || static_cast<Kind>(i) == Kind::source) continue;
    const auto record = materials_.records.find(static_cast<Kind>(i), stemOf(path));
    if (!record || settled(*record)) continue;
    addRecord(*record, division);
    return places_.chapters_.size() - 1;
  }
  const std::string stem = stemOf(path);
  const std::size_t chapter = add({.type = ChapterType::prose,
                                   .file = reading::headingAnchor(stem),
                                   .title = titleFromStem(stem),
                                   .division = division,
                                   .path = path,
                                   .block = {}});
  places_.proseChapter_.emplace(path, chapter);
  return chapter;
}

void Planner::addRecord(RecordIndex record, const std::string& division) {
  if (settled(record)) return;
  const PublishedRecord own = materials_.records[record];
  const std::string path = proseOf(own);
  const bool prose = hasProse(path) && !places_.proseChapter_.contains(path);
  const std::size_t chapter = add({.type = ChapterType::record,
                                   .file = std::string(own.id()),
                                   .title = Words(materials_, nullptr).plainName(record),
                                   .division = division,
                                   .path = prose ? path : std::string(),
                                   .block = {},
                                   .record = record});
  if (prose) places_.proseChapter_.emplace(path, chapter);
  settle(record, chapter);
}

void Planner::addGenerated(std::string_view block, const std::string& division) {
  const ChapterType type = block == "sources" ? ChapterType::sources
                           : block == "index" ? ChapterType::index
                                              : ChapterType::generated;
  for (const Chapter& one : places_.chapters_)
    if (one.type == type && one.block == block) return;
  const std::string title = block == "index" ? std::string("Index") : std::string(chapterTitle(block));
  if (type == ChapterType::generated) {
    add({.type = type,
         .file = std::string(block),
         .title = title,
         .division = division,
         .path = {},
         .block = std::string(block)});
  } else {
    places_.chapters_.push_back({.type = type,
                                 .file = std::string(block),
                                 .title = title,
                                 .division = division,
                                 .path = {},
                                 .block = std::string(block)});
  }
}

void Planner::settle(RecordIndex record, std::size_t chapter) {
  if (!settled(record)) places_.chapterOf_[record] = static_cast<std::uint32_t>(chapter);
}

void Planner::readProse() {
  const auto& files = materials_.records.prose();
  for (std::size_t i = 0; i < files.size(); ++i) {
    const auto chapter = places_.proseChapter_.find(files[i].path);
    ProseText& text = prose_[i];
    if (chapter == places_.proseChapter_.end()) {
      findings_.add({.rule = "prose-unused"_rule,
                     .span = {files[i].file, 0, 0},
                     .message = "`" + files[i].path + "` stands in no chapter",
                     .hint = "name it under `contents` in guide.yaml, or take the file away"});
    } else {
      text.chapter = chapter->second;
    }
    const reading::FileTextMap map(files[i].file);
    Blocks blocks = linking::parseProse(materials_.records.sources().text(files[i].file), map).blocks;
    bool titled = false;
    auto walk = [&](auto& self, Blocks& some) -> void {
      for (Block& block : some) {
        if (block.kind == BlockKind::heading) {
          text.headings.insert(block.anchor);
          if (block.level == 1 && !titled && text.chapter != SIZE_MAX) {
            titled = true;
            if (std::string title = document::plainText(block.inlines); !base::trimmed(title).empty())
              places_.chapters_[text.chapter].title = std::move(title);
          }
        }
        if (block.kind == BlockKind::figure) text.pictures.push_back({block.target->address, block.span});
        if (block.kind == BlockKind::query) text.queries.push_back(readQuery(block, materials_, findings_));
        self(self, block.blocks);
      }
    };
    walk(walk, blocks);
    document::forEachInline(blocks, [&](const Inline& one) {
      if (one.kind == InlineKind::image) text.pictures.push_back({one.target->address, one.span});
      if (one.kind == InlineKind::link &&
          document::addressKind(one.target->address) == document::AddressKind::relative &&
          !one.target->address.empty())
        text.links.push_back({one.target->address, one.span});
    });
  }
}

std::optional<std::size_t> Planner::homeOfFirst(const PublishedRecord& record, records::Field field) const {
  const Value* value = record.find(field);
  if (value == nullptr || !value->said()) return std::nullopt;
  for (const Value& one : value->each()) {
    const RecordIndex target = one.target();
    if (target != records::kNoRecord && settled(target)) return places_.chapterOf_[target];
  }
  return std::nullopt;
}

bool Planner::isCorrection(const PublishedRecord& claim) const {
  if (claim.find("change"_f) != nullptr || claim.find("replaces"_f) != nullptr) return true;
  for (const linking::BackReference& back : materials_.records.referredBy(claim.index()))
    if (back.field == "replaces"_f) return true;
  return false;
}

bool Planner::lists(std::string_view block, const PublishedRecord& record) const {
  if (record.kind() == Kind::claim) return (block == "corrections") == isCorrection(record);
  return true;
}

void Planner::settleWare() {
  for (RecordIndex treatment : materials_.records.ofKind(Kind::treatment)) {
    const PublishedRecord record = materials_.records[treatment];
    for (records::Field field : {"shape"_f, "motif"_f, "for"_f}) {
      const auto home = homeOfFirst(record, field);
      if (home) settle(treatment, *home);
    }
  }
  for (RecordIndex specimen : materials_.records.ofKind(Kind::specimen)) {
    const PublishedRecord record = materials_.records[specimen];
    for (records::Field field : {"treatment"_f, "shape"_f, "motif"_f}) {
      const auto home = homeOfFirst(record, field);
      if (home) settle(specimen, *home);
    }
  }
}

void Planner::settlePhotos() {
  for (RecordIndex photo : materials_.records.ofKind(Kind::photo)) {
    const PublishedRecord record = materials_.records[photo];
    if (const auto home = homeOfFirst(record, "shows"_f)) {
      settle(photo, *home);
      continue;
    }
    for (const linking::BackReference& back : materials_.records.referredBy(photo))
      if (back.field == "photo"_f && settled(back.from)) settle(photo, places_.chapterOf_[back.from]);
  }
}

void Planner::findHomes() {
  const Published& records = materials_.records;
  settleWare();
  const std::size_t chapters = places_.chapters_.size();
  for (std::size_t i = 0; i < chapters; ++i) {
    const Chapter& chapter = places_.chapters_[i];
    const auto kind = homeOf(chapter.block);
    if (chapter.type != ChapterType::generated || !kind || *kind == Kind::photo) continue;
    for (RecordIndex record : records.ofKind(*kind))
      if (lists(chapter.block, records[record])) settle(record, i);
  }
  for (const ChapterType type : {ChapterType::prose, ChapterType::record}) {
    for (std::size_t i = 0; i < chapters; ++i) {
      if (places_.chapters_[i].type != type || places_.chapters_[i].path.empty()) continue;
      for (const Query& query : prose_[proseFiles_.at(places_.chapters_[i].path)].queries) {
        const auto kind = homeOf(query.block);
        if (!kind || *kind == Kind::photo || *kind == Kind::source) continue;
        const choosing::Query* part = query.of(*kind);
        if (part == nullptr) continue;
        const choosing::Answer least =
            part->sure || !takesPerhaps(query.block, *kind) ? choosing::Answer::yes : choosing::Answer::maybe;
        for (RecordIndex record : records.ofKind(*kind))
          if (!settled(record) && lists(query.block, records[record]) &&
              materials_.chooser.ask(part->where, record) >= least)
            settle(record, i);
      }
    }
  }
  settleWare();
  settlePhotos();
  for (std::size_t i = 0; i < chapters; ++i) {
    const Chapter& chapter = places_.chapters_[i];
    bool credits = chapter.block == "credits";
    if (!chapter.path.empty())
      for (const Query& query : prose_[proseFiles_.at(chapter.path)].queries)
        credits |= query.block == "credits";
    if (credits)
      for (RecordIndex photo : records.ofKind(Kind::photo)) settle(photo, i);
  }
}

void Planner::addLists() {
  const Published& records = materials_.records;
  constexpr std::string_view kDivision = "Lists, sources and index";
  std::vector<std::size_t> chapterOfList(3, SIZE_MAX);
  struct List {
    std::string_view name;
    std::string_view file;
    std::string_view title;
  };
  constexpr List kLists[] = {{"motifs", "motifs", "Motifs"},
                             {"shapes", "other-shapes", "Other shapes"},
                             {"lists", "lists", "Lists"}};
  auto listOf = [&](std::size_t which) {
    if (chapterOfList[which] == SIZE_MAX)
      chapterOfList[which] = add({.type = ChapterType::lists,
                                  .file = std::string(kLists[which].file),
                                  .title = std::string(kLists[which].title),
                                  .division = std::string(kDivision),
                                  .path = {},
                                  .block = std::string(kLists[which].name)});
    return chapterOfList[which];
  };
  for (RecordIndex one : records.ofKind(Kind::motif))
    if (!settled(one)) settle(one, listOf(0));
  for (RecordIndex one : records.ofKind(Kind::shape))
    if (!settled(one)) settle(one, listOf(1));
  settleWare();
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) {
    const Kind kind = static_cast<Kind>(i);
    if (kind == Kind::source || kind == Kind::photo) continue;
    for (RecordIndex one : records.ofKind(kind))
      if (!settled(one)) settle(one, listOf(2));
  }
  settlePhotos();
  for (RecordIndex photo : records.ofKind(Kind::photo))
    if (!settled(photo)) settle(photo, listOf(2));
  addGenerated("sources", std::string(kDivision));
  addGenerated("index", std::string(kDivision));
  for (std::size_t i = 0; i < places_.chapters_.size(); ++i)
    if (places_.chapters_[i].type == ChapterType::sources)
      for (RecordIndex source : records.ofKind(Kind::source)) settle(source, i);
}

// A relative link of a file of prose or, with an empty `from`, of a field of a record.
void Planner::checkLink(std::string_view from, const Link& link) {
  const auto target = places_.resolve(from, link.address);
  auto report = [&](std::string message, std::string hint) {
    findings_.add({.rule = "link-missing"_rule,
                   .span = link.span,
                   .message = std::move(message),
                   .hint = std::move(hint),
                   .record = link.record,
                   .field = link.field});
  };
  if (!target) {
    const std::string_view beside = from.substr(0, std::min(from.rfind('/'), from.size()));
    const std::string file = link.address.substr(0, link.address.find('#'));
    for (std::string_view folder : {from.empty() ? std::string_view("prose") : beside, beside})
      if (isUnreadable(source::pathNormalized(source::pathJoined(folder, file)))) return;
    report("`" + base::shortened(link.address, 80) + "` leads to nothing that is published",
           "link to a file of prose (`name.md`), to a record (`kind:id`), or to an address with https://");
    return;
  }
  if (target->chapter == SIZE_MAX && target->record == records::kNoRecord) {
    report("`" + base::shortened(link.address, 80) + "` leads to no chapter",
           from.empty() ? "link to a file of prose (`name.md`), or to a record (`kind:id`)"
                        : "link to a file of prose beside this one (`name.md`), or to a record (`kind:id`)");
    return;
  }
  if (target->heading.empty() || target->chapter == SIZE_MAX) return;
  const Chapter& chapter = places_.chapters_[target->chapter];
  const bool inProse =
      !chapter.path.empty() && prose_[proseFiles_.at(chapter.path)].headings.contains(target->heading);
  const auto made = generatedHeadings();
  const bool mayBeMade = chapter.type == ChapterType::record &&
                         std::find(made.begin(), made.end(), target->heading) != made.end();
  if (inProse || mayBeMade) {
    places_.linked_[target->chapter].insert(target->heading);
    return;
  }
  std::vector<std::string_view> known;
  if (!chapter.path.empty())
    for (const std::string& heading : prose_[proseFiles_.at(chapter.path)].headings) known.push_back(heading);
  std::sort(known.begin(), known.end());
  const auto near = base::nearest(target->heading, known);
  report("there is no heading `#" + base::shortened(target->heading, 60) + "` in the chapter \"" +
             chapter.title + "\"",
         near ? "did you mean `#" + std::string(*near) + "`?"
              : "a heading is linked by its words in small letters with hyphens for blanks, as "
                "`#copied-serials`");
}

void Planner::checkPicture(std::string_view from, const Link& picture) {
  if (document::addressKind(picture.address) != document::AddressKind::relative || picture.address.empty() ||
      !picturePath(from, picture.address).empty())
    return;
  findings_.add({.rule = "link-missing"_rule,
                 .span = picture.span,
                 .message = "`" + base::shortened(picture.address, 80) +
                            "` is no picture of the guide, and only its words are printed",
                 .hint = "put the picture into the guide's `images/`, and type `../images/name.png`",
                 .record = picture.record,
                 .field = picture.field});
}

void Planner::checkLinks() {
  const auto& files = materials_.records.prose();
  places_.linked_.resize(places_.chapters_.size());
  for (std::size_t i = 0; i < files.size(); ++i) {
    for (const Link& picture : prose_[i].pictures) checkPicture(files[i].path, picture);
    for (const Link& link : prose_[i].links) checkLink(files[i].path, link);
  }
  checkRecordLinks();
}

namespace {

// "](numbers.md)", "](<numbers.md>)", "]: numbers.md": an address without a colon. Most text has none, and needs no parser.
bool mayHaveRelativeLink(std::string_view text) {
  for (std::size_t at = text.find(']'); at != std::string_view::npos; at = text.find(']', at + 1)) {
    if (at + 1 == text.size() || (text[at + 1] != '(' && text[at + 1] != ':')) continue;
    const std::string_view rest = text.substr(at + 2);
    const std::string_view address = rest.substr(0, std::min(rest.find_first_of(")\n"), rest.size()));
    if (address.find(':') == std::string_view::npos) return true;
  }
  return false;
}

void forEachProse(const Value& value, auto&& visit) {
  if (value.type == records::ValueType::prose) visit(value);
  if (value.evidence != nullptr && value.evidence->note() != nullptr) visit(*value.evidence->note());
  for (const Value& item : value.items()) forEachProse(item, visit);
  for (const records::Entry& entry : value.entries()) forEachProse(entry.value, visit);
}

}  // namespace

void Planner::checkRecordLinks() {
  const Published& records = materials_.records;
  const auto size = static_cast<RecordIndex>(materials_.chooser.collection().size());
  for (RecordIndex index = 0; index < size; ++index) {
    const PublishedRecord record = records[index];
    for (const records::Entry* entry : record.fields())
      forEachProse(entry->value, [&](const Value& value) {
        if (!mayHaveRelativeLink(value.text)) return;
        const reading::YamlTextMap map(records.sources().text(record.span().file), record.span(value.place),
                                       value.text);
        const Blocks blocks = linking::parseProse(value.text, map).blocks;
        const std::string field(entry->key);
        auto pictures = [&](auto& self, const Blocks& some) -> void {
          for (const Block& block : some) {
            if (block.kind == BlockKind::figure)
              checkPicture({}, {block.target->address, block.span, record.reference(), field});
            self(self, block.blocks);
          }
        };
        pictures(pictures, blocks);
        document::forEachInline(blocks, [&](const Inline& one) {
          if (one.kind == InlineKind::image)
            checkPicture({}, {one.target->address, one.span, record.reference(), field});
          if (one.kind == InlineKind::link && !one.target->address.empty() &&
              document::addressKind(one.target->address) == document::AddressKind::relative)
            checkLink({}, {one.target->address, one.span, record.reference(), field});
        });
      });
  }
}

void Planner::finish() {
  const std::size_t records = places_.chapterOf_.size();
  places_.homesBegin_.assign(places_.chapters_.size() + 1, 0);
  for (std::uint32_t chapter : places_.chapterOf_)
    if (chapter != UINT32_MAX) ++places_.homesBegin_[chapter + 1];
  for (std::size_t i = 1; i < places_.homesBegin_.size(); ++i)
    places_.homesBegin_[i] += places_.homesBegin_[i - 1];
  places_.homes_.resize(places_.homesBegin_.back());
  std::vector<std::uint32_t> next(places_.homesBegin_.begin(), places_.homesBegin_.end() - 1);
  for (RecordIndex i = 0; i < records; ++i)
    if (places_.chapterOf_[i] != UINT32_MAX) places_.homes_[next[places_.chapterOf_[i]]++] = i;
}

}  // namespace saggar::compose
