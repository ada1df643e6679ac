#include "publishing/place.h"

#include <unistd.h>

#include <cerrno>

#include "base/utf8.h"
#include "publishing/disk.h"
#include "publishing/hash.h"
#include "source/files.h"

namespace saggar::publishing {
namespace {

constexpr std::uint64_t kMostManifestBytes = std::uint64_t{1} << 30;

bool hasControl(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = base::nextCodePoint(text, at);
    if (c < 0x20 || (c >= 0x7F && c < 0xA0)) return true;
  }
  return false;
}

std::string workFolderFor(const std::string& parent, const std::string& name) {
  std::string own = '.' + name + ".saggar-work";
  if (own.size() > 255) own = ".saggar-work-" + sha256Of(name).substr(0, 32);
  return source::pathJoined(parent, own);
}

// The deepest part that exists, with its links followed, and the rest as written. 0 or an errno.
int realPlace(const std::string& path, std::string& into) {
  std::size_t end = path.size();
  std::string rest;
  while (true) {
    struct stat info;
    const std::string head = end == 0 ? "/" : path.substr(0, end);
    const int error = statusOf(head, info);
    if (error == 0) {
      const auto real = source::DiskFiles().realPath(head);
      if (!real) return errno == 0 ? ENOENT : errno;
      if (!rest.empty() && (stat(real->c_str(), &info) != 0 || !S_ISDIR(info.st_mode))) return ENOTDIR;
      into = rest.empty() ? *real : source::pathJoined(*real, rest);
      return 0;
    }
    if (error != ENOENT || end == 0) return error;
    const std::size_t slash = path.rfind('/', end - 1);
    const std::string step = path.substr(slash + 1, end - slash - 1);
    if (step == "..") return ENOENT;  // out of a folder that is not there
    if (!step.empty() && step != ".") rest = rest.empty() ? step : step + '/' + rest;
    end = slash;
  }
}

}  // namespace

bool holds(std::string_view a, std::string_view b) {
  if (a == "/") return true;
  return b.starts_with(a) && (b.size() == a.size() || b[a.size()] == '/');
}

Placing placeOf(std::string_view folder, std::string_view option, const std::string& from,
                const std::string& guide) {
  Placing result;
  Place& place = result.place;
  place.shown = shownPath(folder);
  place.option = option;
  const std::string choose =
      "name a folder for the output alone, as in " + place.option + ' ' + (option == "--own" ? "own" : "out");
  const auto refuse = [&](std::string error, std::string hint) {
    result.problem = Problem{std::move(error), std::move(hint)};
    return result;
  };
  if (folder.empty()) return refuse("no output folder is named after " + place.option, choose);
  if (hasControl(folder)) return refuse(place.shown + " has a control character in its name", choose);
  std::string written = source::pathJoined(from, folder);
  if (folder.front() == '/') written = folder;
  while (written.size() > 1 && written.back() == '/') written.pop_back();

  struct stat info;
  if (statusOf(written, info) == 0 && S_ISLNK(info.st_mode) && stat(written.c_str(), &info) != 0)
    return refuse(place.shown + " is a link that leads nowhere",
                  "remove the link, or choose another folder with " + place.option);
  if (const int error = realPlace(written, place.path)) {
    result.problem = diskProblem("cannot reach " + place.shown, error, option);
    return result;
  }
  if (stat(place.path.c_str(), &info) == 0 && !S_ISDIR(info.st_mode))
    return refuse(place.shown + " is a file, not a folder", choose);
  const source::DiskFiles files;
  const std::string here = files.realPath(from).value_or(from);
  if (place.path == "/") return refuse(place.shown + " is the root of the whole disk", choose);
  if (place.path == here)
    return refuse(place.shown + " is the folder you stand in, which cannot be exchanged under your feet",
                  choose);
  if (holds(place.path, here)) return refuse(place.shown + " holds the folder you stand in", choose);
  if (!guide.empty()) {
    const std::string guideHere =
        files.realPath(source::pathJoined(guide.front() == '/' ? "" : from, guide)).value_or(guide);
    if (place.path == guideHere) return refuse(place.shown + " is the guide's own folder", choose);
    if (holds(place.path, guideHere)) return refuse(place.shown + " holds the guide itself", choose);
  }
  const std::size_t slash = place.path.rfind('/');
  place.parent = slash == 0 ? "/" : place.path.substr(0, slash);
  place.work = workFolderFor(place.parent, place.path.substr(slash + 1));
  return result;
}

std::optional<Problem> foldersApart(const Place& out, const Place& own) {
  const auto refusal = [&](const std::string& how) {
    return Problem{"what only you see must lie apart from what is published, but " + how,
                   "choose two folders side by side, as -o out --own own"};
  };
  if (out.path == own.path)
    return refusal(own.shown + " (--own) and " + out.shown + " (-o) are the same folder");
  if (holds(out.path, own.path)) return refusal(own.shown + " (--own) lies in " + out.shown + " (-o)");
  if (holds(own.path, out.path)) return refusal(out.shown + " (-o) lies in " + own.shown + " (--own)");
  return std::nullopt;
}

Inspection inspect(const Place& place, std::string_view tree) {
  Inspection result;
  Standing& standing = result.standing;
  const auto refuse = [&](std::string error, std::string hint) {
    result.problem = Problem{std::move(error), std::move(hint)};
    return result;
  };
  const auto failed = [&](const std::string& what, int error) {
    result.problem = diskProblem(what + ' ' + place.shown, error, place.option);
    return result;
  };
  if (const int error = statusOf(place.path, standing.info)) {
    if (error == ENOENT) return result;
    return failed("cannot reach", error);
  }
  if (!S_ISDIR(standing.info.st_mode))
    return refuse(place.shown + " is a file, not a folder", "choose another folder with " + place.option);
  standing.exists = true;
  struct stat around;
  if (const int error = statusOf(place.parent, around))
    return failed("cannot reach the folder around", error);
  if (around.st_dev != standing.info.st_dev)
    return refuse(
        place.shown + " is a disk or share of its own and cannot be exchanged in one step",
        "name a folder inside it, as in " + place.option + ' ' + source::pathJoined(place.shown, "out"));
  const source::DiskFiles files;
  const auto entries = files.list(place.path);
  if (!entries) return failed("cannot look into", errno);
  if (access(place.path.c_str(), W_OK) != 0) return failed("cannot write in", errno);
  if (entries->empty()) return result;

  const std::string manifestPath = source::pathJoined(place.path, kManifestName);
  const source::FileStatus status = files.status(manifestPath);
  const std::string elsewhere = "choose an empty or a new folder with " + place.option;
  if (status.type != source::FileType::file || status.link)
    return refuse(place.shown + " is not empty and has no manifest.json of ours, so what it holds (" +
                      shownPath(entries->front().name) + ") is left alone",
                  elsewhere);
  if (status.size > kMostManifestBytes)
    return refuse(place.shown + " has a manifest.json too big to be ours", elsewhere);
  auto read = files.read(manifestPath);
  if (!read.ok())
    return refuse("cannot read the manifest.json of " + place.shown + ": " + read.error, elsewhere);
  ManifestReading reading = manifestFrom(read.bytes);
  if (!reading.manifest)
    return refuse(
        place.shown + " is left alone, because its manifest.json " + reading.error,
        reading.ours ? "move the folder away and make everything again, or " + elsewhere : elsewhere);
  if (reading.manifest->tree != tree)
    return refuse(
        reading.manifest->tree == "own"
            ? place.shown + " holds what only you see (its manifest.json says so), not what is published"
            : place.shown + " holds what is published (its manifest.json says so), not what only you see",
        elsewhere);
  standing.manifest = std::move(reading.manifest);
  standing.manifestText = std::move(read.bytes);
  return result;
}

}  // namespace saggar::publishing
