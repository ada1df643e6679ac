#include "publishing/tree.h"

#include <unistd.h>

#include <algorithm>
#include <cassert>
#include <cerrno>
#include <climits>

#include "publishing/hash.h"
#include "publishing/tree_state.h"
#include "source/files.h"

namespace saggar::publishing {
namespace {
constexpr std::size_t kHeld = std::size_t{1} << 20;

// The folder the author stands in, or empty if it is gone.
std::string standingIn(const TreeSettings& settings) {
  if (!settings.from.empty()) return settings.from;
  char path[PATH_MAX];
  return getcwd(path, sizeof path) == nullptr ? std::string() : path;
}

Placing placeFor(const TreeSettings& settings) {
  const std::string from = standingIn(settings);
  if (from.empty()) {
    Placing result;
    result.problem =
        Problem{"the folder you stand in is gone", "go to a folder that is there and run it again"};
    return result;
  }
  const std::string option = !settings.option.empty() ? settings.option
                             : settings.tree == "own" ? "--own"
                                                      : "-o";
  return placeOf(settings.folder, option, from, settings.guide);
}
}  // namespace

bool Publication::State::failed() const {
  const std::lock_guard guard(lock);
  return problem.has_value();
}

void Publication::State::fail(Problem found) {
  const std::lock_guard guard(lock);
  if (!problem) problem = std::move(found);
}

bool Publication::State::makesPart(std::string_view part) const {
  return std::find(settings.parts.begin(), settings.parts.end(), part) != settings.parts.end();
}

Entry* Publication::State::claim(std::string_view part, const std::string& path) {
  assert(makesPart(part) && "a part that was not announced");
  assert(!committed);
  std::optional<Problem> found;
  if (const std::string fault = pathFault(path); !fault.empty())
    found =
        Problem{"cannot write " + shown(path) + ": " + fault, "give the record it is made from another id"};
  const std::lock_guard guard(lock);
  if (!found && entries.find(path) != entries.end())
    found = Problem{"two things are to be written to " + shown(path), "give one of their records another id"};
  if (!found) {
    const auto under = entries.lower_bound(path + '/');
    bool clash = under != entries.end() && under->first.starts_with(path + '/');
    for (std::size_t slash = path.find('/'); slash != std::string::npos; slash = path.find('/', slash + 1))
      clash = clash || entries.find(std::string_view(path).substr(0, slash)) != entries.end();
    if (clash)
      found = Problem{shown(path) + " is to be written, but one name on its path is both a file and a folder",
                      "give one of their records another id"};
  }
  if (found && !problem) problem = std::move(found);
  if (problem) return nullptr;
  Entry& entry = entries[path];
  entry.file.part = part;
  entry.made = true;
  return &entry;
}

void Publication::State::forget(const std::string& path) {
  const std::lock_guard guard(lock);
  entries.erase(path);
}

bool Publication::State::beginTree() {
  const std::lock_guard guard(lock);
  if (!begun && !problem) problem = workplace->beginNew();
  begun = true;
  return !problem;
}

bool Publication::State::createFresh(const std::string& path, NewFile& file) {
  if (!beginTree()) return false;
  const std::string full = newPath(path);
  int error = disk->makeFolders(full.substr(0, full.rfind('/')));
  if (error == 0) error = file.create(full);
  if (error != 0) fail(diskProblem("cannot write " + shown(path), error, place.option));
  return error == 0;
}

bool Publication::State::removeFresh(const std::string& path) {
  const int error = disk->removeFile(newPath(path));
  if (error != 0) fail(diskProblem("cannot take back " + shown(path), error, place.option));
  return error == 0;
}

bool Publication::State::settleFile(const std::string& path, Entry& entry, std::unique_ptr<NewFile> file,
                                    std::string_view pending) {
  if (standing.manifest) {
    const auto before = standing.manifest->files.find(path);
    if (before != standing.manifest->files.end() && before->second.bytes == entry.file.bytes) {
      const FileDigest digest = digestOfFile(oldPath(path));
      if (digest.error == 0 && digest.sha256 == entry.file.sha256) {
        entry.inode = digest.inode;
        if (file) {
          file.reset();
          return removeFresh(path);
        }
        return true;
      }
    }
  }
  entry.fresh = true;
  if (!file) {
    file = std::make_unique<NewFile>(*disk);
    if (!createFresh(path, *file)) return false;
  }
  int error = file->write(pending);
  if (const int closed = file->close(); error == 0) error = closed;
  if (error != 0) fail(diskProblem("cannot write " + shown(path), error, place.option));
  return error == 0;
}

struct FileInPieces::State {
  Publication::State* publication = nullptr;
  std::string path;
  Entry* entry = nullptr;  // none after a failure
  Sha256 hash;
  std::string held;
  std::unique_ptr<NewFile> file;
  bool finished = false;
};

FileInPieces::FileInPieces(std::unique_ptr<State> state) : state_(std::move(state)) {}
FileInPieces::FileInPieces(FileInPieces&&) noexcept = default;

FileInPieces::~FileInPieces() {
  if (!state_ || state_->finished || state_->entry == nullptr) return;
  if (state_->file) {
    state_->file.reset();
    state_->publication->removeFresh(state_->path);
  }
  state_->publication->forget(state_->path);
}

bool FileInPieces::write(std::string_view bytes) {
  State& my = *state_;
  if (my.entry == nullptr || my.publication->failed()) return false;
  my.hash.update(bytes);
  my.entry->file.bytes += bytes.size();
  if (!my.file && my.held.size() + bytes.size() <= kHeld) {
    my.held += bytes;
    return true;
  }
  if (!my.file) {
    my.file = std::make_unique<NewFile>(*my.publication->disk);
    if (!my.publication->createFresh(my.path, *my.file)) return false;
  }
  int error = my.file->write(my.held);
  my.held.clear();
  if (error == 0) error = my.file->write(bytes);
  if (error != 0)
    my.publication->fail(
        diskProblem("cannot write " + my.publication->shown(my.path), error, my.publication->place.option));
  return error == 0;
}

bool FileInPieces::finish(std::vector<std::string> records) {
  State& my = *state_;
  if (my.entry == nullptr || my.publication->failed()) return false;
  std::sort(records.begin(), records.end());
  records.erase(std::unique(records.begin(), records.end()), records.end());
  my.entry->file.records = std::move(records);
  my.entry->file.sha256 = my.hash.hex();
  my.finished = true;
  my.entry->finished = my.publication->settleFile(my.path, *my.entry, std::move(my.file), my.held);
  return my.entry->finished;
}

Publication::Publication(std::unique_ptr<State> state) : state_(std::move(state)) {}
Publication::~Publication() = default;

Publication::Opened Publication::open(const TreeSettings& settings) {
  Opened result;
  auto state = std::make_unique<State>();
  state->settings = settings;
  if (settings.disk == nullptr) state->ownDisk = std::make_unique<Disk>();
  state->disk = settings.disk != nullptr ? settings.disk : state->ownDisk.get();
  Placing placing = placeFor(settings);
  if (placing.problem) {
    result.problem = std::move(placing.problem);
    return result;
  }
  state->place = std::move(placing.place);
  // Before the lock a refusal leaves no trace at all; but another run may be between two of its steps, or
  // have been killed there, and then only the look under the lock counts.
  Inspection inspection = inspect(state->place, settings.tree);
  struct stat info;
  if (inspection.problem && statusOf(state->place.work, info) != 0) {
    result.problem = std::move(inspection.problem);
    return result;
  }
  state->workplace = std::make_unique<Workplace>(*state->disk, state->place);
  result.problem = state->workplace->lock(settings.onWait);
  if (!result.problem) result.problem = state->workplace->settle(state->notices);
  if (result.problem) return result;
  inspection = inspect(state->place, settings.tree);
  result.problem = std::move(inspection.problem);
  if (result.problem) return result;
  state->standing = std::move(inspection.standing);
  result.publication.reset(new Publication(std::move(state)));
  return result;
}

bool Publication::add(std::string_view part, std::string path, std::string_view bytes,
                      std::vector<std::string> records) {
  FileInPieces file = begin(part, std::move(path));
  FileInPieces::State& my = *file.state_;
  if (my.entry == nullptr) return false;
  std::sort(records.begin(), records.end());
  records.erase(std::unique(records.begin(), records.end()), records.end());
  my.entry->file.records = std::move(records);
  my.entry->file.bytes = bytes.size();
  my.hash.update(bytes);
  my.entry->file.sha256 = my.hash.hex();
  my.finished = true;
  my.entry->finished = state_->settleFile(my.path, *my.entry, nullptr, bytes);
  return my.entry->finished;
}

FileInPieces Publication::begin(std::string_view part, std::string path) {
  auto file = std::make_unique<FileInPieces::State>();
  file->publication = state_.get();
  file->entry = state_->claim(part, path);
  file->path = std::move(path);
  return FileInPieces(std::move(file));
}

std::optional<std::string> Publication::carriedOver(std::string_view path) const {
  const Standing& standing = state_->standing;
  if (!standing.manifest) return std::nullopt;
  const auto file = standing.manifest->files.find(path);
  if (file == standing.manifest->files.end() || state_->makesPart(file->second.part)) return std::nullopt;
  source::ReadResult read = source::DiskFiles().read(state_->oldPath(path));
  if (!read.ok()) return std::nullopt;
  return std::move(read.bytes);
}

bool isPublished(const TreeSettings& settings, std::string_view path) {
  const Placing placing = placeFor(settings);
  if (placing.problem) return false;
  const Inspection inspection = inspect(placing.place, settings.tree);
  return !inspection.problem && inspection.standing.manifest && inspection.standing.manifest->names(path);
}

std::optional<Problem> Publication::problem() const {
  const std::lock_guard guard(state_->lock);
  return state_->problem;
}

OpenedPair openPair(const TreeSettings& out, const TreeSettings& own) {
  OpenedPair result;
  const Placing outPlace = placeFor(out);
  const Placing ownPlace = placeFor(own);
  result.problem = outPlace.problem ? outPlace.problem : ownPlace.problem;
  if (!result.problem) result.problem = foldersApart(outPlace.place, ownPlace.place);
  if (result.problem) return result;
  const bool outFirst = outPlace.place.path < ownPlace.place.path;
  auto first = Publication::open(outFirst ? out : own);
  result.problem = std::move(first.problem);
  if (result.problem) return result;
  auto second = Publication::open(outFirst ? own : out);
  result.problem = std::move(second.problem);
  if (result.problem) return result;
  result.out = std::move(outFirst ? first.publication : second.publication);
  result.own = std::move(outFirst ? second.publication : first.publication);
  return result;
}

}  // namespace saggar::publishing
