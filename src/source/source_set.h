#pragma once
#include <cstddef>
#include <deque>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "source/span.h"

namespace saggar::source {

// A place as a person counts it: lines and columns from 1, columns in Unicode code points.
struct Place {
  std::string_view path;  // relative to the guide
  std::size_t line = 0;
  std::size_t column = 0;
  std::size_t endLine = 0;
  std::size_t endColumn = 0;
};

// Every text that was read, kept as it was, so that findings can show it. Files are added from one thread; reading
// is safe from several. A file's text never moves.
class SourceSet {
 public:
  FileId add(std::string path, std::string text);

  std::size_t size() const { return files_.size(); }
  std::string_view path(FileId file) const { return files_[file].path; }
  std::string_view text(FileId file) const { return files_[file].text; }
  std::string_view text(const Span& span) const;

  Place place(const Span& span) const;
  // The whole line (without its end) that holds the span's first byte.
  std::string_view line(const Span& span) const;

 private:
  struct File {
    std::string path;
    std::string text;
    mutable std::vector<std::uint32_t> lineStarts;  // made on first use
  };
  const std::vector<std::uint32_t>& lineStarts(const File& file) const;

  std::deque<File> files_;
  std::unique_ptr<std::mutex> linesLock_ = std::make_unique<std::mutex>();
};

}  // namespace saggar::source
