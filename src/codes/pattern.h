#pragma once
#include <cstddef>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "codes/part_language.h"
#include "codes/signs.h"

namespace re2 {
class RE2;
}

// An author's own pattern, in RE2's syntax: it takes time in proportion to the text whatever it says.
namespace saggar::codes {

class Pattern {
 public:
  // Case is set aside unless the pattern says otherwise.
  static Parsed<Pattern> compile(std::string_view text);

  // The named groups, from left to right.
  const std::vector<std::string>& groups() const { return groups_; }

  struct Group {
    std::size_t from = 0;  // signs
    std::size_t to = 0;
    bool taken = false;  // an optional group may have no part in it
  };

  // Whether the whole text fits; then one Group for each named group. A typed `?` fits wherever one sign
  // does.
  bool match(std::span<const Sign> signs, std::vector<Group>& groups) const;

 private:
  std::shared_ptr<const re2::RE2> exact_;
  std::shared_ptr<const re2::RE2> lenient_;  // with `?` allowed for every sign
  std::vector<std::string> groups_;
  std::vector<int> numbers_;  // RE2's number of each group
};

// The pattern with every sign it wants replaced by "that sign or a question mark". The pattern must be valid.
std::string withQuestionMarks(std::string_view pattern);

}  // namespace saggar::codes
