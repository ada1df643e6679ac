#include "reading/markdown_limits.h"

#include "base/text.h"

namespace saggar::reading {
namespace {

// One unit of work is about half a nanosecond of the parser's time on a machine of 2020.
constexpr double kAllowed = 4e8;
constexpr double kAllowedPerByte = 1000;
constexpr double kCellsPerByte = 4;
constexpr double kCellsAllowed = 20000;

struct Line {
  std::string_view text;
  std::size_t begin;
};

// How many quotations and list items a line may stand in, judged by its beginning.
double depthOf(std::string_view line) {
  double depth = 0;
  std::size_t columns = 0;
  std::size_t i = 0;
  while (i < line.size()) {
    const char c = line[i];
    const char next = i + 1 < line.size() ? line[i + 1] : ' ';
    if (c == ' ' || c == '\t') {
      columns += c == '\t' ? 4 : 1;
      ++i;
    } else if (c == '>') {
      ++depth;
      ++i;
    } else if ((c == '-' || c == '+' || c == '*') && (next == ' ' || next == '\t')) {
      ++depth;
      ++i;
    } else if (base::isDigit(c)) {
      std::size_t end = i;
      while (end < line.size() && end < i + 9 && base::isDigit(line[end])) ++end;
      if (end >= line.size() || (line[end] != '.' && line[end] != ')')) break;
      ++depth;
      i = end + 1;
    } else {
      break;
    }
  }
  return depth + static_cast<double>(columns) / 2;
}

// The columns of a table that such a line would open, 0 if it is no line of dashes and bars.
double columnsOf(std::string_view line) {
  double bars = 0;
  bool dashes = false;
  for (char c : line) {
    if (c == '|') {
      ++bars;
    } else if (c == '-') {
      dashes = true;
    } else if (c != ':' && c != '>' && c != '+' && c != '*' && !base::isBlank(c)) {
      return 0;
    }
  }
  return dashes && bars > 0 ? bars + 1 : 0;
}

class Estimate {
 public:
  explicit Estimate(std::size_t size)
      : allowed_(kAllowed + kAllowedPerByte * static_cast<double>(size)),
        cellsAllowed_(kCellsAllowed + kCellsPerByte * static_cast<double>(size)) {}

  std::optional<TooMuchWork> add(const Line& line) {
    const std::string_view trimmed = base::trimmed(line.text);
    if (inFence(trimmed)) return std::nullopt;
    if (trimmed.empty()) {
      paragraphBytes_ = openings_ = columns_ = 0;
      if (deepest_ > 0 && !line.text.empty()) work_ += 60 * deepest_;
      return over(line, "too deeply nested");
    }
    const double depth = depthOf(line.text);
    if (depth == 0 && paragraphBytes_ == 0) deepest_ = 0;
    if (depth > deepest_) deepest_ = depth;
    work_ += 120 * deepest_;
    if (auto much = over(line, "too deeply nested")) return much;

    if (const double columns = columnsOf(trimmed); columns > 0) {
      columns_ = columns;
      work_ += 8 * columns * columns;
    }
    cells_ += columns_;
    if (cells_ > cellsAllowed_)
      return TooMuchWork{line.begin, "a table with far more columns than are filled"};
    if (auto much = over(line, "a table with too many columns")) return much;

    if (columns_ > 0) paragraphBytes_ = openings_ = 0;
    paragraphBytes_ += static_cast<double>(line.text.size());
    words(trimmed);
    for (std::size_t i = 0; i + 1 < trimmed.size(); ++i) {
      const char next = trimmed[i + 1];
      const bool picture = trimmed[i] == '!' && next == '[';
      const bool tag = trimmed[i] == '<' && (next == '!' || next == '?');
      if (picture || tag) ++openings_;
    }
    if (openings_ * paragraphBytes_ > kAllowed) work_ = allowed_ + 1;
    return over(line, "thousands of unclosed brackets in one paragraph");
  }

 private:
  std::optional<TooMuchWork> over(const Line& line, const char* what) const {
    if (work_ <= allowed_) return std::nullopt;
    return TooMuchWork{line.begin, what};
  }

  // Bare addresses are looked for again and again within one run of letters.
  void words(std::string_view line) {
    std::size_t begin = 0;
    double addresses = 0;
    double mails = 0;
    for (std::size_t i = 0; i <= line.size(); ++i) {
      if (i == line.size() || base::isBlank(line[i])) {
        work_ += (8 * addresses + 0.3 * mails) * static_cast<double>(i - begin);
        begin = i + 1;
        addresses = mails = 0;
      } else if (line[i] == '@') {
        ++mails;
      } else if (line[i] == 'w' ? line.substr(i, 4) == "www."
                                : line[i] == ':' && line.substr(i, 3) == "://") {
        ++addresses;
      }
    }
  }

  bool inFence(std::string_view trimmed) {
    if (trimmed.empty()) return fence_ != 0;
    const char first = trimmed[0];
    if (first != '`' && first != '~') return fence_ != 0;
    std::size_t length = 0;
    while (length < trimmed.size() && trimmed[length] == first) ++length;
    if (fence_ == 0) {
      if (length < 3 || (first == '`' && trimmed.find('`', length) != std::string_view::npos)) return false;
      fence_ = first;
      fenceLength_ = length;
      return true;
    }
    if (first == fence_ && length >= fenceLength_ && length == trimmed.size()) fence_ = 0;
    return true;
  }

  double allowed_;
  double cellsAllowed_;
  double work_ = 0;
  double cells_ = 0;
  double deepest_ = 0;
  double columns_ = 0;
  double paragraphBytes_ = 0;
  double openings_ = 0;
  char fence_ = 0;
  std::size_t fenceLength_ = 0;
};

}  // namespace

std::optional<TooMuchWork> tooMuchWork(std::string_view text) {
  if (text.size() < 2000) return std::nullopt;
  Estimate estimate(text.size());
  for (std::size_t begin = 0; begin < text.size();) {
    std::size_t end = text.find_first_of("\r\n", begin);
    if (end == std::string_view::npos) end = text.size();
    if (auto much = estimate.add({text.substr(begin, end - begin), begin})) return much;
    begin = end + 1;
  }
  return std::nullopt;
}

}  // namespace saggar::reading
