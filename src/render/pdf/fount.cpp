#include "render/pdf/fount.h"

#include <hb-ot.h>
#include <hb.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "base/utf8.h"
#include "render/pdf/operators.h"

namespace saggar::render {
namespace {

constexpr std::size_t kMostWords = 40000;

// Characters that leave no mark of their own; a font need not have them.
bool leavesNoMark(char32_t c) {
  return c == 0x00AD || c == 0x034F || c == 0x061C || (c >= 0x200B && c <= 0x200F) ||
         (c >= 0x202A && c <= 0x202E) || (c >= 0x2060 && c <= 0x206F) || c == 0xFEFF ||
         (c >= 0xFE00 && c <= 0xFE0F) || (c >= 0xE0000 && c <= 0xE0FFF);
}

bool isSpace(char32_t c) {
  return c == 0x20 || c == 0xA0 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F || c == 0x205F || c == 0x3000;
}

bool isControl(char32_t c) {
  return c < 0x20 || (c >= 0x7F && c < 0xA0);
}

// A sign that another font may draw as well: what is nearest to a hyphen that must not break.
char32_t twin(char32_t c) {
  return c == 0x2011 ? 0x2010 : c == 0x2010 ? U'-' : 0;
}

bool has(const FontFile& file, char32_t c) {
  return file.glyph(c) != 0 || leavesNoMark(c) || isSpace(c);
}

bool extendsCluster(char32_t c) {
  if (c == 0x200D || (c >= 0xFE00 && c <= 0xFE0F)) return true;
  const auto category = hb_unicode_general_category(hb_unicode_funcs_get_default(), c);
  return category == HB_UNICODE_GENERAL_CATEGORY_NON_SPACING_MARK ||
         category == HB_UNICODE_GENERAL_CATEGORY_SPACING_MARK ||
         category == HB_UNICODE_GENERAL_CATEGORY_ENCLOSING_MARK;
}

void selectFont(std::string& out, int font, double size, double raise) {
  out += "/F";
  appendNumber(out, font);
  out += ' ';
  appendNumber(out, size);
  out += " Tf ";
  appendNumber(out, raise);
  out += " Ts[(";
}

}  // namespace

UsedFont::UsedFont(const FontFile& file, int number)
    : file_(file),
      number_(number),
      textOf_(hb_face_get_glyph_count(file.face()), 0),
      advances_(textOf_.size(), -1) {}

double UsedFont::advance(unsigned glyph) const {
  if (glyph >= advances_.size()) return 0;
  if (advances_[glyph] < 0)
    advances_[glyph] =
        static_cast<float>(hb_font_get_glyph_h_advance(file_.font(), glyph) * 1000.0 / file_.unitsPerEm());
  return advances_[glyph];
}

bool UsedFont::stand(unsigned glyph, std::string_view text) {
  if (glyph >= textOf_.size()) return false;
  if (textOf_[glyph] != 0 && *texts_[textOf_[glyph] - 1] == text) return true;
  auto known = textIds_.find(text);
  if (known == textIds_.end()) {
    known = textIds_.emplace(std::string(text), static_cast<std::uint32_t>(texts_.size() + 1)).first;
    texts_.push_back(&known->first);
  }
  if (textOf_[glyph] == 0) textOf_[glyph] = known->second;
  return textOf_[glyph] == known->second;
}

std::vector<UsedFont::Glyph> UsedFont::glyphs() const {
  std::vector<Glyph> out;
  for (std::size_t glyph = 0; glyph < textOf_.size(); ++glyph)
    if (textOf_[glyph] != 0) out.push_back({static_cast<unsigned>(glyph), texts_[textOf_[glyph] - 1]});
  return out;
}

double Fount::capHeight() const {
  const FontFile& file = fonts_.front().used->file();
  return file.capHeight() / file.unitsPerEm() * size();
}

const Word& Fount::word(std::string_view text) {
  const auto known = words_.find(text);
  if (known != words_.end()) return known->second;
  Word made;
  shape(text, &made, nullptr);
  return words_.emplace(std::string(text), std::move(made)).first->second;
}

void Fount::stops(std::string_view text, std::vector<Stop>& out) {
  out.clear();
  shape(text, nullptr, &out);
}

// The first font that has all of a letter and its marks; else the first that has the letter.
std::size_t Fount::fontFor(std::string_view group) const {
  std::size_t best = fonts_.size();
  for (std::size_t font = 0; font < fonts_.size(); ++font) {
    const FontFile& file = fonts_[font].used->file();
    bool all = true;
    bool first = true;
    for (std::size_t at = 0; at < group.size();) {
      const char32_t c = base::nextCodePoint(group, at);
      const bool there = has(file, c) || (twin(c) != 0 && file.glyph(twin(c)) != 0);
      if (first && there && best == fonts_.size()) best = font;
      first = false;
      all = all && there;
    }
    if (all) return font;
  }
  if (best < fonts_.size()) return best;
  std::size_t at = 0;
  ++set_->missing_[base::nextCodePoint(group, at)];
  return 0;
}

void Fount::shape(std::string_view text, Word* word, std::vector<Stop>* stops) {
  double width = 0;
  std::size_t runStart = 0;
  std::size_t runFont = 0;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t end = at;
    const char32_t c = base::nextCodePoint(text, end);
    if (c < 0x80 && !isControl(c) && (end >= text.size() || static_cast<unsigned char>(text[end]) < 0x80) &&
        runFont == 0 && fonts_.front().used->file().glyph(c) != 0) {
      at = end;
      continue;
    }
    for (std::size_t next = end; next < text.size();) {
      if (!extendsCluster(base::nextCodePoint(text, next))) break;
      end = next;
    }
    const std::size_t font = leavesNoMark(c) ? runFont : fontFor(text.substr(at, end - at));
    if (font != runFont) {
      if (at > runStart)
        width += shapeRun(text.substr(runStart, at - runStart), runFont, word, stops, width, runStart);
      runStart = at;
      runFont = font;
    }
    at = end;
  }
  if (runStart < text.size()) width += shapeRun(text.substr(runStart), runFont, word, stops, width, runStart);
  if (word) word->width = width;
}

double Fount::shapeRun(std::string_view text, std::size_t fontIndex, Word* word, std::vector<Stop>* stops,
                       double before, std::size_t offset) {
  const Font& font = fonts_[fontIndex];
  const FontFile& file = font.used->file();
  hb_buffer_t* buffer = set_->buffer_;
  hb_buffer_clear_contents(buffer);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t start = at;
    char32_t c = base::nextCodePoint(text, at);
    if (twin(c) != 0 && file.glyph(c) == 0) c = file.glyph(twin(c)) != 0 ? twin(c) : twin(twin(c));
    hb_buffer_add(buffer, c, static_cast<unsigned>(start));
  }
  hb_buffer_set_content_type(buffer, HB_BUFFER_CONTENT_TYPE_UNICODE);
  hb_buffer_set_cluster_level(buffer, HB_BUFFER_CLUSTER_LEVEL_MONOTONE_GRAPHEMES);
  hb_buffer_guess_segment_properties(buffer);
  hb_buffer_set_language(buffer, set_->language_);
  hb_feature_t features[2];
  unsigned featureCount = 0;
  if (caps_ != layout::Caps::asTyped) features[featureCount++] = {HB_TAG('s', 'm', 'c', 'p'), 1, 0, ~0u};
  if (caps_ == layout::Caps::smallOnly) features[featureCount++] = {HB_TAG('c', '2', 's', 'c'), 1, 0, ~0u};
  hb_shape(file.font(), buffer, features, featureCount);

  unsigned count = 0;
  const hb_glyph_info_t* glyphs = hb_buffer_get_glyph_infos(buffer, &count);
  const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(buffer, &count);
  const bool leftToRight = HB_DIRECTION_IS_FORWARD(hb_buffer_get_direction(buffer));
  const double thousandth = 1000.0 / file.unitsPerEm();
  const double size = size_ * font.scale;

  std::string code;
  double pending = 0;  // how far the next glyph is to move to the right, thousandths
  double width = 0;
  bool actualText = false;
  for (unsigned i = 0; i < count;) {
    unsigned end = i + 1;
    while (end < count && glyphs[end].cluster == glyphs[i].cluster) ++end;
    std::size_t textEnd = text.size();
    if (leftToRight && end < count) textEnd = glyphs[end].cluster;
    if (!leftToRight && i > 0) textEnd = glyphs[i - 1].cluster;
    const std::string_view said = text.substr(glyphs[i].cluster, textEnd - glyphs[i].cluster);
    double clusterWidth = 0;
    // Several glyphs for as many characters: each stands for its own (a letter and its mark).
    const bool oneToOne = end - i > 1 && leftToRight && base::countCodePoints(said) == end - i;
    std::size_t part = 0;
    for (unsigned k = i; k < end; ++k) {
      const unsigned glyph = glyphs[k].codepoint;
      const double advance = positions[k].x_advance * thousandth;
      const double across = positions[k].x_offset * thousandth;
      const double up = positions[k].y_offset * size / file.unitsPerEm();
      if (word) {
        std::string_view own = said;
        if (oneToOne) {
          std::size_t next = part;
          base::nextCodePoint(said, next);
          own = said.substr(part, next - part);
          part = next;
        } else if (end - i > 1) {
          actualText = true;
        }
        if (!font.used->stand(glyph, own) || glyph == 0) actualText = true;
        const long long shift = std::llround(-(pending + across));
        if (shift != 0) {
          code += ')';
          appendNumber(code, static_cast<double>(shift));
          code += '(';
        }
        if (up != 0) {
          code += ")]TJ ";
          appendNumber(code, raise_ + font.raise * size_ + up);
          code += " Ts[(";
        }
        appendGlyph(code, glyph);
        if (up != 0) {
          code += ")]TJ ";
          appendNumber(code, raise_ + font.raise * size_);
          code += " Ts[(";
        }
        pending =
            pending + across + static_cast<double>(shift) + advance - font.used->advance(glyph) - across;
      }
      clusterWidth += advance;
    }
    clusterWidth += tracking_;
    pending += tracking_;
    width += clusterWidth * size / 1000;
    if (stops)
      stops->push_back({offset + textEnd, leftToRight ? before + width : clusterWidth * size / 1000});
    i = end;
  }
  if (stops && !leftToRight) {
    // Clusters came from the last to the first; widths are summed in the order of reading.
    const auto own = stops->end() -
                     static_cast<std::ptrdiff_t>(std::count_if(
                         stops->begin(), stops->end(), [&](const Stop& one) { return one.bytes > offset; }));
    std::reverse(own, stops->end());
    double sum = before;
    for (auto stop = own; stop != stops->end(); ++stop) stop->width = sum += stop->width;
  }
  if (!word) return width;
  if (!leftToRight) word->rightToLeft = true;

  if (const long long shift = std::llround(-pending); shift != 0) {
    code += ')';
    appendNumber(code, static_cast<double>(shift));
    code += '(';
  }
  if (actualText) {
    std::string span = ")]TJ /Span<</ActualText" + textString(std::string(text)) + ">>BDC[(";
    code.insert(0, span);
    code += ")]TJ EMC[(";
  }
  if (fontIndex != 0) {
    word->code += ")]TJ ";
    selectFont(word->code, font.used->number(), size, raise_ + font.raise * size_);
    word->code += code;
    word->code += ")]TJ ";
    selectFont(word->code, this->font(), this->size(), this->raise());
  } else {
    word->code += code;
  }
  return width;
}

FontSet::FontSet(const layout::PageLayout& layout, FontBook& book, const std::string& language)
    : layout_(layout),
      book_(book),
      language_(hb_language_from_string(language.empty() ? "en" : language.c_str(), -1)),
      buffer_(hb_buffer_create()) {
  if (!layout.faces.empty() && fileFor(layout.faces.front().name, false, false)) return;
  hb_buffer_destroy(buffer_);
  throw std::runtime_error("no usable font was found: neither the layout's faces nor any other");
}

FontSet::~FontSet() {
  hb_buffer_destroy(buffer_);
}

const FontFile* FontSet::fileFor(const std::string& faceName, bool bold, bool italic) {
  const std::pair key(faceName, (bold ? 2 : 0) + (italic ? 1 : 0));
  if (const auto known = files_.find(key); known != files_.end()) return known->second;
  std::vector<std::string> wanted;
  std::vector<std::string> seen;
  for (const layout::Face* face = layout_.face(faceName); face;) {
    if (std::find(seen.begin(), seen.end(), face->name) != seen.end()) break;
    seen.push_back(face->name);
    const std::string& slanted = italic ? face->italic : face->roman;
    const std::string& heavy = italic ? face->boldItalic : face->bold;
    if (bold && !heavy.empty())
      wanted.push_back(heavy);
    else if (!slanted.empty())
      wanted.push_back(slanted);
    else
      wanted.push_back(face->roman);
    if (face->substitute.empty()) break;
    face = layout_.face(face->substitute);
  }
  return files_[key] = book_.findOrSubstitute(wanted);
}

UsedFont& FontSet::use(const FontFile& file) {
  for (UsedFont& one : used_)
    if (&one.file() == &file) return one;
  return used_.emplace_back(file, static_cast<int>(used_.size() + 1));
}

std::vector<Fount::Font> FontSet::fontsFor(const Look& look) {
  std::vector<Fount::Font> out;
  const FontFile* first = fileFor(look.face, look.bold, look.italic);
  if (!first) first = fileFor(layout_.faces.front().name, false, false);
  out.push_back({&use(*first), 1, 0});
  for (const layout::Fallback& fallback : layout_.fallbacks)
    if (const FontFile* file = fileFor(fallback.face, look.bold, look.italic); file && file != first)
      out.push_back({&use(*file), fallback.scale, fallback.raise});
  return out;
}

Fount& FontSet::fount(Look look) {
  if (!layout_.face(look.face)) look.face = layout_.faces.front().name;
  for (auto& [known, fount] : founts_)
    if (known == look) return fount;
  Fount made;
  made.set_ = this;
  made.fonts_ = fontsFor(look);
  made.size_ = look.size;
  made.raise_ = look.raise;
  made.tracking_ = look.tracking;
  made.caps_ = look.caps;
  made.ink_ = look.ink;
  if (!look.sign.empty()) {
    const std::size_t best = made.fontFor(look.sign);
    std::rotate(made.fonts_.begin(), made.fonts_.begin() + static_cast<std::ptrdiff_t>(best),
                made.fonts_.end());
  }
  if (look.caps != layout::Caps::asTyped && !made.fonts_.front().used->file().hasFeature("smcp"))
    made.caps_ = layout::Caps::asTyped;
  UsedFont& first = *made.fonts_.front().used;
  const unsigned space = first.file().glyph(U' ');
  first.stand(space, " ");
  made.spaceAdvance_ = first.advance(space) * made.size() / 1000;
  made.spaceWidth_ = (first.advance(space) + made.tracking_) * made.size() / 1000;
  appendGlyph(made.spaceCode_, space);
  return founts_.emplace_back(std::move(look), std::move(made)).second;
}

void FontSet::trim() {
  for (auto& [look, fount] : founts_)
    if (fount.words_.size() > kMostWords) fount.words_.clear();
}

}  // namespace saggar::render
