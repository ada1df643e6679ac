#include "source/source_set.h"

#include <algorithm>

#include "base/utf8.h"

namespace saggar::source {

FileId SourceSet::add(std::string path, std::string text) {
  files_.emplace_back();
  files_.back().path = std::move(path);
  files_.back().text = std::move(text);
  return static_cast<FileId>(files_.size() - 1);
}

std::string_view SourceSet::text(const Span& span) const {
  if (!span.known()) return {};
  const std::string_view all = text(span.file);
  const std::size_t begin = std::min<std::size_t>(span.begin, all.size());
  const std::size_t end = std::min<std::size_t>(std::max(span.begin, span.end), all.size());
  return all.substr(begin, end - begin);
}

const std::vector<std::uint32_t>& SourceSet::lineStarts(const File& file) const {
  std::lock_guard guard(*linesLock_);
  if (file.lineStarts.empty()) {
    file.lineStarts.push_back(0);
    for (std::size_t i = 0; i < file.text.size(); ++i) {
      const char c = file.text[i];
      const bool lone = c == '\r' && (i + 1 == file.text.size() || file.text[i + 1] != '\n');
      if (c == '\n' || lone) file.lineStarts.push_back(static_cast<std::uint32_t>(i + 1));
    }
  }
  return file.lineStarts;
}

Place SourceSet::place(const Span& span) const {
  Place place;
  if (!span.known()) return place;
  const File& file = files_[span.file];
  place.path = file.path;
  const auto& starts = lineStarts(file);
  auto locate = [&](std::uint32_t offset, std::size_t& lineNumber, std::size_t& column) {
    offset = std::min<std::uint32_t>(offset, static_cast<std::uint32_t>(file.text.size()));
    const auto after = std::upper_bound(starts.begin(), starts.end(), offset);
    lineNumber = static_cast<std::size_t>(after - starts.begin());
    const std::uint32_t start = *(after - 1);
    std::string_view before = std::string_view(file.text).substr(start, offset - start);
    if (start == 0 && before.starts_with("\xEF\xBB\xBF"))
      before.remove_prefix(3);  // a byte order mark is no column
    column = base::countCodePoints(before) + 1;
  };
  locate(span.begin, place.line, place.column);
  locate(std::max(span.begin, span.end), place.endLine, place.endColumn);
  return place;
}

std::string_view SourceSet::line(const Span& span) const {
  if (!span.known()) return {};
  const File& file = files_[span.file];
  const auto& starts = lineStarts(file);
  const auto offset = std::min<std::uint32_t>(span.begin, static_cast<std::uint32_t>(file.text.size()));
  const auto after = std::upper_bound(starts.begin(), starts.end(), offset);
  const std::size_t start = *(after - 1);
  const std::size_t stop = after == starts.end() ? file.text.size() : *after;
  std::string_view line = std::string_view(file.text).substr(start, stop - start);
  if (start == 0 && line.starts_with("\xEF\xBB\xBF")) line.remove_prefix(3);
  while (!line.empty() && (line.back() == '\n' || line.back() == '\r')) line.remove_suffix(1);
  return line;
}

}  // namespace saggar::source
