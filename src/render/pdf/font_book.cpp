#include "render/pdf/font_book.h"

#include <hb-ot.h>
#include <hb.h>

#include <algorithm>
#include <utility>

namespace saggar::render {
namespace {

constexpr int kDeepest = 8;
constexpr std::uint64_t kLargest = 64u << 20;

bool hasTable(hb_face_t* face, hb_tag_t tag) {
  hb_blob_t* table = hb_face_reference_table(face, tag);
  const bool there = hb_blob_get_length(table) > 0;
  hb_blob_destroy(table);
  return there;
}

bool isFontName(std::string_view name) {
  return name.ends_with(".ttf") || name.ends_with(".otf");
}

}  // namespace

FontFile::FontFile(std::string name, std::string bytes) : name_(std::move(name)), bytes_(std::move(bytes)) {
  blob_ = hb_blob_create_or_fail(bytes_.data(), static_cast<unsigned>(bytes_.size()), HB_MEMORY_MODE_READONLY,
                                 nullptr, nullptr);
  if (!blob_) return;
  face_ = hb_face_create(blob_, 0);
  font_ = hb_font_create(face_);
  const bool outlines = hasTable(face_, HB_TAG('g', 'l', 'y', 'f'));
  isCff_ = !outlines && hasTable(face_, HB_TAG('C', 'F', 'F', ' '));
  const unsigned units = hb_face_get_upem(face_);
  usable_ = (outlines || isCff_) && hb_face_get_glyph_count(face_) > 1 && units >= 16 && glyph(U' ') != 0;
  unitsPerEm_ = units >= 16 ? units : 1000;
  hb_position_t height = 0;
  if (hb_ot_metrics_get_position(font_, HB_OT_METRICS_TAG_CAP_HEIGHT, &height) && height > 0)
    capHeight_ = height;
  else
    capHeight_ = unitsPerEm_ * 0.7;
}

FontFile::~FontFile() {
  if (font_) hb_font_destroy(font_);
  if (face_) hb_face_destroy(face_);
  if (blob_) hb_blob_destroy(blob_);
}

unsigned FontFile::glyph(char32_t c) const {
  hb_codepoint_t found = 0;
  return hb_font_get_nominal_glyph(font_, c, &found) ? found : 0;
}

bool FontFile::hasFeature(const char (&tag)[5]) const {
  const hb_tag_t features[] = {hb_tag_from_string(tag, 4), 0};
  hb_set_t* lookups = hb_set_create();
  hb_ot_layout_collect_lookups(face_, HB_OT_TAG_GSUB, nullptr, nullptr, features, lookups);
  const bool there = !hb_set_is_empty(lookups);
  hb_set_destroy(lookups);
  return there;
}

FontBook::FontBook(std::vector<FontFolder> folders) : folders_(std::move(folders)) {}
FontBook::~FontBook() = default;

void FontBook::look(std::size_t folder) {
  while (paths_.size() <= folder) {
    paths_.emplace_back();
    look(paths_.size() - 1, folders_[paths_.size() - 1].path, 0);
  }
}

void FontBook::look(std::size_t folder, const std::string& path, int depth) {
  const auto entries = folders_[folder].files->list(path);
  if (!entries) return;
  for (const auto& entry : *entries) {
    const std::string full = source::pathJoined(path, entry.name);
    if (entry.status.type == source::FileType::folder && depth < kDeepest)
      look(folder, full, depth + 1);
    else if (entry.status.type == source::FileType::file && entry.status.size <= kLargest &&
             isFontName(entry.name))
      paths_[folder].try_emplace(entry.name, full);
  }
}

const FontFile* FontBook::find(const std::string& fileName) {
  if (const auto known = loaded_.find(fileName); known != loaded_.end()) return known->second.get();
  std::unique_ptr<FontFile>& place = loaded_[fileName];
  for (std::size_t folder = 0; folder < folders_.size(); ++folder) {
    look(folder);
    const auto found = paths_[folder].find(fileName);
    if (found == paths_[folder].end()) continue;
    auto read = folders_[folder].files->read(found->second);
    if (!read.ok()) continue;
    auto file = std::make_unique<FontFile>(fileName, std::move(read.bytes));
    if (!file->usable()) continue;
    place = std::move(file);
    break;
  }
  return place.get();
}

const FontFile* FontBook::findOrSubstitute(const std::vector<std::string>& wanted) {
  const FontFile* found = nullptr;
  for (const std::string& one : wanted) {
    if (one.empty()) continue;
    found = find(one);
    if (found) break;
  }
  if (!found) {
    for (std::size_t folder = 0; !found && folder < folders_.size(); ++folder) {
      look(folder);
      for (const auto& [name, path] : paths_[folder])
        if ((found = find(name))) break;
    }
  }
  const auto first = std::find_if(wanted.begin(), wanted.end(), [](const auto& one) { return !one.empty(); });
  if (first != wanted.end() && (!found || found->name() != *first)) {
    const bool noted = std::any_of(substitutions_.begin(), substitutions_.end(),
                                   [&](const auto& one) { return one.wanted == *first; });
    if (!noted) substitutions_.push_back({*first, found ? found->name() : std::string()});
  }
  return found;
}

}  // namespace saggar::render
