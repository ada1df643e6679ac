#include "commands/output.h"

#include <algorithm>
#include <atomic>
#include <mutex>
#include <set>
#include <thread>

#include "base/edit_distance.h"
#include "base/text.h"
#include "compose/checklist.h"
#include "compose/corrections.h"
#include "compose/guide.h"
#include "compose/outline.h"
#include "compose/own_pieces.h"
#include "layout/built_in.h"
#include "reading/layout_xml.h"
#include "render/markdown.h"
#include "render/pdf/pdf.h"

namespace saggar::commands {
namespace {

using compose::Composed;
using linking::RecordIndex;
using records::Kind;

class Outputs {
 public:
  Outputs(const Environment& environment, const Guide& guide, publishing::Publication& out, publishing::Publication* own)
      : environment_(environment), guide_(guide), out_(out), own_(own) {}

  OutputResult run(const std::vector<std::string>& parts) {
    std::vector<std::function<void()>> jobs;
    for (const std::string& part : parts) {
      if (part == "guide") jobs.push_back([this] { guide(); });
      if (part == "checklists")
        for (RecordIndex index : guide_.collection.ofKind(Kind::checklist)) jobs.push_back([this, index] { checklist(index); });
      if (part == "talks")
        for (RecordIndex index : guide_.collection.ofKind(Kind::talk)) jobs.push_back([this, index] { talk(index); });
      if (part == "corrections") jobs.push_back([this] { corrections(); });
    }
    std::atomic<std::size_t> next{0};
    auto work = [&] {
      for (std::size_t i = next++; i < jobs.size(); i = next++) jobs[i]();
    };
    const std::size_t threads = std::clamp<std::size_t>(std::min<std::size_t>(std::thread::hardware_concurrency(), jobs.size()), 1, 8);
    std::vector<std::thread> others;
    for (std::size_t i = 1; i < threads; ++i) others.emplace_back(work);
    work();
    for (std::thread& one : others) one.join();
    std::sort(result_.notices.begin(), result_.notices.end());
    result_.notices.erase(std::unique(result_.notices.begin(), result_.notices.end()), result_.notices.end());
    return std::move(result_);
  }

 private:
  void guide() {
    std::set<std::string> images;
    diagnostics::Findings findings;
    compose::composeGuide(
        *guide_.materials, *guide_.places,
        [&](Composed made) {
          images.insert(made.images.begin(), made.images.end());
          put(out_, "guide", "guide/" + made.document.file + ".md", render::renderMarkdown(made.document), made);
        },
        findings);
    for (const std::string& image : images) copyImage(image);
  }

  // A picture is copied as it is; its place was checked to lie inside the guide, and is looked at once more.
  void copyImage(const std::string& path) {
    const auto root = environment_.files.realPath(guide_.folder);
    const auto real = environment_.files.realPath(source::pathJoined(guide_.folder, path));
    if (!root || !real || !source::pathStaysInside(path) || !real->starts_with(*root == "/" ? *root : *root + '/')) return;
    source::ReadResult read = environment_.files.read(*real);
    if (!read.ok()) return notice("the picture `" + path + "` could not be copied: " + read.error);
    out_.add("guide", "guide/" + path, read.bytes, {});
  }

  void checklist(RecordIndex index) {
    const std::string id(guide_.collection[index].id);
    const auto layout = layoutNamed(compose::layoutNameOf(*guide_.materials, index), "checklist:" + id);
    if (!layout) return;
    render::FontBook fonts({{&environment_.files, source::pathJoined(guide_.folder, "fonts")}, {&environment_.files, "/usr/share/fonts"}});
    std::unique_ptr<render::PdfWriter> writer;
    std::vector<RecordIndex> madeFrom;
    compose::composeChecklist(*guide_.materials, index,
                              {.begin =
                                   [&](const compose::ChecklistHead& head) {
                                     writer = std::make_unique<render::PdfWriter>(head.document, *layout, fonts);
                                     for (const document::Block& block : head.document.blocks) writer->add(block);
                                     writer->beginTable(head.columns);
                                   },
                               .row = [&](document::Row row) { writer->addRow(row); }},
                              madeFrom);
    const render::PdfResult made = writer->finish();
    if (!made.ok()) return fail("the checklist `" + id + "` could not be set: " + made.error, "look at its layout, and at the fonts that the README names");
    std::vector<std::string> records;
    records.reserve(madeFrom.size());
    for (RecordIndex one : madeFrom) records.push_back(guide_.collection[one].reference());
    out_.add("checklists", "checklists/" + id + ".pdf", made.bytes, std::move(records));
    for (const render::FontSubstitution& one : fonts.substitutions())
      notice("the font file `" + one.wanted + "` is not there, and `" + one.used + "` was used; put it into the guide's `fonts/`, or install its package");
    for (const render::PdfNotice& one : made.notices)
      if (one.kind == render::PdfNotice::Kind::characterMissing)
        notice("no font has the sign " + one.what + " (" + base::counted(one.count, "word") + " in `" + id + "`): a box is printed in its place");
  }

  std::optional<layout::PageLayout> layoutNamed(const std::string& name, const std::string& wanter) {
    const std::string path = source::pathJoined(guide_.folder, "layouts/" + name + ".xml");
    std::string text;
    if (environment_.files.status(path).type == source::FileType::file) {
      source::ReadResult read = environment_.files.read(path);
      if (!read.ok()) {
        fail("the layout `layouts/" + name + ".xml` cannot be read: " + read.error, "look at its permissions");
        return std::nullopt;
      }
      text = std::move(read.bytes);
    } else if (const auto own = layout::builtInLayout(name)) {
      text = std::string(*own);
    } else {
      std::vector<std::string_view> names = layout::builtInLayoutNames();
      const auto near = base::nearest(name, names);
      std::vector<std::string> shown;
      for (std::string_view one : names) shown.push_back('`' + std::string(one) + '`');
      fail(wanter + " asks for a layout `" + name + "`, and there is none",
           near ? "did you mean `" + std::string(*near) + "`?" : "there are " + base::listedInWords(shown) + "; your own go into `layouts/` as XML");
      return std::nullopt;
    }
    source::SourceSet sources;
    const source::FileId file = sources.add("layouts/" + name + ".xml", text);
    reading::LayoutRead read = reading::readLayout(file, sources.text(file));
    for (const reading::LayoutProblem& problem : read.problems) {
      const source::Place place = sources.place(problem.span);
      notice(std::string(place.path) + ':' + std::to_string(place.line) + ':' + std::to_string(place.column) + ": " + problem.message +
             (problem.hint.empty() ? "" : "; " + problem.hint));
    }
    if (!read.layout) fail("the layout `" + name + "` is no layout", "begin it with `<layout name=\"" + name + "\" like=\"checklist\">`");
    return read.layout;
  }

  void talk(RecordIndex index) {
    const std::string folder = "talks/" + std::string(guide_.collection[index].id) + '/';
    const Composed outline = compose::composeOutline(*guide_.materials, index);
    put(out_, "talks", folder + "outline.md", render::renderMarkdown(outline.document), outline);
    out_.add("talks", folder + "chapters.txt", compose::composeChapterTimes(*guide_.materials, index), {guide_.collection[index].reference()});
    if (own_ == nullptr) return;
    const Composed pieces = compose::composeOwnPieces(guide_.collection, *guide_.materials, index);
    put(*own_, "talks", folder + "pieces.md", render::renderMarkdown(pieces.document), pieces);
  }

  void corrections() {
    const Composed made = compose::composeCorrections(*guide_.materials, nullptr);
    put(out_, "corrections", "corrections.md", render::renderMarkdown(made.document), made);
  }

  static void put(publishing::Publication& tree, std::string_view part, std::string path, const std::string& bytes, const Composed& made) {
    tree.add(part, std::move(path), bytes, {made.madeFrom.begin(), made.madeFrom.end()});
  }

  void notice(std::string words) {
    std::lock_guard guard(lock_);
    result_.notices.push_back(std::move(words));
  }
  void fail(std::string error, std::string hint) {
    std::lock_guard guard(lock_);
    if (!result_.error.empty()) return;
    result_.error = std::move(error);
    result_.hint = std::move(hint);
  }

  const Environment& environment_;
  const Guide& guide_;
  publishing::Publication& out_;
  publishing::Publication* own_;
  std::mutex lock_;
  OutputResult result_;
};

}  // namespace

OutputResult writeOutputs(const Environment& environment, const Guide& guide, const std::vector<std::string>& parts,
                          publishing::Publication& out, publishing::Publication* own) {
  return Outputs(environment, guide, out, own).run(parts);
}

}  // namespace saggar::commands
