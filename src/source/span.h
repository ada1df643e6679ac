#pragma once
#include <cstdint>

// A place is a file and two byte offsets; line, column and caret are worked out only when somebody prints it.
namespace saggar::source {

using FileId = std::uint32_t;
inline constexpr FileId kNoFile = 0xFFFFFFFF;

struct Span {
  FileId file = kNoFile;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;  // one past the last byte

  bool known() const { return file != kNoFile; }
  friend bool operator==(const Span&, const Span&) = default;
  friend auto operator<=>(const Span&, const Span&) = default;
};

}  // namespace saggar::source
