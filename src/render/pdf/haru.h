#pragma once
#include <cstdint>
#include <deque>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

// A PDF file as objects, over libharu. Of libharu only what proved sound is used: documents, dictionaries,
// streams, the page tree, page labels, the cross-reference table and saving. What it gets wrong (fonts, texts
// beyond Latin-1, justification, pictures) is written by us as the text of dictionaries.
//
// Every call throws HaruError if libharu reports an error; the object can then only be destroyed.
namespace saggar::render {

struct HaruError {
  unsigned long code = 0;  // libharu's number
  unsigned long detail = 0;
  std::string inWords() const;
};

class Haru {
 public:
  Haru();
  ~Haru();
  Haru(const Haru&) = delete;
  Haru& operator=(const Haru&) = delete;

  // An object's number in the file, from 1.
  using Id = std::uint32_t;

  // A dictionary that is to be filled later: write("…") gives what stands between << and >>.
  Id reserve();
  void write(Id dictionary, std::string entries);
  Id add(std::string entries);

  // A stream whose bytes are already in the zlib form, or plain; `entries` are its further entries.
  Id addStream(std::string bytes, bool isDeflated, std::string entries = {});

  // A page that draws `front` (deflated or not), then the stream `body` over it.
  Id addPage(double width, double height, std::string front, bool isDeflated, Id body, Id resources);
  void annotate(Id page, const std::vector<Id>& annotations);

  // Further entries for the catalogue and for the document information.
  void catalogue(std::string entries);
  void information(std::string entries);
  void plainPageLabels();
  void fileId(std::string_view sixteenBytes);

  // Hands the file over in pieces of some size. To be called once.
  void save(const std::function<void(std::string_view)>& take);

 private:
  struct Document;
  std::unique_ptr<Document> document_;
};

// "12 0 R"
std::string referenceTo(Haru::Id id);

}  // namespace saggar::render
