#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "publishing/disk.h"
#include "publishing/problem.h"

// An output folder, written whole or not at all.
//
// The problem: a guide of many files must never be seen half old and half new, whether the build fails, is
// killed or fills the disk; and the author keeps files of his own in the folder. The choice: the new tree is
// made in a hidden folder beside the old one and the two are exchanged in one step. What the manifest does
// not name, and the parts that are not being made, get a second name (a hard link) in the new tree before
// that, so that bytes, times, modes and even an open editor's file stay what they were. No file that exists
// is ever opened for writing. A file whose bytes come out as they were keeps its place on the disk; if all
// do, nothing is touched. The cost: the folder around the output must be writable, the output must be no disk
// of its own, on a disk without hard links what is carried over is copied each time, and a shell that stands
// inside the folder stands in the old one afterwards.
namespace saggar::publishing {

struct TreeSettings {
  std::string folder;        // as the author wrote it, relative to `from`
  std::string from;          // where the author stands, absolute; empty: the process's current folder
  std::string guide;         // the guide's folder: never written over, nor a folder around it
  std::string tree = "out";  // "out" or "own": an output folder of one sort is never taken for the other
  std::string option = {};   // by which the author can name another; empty: "-o" of `out`, "--own" of `own`
  std::vector<std::string> parts;  // the parts that are being made; files of all others are carried over
  std::function<void(const std::string&)> onWait;  // told once, in words, if another run must be waited for
  Disk* disk = nullptr;  // for tests; outlives the publication, and is asked from several threads
};

struct MadeFile {
  std::string path;  // relative to the tree
  std::string sha256;
  std::uint64_t bytes = 0;
  bool made = false;  // in this run, not carried over
};

struct Committed {
  std::optional<Problem> problem;  // then the old tree stands as it was
  bool changed = false;            // false: the folder was not touched, it held just this
  std::vector<MadeFile> files;     // all that the manifest names, sorted by path
  std::vector<std::string>
      notices;  // sentences for the author: hand edits written over or carried, files kept
};

class Publication;

// A file that is handed over in pieces; at most a piece and 1 MiB are held in memory. Destroyed before
// finish(), it is as if it had never been begun. Must not outlive its publication, nor be open when that
// commits.
class FileInPieces {
 public:
  FileInPieces(FileInPieces&&) noexcept;
  FileInPieces& operator=(FileInPieces&&) = delete;
  ~FileInPieces();
  bool write(std::string_view bytes);             // false once anything has failed
  bool finish(std::vector<std::string> records);  // the records it was made from, in any order

 private:
  friend class Publication;
  struct State;
  explicit FileInPieces(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

// add, begin and the files in pieces may be used from several threads at once. After the first failure every
// call is idle and commit() tells it; problem() tells it earlier.
class Publication {
 public:
  struct Opened;
  // Waits for the lock, settles what a killed run left behind, and looks whether the folder may be written. A
  // folder is not made or changed before commit(); folders around it are made, and taken away again if
  // nothing comes of it.
  static Opened open(const TreeSettings& settings);

  // Abandons what was not committed: the old tree stays as it was, and nothing is left beside it.
  ~Publication();

  // `part` must be one of the settings' parts, and a path may be added once. The path must stay inside
  // (pathFault of manifest.h), and a folder or file of the author's must not stand in its way.
  bool add(std::string_view part, std::string path, std::string_view bytes, std::vector<std::string> records);
  FileInPieces begin(std::string_view part, std::string path);

  // The bytes of a file that will be carried over: the manifest names it, it belongs to no part that is being made, and
  // it can be read. For what links to it.
  std::optional<std::string> carriedOver(std::string_view path) const;

  std::optional<Problem> problem() const;

  // Once. The exchange happens only when every byte is on the disk.
  Committed commit();

 private:
  friend class FileInPieces;
  struct State;
  explicit Publication(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

struct Publication::Opened {
  std::unique_ptr<Publication> publication;  // or
  std::optional<Problem> problem;
};

// Whether the manifest of the folder, as it stands, names the file. False where there is no folder, or none of ours.
bool isPublished(const TreeSettings& settings, std::string_view path);

// The two trees of one run, whose folders must lie apart; each is exchanged for itself, by its own commit().
// Locked in an order that does not depend on which is which, so that no two runs wait for each other for
// ever.
struct OpenedPair {
  std::unique_ptr<Publication> out;
  std::unique_ptr<Publication> own;
  std::optional<Problem> problem;  // then both are empty
};
OpenedPair openPair(const TreeSettings& out, const TreeSettings& own);

}  // namespace saggar::publishing
