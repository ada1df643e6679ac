#include "render/pdf/haru.h"

#include <hpdf.h>

#include <algorithm>
#include <cstring>
#include <new>
#include <unordered_map>
#include <utility>

#include <fmt/format.h>

// Problem: libharu's dictionaries take a kilobyte each and its strings know only the first plane of Unicode.
// Choice: an object is one empty libharu dictionary whose `write_fn` prints text of ours, so its
// cross-reference table and object numbers serve and nothing else of it is in the way. Cost: what is written
// is only as right as the text we make; the tests put every kind of file through three independent readers.
namespace saggar::render {
namespace {

void onError(HPDF_STATUS code, HPDF_STATUS detail, void*) {
  throw HaruError{code, detail};
}

// The text of a dictionary hangs on its `attr`, which libharu leaves alone in plain dictionaries.
HPDF_STATUS writeEntries(HPDF_Dict dictionary, HPDF_Stream stream) {
  const auto* text = static_cast<const std::string*>(dictionary->attr);
  if (!text || text->empty()) return HPDF_OK;
  return HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(text->data()),
                           static_cast<HPDF_UINT>(text->size()));
}

void put(HPDF_Stream stream, std::string_view bytes) {
  HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                    static_cast<HPDF_UINT>(bytes.size()));
}

}  // namespace

std::string HaruError::inWords() const {
  if (code == HPDF_FAILD_TO_ALLOC_MEM) return "there is not enough memory for the PDF file";
  return fmt::format("the PDF file could not be put together (libharu error {:#06x}, detail {})", code,
                     detail);
}

std::string referenceTo(Haru::Id id) {
  return fmt::format("{} 0 R", id);
}

struct Haru::Document {
  HPDF_Doc pdf = nullptr;
  std::deque<std::string> texts;
  std::unordered_map<Id, HPDF_Dict> dictionaries;

  ~Document() {
    if (pdf) HPDF_Free(pdf);
  }

  Id keep(HPDF_Dict dictionary) {
    const Id id = dictionary->header.obj_id & 0x00FFFFFF;
    dictionaries[id] = dictionary;
    return id;
  }
  void setText(HPDF_Dict dictionary, std::string text) {
    texts.push_back(std::move(text));
    dictionary->attr = &texts.back();
    dictionary->write_fn = writeEntries;
  }
};

Haru::Haru() : document_(std::make_unique<Document>()) {
  document_->pdf = HPDF_New(onError, nullptr);
  if (!document_->pdf) throw std::bad_alloc();
  document_->pdf->pdf_version = HPDF_VER_15;
  HPDF_SetPagesConfiguration(document_->pdf,
                             250);  // a page tree of two levels: no limit that a checklist could meet
}

Haru::~Haru() = default;

Haru::Id Haru::reserve() {
  HPDF_Dict dictionary = HPDF_Dict_New(document_->pdf->mmgr);
  HPDF_Xref_Add(document_->pdf->xref, dictionary);
  return document_->keep(dictionary);
}

void Haru::write(Id dictionary, std::string entries) {
  document_->setText(document_->dictionaries.at(dictionary), std::move(entries));
}

Haru::Id Haru::add(std::string entries) {
  const Id id = reserve();
  write(id, std::move(entries));
  return id;
}

Haru::Id Haru::addStream(std::string_view bytes, bool isDeflated, std::string entries) {
  HPDF_Dict stream = HPDF_DictStream_New(document_->pdf->mmgr, document_->pdf->xref);
  put(stream->stream, bytes);
  if (isDeflated) entries += "/Filter /FlateDecode\n";
  document_->setText(stream, std::move(entries));
  return document_->keep(stream);
}

Haru::Id Haru::addPage(double width, double height, std::string_view front, bool isDeflated, Id body,
                       Id resources) {
  HPDF_Page page = HPDF_AddPage(document_->pdf);
  HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(width));
  HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(height));
  HPDF_Dict_Add(page, "Resources", document_->dictionaries.at(resources));
  HPDF_Dict first = static_cast<HPDF_PageAttr>(page->attr)->contents;
  put(first->stream, front);
  if (isDeflated) document_->setText(first, "/Filter /FlateDecode\n");
  HPDF_Array contents = HPDF_Array_New(document_->pdf->mmgr);
  HPDF_Dict_Add(page, "Contents", contents);
  HPDF_Array_Add(contents, first);
  HPDF_Array_Add(contents, document_->dictionaries.at(body));
  return document_->keep(page);
}

void Haru::annotate(Id page, const std::vector<Id>& annotations) {
  HPDF_Array list = HPDF_Array_New(document_->pdf->mmgr);
  HPDF_Dict_Add(document_->dictionaries.at(page), "Annots", list);
  for (const Id one : annotations) HPDF_Array_Add(list, document_->dictionaries.at(one));
}

void Haru::catalogue(std::string entries) {
  document_->setText(document_->pdf->catalog, std::move(entries));
}
void Haru::information(std::string entries) {
  document_->setText(document_->pdf->info, std::move(entries));
}

void Haru::plainPageLabels() {
  HPDF_AddPageLabel(document_->pdf, 0, HPDF_PAGE_NUM_STYLE_DECIMAL, 1, nullptr);
}

void Haru::fileId(std::string_view sixteenBytes) {
  HPDF_Array id = HPDF_Array_New(document_->pdf->mmgr);
  HPDF_Dict_Add(document_->pdf->trailer, "ID", id);
  for (int i = 0; i < 2; ++i) {
    std::string bytes(sixteenBytes);
    HPDF_Array_Add(id, HPDF_Binary_New(document_->pdf->mmgr, reinterpret_cast<HPDF_BYTE*>(bytes.data()),
                                       static_cast<HPDF_UINT>(bytes.size())));
  }
}

std::string Haru::save() {
  HPDF_SaveToStream(document_->pdf);
  const HPDF_UINT32 size = HPDF_GetStreamSize(document_->pdf);
  std::string out;
  out.resize(size);
  HPDF_ResetStream(document_->pdf);
  HPDF_UINT32 at = 0;
  while (at < size) {
    HPDF_UINT32 piece = size - at;
    HPDF_ReadFromStream(document_->pdf, reinterpret_cast<HPDF_BYTE*>(out.data()) + at, &piece);
    if (piece == 0) throw HaruError{HPDF_STREAM_READLN_CONTINUE, at};
    at += piece;
  }
  return out;
}

}  // namespace saggar::render
