#pragma once
#include <optional>
#include <string>
#include <vector>

#include "compose/materials.h"

// Where everything will stand, known before a word is composed: the chapters of the guide in order, and for each
// record the chapter and anchor where it is described. So chapters can be made, written and dropped one by one.
namespace saggar::compose {

enum class ChapterType {
  prose,      // a prose file of its own
  record,     // made from a record (a-chapter-for-every), with its prose file if there is one
  generated,  // a block's name alone in the contents: codes, questions, glossary, corrections, …
  sources,    // always there: the bibliography, sources.md
  index,      // always there: the index, index.md
};

struct Chapter {
  ChapterType type = ChapterType::prose;
  std::string file;      // without ending: "jessamount"; unique in the guide
  std::string title;     // plain
  std::string division;  // the division it stands in; empty for none
  std::string path;      // of prose: "prose/the-firm.md"; of a record with prose: its file
  std::string block;     // of a generated chapter: "codes"
  RecordIndex record = records::kNoRecord;
};

class Places {
 public:
  // Reads `contents` of guide.yaml. Findings: value-unfit for what is no chapter, link-missing for a prose file that
  // is not there, prose-unused. Without `contents` the guide has every prose file, a chapter for every shape, and the
  // lists.
  static Places plan(const Materials& materials, diagnostics::Findings& findings);

  const std::vector<Chapter>& chapters() const { return chapters_; }

  // Where a record is described; nullopt if the guide describes it nowhere (it is then named without a link). The
  // anchor is always "kind-id"; sources stand in sources.md.
  std::optional<Target> of(RecordIndex record) const;

  // Where a prose file's text goes; for relative links between prose files.
  std::optional<std::string> chapterOfProse(std::string_view path) const;

 private:
  std::vector<Chapter> chapters_;
  std::vector<std::uint32_t> chapterOf_;  // by record; none: UINT32_MAX
  const Published* records_ = nullptr;
};

// "treatment-jm-045"
std::string anchorOf(const PublishedRecord& record);

}  // namespace saggar::compose
