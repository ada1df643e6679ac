#include "reading/folder.h"

#include <set>

namespace saggar::reading {
namespace {

using source::FileType;

constexpr std::size_t kDeepest = 40;

bool endsIn(const std::string& name, std::string_view ending) {
  return name.size() > ending.size() && name.ends_with(ending);
}

class Walk {
 public:
  Walk(const source::Files& files, const std::string& root, source::SourceSet& sources, diagnostics::Findings& findings)
      : files_(files), root_(root), sources_(sources), findings_(findings) {
    rootReal_ = files.realPath(root).value_or(root);
  }

  FoundFiles run() {
    visit("", 0);
    return std::move(found_);
  }

 private:
  void report(diagnostics::Rule rule, const std::string& path, std::string message, std::string hint) {
    const source::FileId file = sources_.add(path, "");
    findings_.add({.rule = rule, .span = {file, 0, 0}, .message = std::move(message), .hint = std::move(hint)});
  }

  bool leadsOutside(const std::string& real) const {
    return real != rootReal_ && !real.starts_with(rootReal_ == "/" ? rootReal_ : rootReal_ + '/');
  }

  bool holdsOurManifest(const std::string& folder) const {
    const std::string path = source::pathJoined(folder, "manifest.json");
    if (files_.status(path).type != FileType::file) return false;
    const auto read = files_.read(path);
    return read.ok() && read.bytes.substr(0, 200).find("saggar") != std::string::npos;
  }

  void visit(const std::string& relative, std::size_t depth) {
    const std::string folder = relative.empty() ? root_ : source::pathJoined(root_, relative);
    const auto real = files_.realPath(folder);
    if (!real || !seen_.insert(*real).second) return;
    if (depth > kDeepest) {
      report("file-unreadable"_rule, relative, "folders are nested more than 40 deep here", "move the files further up");
      return;
    }
    if (!relative.empty() && holdsOurManifest(folder)) return;
    const auto entries = files_.list(folder);
    if (!entries) {
      report("file-unreadable"_rule, relative.empty() ? "." : relative, "this folder cannot be listed", "look at its permissions");
      return;
    }
    for (const source::FolderEntry& entry : *entries) {
      if (entry.name.starts_with(".")) continue;
      const std::string path = relative.empty() ? entry.name : source::pathJoined(relative, entry.name);
      const bool record = endsIn(entry.name, ".yaml") || endsIn(entry.name, ".yml");
      const bool prose = endsIn(entry.name, ".md") && path.starts_with("prose/");
      if (entry.status.link && (record || prose || entry.status.type == FileType::folder)) {
        const auto target = files_.realPath(source::pathJoined(root_, path));
        if (!target) {
          report("file-unreadable"_rule, path, "this link leads nowhere, or round in a ring", "take the link out, or mend where it leads");
          continue;
        }
        if (leadsOutside(*target)) {
          report("path-outside"_rule, path, "this link leads out of the guide's folder", "copy what it leads to into the guide's folder");
          continue;
        }
      }
      if (entry.status.type == FileType::folder && !record && !prose) {
        visit(path, depth + 1);
        continue;
      }
      if (!record && !prose) continue;
      if (entry.status.type == FileType::folder) {
        report("file-unreadable"_rule, path, "this is a folder with the name of a file", "give the folder another name");
        visit(path, depth + 1);
        continue;
      }
      if (entry.status.type != FileType::file) {
        report("file-unreadable"_rule, path,
               entry.status.link ? "this link leads nowhere, or round in a ring" : "this is no ordinary file",
               entry.status.link ? "take the link out, or mend where it leads" : "move it out of the guide's folder");
        continue;
      }
      if (path == "guide.yaml") {
        found_.hasGuideFile = true;
      } else if (record) {
        found_.records.push_back(path);
      } else {
        found_.prose.push_back(path);
      }
    }
  }

  const source::Files& files_;
  std::string root_;
  std::string rootReal_;
  source::SourceSet& sources_;
  diagnostics::Findings& findings_;
  std::set<std::string> seen_;
  FoundFiles found_;
};

}  // namespace

FoundFiles findFiles(const source::Files& files, const std::string& folder, source::SourceSet& sources,
                     diagnostics::Findings& findings) {
  return Walk(files, folder, sources, findings).run();
}

}  // namespace saggar::reading
