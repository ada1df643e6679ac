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

// What a stream of the file holds. libharu reads it when it saves; its own memory streams would copy every page, into
// pieces of four kilobytes.
struct Held {
  std::string bytes;
  std::size_t at = 0;
};

Held& heldBy(HPDF_Stream stream) {
  return *static_cast<Held*>(stream->attr);
}

HPDF_STATUS readHeld(HPDF_Stream stream, HPDF_BYTE* to, HPDF_UINT* size) {
  Held& held = heldBy(stream);
  const std::size_t left = held.bytes.size() - held.at;
  const bool end = *size > left;
  if (end) *size = static_cast<HPDF_UINT>(left);
  std::memcpy(to, held.bytes.data() + held.at, *size);
  held.at += *size;
  return end ? HPDF_STREAM_EOF : HPDF_OK;
}

HPDF_STATUS seekHeld(HPDF_Stream stream, HPDF_INT to, HPDF_WhenceMode from) {
  Held& held = heldBy(stream);
  const std::size_t base = from == HPDF_SEEK_SET ? 0 : from == HPDF_SEEK_CUR ? held.at : held.bytes.size();
  held.at = std::min(base + static_cast<std::size_t>(to), held.bytes.size());
  return HPDF_OK;
}

HPDF_INT32 placeInHeld(HPDF_Stream stream) {
  return static_cast<HPDF_INT32>(heldBy(stream).at);
}

HPDF_UINT32 sizeOfHeld(HPDF_Stream stream) {
  return static_cast<HPDF_UINT32>(heldBy(stream).bytes.size());
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
  std::deque<Held> streams;
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
    text.shrink_to_fit();
    texts.push_back(std::move(text));
    dictionary->attr = &texts.back();
    dictionary->write_fn = writeEntries;
  }
  void setBytes(HPDF_Dict stream, std::string bytes) {
    streams.push_back({std::move(bytes)});
    HPDF_Stream reader =
        HPDF_CallbackReader_New(pdf->mmgr, readHeld, seekHeld, placeInHeld, sizeOfHeld, &streams.back());
    HPDF_Stream_Free(std::exchange(stream->stream, reader));
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

Haru::Id Haru::addStream(std::string bytes, bool isDeflated, std::string entries) {
  HPDF_Dict stream = HPDF_DictStream_New(document_->pdf->mmgr, document_->pdf->xref);
  document_->setBytes(stream, std::move(bytes));
  if (isDeflated) entries += "/Filter /FlateDecode\n";
  document_->setText(stream, std::move(entries));
  return document_->keep(stream);
}

Haru::Id Haru::addPage(double width, double height, std::string front, bool isDeflated, Id body,
                       Id resources) {
  HPDF_Page page = HPDF_AddPage(document_->pdf);
  HPDF_Page_SetWidth(page, static_cast<HPDF_REAL>(width));
  HPDF_Page_SetHeight(page, static_cast<HPDF_REAL>(height));
  HPDF_Dict_Add(page, "Resources", document_->dictionaries.at(resources));
  HPDF_Dict first = static_cast<HPDF_PageAttr>(page->attr)->contents;
  document_->setBytes(first, std::move(front));
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

namespace {

constexpr std::size_t kPiece = std::size_t{1} << 16;

struct Outlet {
  const std::function<void(std::string_view)>& take;
  std::string held;
};

HPDF_STATUS passOn(HPDF_Stream stream, const HPDF_BYTE* bytes, HPDF_UINT size) {
  auto* outlet = static_cast<Outlet*>(stream->attr);
  outlet->held.append(reinterpret_cast<const char*>(bytes), size);
  if (outlet->held.size() < kPiece) return HPDF_OK;
  outlet->take(outlet->held);
  outlet->held.clear();
  return HPDF_OK;
}

}  // namespace

void Haru::save(const std::function<void(std::string_view)>& take) {
  Outlet outlet{take, {}};
  // libharu saves into the stream that it finds in its document; its own would hold the whole file once more.
  document_->pdf->stream = HPDF_CallbackWriter_New(document_->pdf->mmgr, passOn, &outlet);
  HPDF_SaveToStream(document_->pdf);
  take(outlet.held);
}

}  // namespace saggar::render
