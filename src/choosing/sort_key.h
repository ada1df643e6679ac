#pragma once
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "choosing/path.h"

// What records are sorted and grouped by, as bytes.
//
// The problem: a list is sorted by several paths of different types, each with its own order, and comparing values
// anew in every step of a sort costs more than reading them. The choice: each record gets one string of bytes that
// compares as its values do (a rank, then days, numbers, collation keys or codes, each ending where its type says), so
// that sorting is comparing bytes. The cost: about a hundred bytes a record while the list is made.
namespace saggar::choosing {

// Makes keys; keeps those of names it has met. One thread at a time.
class SortKeys {
 public:
  explicit SortKeys(const Collection& collection);
  ~SortKeys();
  SortKeys(const SortKeys&) = delete;
  SortKeys& operator=(const SortKeys&) = delete;

  // Appends the key of one thing reached: values before `none`, what is not recorded last.
  void append(std::string& key, const Path& path, const Reached& reached);

  // Appends the key of all that a record's path reaches: of a list as typed its first, of what has no order of its own
  // (records backwards) the least.
  void append(std::string& key, const Path& path, RecordIndex record);

 private:
  struct Collation;
  void appendText(std::string& key, std::string_view text);
  void appendName(std::string& key, RecordIndex record);
  void appendValue(std::string& key, const Path& path, const Reached& reached);
  void appendEnd(std::string& key, const records::Value& span, SpanEnd end);
  std::size_t placeInFeature(RecordIndex feature, std::string_view value);

  const Collection& collection_;
  std::unique_ptr<Collation> collation_;
  std::vector<std::string> names_;  // by record, where met
  std::unordered_map<std::string_view, std::string> texts_;
  std::unordered_map<RecordIndex, std::unordered_map<std::string_view, std::size_t>> features_;
};

// The key of a code: letters, then the first number by value, then the rest.
std::string codeKey(std::string_view code);

}  // namespace saggar::choosing
