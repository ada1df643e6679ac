#include "reading/picture.h"

#include <doctest/doctest.h>

#include <string>

using namespace saggar::reading;
using namespace std::string_literals;

TEST_CASE("what a file is, by how it begins") {
  CHECK(pictureKind("\x89PNG\r\n\x1A\n\0\0\0\rIHDR"s) == PictureKind::png);
  CHECK(pictureKind("\xFF\xD8\xFF\xE0\0\x10JFIF"s) == PictureKind::jpeg);
  CHECK(pictureKind("\xFF\xD8\xFF\xE1"s) == PictureKind::jpeg);
  CHECK(pictureKind("GIF87a\1\0\1\0"s) == PictureKind::gif);
  CHECK(pictureKind("GIF89a\1\0\1\0"s) == PictureKind::gif);
  CHECK(pictureKind("RIFF\x24\0\0\0WEBPVP8 "s) == PictureKind::webp);
  CHECK(pictureKind("\0\0\0\x18"
                    "ftypheic\0\0\0\0"s) == PictureKind::heic);
  CHECK(pictureKind("\0\0\0\x18"
                    "ftypmif1\0\0\0\0"s) == PictureKind::heic);
  CHECK(pictureKind("\0\0\0\x1C"
                    "ftypavif\0\0\0\0"s) == PictureKind::avif);
  CHECK(pictureKind("II*\0\x08\0\0\0"s) == PictureKind::tiff);
  CHECK(pictureKind("MM\0*\0\0\0\x08"s) == PictureKind::tiff);
  CHECK(pictureKind("BM\x36\0\0\0\0\0\0\0\x36\0\0\0"s) == PictureKind::bmp);
  CHECK(pictureKind("%PDF-1.5\n") == PictureKind::pdf);
}

TEST_CASE("a drawing in XML: by its root, whatever stands before it") {
  for (const char* text :
       {"<svg xmlns='http://www.w3.org/2000/svg'/>", "<svg>", "\xEF\xBB\xBF<svg/>",
        "<?xml version=\"1.0\"?>\n<!-- <html> -->\n<!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\">\n<svg >",
        " \n<s:svg xmlns:s='http://www.w3.org/2000/svg'>"})
    CHECK_MESSAGE(pictureKind(text) == PictureKind::svg, text);
  for (const char* text : {"<html><svg/></html>", "<!DOCTYPE html><html><svg>", "<!-- <svg> ", "<?xml",
                           "<svgs>", "svg", "<", "<>", "<:>"})
    CHECK_MESSAGE(pictureKind(text) == PictureKind::none, text);
}

TEST_CASE("what is no picture, and beginnings that are too short to be one") {
  for (const std::string& text : {""s, "not a picture"s, "\x89PNG"s, "\x89PNG\n\x1A\n"s, "\xFF\xD8"s,
                                  "GIF88a"s, "RIFF\0\0\0\0WAVE"s, "RIFF"s, "BM, a name"s,
                                  "\0\0\0\x18"
                                  "ftypmp42"s,
                                  "ftypheic"s, "II*"s, "PNG"s, std::string(5000, '\0')})
    CHECK_MESSAGE(pictureKind(text) == PictureKind::none, text);
}

TEST_CASE("what neither books nor browsers show has a name") {
  CHECK(notShownName(PictureKind::heic) == "HEIC");
  CHECK(notShownName(PictureKind::pdf) == "PDF");
  for (const PictureKind kind : {PictureKind::none, PictureKind::png, PictureKind::jpeg, PictureKind::gif,
                                 PictureKind::webp, PictureKind::svg})
    CHECK(notShownName(kind).empty());
}
