#pragma once
#include <map>
#include <set>
#include <string>
#include <unordered_set>
#include <vector>

#include "compose/places.h"
#include "compose/query.h"

// How the places of a guide are found, step by step. Not for other rooms.
namespace saggar::compose {

class Planner {
 public:
  Planner(const Materials& materials, Places& places, diagnostics::Findings& findings);

  void readContents(const records::Value& contents);  // planner_contents.cpp
  void takeEverything();                              // without contents
  void readProse();
  void findHomes();
  void addLists();
  void checkLinks();
  void finish();

 private:
  struct Link {
    std::string address;
    source::Span span;
    std::string record = {};  // "kind:id" whose field it stands in; empty: a file of prose
    std::string field = {};
  };
  struct ProseText {
    std::size_t chapter = SIZE_MAX;
    std::vector<Query> queries;
    std::unordered_set<std::string> headings;
    std::vector<Link> links;
    std::vector<Link> pictures;
  };

  // planner_contents.cpp
  void readItem(const records::Value& item, const std::string& division, int depth);
  void readWord(const records::Value& item, const std::string& division);
  void readForEvery(const records::Value& item, const std::string& division);
  void report(diagnostics::Rule rule, records::Extent place, std::string message, std::string hint);

  std::size_t add(Chapter chapter);  // with a file name of its own; gives its index
  std::size_t addProse(const std::string& path, const std::string& division);
  void addRecord(RecordIndex record, const std::string& division);
  void addGenerated(std::string_view block, const std::string& division);
  bool hasProse(const std::string& path) const { return proseFiles_.contains(path); }
  bool isUnreadable(const std::string& path) const;  // a file that is there and was told to be unreadable
  std::string proseOf(const PublishedRecord& record) const;

  void checkLink(std::string_view from, const Link& link);
  void checkPicture(std::string_view from, const Link& picture);
  void checkRecordLinks();

  std::optional<std::size_t> homeOfFirst(const PublishedRecord& record, records::Field field) const;
  void settle(RecordIndex record, std::size_t chapter);
  bool settled(RecordIndex record) const { return places_.chapterOf_[record] != UINT32_MAX; }
  bool isCorrection(const PublishedRecord& claim) const;
  bool lists(std::string_view block, const PublishedRecord& record) const;
  void settleWare();
  void settlePhotos();

  const Materials& materials_;
  Places& places_;
  diagnostics::Findings& findings_;
  std::set<std::string> names_;                    // of files, in small letters
  std::map<std::string, std::size_t> proseFiles_;  // path → index of Published::prose()
  std::vector<ProseText> prose_;                   // by that index
};

// "prose/shapes/bryn.md" → "bryn"
std::string stemOf(std::string_view path);

// The headings that a chapter made from a record may get beside those of its prose.
std::span<const std::string_view> generatedHeadings();

}  // namespace saggar::compose
