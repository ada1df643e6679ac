#include "compose/places.h"

#include <algorithm>

#include "base/text.h"
#include "compose/planner.h"
#include "document/address.h"

namespace saggar::compose {

using records::Value;

namespace {

// The path from the guide's folder; empty if it leads out of it.
std::string pathFrom(std::string_view folder, std::string_view relative) {
  std::vector<std::string> parts;
  auto walk = [&](std::string_view path) {
    for (std::string_view part : base::split(path, '/')) {
      if (part.empty() || part == ".") continue;
      if (part != "..") {
        parts.emplace_back(part);
      } else if (parts.empty()) {
        return false;
      } else {
        parts.pop_back();
      }
    }
    return true;
  };
  return walk(folder) && walk(relative) ? base::joined(parts, "/") : std::string();
}

}  // namespace

std::string anchorOf(const PublishedRecord& record) {
  return std::string(name(record.kind())) + '-' + std::string(record.id());
}

Places Places::plan(const Materials& materials, diagnostics::Findings& findings) {
  Places places;
  places.records_ = &materials.records;
  places.chapterOf_.assign(materials.chooser.collection().size(), UINT32_MAX);
  Planner planner(materials, places, findings);
  const records::Record* guide = materials.records.guide();
  const Value* contents = guide == nullptr ? nullptr : guide->find("contents"_f);
  if (contents != nullptr && contents->said()) {
    planner.readContents(*contents);
  } else {
    planner.takeEverything();
  }
  planner.readProse();
  planner.findHomes();
  planner.addLists();
  planner.checkLinks();
  planner.finish();
  return places;
}

std::optional<Target> Places::of(RecordIndex record) const {
  if (record >= chapterOf_.size() || chapterOf_[record] == UINT32_MAX) return std::nullopt;
  return Target{
      .file = chapters_[chapterOf_[record]].file, .anchor = anchorOf((*records_)[record]), .address = {}};
}

std::optional<std::size_t> Places::chapterOf(RecordIndex record) const {
  if (record >= chapterOf_.size() || chapterOf_[record] == UINT32_MAX) return std::nullopt;
  return chapterOf_[record];
}

std::span<const RecordIndex> Places::homesIn(std::size_t chapter) const {
  return std::span(homes_).subspan(homesBegin_[chapter], homesBegin_[chapter + 1] - homesBegin_[chapter]);
}

std::string Places::partFile(std::size_t chapter, std::size_t part) const {
  std::string stem = chapters_[chapter].file + '-';
  const auto begins = [&](const Chapter& one) {
    return base::folded(one.file).starts_with(base::folded(stem));
  };
  while (std::any_of(chapters_.begin(), chapters_.end(), begins)) stem += "part-";
  return stem + std::to_string(part + 1);
}

std::optional<std::string> Places::chapterOfProse(std::string_view path) const {
  const auto found = proseChapter_.find(std::string(path));
  if (found == proseChapter_.end()) return std::nullopt;
  return chapters_[found->second].file;
}

bool Places::isLinked(std::size_t chapter, std::string_view heading) const {
  return chapter < linked_.size() && linked_[chapter].contains(std::string(heading));
}

std::vector<std::string> Places::linkedHeadings(std::size_t chapter) const {
  if (chapter >= linked_.size()) return {};
  std::vector<std::string> out(linked_[chapter].begin(), linked_[chapter].end());
  std::sort(out.begin(), out.end());
  return out;
}

std::optional<ProseTarget> Places::resolve(std::string_view from, std::string_view address) const {
  const std::size_t hash = address.find('#');
  std::string path = document::percentDecoded(address.substr(0, hash));
  ProseTarget target;
  if (hash != std::string_view::npos) target.heading = document::percentDecoded(address.substr(hash + 1));
  if (path.empty()) {
    const auto own = proseChapter_.find(std::string(from));
    if (own != proseChapter_.end()) target.chapter = own->second;
    return own == proseChapter_.end() ? std::nullopt : std::optional(target);
  }
  if (!path.ends_with(".md")) return std::nullopt;
  std::vector<std::string> candidates;
  if (from.empty()) {
    candidates = {pathFrom("", path), pathFrom("prose", path)};
  } else {
    const std::size_t slash = from.rfind('/');
    candidates = {
        pathFrom(slash == std::string_view::npos ? std::string_view() : from.substr(0, slash), path)};
  }
  for (const std::string& candidate : candidates) {
    if (const auto found = proseChapter_.find(candidate); found != proseChapter_.end()) {
      target.chapter = found->second;
      return target;
    }
    const auto parts = base::split(candidate, '/');
    const std::string stem = stemOf(candidate);
    for (std::size_t i = 0; parts.size() == 3 && parts[0] == "prose" && i + 1 < records::kKindCount; ++i) {
      if (records::kKindNames[i].many != parts[1]) continue;
      const auto record = records_->find(static_cast<Kind>(i), stem);
      if (!record) continue;
      const auto chapter = chapterOf(*record);
      if (chapter && chapters_[*chapter].record == *record) target.chapter = *chapter;
      if (chapter && chapters_[*chapter].record != *record) target.record = *record;
      return target;
    }
    if (parts.size() != 2 || parts[0] != "prose") continue;
    for (std::size_t i = 0; i < chapters_.size(); ++i)
      if (chapters_[i].path.empty() && chapters_[i].file == stem) {
        target.chapter = i;
        return target;
      }
  }
  return target;
}

}  // namespace saggar::compose
