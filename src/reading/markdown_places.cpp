#include "reading/markdown_places.h"

#include <cmark-gfm.h>

#include <algorithm>
#include <memory>
#include <unordered_set>

#include "base/text.h"

namespace saggar::reading {
namespace {

constexpr std::size_t npos = std::string_view::npos;

// Blanks, and what may stand at the beginning of a line inside a quotation.
std::size_t pastBlanks(std::string_view text, std::size_t at, std::size_t end) {
  bool lineStart = false;
  while (at < end && (base::isBlank(text[at]) || (lineStart && text[at] == '>'))) {
    if (text[at] == '\n' || text[at] == '\r') lineStart = true;
    ++at;
  }
  return at;
}

// The destination that begins at `at`, between < and > or bare (CommonMark 0.29, section 6.6). Bounded:
// brackets nested more than 32 deep end it, as they do in the parser.
Range destinationAt(std::string_view text, std::size_t at, std::size_t end) {
  if (at < end && text[at] == '<') {
    std::size_t begin = at + 1;
    std::size_t i = begin;
    while (i < end && text[i] != '>' && text[i] != '<' && text[i] != '\n') i += text[i] == '\\' ? 2 : 1;
    i = std::min(i, end);
    while (begin < i && base::isBlank(text[begin])) ++begin;
    while (i > begin && base::isBlank(text[i - 1])) --i;
    return {begin, i};
  }
  int depth = 0;
  std::size_t i = at;
  for (; i < end; ++i) {
    const char c = text[i];
    if (c == '\\' && i + 1 < end) {
      ++i;
    } else if (c == '(') {
      if (++depth > 32) break;
    } else if (c == ')') {
      if (depth-- == 0) break;
    } else if (static_cast<unsigned char>(c) <= 0x20) {
      break;
    }
  }
  return {at, i < end ? i : end};
}

}  // namespace

std::string decodedDestination(std::string_view raw, bool autolink) {
  if (raw.find_first_of(autolink ? "&" : "&\\") == npos) return std::string(raw);
  std::string text = autolink ? "<" : "[x](<";
  text += raw;
  text += autolink ? ">" : ">)";
  const std::unique_ptr<cmark_node, decltype(&cmark_node_free)> root(
      cmark_parse_document(text.data(), text.size(), CMARK_OPT_DEFAULT), cmark_node_free);
  cmark_node* paragraph = cmark_node_first_child(root.get());
  cmark_node* link = paragraph ? cmark_node_first_child(paragraph) : nullptr;
  const char* url = link ? cmark_node_get_url(link) : nullptr;
  return url ? url : std::string(raw);
}

void LinkPlaces::list() {
  listed_ = true;
  std::unordered_set<std::size_t> unmatchedTicks;
  std::size_t i = within_.begin;
  while (i < within_.end) {
    const char c = text_[i];
    if (c == '\\') {
      i += 2;
    } else if (c == '`') {
      std::size_t length = 0;
      while (i + length < within_.end && text_[i + length] == '`') ++length;
      i += length;
      if (unmatchedTicks.contains(length)) continue;
      std::size_t run = i;
      std::size_t closing = 0;
      while (closing != length && run < within_.end) {
        run = text_.substr(0, within_.end).find('`', run);
        if (run == npos) break;
        closing = 0;
        while (run < within_.end && text_[run] == '`') ++run, ++closing;
      }
      if (closing == length) {
        i = run;
      } else {
        unmatchedTicks.insert(length);
      }
    } else if (c == '<') {
      std::size_t end = i + 1;
      while (end < within_.end && text_[end] != '>' && text_[end] != '<' &&
             static_cast<unsigned char>(text_[end]) > 0x20) {
        ++end;
      }
      if (end < within_.end && text_[end] == '>') {
        std::string address = decodedDestination(text_.substr(i + 1, end - i - 1), true);
        if (address.find(':') == npos && address.find('@') != npos) address.insert(0, "mailto:");
        if (address.find(':') != npos) found_[std::move(address)].places.push_back({i + 1, end});
      }
      i = end;
    } else if (c == ']' && i + 1 < within_.end && text_[i + 1] == '(') {
      i = addInline(i + 2);
    } else {
      ++i;
    }
  }
}

std::size_t LinkPlaces::addInline(std::size_t at) {
  const std::size_t begin = pastBlanks(text_, at, within_.end);
  const Range place = destinationAt(text_, begin, within_.end);
  const std::string_view raw = text_.substr(place.begin, place.end - place.begin);
  found_[decodedDestination(raw, false)].places.push_back(place);
  return at;
}

std::optional<Range> LinkPlaces::destination(const std::string& address) {
  if (!listed_) list();
  const auto found = found_.find(address);
  if (found == found_.end()) return std::nullopt;
  Found& all = found->second;
  while (all.used < all.places.size() && all.places[all.used].begin < cursor_) ++all.used;
  if (all.used == all.places.size()) return std::nullopt;
  const Range place = all.places[all.used++];
  cursor_ = place.end;
  return place;
}

std::optional<Range> LinkPlaces::words(std::string_view typed) {
  if (typed.empty()) return std::nullopt;
  const std::size_t from = std::max(wordsCursor_, within_.begin);
  const std::size_t at = from < within_.end ? text_.substr(0, within_.end).find(typed, from) : npos;
  if (at == npos) return std::nullopt;
  wordsCursor_ = at + typed.size();
  return Range{at, wordsCursor_};
}

std::optional<Range> DefinitionPlaces::destination(const std::string& address) {
  if (!listed_) {
    listed_ = true;
    for (std::size_t i = text_.find("]:"); i != npos; i = text_.find("]:", i + 2)) {
      const Range place = destinationAt(text_, pastBlanks(text_, i + 2, text_.size()), text_.size());
      found_.emplace(decodedDestination(text_.substr(place.begin, place.end - place.begin), false), place);
    }
  }
  const auto found = found_.find(address);
  if (found == found_.end()) return std::nullopt;
  return found->second;
}

}  // namespace saggar::reading
