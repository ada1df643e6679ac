#pragma once
#include <string>

#include "document/document.h"
#include "render/pdf/flow.h"
#include "render/pdf/fount.h"
#include "render/pdf/setting.h"

namespace saggar::render {

// What stands on a page beside its text: running head and foot, and the draft mark behind everything.
class Furniture {
 public:
  Furniture(const layout::PageLayout& layout, FontSet& fonts, TextSetter& texts,
            const document::Document& head, std::size_t pages);

  // The page's own operators, drawn before its text. `number` from 0.
  std::string draw(const Page& page, std::size_t number);

 private:
  void runningLine(std::string& out, const layout::RunningLine& line, layout::Role role, layout::Place place,
                   double baseLine, const Page& page, std::size_t number);
  std::string filled(const std::string& words, const Page& page, std::size_t number) const;
  // Sets the words in one line of at most that width, shortened at a word where they are longer.
  Line setShortened(std::string words, const layout::Style& style, double most);
  void draftMark(FontSet& fonts);

  const layout::PageLayout& layout_;
  TextSetter& texts_;
  const document::Document& head_;
  std::size_t pages_;
  std::string draft_;
  SetText text_;
};

}  // namespace saggar::render
