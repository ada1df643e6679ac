#pragma once
#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "document/document.h"
#include "layout/layout.h"
#include "render/pdf/font_book.h"

// A Document as a PDF file: paper to print, to take along and to tick.
//
//   source::DiskFiles disk;
//   FontBook fonts({{&disk, "content/fonts"}, {&disk, "/usr/share/fonts"}});
//   PdfResult made = renderPdf(document, layout, fonts);
//
// Lines are broken by total fit and hyphenated, text is kerned, every page says which of how many it is. A
// table's head is repeated on every page; a group's heading is never left alone at the foot of a page and is
// repeated as "…, continued". What is in the page as text comes out of it as text. Same document, layout and
// fonts: same bytes.
namespace saggar::render {

// Something a reader of the file would miss or see differently, for the caller to report.
struct PdfNotice {
  enum class Kind {
    characterMissing,    // `what` is the character as "U+1F600", `count` how many different words have it; a
                         // box is printed
    hyphenationMissing,  // `what` is the language; lines are broken between words only
    linkLeftOut,         // `count` links to other files, or to addresses that are not http, https or mailto
    anchorMissing,       // `what` is an anchor that a link of this file leads to, and that is nowhere in it
    pictureLeftOut,      // `what` is the picture's path; its words are printed in its place
  };
  Kind kind = Kind::characterMissing;
  std::string what;
  std::size_t count = 1;
};

struct PdfResult {
  std::string bytes;  // the file, unless it was handed over in pieces; empty if `error` is not
  std::vector<PdfNotice>
      notices;  // sorted by kind, then as met; missing fonts are in FontBook::substitutions
  std::size_t pages = 0;
  std::string error;  // why there is no file, in words: no font at all, no memory, an unfit layout
  bool ok() const { return error.empty(); }
};

PdfResult renderPdf(const document::Document& document, const layout::PageLayout& layout, FontBook& fonts);

// The same in pieces, for what is too long to be held as one tree. The layout and the font book must outlive
// the writer. Nothing throws; after an error the calls do nothing and finish() tells it.
class PdfWriter {
 public:
  // Takes all of the document but its blocks.
  PdfWriter(const document::Document& head, const layout::PageLayout& layout, FontBook& fonts);
  ~PdfWriter();
  PdfWriter(const PdfWriter&) = delete;
  PdfWriter& operator=(const PdfWriter&) = delete;

  void add(const document::Block& block);

  // A table row by row: `head` gives its head cells, alignment and widths (its own rows come first). Ended by
  // the next add(), beginTable() or finish(). Where there are no widths they are found from the first 300
  // rows.
  void beginTable(const document::Table& head);
  void addRow(const document::Row& row);

  // To be called once. With `take` the file is handed over in pieces as it is put together, in this thread; if there is
  // an error, what was handed over is worth nothing.
  PdfResult finish();
  PdfResult finish(const std::function<void(std::string_view)>& take);

 private:
  struct State;
  template <class Work>
  void guarded(Work&& work);

  std::unique_ptr<State> state_;
  std::string error_;
};

}  // namespace saggar::render
