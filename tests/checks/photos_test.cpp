// Photos and transcripts: their files, words for who cannot see, rights.
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

FilesOfGuide with(const std::string& fields, const std::string& file = "images/a.png") {
  return {{"records.yaml", "- photo: a\n  " + fields + "\n"}, {file, "\x89PNG\r\n\x1A\n"}};
}

std::string found(const std::string& fields, const std::string& file = "images/a.png") {
  return Small(with(fields, file)).found;
}

}  // namespace

TEST_CASE("a file that is there, and one that is not") {
  silent(with("file: images/a.png\n  alt: A plate.\n  rights: own"));
  caught(with("file: images/b.png\n  alt: A plate.\n  rights: own"), "2:9", "photo-missing");
  CHECK(Small(with("file: images/b.png\n  alt: A plate.\n  rights: own")).one().message ==
        "there is no file `images/b.png`");
  CHECK(found("file: images/A.png\n  alt: A plate.\n  rights: own") == "2:9 photo-missing");
  CHECK(found("file: images\n  alt: A plate.\n  rights: own") == "2:9 photo-missing");
  CHECK(found("file: \"images/b.png\"\n  alt: A plate.\n  rights: own") == "2:9 photo-missing");
}

TEST_CASE("a file that is there and no picture, or none that books show") {
  auto holding = [](const std::string& bytes) {
    return FilesOfGuide{
        {"records.yaml", "- photo: a\n  file: images/a.png\n  alt: A plate.\n  rights: own\n"},
        {"images/a.png", bytes}};
  };
  caught(holding("these are notes"), "2:9", "photo-missing");
  CHECK(Small(holding("these are notes")).one().message == "`images/a.png` is no picture");
  CHECK(Small(holding("")).one().message == "`images/a.png` is empty");
  const std::string telephone(
      "\0\0\0\x18"
      "ftypheic",
      12);
  CHECK(Small(holding(telephone)).one().message ==
        "`images/a.png` is a HEIC file, which books and browsers do not show");
  CHECK(Small(holding(telephone)).one().hint == "save it as JPEG or PNG, and name that file");
  silent(holding("\xFF\xD8\xFF\xE0"));  // what it is counts, not what its name ends in
}

TEST_CASE("pictures in prose are files as well") {
  auto prose = [](const std::string& words, const std::string& bytes = "GIF89a") {
    return FilesOfGuide{{"prose/a.md", "# A\n\n" + words + "\n"}, {"images/blue rim.gif", bytes}};
  };
  silent(prose("![A plate](<../images/blue rim.gif>)"));
  silent(prose(
      "A plate ![so](../images/blue%20rim.gif) in a line.\n\n- ![in a list](<../images/blue rim.gif>)"));
  silent(prose("![From elsewhere](https://example.org/a.png)"));
  caught(prose("![A plate](../images/red.gif)"), "prose/a.md:3:12", "link-missing");
  CHECK(Small(prose("![A plate](../images/red.gif)")).one().message == "there is no file `images/red.gif`");
  CHECK(Small(prose("Words, ![a plate](../images/red.gif).")).found == "prose/a.md:3:19 link-missing");
  CHECK(Small(prose("> ![A plate](../images/red.gif)\n> Its caption.")).found ==
        "prose/a.md:3:14 link-missing");
  caught(prose("![A plate](../images/blue%20rim.gif)", "notes"), "prose/a.md:3:12", "link-missing");
  CHECK(Small(prose("![A plate](../images/blue%20rim.gif)", "notes")).one().message ==
        "`images/blue rim.gif` is no picture");
  CHECK(Small(prose("![A](../images/red.gif)\n\n![B](../images/red.gif)")).found ==
        "prose/a.md:3:6 link-missing\nprose/a.md:5:6 link-missing");
}

TEST_CASE("a file outside the guide's folder") {
  for (const char* path : {"../a.png", "/etc/passwd", "images/../../a.png", "..", "../guide/images/a.png"})
    CHECK_MESSAGE(
        found(std::string("file: ") + path + "\n  alt: A plate.\n  rights: own") == "2:9 path-outside", path);
  caught(with("file: ../../etc/passwd\n  alt: A plate.\n  rights: own"), "2:9", "path-outside");
  CHECK(found("file: images/../images/a.png\n  alt: A plate.\n  rights: own") == "");
}

TEST_CASE("a talk's transcript is a file as well") {
  auto talk = [](const std::string& file) {
    return FilesOfGuide{
        {"records.yaml",
         "- talk: t\n  title: T\n  segments: [{title: Opening}]\n  transcript: " + file + "\n"},
        {"recordings/t.vtt", "WEBVTT\n"}};
  };
  silent(talk("recordings/t.vtt"));
  caught(talk("recordings/u.vtt"), "4:15", "photo-missing");
  caught(talk("../u.vtt"), "4:15", "path-outside");
}

TEST_CASE("words for who cannot see it") {
  caught(with("file: images/a.png\n  rights: own"), "1:10", "photo-without-alt");
  CHECK(found("file: images/a.png\n  rights: own\n  caption: A plate.") == "1:10 photo-without-alt");
  CHECK(found("file: images/a.png\n  rights: own\n  alt: unknown") == "1:10 photo-without-alt");
}

TEST_CASE("who may print it") {
  caught(with("file: images/a.png\n  alt: A plate."), "1:10", "photo-without-rights");
  CHECK(found("file: images/a.png\n  alt: A plate.\n  rights: unknown") == "1:10 photo-without-rights");
  CHECK(found("file: images/a.png\n  alt: A plate.\n  rights: CC BY 4.0") == "");
  CHECK(
      found("file: images/a.png\n  alt: A plate.\n  rights: https://creativecommons.org/licenses/by/4.0/") ==
      "");
  CHECK(found("file: images/a.png\n  alt: A plate.\n  rights: CC-BY-4.0") == "4:11 value-unfit");
  const Small slip(with("file: images/a.png\n  alt: A plate.\n  rights: public-domain"));
  CHECK(slip.one().message == "`public-domain` does not say who may print the picture");
  CHECK(slip.one().hint == "did you mean `public domain`?");
  CHECK(found("file: images/a.png\n  alt: A plate.\n  rights: the museum") == "4:11 value-unfit");
  CHECK(found("file: images/a.png") == "1:10 photo-without-alt\n1:10 photo-without-rights");
}
