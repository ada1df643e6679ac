#include "reading/folder.h"

#include <algorithm>
#include <set>

#include "base/text.h"

namespace saggar::reading {
namespace {

using source::FileType;

constexpr std::size_t kDeepest = 40;

// In small letters or capitals.
bool endsIn(const std::string& name, std::string_view ending) {
  if (name.size() <= ending.size()) return false;
  const std::string_view end = std::string_view(name).substr(name.size() - ending.size());
  return std::equal(end.begin(), end.end(), ending.begin(),
                    [](char a, char b) { return (base::isUpper(a) ? a - 'A' + 'a' : a) == b; });
}

class Walk {
 public:
  Walk(const source::Files& files, const std::string& root, source::SourceSet& sources,
       diagnostics::Findings& findings)
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
    found_.lost |= !path.starts_with("prose/") && !path.ends_with(".xml");
    findings_.add(
        {.rule = rule, .span = {file, 0, 0}, .message = std::move(message), .hint = std::move(hint)});
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
      report("file-unreadable"_rule, relative, "folders are nested more than 40 deep here",
             "move the files further up");
      return;
    }
    if (!relative.empty() && holdsOurManifest(folder)) return;
    const auto entries = files_.list(folder);
    if (!entries) {
      report("file-unreadable"_rule, relative.empty() ? "." : relative, "this folder cannot be listed",
             "look at its permissions");
      return;
    }
    for (const source::FolderEntry& entry : *entries)
      if (!entry.name.starts_with("."))
        look(entry, relative.empty() ? entry.name : source::pathJoined(relative, entry.name), depth);
  }

  void look(const source::FolderEntry& entry, const std::string& path, std::size_t depth) {
    const bool record = endsIn(entry.name, ".yaml") || endsIn(entry.name, ".yml");
    const bool prose = endsIn(entry.name, ".md") && path.starts_with("prose/");
    const bool layout = path.ends_with(".xml") && path == "layouts/" + entry.name;
    if (entry.status.link && (record || prose || layout || entry.status.type == FileType::folder)) {
      const auto target = files_.realPath(source::pathJoined(root_, path));
      if (!target)
        return report("file-unreadable"_rule, path, "this link leads nowhere, or round in a ring",
                      "take the link out, or mend where it leads");
      if (leadsOutside(*target))
        return report("path-outside"_rule, path, "this link leads out of the guide's folder",
                      "copy what it leads to into the guide's folder");
      if (entry.status.type == FileType::file && isReadByItsOwnName(*target)) return;
    }
    if (entry.status.type == FileType::folder) {
      if (record || prose || layout)
        report("file-unreadable"_rule, path, "this is a folder with the name of a file",
               "give the folder another name");
      return visit(path, depth + 1);
    }
    if (!record && !prose && !layout) return;
    if (entry.status.type != FileType::file)
      return report("file-unreadable"_rule, path, "this is no ordinary file",
                    "move it out of the guide's folder");
    if (path == "guide.yaml") {
      found_.hasGuideFile = true;
    } else {
      (record ? found_.records : layout ? found_.layouts : found_.prose).push_back(path);
    }
  }

  // Inside the guide, in no folder that is passed over, and with an ending of records.
  bool isReadByItsOwnName(const std::string& real) const {
    const std::string inside = real.substr(std::min(real.size(), rootReal_.size()));
    return inside.find("/.") == std::string::npos && (endsIn(inside, ".yaml") || endsIn(inside, ".yml"));
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
