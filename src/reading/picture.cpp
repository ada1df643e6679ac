#include "reading/picture.h"

namespace saggar::reading {
namespace {

using std::string_view_literals::operator""sv;

void skipBlanks(std::string_view& text) {
  const std::size_t at = text.find_first_not_of(" \t\r\n");
  text.remove_prefix(at == std::string_view::npos ? text.size() : at);
}

// Behind declarations, comments and a document type.
bool rootIsSvg(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  while (true) {
    skipBlanks(text);
    const std::string_view end = text.starts_with("<?")     ? "?>"sv
                                 : text.starts_with("<!--") ? "-->"sv
                                 : text.starts_with("<!")   ? ">"sv
                                                            : ""sv;
    if (end.empty()) break;
    const std::size_t at = text.find(end);
    if (at == std::string_view::npos) return false;
    text.remove_prefix(at + end.size());
  }
  if (!text.starts_with('<')) return false;
  std::string_view name = text.substr(1, text.find_first_of(" \t\r\n/>", 1) - 1);
  if (const std::size_t colon = name.find(':'); colon != std::string_view::npos)
    name.remove_prefix(colon + 1);
  return name == "svg";
}

// The main brand of a file made of boxes, the first of which is "ftyp".
PictureKind byBrand(std::string_view start) {
  if (start.size() < 12 || start.substr(4, 4) != "ftyp") return PictureKind::none;
  const std::string_view brand = start.substr(8, 4);
  if (brand == "avif" || brand == "avis") return PictureKind::avif;
  for (const std::string_view one : {"heic"sv, "heix"sv, "hevc"sv, "heim"sv, "heis"sv, "mif1"sv, "msf1"sv})
    if (brand == one) return PictureKind::heic;
  return PictureKind::none;
}

}  // namespace

PictureKind pictureKind(std::string_view start) {
  if (start.starts_with("\x89PNG\r\n\x1A\n")) return PictureKind::png;
  if (start.starts_with("\xFF\xD8\xFF")) return PictureKind::jpeg;
  if (start.starts_with("GIF87a") || start.starts_with("GIF89a")) return PictureKind::gif;
  if (start.starts_with("RIFF") && start.size() >= 12 && start.substr(8, 4) == "WEBP")
    return PictureKind::webp;
  if (start.starts_with("II*\0"sv) || start.starts_with("MM\0*"sv)) return PictureKind::tiff;
  if (start.starts_with("%PDF-")) return PictureKind::pdf;
  if (start.starts_with("BM") && start.size() >= 10 && start.substr(6, 4) == "\0\0\0\0"sv)
    return PictureKind::bmp;
  if (rootIsSvg(start)) return PictureKind::svg;
  return byBrand(start);
}

std::string_view notShownName(PictureKind kind) {
  switch (kind) {
    case PictureKind::heic: return "HEIC";
    case PictureKind::avif: return "AVIF";
    case PictureKind::tiff: return "TIFF";
    case PictureKind::bmp: return "BMP";
    case PictureKind::pdf: return "PDF";
    default: return {};
  }
}

}  // namespace saggar::reading
