#pragma once
#include <cstdint>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "layout/layout.h"
#include "render/pdf/font_book.h"

struct hb_buffer_t;
struct hb_language_impl_t;

// Words turned into glyphs. Every word is shaped by HarfBuzz (kerning, ligatures, small capitals, marks) once
// for each fount and kept, ready as page operators: a guide says the same words over and over.
namespace saggar::render {

// A font file as one document uses it: which glyphs, and what text each stands for.
class UsedFont {
 public:
  UsedFont(const FontFile& file, int number);
  const FontFile& file() const { return file_; }
  int number() const { return number_; }  // its name on the page is "F" and this
  double advance(unsigned glyph) const;   // thousandths of the size

  // Notes that the glyph is used for the text. False if it already stands for another: then the place on the
  // page must carry its text itself.
  bool stand(unsigned glyph, std::string_view text);

  struct Glyph {
    unsigned id;
    const std::string* text;
  };
  std::vector<Glyph> glyphs() const;  // those in use, rising

 private:
  const FontFile& file_;
  int number_;
  std::map<std::string, std::uint32_t, std::less<>> textIds_;
  std::vector<const std::string*> texts_;
  std::vector<std::uint32_t> textOf_;  // by glyph: 0 unused, else an index into texts_ plus 1
  mutable std::vector<float> advances_;
};

struct Word {
  std::string code;  // what stands in "[(" … ")]TJ" with the fount's first font set; leaves that font set
  double width = 0;  // points
  bool rightToLeft = false;  // its letters run from right to left
};

// A place inside a word where it could be cut: the text before it and how wide that is.
struct Stop {
  std::size_t bytes = 0;
  double width = 0;
};

// A face at a size: what one stretch of text is set in.
class Fount {
 public:
  const Word& word(std::string_view text);
  // All places between letters (whole clusters, never inside a ligature or before a mark); the end is
  // included.
  void stops(std::string_view text, std::vector<Stop>& out);

  int font() const { return fonts_.front().used->number(); }
  double size() const { return size_ * fonts_.front().scale; }
  double raise() const { return raise_ + fonts_.front().raise * size_; }
  double capHeight() const;                              // points
  double space() const { return spaceWidth_; }           // between words, tracking included
  double spaceAdvance() const { return spaceAdvance_; }  // of the sign alone
  const std::string& spaceCode() const { return spaceCode_; }
  const layout::Ink& ink() const { return ink_; }

 private:
  friend class FontSet;
  struct Font {
    UsedFont* used = nullptr;
    double scale = 1;
    double raise = 0;
  };
  struct Hash {
    using is_transparent = void;
    std::size_t operator()(std::string_view text) const { return std::hash<std::string_view>{}(text); }
  };

  std::size_t fontFor(std::string_view group) const;
  void shape(std::string_view text, Word* word, std::vector<Stop>* stops);
  double shapeRun(std::string_view text, std::size_t font, Word* word, std::vector<Stop>* stops,
                  double before, std::size_t offset);

  class FontSet* set_ = nullptr;
  std::vector<Font> fonts_;
  double size_ = 10;
  double raise_ = 0;
  double tracking_ = 0;
  layout::Caps caps_ = layout::Caps::asTyped;
  layout::Ink ink_;
  double spaceWidth_ = 0;
  double spaceAdvance_ = 0;
  std::string spaceCode_;
  std::unordered_map<std::string, Word, Hash, std::equal_to<>> words_;
};

// All fonts and founts of one document.
class FontSet {
 public:
  // `language` is BCP 47 and lets a font use the letter forms of that language. Throws std::runtime_error if
  // the machine has no usable font at all.
  FontSet(const layout::PageLayout& layout, FontBook& book, const std::string& language);
  ~FontSet();
  FontSet(const FontSet&) = delete;
  FontSet& operator=(const FontSet&) = delete;

  struct Look {
    std::string face;
    bool bold = false;
    bool italic = false;
    layout::Caps caps = layout::Caps::asTyped;
    double size = 10;
    double raise = 0;
    double tracking = 0;
    layout::Ink ink;
    std::string sign;  // not empty: the first font must be one that has this sign
    friend bool operator==(const Look&, const Look&) = default;
  };
  Fount& fount(Look look);

  // Forgets shaped words when there are very many. Call only when no Word is in use.
  void trim();

  const std::deque<UsedFont>& fonts() const { return used_; }
  // Characters that no font has, and how often they were met as the words came (not how often they are
  // printed).
  const std::map<char32_t, std::size_t>& missing() const { return missing_; }
  void noteMissing(char32_t c) { ++missing_[c]; }

 private:
  friend class Fount;
  UsedFont& use(const FontFile& file);
  const FontFile* fileFor(const std::string& face, bool bold, bool italic);
  std::vector<Fount::Font> fontsFor(const Look& look);

  const layout::PageLayout& layout_;
  FontBook& book_;
  const hb_language_impl_t* language_;
  hb_buffer_t* buffer_ = nullptr;
  std::deque<UsedFont> used_;
  std::deque<std::pair<Look, Fount>> founts_;
  std::map<std::pair<std::string, int>, const FontFile*> files_;
  std::map<char32_t, std::size_t> missing_;
};

}  // namespace saggar::render
