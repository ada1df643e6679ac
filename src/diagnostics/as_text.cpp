#include <algorithm>

#include "base/text.h"
#include "base/utf8.h"
#include "diagnostics/report.h"

namespace saggar::diagnostics {
namespace {

constexpr std::size_t kWidestLine = 160;

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
  return std::string(place.path) + ':' + std::to_string(place.line) + ':' + std::to_string(place.column);
}

// The source line and a caret below its first column; control characters are shown as a middle dot, so that a
// terminal is never sent what an author's file holds.
void putLine(std::string& out, const source::Span& span, const source::SourceSet& sources, const Paint& paint,
             const char* colour) {
  const source::Place place = sources.place(span);
  const std::string_view line = sources.line(span);
  if (line.empty()) return;
  std::string shown;
  std::string below;
  std::size_t column = 1;
  const std::size_t last = place.endLine == place.line ? std::max(place.endColumn, place.column + 1) : SIZE_MAX;
  const std::size_t from = place.column > kWidestLine - 40 ? place.column - 40 : 1;
  for (std::size_t at = 0; at < line.size() && column < from + kWidestLine; ++column) {
    const char32_t c = base::nextCodePoint(line, at);
    if (column < from) continue;
    base::appendUtf8(shown, c == U'\t' ? U' ' : c < 32 || c == 127 || (c >= 0x80 && c < 0xA0) ? U'·' : c);
    if (column < place.column) {
      below += ' ';
    } else if (column < last) {
      below += column == place.column ? '^' : '~';
    }
  }
  if (below.find('^') == std::string::npos) below.append(place.column > column ? 0 : 1, '^');
  out += "    " + shown + "\n    " + paint(colour, below) + '\n';
}

}  // namespace

std::string asText(const Finding& finding, const source::SourceSet& sources, TextStyle style) {
  const Paint paint{style.colour};
  const char* colour = colourOf(finding.weight());
  std::string out = paint("1", placeInWords(sources.place(finding.span))) + ": ";
  out += paint(colour, std::string(toString(finding.weight()))) + ": " + finding.message + " [" +
         std::string(finding.rule.id()) + "]\n";
  putLine(out, finding.span, sources, paint, colour);
  constexpr std::size_t kMostRelated = 10;
  std::size_t shown = 0;
  for (const Related& related : finding.related) {
    if (shown++ == kMostRelated) {
      out += "  … and " + std::to_string(finding.related.size() - kMostRelated) + " more places\n";
      break;
    }
    out += "  " + placeInWords(sources.place(related.span)) + ": " + related.message + '\n';
  }
  if (!finding.hint.empty()) out += "  " + paint("32", "hint:") + ' ' + finding.hint + '\n';
  if (finding.waived) out += "  waived: " + finding.waived->because + '\n';
  return out;
}

std::string asText(const Report& report, const source::SourceSet& sources, TextStyle style) {
  std::string out;
  std::size_t printed = 0;
  std::size_t toPrint = 0;
  for (const Finding* finding : report.shown()) {
    ++printed;
    if (finding->waived) continue;
    ++toPrint;
    out += asText(*finding, sources, style);
  }
  if (toPrint != 0) out += '\n';
  if (printed < report.findings.size())
    out += base::counted(report.findings.size() - printed, "further finding") + " not shown (100 of a rule and 1,000 in all are)\n";
  out += countsInWords(report) + '\n';
  return out;
}

}  // namespace saggar::diagnostics
