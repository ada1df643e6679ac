#pragma once
#include <deque>
#include <string>
#include <string_view>

#include "document/document.h"

namespace saggar::render {

// Numbers the footnotes of one file in the order of their marks and keeps them until they are set.
class MarkdownFootnotes {
 public:
  std::size_t add(const document::Inlines& words) {
    waiting_.push_back(words);
    return waiting_.size();
  }
  std::size_t size() const { return waiting_.size(); }
  const document::Inlines& operator[](std::size_t index) const {
    return waiting_[index];
  }  // stays where it is

 private:
  std::deque<document::Inlines> waiting_;
};

// Where inlines are set: only a paragraph can have line ends.
enum class MarkdownPlace { paragraph, heading, cell };

// The inlines of one paragraph, heading or cell. Footnotes in them are numbered and left to
// `footnotes`; a link to `ownFile` needs no file name.
std::string markdownInlines(const document::Inlines& inlines, MarkdownPlace place,
                            MarkdownFootnotes& footnotes, std::string_view ownFile);

}  // namespace saggar::render
