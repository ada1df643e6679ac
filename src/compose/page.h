#pragma once
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <unordered_set>
#include <vector>

#include "choosing/made_in_clash.h"
#include "chronology/precedence.h"
#include "compose/phrases.h"
#include "compose/words.h"

// What the chapters of one guide share, and what is known while one of them is made.
namespace saggar::compose {

// An entry that an author marked in prose: its heading, and where the words stand.
struct MarkedEntry {
  std::string heading;
  std::size_t chapter = 0;
  std::string anchor;
};

class Book {
 public:
  Book(const Materials& materials, const Places& places)
      : materials_(materials),
        places_(places),
        words_(materials, &places),
        piecesAtOdds_(choosing::madeInClashes(materials.chooser.collection())) {}

  const Materials& materials() const { return materials_; }
  const Published& records() const { return materials_.records; }
  const Places& places() const { return places_; }
  const Words& words() const { return words_; }
  // Where a shape's list and a piece's own `made-in` deny each other, by form.
  const std::vector<choosing::MadeInClash>& piecesAtOdds() const { return piecesAtOdds_; }

  std::vector<MarkedEntry> marked;  // of all chapters made so far, in their order; for the index

 private:
  const Materials& materials_;
  const Places& places_;
  Words words_;
  std::vector<choosing::MadeInClash> piecesAtOdds_;
};

// One chapter in the making.
class Page {
 public:
  Page(const Book& book, std::size_t chapter);

  const Book& book() const { return book_; }
  const Words& words() const { return book_.words(); }
  const Published& records() const { return book_.records(); }
  PublishedRecord record(RecordIndex index) const { return book_.records()[index]; }
  const Chapter& chapter() const { return book_.places().chapters()[chapter_]; }
  std::size_t number() const { return chapter_; }

  // This chapter is where the record is described, and that has not happened yet.
  bool wants(RecordIndex record) const;
  bool isHome(RecordIndex record) const { return book_.places().chapterOf(record) == chapter_; }
  // The record's anchor, the first time it is asked for in its home; empty otherwise. Counts it as described.
  std::string takeAnchor(RecordIndex record);
  // The record took part in what is printed (for the manifest).
  void uses(RecordIndex record);
  // The record has been listed here, with its home here or elsewhere.
  void lists(RecordIndex record) { listed_.insert(record); }
  bool hasListed(RecordIndex record) const { return listed_.contains(record); }

  void picture(const std::string& path);
  // The anchor for an index entry that an author marked.
  std::string mark(const std::string& heading);

  // It has been said here that the author saw the pieces of which nobody else is named as having seen them.
  bool authorSaw = false;

  // The level that headings made here have: one below the heading they stand under.
  int level = 2;

  // The blocks of prose that were filled in so far.
  std::vector<std::string> blocks;

  // Which of two events was first, of those asked for here; made when the first question asks.
  std::optional<chronology::Precedences> precedences;
  std::map<std::pair<chronology::Node, chronology::Node>, std::optional<chronology::Precedence>> orders;

  // Files in which the chapter goes on, to be composed behind it one by one (numbers.h). They look at nothing of this page.
  std::vector<std::function<Composed()>> further;

  Composed made;
  std::vector<MarkedEntry> marked;  // the entries marked in this chapter

 private:
  const Book& book_;
  std::size_t chapter_;
  std::unordered_set<RecordIndex> described_;
  std::unordered_set<RecordIndex> listed_;
  std::unordered_set<std::string> pictures_;
};

// A heading of ours, with its anchor only if somebody links to it.
Block ownHeading(const Page& page, int level, std::string words);

// For a list that is empty: "No decoration is recorded."; "None recorded." without a word for what it would list.
Block noneRecorded(std::string_view what = {});

}  // namespace saggar::compose
