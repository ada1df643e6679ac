// Names of layouts, and layouts of the guide's own.
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

FilesOfGuide with(const std::string& layout, const std::string& own = "") {
  FilesOfGuide files{
      {"records.yaml", "- checklist: all\n  title: All\n  show: term\n  layout: " + layout + "\n"}};
  if (!own.empty()) files["layouts/mine.xml"] = own;
  return files;
}

}  // namespace

TEST_CASE("a layout that is there, built in or the guide's own, and one that is not") {
  silent(with("checklist"));
  silent(with("mine", "<layout name=\"mine\" like=\"checklist\"/>\n"));
  caught(with("cheklist"), "4:11", "layout-unfit");
  CHECK(Small(with("cheklist")).one().hint == "did you mean `checklist`?");
  CHECK(Small(with("mine")).one().message == "there is no layout `mine`");
  FilesOfGuide files = with("checklist");
  files["guide.yaml"] = "guide: G\nsettings: {layout: somewhere-else}\n";
  CHECK(Small(files).found == "guide.yaml:2:20 layout-unfit");
}

TEST_CASE("a mistake in a layout stands at its place in the file") {
  const Small bad(
      with("mine", "<layout name=\"mine\" like=\"checklist\">\n  <margins topp=\"2mm\"/>\n</layout>\n"));
  CHECK(bad.found == "layouts/mine.xml:2:12 layout-unfit");
  CHECK(Small(with("mine", "words alone\n")).found.starts_with("layouts/mine.xml:2:1 layout-unfit"));
}
