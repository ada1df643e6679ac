#include "commands/output.h"

#include <algorithm>
#include <atomic>
#include <functional>
#include <mutex>
#include <optional>
#include <set>
#include <thread>

#include "base/memory.h"
#include "base/text.h"
#include "commands/set_checklist.h"
#include "compose/corrections.h"
#include "compose/guide.h"
#include "compose/help_sheet.h"
#include "compose/outline.h"
#include "compose/own_pieces.h"
#include "render/markdown.h"

namespace saggar::commands {
namespace {

using compose::Composed;
using linking::RecordIndex;
using records::Kind;

constexpr const char* kParts[] = {"guide", "checklists", "talks", "corrections"};
constexpr const char* kGuideFolder = "guide/";
constexpr std::size_t kLarge = std::size_t{1} << 20;  // a PDF that took much memory to set

bool has(const std::vector<std::string>& parts, std::string_view part) {
  return std::find(parts.begin(), parts.end(), part) != parts.end();
}

// Takes the links away that `alive` does not vouch for; their words stay.
template <class Alive>
void keepLinks(document::Inlines& inlines, const Alive& alive) {
  document::Inlines out;
  for (document::Inline& one : inlines) {
    keepLinks(one.children, alive);
    if (one.kind == document::InlineKind::link && !one.target->file.empty() && !alive(one.target)) {
      std::move(one.children.begin(), one.children.end(), std::back_inserter(out));
    } else {
      out.push_back(std::move(one));
    }
  }
  inlines = std::move(out);
}

template <class Alive>
void keepLinks(document::Blocks& blocks, const Alive& alive) {
  for (document::Block& block : blocks) {
    keepLinks(block.inlines, alive);
    if (document::Table* table = block.table.given())
      for (document::Row& row : table->rows)
        for (document::Cell& cell : row.cells) keepLinks(cell.inlines, alive);
    keepLinks(block.blocks, alive);
  }
}

class Outputs {
 public:
  Outputs(const Environment& environment, const Guide& guide, publishing::Publication& out,
          publishing::Publication* own)
      : environment_(environment), guide_(guide), out_(out), own_(own), faults_(guide) {}

  OutputResult run(const std::vector<std::string>& parts) {
    guideIsMade_ = has(parts, "guide");
    std::vector<std::function<void()>> jobs;
    for (const std::string& part : parts) {
      if (part == "guide") jobs.push_back([this] { guide(); });
      if (part == "checklists") {
        for (RecordIndex index : guide_.collection.ofKind(Kind::checklist))
          jobs.push_back([this, index] { checklist(index); });
        // An author's own list of that name stands in its place.
        if (!guide_.collection.find(Kind::checklist, compose::kHelpSheet))
          jobs.push_back([this] { helpSheet(); });
      }
      if (part == "talks")
        for (RecordIndex index : guide_.collection.ofKind(Kind::talk))
          jobs.push_back([this, index] { talk(index); });
      if (part == "corrections") jobs.push_back([this] { corrections(); });
    }
    std::atomic<std::size_t> next{0};
    auto work = [&] {
      for (std::size_t i = next++; i < jobs.size(); i = next++) jobs[i]();
    };
    const std::size_t threads = std::clamp<std::size_t>(
        std::min<std::size_t>(std::thread::hardware_concurrency(), jobs.size()), 1, 8);
    std::vector<std::thread> others;
    for (std::size_t i = 1; i < threads; ++i) others.emplace_back(work);
    work();
    for (std::thread& one : others) one.join();
    std::sort(result_.notices.begin(), result_.notices.end());
    result_.notices.erase(std::unique(result_.notices.begin(), result_.notices.end()), result_.notices.end());
    result_.findings = faults_.findings();
    return std::move(result_);
  }

 private:
  void guide() {
    std::set<std::string> images;
    diagnostics::Findings toldBefore;
    compose::composeGuide(
        *guide_.materials, *guide_.places,
        [&](Composed made) {
          images.insert(made.images.begin(), made.images.end());
          put(out_, "guide", kGuideFolder + made.document.file + ".md", render::renderMarkdown(made.document),
              made);
        },
        toldBefore);
    for (const std::string& image : images) copyImage(image);
  }

  // A picture is copied as it is; its place was checked to lie inside the guide, and is looked at once more.
  void copyImage(const std::string& path) {
    const auto root = environment_.files.realPath(guide_.folder);
    const auto real = environment_.files.realPath(source::pathJoined(guide_.folder, path));
    if (!root || !real || !source::pathStaysInside(path) ||
        !real->starts_with(*root == "/" ? *root : *root + '/'))
      return;
    source::ReadResult read = environment_.files.read(*real);
    if (!read.ok()) return notice("the picture `" + path + "` could not be copied: " + read.error);
    out_.add("guide", kGuideFolder + path, read.bytes, {});
  }

  void checklist(RecordIndex index) {
    sheet(std::string(guide_.collection[index].id), [&](const std::function<void(std::string_view)>& take) {
      return setChecklist(environment_, guide_, index, faults_, take);
    });
  }

  void helpSheet() {
    sheet(std::string(compose::kHelpSheet), [&](const std::function<void(std::string_view)>& take) {
      return setHelpSheet(environment_, guide_, faults_, take);
    });
  }

  // Begun with the first piece, so that a sheet with nothing on it is no file.
  template <class Set>
  void sheet(const std::string& name, const Set& set) {
    std::optional<publishing::FileInPieces> file;
    const auto begin = [&] {
      if (!file) file.emplace(out_.begin("checklists", "checklists/" + name + ".pdf"));
    };
    std::size_t bytes = 0;
    const SetChecklist made = set([&](std::string_view piece) {
      begin();
      file->write(piece);
      bytes += piece.size();
    });
    for (const std::string& words : made.notices) notice(words);
    if (!made.error.empty()) return fail(made.error, made.hint);
    if (!file) return;
    std::vector<std::string> records;
    records.reserve(made.madeFrom.size());
    for (RecordIndex one : made.madeFrom) records.push_back(guide_.collection[one].reference());
    file->finish(std::move(records));
    if (bytes > kLarge) base::giveFreedMemoryBack();
  }

  void talk(RecordIndex index) {
    const std::string folder = "talks/" + std::string(guide_.collection[index].id) + '/';
    const Composed outline = compose::composeOutline(*guide_.materials, index);
    put(out_, "talks", folder + "outline.md", render::renderMarkdown(outline.document), outline);
    out_.add("talks", folder + "chapters.txt", compose::composeChapterTimes(*guide_.materials, index),
             {guide_.collection[index].reference()});
    if (own_ == nullptr) return;
    const Composed pieces = compose::composeOwnPieces(guide_.collection, *guide_.materials, index);
    put(*own_, "talks", folder + "pieces.md", render::renderMarkdown(pieces.document), pieces);
  }

  // Linked with the guide's chapters: those made now, or those of an earlier run where the place is still there.
  void corrections() {
    Composed made = compose::composeCorrections(*guide_.materials, guide_.places.get(), kGuideFolder);
    if (!guideIsMade_) {
      std::map<std::string, std::optional<std::string>> chapters;
      keepLinks(made.document.blocks, [&](const document::Target& target) {
        const auto [chapter, fresh] = chapters.try_emplace(target.file);
        if (fresh) chapter->second = out_.carriedOver(target.file + ".md");
        return chapter->second &&
               (target.anchor.empty() ||
                chapter->second->find("<a id=\"" + target.anchor + "\">") != std::string::npos);
      });
    }
    put(out_, "corrections", "corrections.md", render::renderMarkdown(made.document), made);
  }

  static void put(publishing::Publication& tree, std::string_view part, std::string path,
                  const std::string& bytes, const Composed& made) {
    tree.add(part, std::move(path), bytes, {made.madeFrom.begin(), made.madeFrom.end()});
  }

  void notice(std::string words) {
    const std::lock_guard guard(lock_);
    result_.notices.push_back(std::move(words));
  }
  void fail(const std::string& error, const std::string& hint) {
    const std::lock_guard guard(lock_);
    if (!result_.error.empty() && result_.error <= error) return;  // the same one, whichever thread is first
    result_.error = error;
    result_.hint = hint;
  }

  const Environment& environment_;
  const Guide& guide_;
  publishing::Publication& out_;
  publishing::Publication* own_;
  PrintFaults faults_;
  bool guideIsMade_ = false;
  std::mutex lock_;
  OutputResult result_;
};

}  // namespace

std::vector<std::string> partsToMake(const std::vector<std::string>& asked, bool correctionsStand) {
  std::vector<std::string> parts;
  for (const char* part : kParts) {
    const bool again = std::string_view(part) == "corrections" && correctionsStand && has(asked, "guide");
    if (asked.empty() || has(asked, part) || again) parts.emplace_back(part);
  }
  return parts;
}

OutputResult writeOutputs(const Environment& environment, const Guide& guide,
                          const std::vector<std::string>& parts, publishing::Publication& out,
                          publishing::Publication* own) {
  return Outputs(environment, guide, out, own).run(parts);
}

}  // namespace saggar::commands
