#pragma once
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "compose/materials.h"

// Where everything will stand, known before a word is composed: the chapters of the guide in order, and for each
// record the chapter and anchor where it is described. So chapters can be made, written and dropped one by one.
//
// A record has one home and one anchor, "kind-id":
// - its own chapter, if it has one; a treatment the chapter of its shape, a specimen that of its treatment or shape;
// - else the generated chapter of its kind (`glossary`, `questions`, `corrections`, …);
// - else the first block in prose that lists it (chapters of prose before those made from records);
// - a photo where the first thing that it shows is described;
// - else one of the lists at the back. A source always stands in the sources.
// Wherever else a record is listed, it is named with a link to its home.
namespace saggar::compose {

enum class ChapterType {
  prose,      // a prose file of its own
  record,     // made from a record (a-chapter-for-every), with its prose file if there is one
  generated,  // a block's name alone in the contents: codes, questions, glossary, corrections, …
  lists,      // what has no home elsewhere: `block` says which list
  sources,    // always there: the bibliography, sources.md
  index,      // always there: the index, index.md
};

struct Chapter {
  ChapterType type = ChapterType::prose;
  std::string file;   // without ending: "jessamount"; unique in the guide, whatever a disk thinks of capitals
  std::string title;  // plain
  std::string division;  // the division it stands in; empty for none
  std::string path;      // of prose: "prose/the-firm.md"; of a record with prose: its file
  std::string block;     // of a generated chapter: "codes"; of lists: "motifs", "shapes" or "lists"
  RecordIndex record = records::kNoRecord;
};

// A link that an author typed from prose to another file of prose.
struct ProseTarget {
  std::size_t chapter = SIZE_MAX;           // none: the file goes nowhere in print
  RecordIndex record = records::kNoRecord;  // a file of a record without a chapter of its own
  std::string heading;                      // the heading's anchor, empty for the top
};

class Places {
 public:
  // Reads `contents` of guide.yaml and all prose. Findings: value-unfit for what is no chapter, link-missing for a
  // prose file or heading that is not there, in prose and in what records say, prose-unused, and what is wrong with the YAML of a block. Without
  // `contents` the guide has every prose file, a chapter for every shape, and the lists.
  static Places plan(const Materials& materials, diagnostics::Findings& findings);

  const std::vector<Chapter>& chapters() const { return chapters_; }

  // Where a record is described; nullopt if the guide describes it nowhere (it is then named without a link). The
  // anchor is always "kind-id"; sources stand in sources.md.
  std::optional<Target> of(RecordIndex record) const;

  // The chapter, as an index of chapters(), and the records that have their home in one, in the order of the guide.
  std::optional<std::size_t> chapterOf(RecordIndex record) const;
  std::span<const RecordIndex> homesIn(std::size_t chapter) const;

  // The file of a part of a chapter that is cut, counted from 0: "codes-1". No other chapter has it, or is cut into it.
  std::string partFile(std::size_t chapter, std::size_t part) const;

  // Where a prose file's text goes; for relative links between prose files.
  std::optional<std::string> chapterOfProse(std::string_view path) const;

  // Where a relative link leads that stands in the prose file `from` ("prose/the-firm.md") or, with an empty `from`, in
  // a record. Nullopt: it is no link to a prose file (a picture, an address outside).
  std::optional<ProseTarget> resolve(std::string_view from, std::string_view address) const;

  // The anchor of a heading of a chapter is written only if something links to it.
  bool isLinked(std::size_t chapter, std::string_view heading) const;
  std::vector<std::string> linkedHeadings(std::size_t chapter) const;  // sorted

 private:
  friend class Planner;
  std::vector<Chapter> chapters_;
  std::vector<std::uint32_t> chapterOf_;  // by record; none: UINT32_MAX
  std::vector<RecordIndex> homes_;        // by chapter
  std::vector<std::uint32_t> homesBegin_;
  std::unordered_map<std::string, std::size_t> proseChapter_;  // by path
  std::vector<std::unordered_set<std::string>> linked_;        // headings, by chapter
  const Published* records_ = nullptr;
};

// "treatment-jm-045"
std::string anchorOf(const PublishedRecord& record);

}  // namespace saggar::compose
