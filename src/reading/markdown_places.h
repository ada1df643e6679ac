#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

// Where a link's destination was typed. The parser gives columns only within a line and wrong ones after a
// line end inside quotations and lists, so the destinations are found again: the places of a paragraph that
// could be one are listed once, in order, and each link takes the next one that reads as its address does.
namespace saggar::reading {

struct Range {
  std::size_t begin = 0;
  std::size_t end = 0;
};

// What a destination as typed means: character references decoded and, except between < and >, backslashes
// taken off.
std::string decodedDestination(std::string_view raw, bool autolink);

// One paragraph, heading or row. Links, pictures and tags are asked for in the order in which they end.
class LinkPlaces {
 public:
  LinkPlaces(std::string_view text, Range within) : text_(text), within_(within) {}

  std::optional<Range> destination(const std::string& address);  // of [words](here) and <here>
  std::optional<Range> words(std::string_view typed);  // of something that stands in the text as it is
  Range whole() const { return within_; }

 private:
  struct Found {
    std::vector<Range> places;
    std::size_t used = 0;
  };
  void list();
  std::size_t addInline(std::size_t at);

  std::string_view text_;
  Range within_;
  bool listed_ = false;
  std::size_t cursor_ = 0;
  std::size_t wordsCursor_ = 0;
  std::unordered_map<std::string, Found> found_;
};

// The destinations of `[label]: destination` lines anywhere in a text.
class DefinitionPlaces {
 public:
  explicit DefinitionPlaces(std::string_view text) : text_(text) {}
  std::optional<Range> destination(const std::string& address);

 private:
  std::string_view text_;
  bool listed_ = false;
  std::unordered_map<std::string, Range> found_;
};

}  // namespace saggar::reading
