#include <algorithm>

#include "base/terminal.h"
#include "base/text.h"
#include "base/utf8.h"
#include "diagnostics/report.h"

namespace saggar::diagnostics {
namespace {

constexpr std::size_t kWidest = 160;      // columns of a source line that are shown
constexpr std::size_t kMostBefore = 100;  // of them in front of the place
constexpr std::size_t kMostBytes = 1600;  // marks that take no column can be many

struct Paint {
  bool on;
  std::string operator()(const char* code, const std::string& words) const {
    return on ? std::string("\x1b[") + code + 'm' + words + "\x1b[0m" : words;
  }
};

const char* colourOf(Severity severity) {
  switch (severity) {
    case Severity::error: return "1;31";
    case Severity::warning: return "1;33";
    default: return "1;36";
  }
}

std::string placeInWords(const source::Place& place) {
  if (place.line == 0) return "saggar";
  return base::forTerminal(place.path) + ':' + std::to_string(place.line) + ':' +
         std::to_string(place.column);
}

// Where the last stretch of `text` begins that takes at most kMostBefore columns.
std::size_t stretchBefore(std::string_view text) {
  std::size_t begin = text.size();
  std::size_t columns = 0;
  while (begin > 0 && text.size() - begin < kMostBytes) {
    std::size_t before = begin - 1;
    while (before > 0 && begin - before < 4 && (static_cast<unsigned char>(text[before]) & 0xC0) == 0x80)
      --before;
    std::size_t at = before;
    columns += static_cast<std::size_t>(base::columnsOf(base::nextCodePoint(text, at)));
    if (columns > kMostBefore) break;
    begin = before;
  }
  return begin;
}

// The source line and a caret below its first column, as wide as it is in a terminal. Of a long line what stands around
// the place is shown. Nothing of an author's file that a terminal would obey is sent to it.
void putLine(std::string& out, const source::Span& span, const source::SourceSet& sources, const Paint& paint,
             const char* colour) {
  const std::string_view line = sources.line(span);
  if (line.empty()) return;
  const char* const place = sources.text(span.file).data() + span.begin;
  const std::size_t caret =
      place < line.data() ? 0 : std::min(static_cast<std::size_t>(place - line.data()), line.size());
  const std::size_t end =
      caret + std::min<std::size_t>(std::max(span.end, span.begin) - span.begin, line.size() - caret);
  const std::size_t begin = stretchBefore(line.substr(0, caret));
  std::string shown = begin == 0 ? "" : "…";
  std::size_t column = begin == 0 ? 0 : 1;
  std::size_t caretColumn = 0;
  std::size_t endColumn = 0;
  std::size_t at = begin;
  while (at < line.size() && column < kWidest && at - begin < 2 * kMostBytes) {
    const std::size_t start = at;
    const char32_t c = base::nextCodePoint(line, at);
    const bool blank = c == U'\t';
    const bool dot = !blank && (base::isUnsafeForTerminal(c) || (c == 0xFFFD && at == start + 1));
    base::appendUtf8(shown, blank ? U' ' : dot ? U'·' : c);
    const std::size_t width = blank || dot ? 1 : static_cast<std::size_t>(base::columnsOf(c));
    if (start == caret)
      caretColumn = width == 0 && column > 0 ? column - 1 : column;  // a mark sits on the one before
    column += width;
    if (start < end) endColumn = column;
  }
  if (caret == line.size()) caretColumn = column;
  if (at < line.size()) shown += "…";
  std::string below(caretColumn, ' ');
  below += '^';
  if (endColumn > caretColumn + 1) below.append(endColumn - caretColumn - 1, '~');
  out += "    " + shown + "\n    " + paint(colour, below) + '\n';
}

}  // namespace

std::string asText(const Finding& finding, const source::SourceSet& sources, TextStyle style) {
  const Paint paint{style.colour};
  const char* colour = colourOf(finding.weight());
  std::string out = paint("1", placeInWords(sources.place(finding.span))) + ": ";
  out += paint(colour, std::string(toString(finding.weight()))) + ": " + base::forTerminal(finding.message) +
         " [" + std::string(finding.rule.id()) + "]\n";
  putLine(out, finding.span, sources, paint, colour);
  constexpr std::size_t kMostRelated = 10;
  std::size_t shown = 0;
  for (const Related& related : finding.related) {
    if (shown++ == kMostRelated) {
      out += "  … and " + base::counted(finding.related.size() - kMostRelated, "more place") + '\n';
      break;
    }
    out +=
        "  " + placeInWords(sources.place(related.span)) + ": " + base::forTerminal(related.message) + '\n';
  }
  if (!finding.hint.empty())
    out += "  " + paint("32", "hint:") + ' ' + base::forTerminal(finding.hint) + '\n';
  if (finding.waived) out += "  waived: " + base::forTerminal(finding.waived->because) + '\n';
  return out;
}

namespace {

// Where several contradictions have one fact in common.
std::string doubtInWords(const Report& report, const source::SourceSet& sources) {
  const auto contradictions =
      std::count_if(report.findings.begin(), report.findings.end(), [](const Finding& finding) {
        return finding.shortByDays && !finding.waived && finding.weight() == Severity::error;
      });
  const auto one = std::find_if(report.doubts.begin(), report.doubts.end(),
                                [](const std::vector<FactNote>& set) { return set.size() == 1; });
  if (contradictions < 2 || one == report.doubts.end()) return {};
  const FactNote& fact = one->front();
  return "one fact has part in " +
         (contradictions == 2 ? std::string("both") : "all " + std::to_string(contradictions)) +
         " contradictions: `" + fact.field + "` of " + fact.record +
         (fact.value.empty() ? "" : " (" + base::forTerminal(fact.value) + ")") + ", " +
         placeInWords(sources.place(fact.span)) + "; if it is wrong, none of them is left\n";
}

}  // namespace

std::string asText(const Report& report, const source::SourceSet& sources, TextStyle style) {
  std::string out;
  std::size_t printed = 0;
  for (const Finding* finding : report.shown()) {
    if (finding->waived) continue;
    ++printed;
    out += asText(*finding, sources, style);
  }
  if (printed != 0) out += '\n';
  out += doubtInWords(report, sources);
  const std::size_t all = report.errors + report.warnings + report.notes;
  if (printed < all)
    out +=
        base::counted(all - printed, "further finding") + " not shown (100 of a rule and 1,000 in all are)\n";
  out += countsInWords(report) + '\n';
  return out;
}

}  // namespace saggar::diagnostics
