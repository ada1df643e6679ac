#pragma once
#include <cstddef>
#include <string_view>

namespace saggar::reading {

// So many bytes from a file's start tell what it is.
inline constexpr std::size_t kPictureStart = 4096;

enum class PictureKind {
  none,  // no picture that is known here
  // what books and browsers show
  png,   // Portable Network Graphics, 3rd edition, 5.2: the eight bytes of the signature
  jpeg,  // ITU-T T.81, B.1.1.3 and B.2.1: "start of image", and the first byte of the next marker
  gif,   // GIF89a specification, 17: "GIF87a" or "GIF89a"
  webp,  // RFC 9649, 2.4: "RIFF", a size, "WEBP"
  svg,   // XML whose root is `svg`
  // what cameras, telephones and scanners make, and neither shows
  heic,  // ISO/IEC 14496-12, 4.3, with a brand of ISO/IEC 23008-12 (from memory)
  avif,  // the same with the brand of AV1 Image File Format, 6.2 (from memory)
  tiff,  // TIFF 6.0, section 2: "II" 42 or "MM" 42
  bmp,   // "BM", and four bytes at 6 that are reserved and 0 (from memory)
  pdf,   // ISO 32000-1, 7.5.2: "%PDF-"; a document, taken for a picture
};

// What a file is, by how it begins and whatever its name; whether the rest of it is sound is not looked at.
PictureKind pictureKind(std::string_view start);

// Of what books and browsers do not show: "HEIC", "TIFF"; empty for the rest.
std::string_view notShownName(PictureKind kind);

}  // namespace saggar::reading
