#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "layout/layout.h"
#include "source/span.h"

// Layouts in XML (the words are those of layout/layout.h). The only file that sees pugixml.
namespace saggar::reading {

struct LayoutProblem {
  source::Span span;    // where in the file
  std::string message;  // what was seen and why it matters; lower case, no full stop
  std::string hint;     // what to type instead; may be empty
};

struct LayoutRead {
  // Absent if the file is no layout at all. A layout is given back beside problems too, its unreadable values
  // left as they would be if they had not been written, so that work can go on; it is always fit
  // (layout::whatIsUnfit).
  std::optional<layout::PageLayout> layout;
  std::vector<LayoutProblem> problems;  // in the order of the file
};

// Never throws on any input. `file` is put in the spans.
LayoutRead readLayout(source::FileId file, std::string_view xml);

// "12mm", "10.5 pt", "1in", "2pc", "0" in points; nullopt for anything else.
std::optional<double> readLength(std::string_view text);

// "70%" of black, "#2a4a52", "#345"; nullopt for anything else.
std::optional<layout::Ink> readInk(std::string_view text);

}  // namespace saggar::reading
