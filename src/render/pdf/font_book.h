#pragma once
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "source/files.h"

struct hb_blob_t;
struct hb_face_t;
struct hb_font_t;

// Fonts by the names of their files: the guide's own first, then the machine's.
namespace saggar::render {

// One font file, open. All measures are in font units; `unitsPerEm` of them make the size.
class FontFile {
 public:
  FontFile(std::string name, std::string bytes);
  ~FontFile();
  FontFile(const FontFile&) = delete;
  FontFile& operator=(const FontFile&) = delete;

  // False if the bytes are no font with outlines that PDF can carry (TrueType or CFF).
  bool usable() const { return usable_; }
  const std::string& name() const { return name_; }
  hb_face_t* face() const { return face_; }
  hb_font_t* font() const { return font_; }
  double unitsPerEm() const { return unitsPerEm_; }
  bool isCff() const { return isCff_; }
  double capHeight() const { return capHeight_; }
  bool hasFeature(const char (&tag)[5]) const;  // "smcp"

  // Glyph of a character, 0 if there is none.
  unsigned glyph(char32_t c) const;

 private:
  std::string name_;
  std::string bytes_;
  hb_blob_t* blob_ = nullptr;
  hb_face_t* face_ = nullptr;
  hb_font_t* font_ = nullptr;
  double unitsPerEm_ = 1000;
  double capHeight_ = 700;
  bool isCff_ = false;
  bool usable_ = false;
};

struct FontSubstitution {
  std::string wanted;  // the file a layout names
  std::string used;    // the file that was used in its place; empty if nothing was left to use
};

struct FontFolder {
  const source::Files* files = nullptr;  // must outlive the book
  std::string path;
};

// Not for several threads at once; several books may share the files.
class FontBook {
 public:
  // Folders are searched in this order, each with all that is below it. A folder that is not there has no
  // fonts.
  explicit FontBook(std::vector<FontFolder> folders);
  ~FontBook();

  // The first file of that name that can be used, or nullptr. Loaded once.
  const FontFile* find(const std::string& fileName);

  // find() for the first of `wanted`; else the first of the others that is there, and the substitution is
  // noted once. After all of them any font at all is tried. nullptr only if the machine has no usable font.
  const FontFile* findOrSubstitute(const std::vector<std::string>& wanted);

  // In the order in which they were met.
  const std::vector<FontSubstitution>& substitutions() const { return substitutions_; }

 private:
  void look(std::size_t folder);
  void look(std::size_t folder, const std::string& path, int depth);

  std::vector<FontFolder> folders_;
  std::vector<std::map<std::string, std::string>> paths_;  // one a folder that was looked into: name to path
  std::unordered_map<std::string, std::unique_ptr<FontFile>> loaded_;
  std::vector<FontSubstitution> substitutions_;
};

}  // namespace saggar::render
