// Photos and transcripts: their files, words for who cannot see, rights.
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

FilesOfGuide with(const std::string& fields, const std::string& file = "images/a.png") {
  return {{"records.yaml", "- photo: a\n  " + fields + "\n"}, {file, "\x89PNG"}};
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
  CHECK(found("file: images/a.png") == "1:10 photo-without-alt\n1:10 photo-without-rights");
}
