#include <doctest/doctest.h>

#include "publishing/hash.h"
#include "publishing/manifest.h"
#include "sandbox.h"

using namespace saggar::publishing;

TEST_CASE("sha-256 of the standard's worked examples") {
  // NIST, "Cryptographic Standards and Guidelines: Example Values", SHA-256, and FIPS 180-2 appendix B; from
  // memory.
  CHECK(sha256Of("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256Of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256Of("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  Sha256 inPieces;
  for (int i = 0; i < 1000; ++i) inPieces.update(std::string(1000, 'a'));
  CHECK(inPieces.hex() == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("a file's digest: ordinary files only, never through a link") {
  const Sandbox box;
  box.write("a", "abc");
  const FileDigest digest = digestOfFile(box.path("a"));
  CHECK(digest.error == 0);
  CHECK(digest.bytes == 3);
  CHECK(digest.sha256 == sha256Of("abc"));
  std::filesystem::create_symlink("a", box.path("link"));
  CHECK(digestOfFile(box.path("link")).error == ELOOP);
  CHECK(digestOfFile(box.path("guide")).error == EINVAL);
  CHECK(digestOfFile(box.path("nothing")).error == ENOENT);
  REQUIRE(mkfifo(box.path("pipe").c_str(), 0600) == 0);
  CHECK(digestOfFile(box.path("pipe")).error == EINVAL);
}

namespace {
Manifest sample() {
  Manifest manifest;
  manifest.tree = "out";
  manifest.parts = {"corrections", "guide"};
  manifest.files["guide/é \"x\".md"] = {"guide", sha256Of("x"), 1, false, {"maker:fernhollow", "shape:wren"}};
  manifest.files["corrections.md"] = {"corrections", sha256Of(""), 0, true, {}};
  return manifest;
}
}  // namespace

TEST_CASE("the manifest's text is fixed to the byte") {
  CHECK(
      manifestText(sample()) ==
      "{\n\"manifest\": \"saggar\",\n\"version\": 1,\n\"tree\": \"out\",\n\"parts\": [\"corrections\", "
      "\"guide\"],\n"
      "\"files\": [\n"
      "{\"path\": \"corrections.md\", \"part\": \"corrections\", \"sha256\": "
      "\"e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855\", \"bytes\": 0, \"edited\": true, "
      "\"records\": []},\n"
      "{\"path\": \"guide/é \\\"x\\\".md\", \"part\": \"guide\", \"sha256\": "
      "\"2d711642b726b04401627ca9fbac32f5c8530fb1903cc4db02258717921a4881\", \"bytes\": 1, "
      "\"records\": [\"maker:fernhollow\", \"shape:wren\"]}\n]\n}\n");
}

TEST_CASE("a manifest read again is the same") {
  const std::string text = manifestText(sample());
  const ManifestReading reading = manifestFrom(text);
  REQUIRE(reading.manifest);
  CHECK(reading.error.empty());
  CHECK(manifestText(*reading.manifest) == text);
}

TEST_CASE("what is no manifest is refused in words") {
  const auto errorOf = [](const std::string& text) {
    const ManifestReading reading = manifestFrom(text);
    CHECK(reading.manifest.has_value() == reading.error.empty());
    return reading.error;
  };
  CHECK(errorOf("") == "is broken (no well-formed JSON)");
  CHECK(errorOf("{\"manifest\": \"saggar\", ") == "is broken (no well-formed JSON)");
  CHECK(errorOf("\xFF\xFE") == "is broken (no well-formed JSON)");
  CHECK(errorOf("[]") == "was not written by saggar");
  CHECK(errorOf("{\"name\": \"a web page\", \"icons\": []}") == "was not written by saggar");
  CHECK(errorOf("{\"manifest\": 1}") == "was not written by saggar");
  CHECK(errorOf("{\"manifest\": \"saggar\"}") == "does not say its version");
  CHECK(errorOf("{\"manifest\": \"saggar\", \"version\": \"1\"}") == "does not say its version");
  CHECK(errorOf("{\"manifest\": \"saggar\", \"version\": 2}") == "was written by a newer saggar");
  CHECK(errorOf("{\"manifest\": \"saggar\", \"version\": 0}") ==
        "was written by an older saggar, in a form that is no longer read");
  CHECK(errorOf("{\"manifest\": \"saggar\", \"version\": 1}") == "does not say which tree it is for");
  const std::string head =
      "{\"manifest\": \"saggar\", \"version\": 1, \"tree\": \"out\", \"parts\": [], \"files\": ";
  CHECK(errorOf(head + "[]}").empty());
  CHECK(errorOf(head + "{}}") == "does not list its files");
  CHECK(errorOf(head + "[3]}") == "lists a file that is no object");
  CHECK(errorOf(head + "[{}]}") == "lists a file without a path");
  CHECK(errorOf(head + "[{\"path\": \"../../etc/passwd\"}]}") ==
        "names the file \"../../etc/passwd\", which cannot be ours: it climbs out of the folder");
  CHECK(errorOf(head + "[{\"path\": \"a\"}]}") == "names no part for \"a\"");
  CHECK(errorOf(head + "[{\"path\": \"a\", \"part\": \"guide\", \"sha256\": \"AB\"}]}") ==
        "gives no sha256 for \"a\"");
  const std::string hash = "\"sha256\": \"" + sha256Of("") + '"';
  CHECK(errorOf(head + "[{\"path\": \"a\", \"part\": \"guide\", " + hash + ", \"bytes\": -1}]}") ==
        "gives no size for \"a\"");
  CHECK(errorOf(head + "[{\"path\": \"a\", \"part\": \"guide\", " + hash + ", \"bytes\": 1}]}") ==
        "gives no list of records for \"a\"");
  const std::string whole =
      "{\"path\": \"a\", \"part\": \"guide\", " + hash + ", \"bytes\": 0, \"records\": []}";
  CHECK(errorOf(head + '[' + whole + "]}").empty());
  CHECK(errorOf(head + '[' + whole + ',' + whole + "]}") == "names \"a\" twice");
}

TEST_CASE("nesting without end is refused, not followed") {
  CHECK(manifestFrom(std::string(1000000, '[')).error == "is broken (no well-formed JSON)");
  CHECK(manifestFrom(std::string(200000, '[') + std::string(200000, ']')).error ==
        "was not written by saggar");
}

TEST_CASE("no byte changed in a manifest makes the reading fall over") {
  const std::string text = manifestText(sample());
  std::size_t refused = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    for (const char c : {'\0', '"', '{', '9', '\xC3', '/'}) {
      std::string changed = text;
      changed[at] = c;
      const ManifestReading reading = manifestFrom(changed);
      CHECK(reading.manifest.has_value() == reading.error.empty());
      refused += reading.manifest ? 0 : 1;
    }
  }
  CHECK(refused > text.size());
}

TEST_CASE("paths that may stand in a tree") {
  for (const char* good : {"a", "guide/README.md", "talks/first-firing/outline.md", "guide/é ü.md", "a..b",
                           "a.", "x/manifest.json"})
    CHECK_MESSAGE(pathFault(good).empty(), good);
  const std::map<std::string, std::string> bad = {{"", "it is empty"},
                                                  {"/a", "it does not start inside the folder"},
                                                  {"a//b", "it has an empty step"},
                                                  {"a/", "it has an empty step"},
                                                  {"../a", "it climbs out of the folder"},
                                                  {"a/../../b", "it climbs out of the folder"},
                                                  {"a/..", "it climbs out of the folder"},
                                                  {".", "a step begins with a full stop"},
                                                  {"a/./b", "a step begins with a full stop"},
                                                  {".git/config", "a step begins with a full stop"},
                                                  {"a\nb", "it has a control character"},
                                                  {std::string("a\0b", 3), "it has a control character"},
                                                  {"a\x7f", "it has a control character"},
                                                  {"a\xC2\x85", "it has a control character"},
                                                  {"a\xFF", "it is not UTF-8"},
                                                  {"a\\b", "it has a backslash"},
                                                  {"manifest.json", "that name is the manifest's"},
                                                  {"Manifest.JSON", "that name is the manifest's"}};
  for (const auto& item : bad) CHECK_MESSAGE(pathFault(item.first) == item.second, item.first);
}

TEST_CASE("a folder is verified against its manifest") {
  const Sandbox box;
  REQUIRE(!publish(box.settings(),
                   {{"guide/a.md", "a"}, {"guide/b.md", "b"}, {"guide/c.md", "c"}, {"guide/d.md", "d"}})
               .problem);
  Verification found = verify(box.path("out"));
  CHECK(found.good());
  CHECK(found.files == 4);
  box.write("out/guide/a.md", "A");
  std::filesystem::remove(box.path("out/guide/b.md"));
  std::filesystem::remove(box.path("out/guide/c.md"));
  std::filesystem::create_symlink("d.md", box.path("out/guide/c.md"));
  found = verify(box.path("out"));
  CHECK(!found.good());
  REQUIRE(found.faults.size() == 3);
  CHECK(found.faults[0] ==
        std::pair<std::string, std::string>{"guide/a.md", "its bytes are not the ones that were written"});
  CHECK(found.faults[1].second == "no such file or folder");
  CHECK(found.faults[2].second == "a link stands in its place");
  CHECK(verify(box.path("nowhere")).problem);
  box.write("out/manifest.json", "{");
  REQUIRE(verify(box.path("out")).problem);
  CHECK(verify(box.path("out")).problem->error.find("is broken") != std::string::npos);
}
