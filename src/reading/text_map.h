#pragma once
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "source/span.h"

// A text that was taken out of a file and changed on the way (indentation, quotation marks and escapes gone)
// must still be able to say where each of its bytes was typed. A map answers that, and works nothing out
// until it is asked. A map is used by one thread at a time.
namespace saggar::reading {

class TextMap {
 public:
  virtual ~TextMap() = default;
  // The place of the bytes [begin, end) of the text. Never fails: bytes that cannot be found give the place
  // of the whole text, offsets past its end the place of its end.
  virtual source::Span at(std::size_t begin, std::size_t end) const = 0;
};

// A text that is a file, or stands unchanged in one from `offset` on.
class FileTextMap final : public TextMap {
 public:
  explicit FileTextMap(source::FileId file, std::size_t offset = 0) : file_(file), offset_(offset) {}
  source::Span at(std::size_t begin, std::size_t end) const override;

 private:
  source::FileId file_;
  std::size_t offset_;
};

// A text that nobody typed: all places are unknown.
class NoTextMap final : public TextMap {
 public:
  source::Span at(std::size_t, std::size_t) const override { return {}; }
};

// Finds the characters of a text one after the other in the bytes it was made from.
class AlignedTextMap : public TextMap {
 public:
  source::Span at(std::size_t begin, std::size_t end) const override;

 protected:
  // `whole` is the place of the text in `sourceText`, the whole text of the file. The views must outlive the
  // map.
  AlignedTextMap(std::string_view sourceText, source::Span whole, std::string_view text)
      : source_(sourceText), whole_(whole), text_(text) {}
  enum class Style { plain, singleQuoted, doubleQuoted };
  void alignFrom(std::size_t start, Style style, std::string_view skipped) const;
  virtual void align() const = 0;

  std::string_view source_;
  source::Span whole_;
  std::string_view text_;

 private:
  // For each byte of the text where it begins and ends in the source; shorter than the text where they part
  // ways.
  mutable std::vector<std::uint32_t> begins_;
  mutable std::vector<std::uint32_t> ends_;
  mutable bool aligned_ = false;
};

// The value of a YAML scalar in any style: literal `|`, folded `>`, plain over one or several lines, 'single'
// and "double" quoted (YAML 1.2.2, chapter 7 and 8). `scalar` begins at the scalar's first byte (its
// indicator or quotation mark; a tag or anchor in front is skipped) and may end anywhere after it.
class YamlTextMap final : public AlignedTextMap {
 public:
  YamlTextMap(std::string_view sourceText, source::Span scalar, std::string_view value)
      : AlignedTextMap(sourceText, scalar, value) {}

 private:
  void align() const override;
};

// Whole lines from which a common beginning was taken away: the YAML inside a fence, which may be indented or
// stand in a quotation. `lines` is where they stand, indentation included or not.
class LinesTextMap final : public AlignedTextMap {
 public:
  LinesTextMap(std::string_view sourceText, source::Span lines, std::string_view text)
      : AlignedTextMap(sourceText, lines, text) {}

 private:
  void align() const override;
};

}  // namespace saggar::reading
