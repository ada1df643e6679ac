#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "publishing/disk.h"
#include "publishing/place.h"

// The hidden folder beside an output folder in which a run builds. It exists only while a run lasts, or after
// one that was killed:
//   lock   held with flock for as long as the process lives, so that the kernel gives it back whatever
//   happens new    the tree being built; once exchanged, the old one on its way out old    the old tree,
//   where a disk cannot exchange two names at once which  the inode of the tree that was built as `new`: the
//   exchange and the note of it need not be one step,
//          because the folder's own identity says on which side of it a killed run stood
namespace saggar::publishing {

class Workplace {
 public:
  Workplace(Disk& disk, Place place) : disk_(disk), place_(std::move(place)) {}
  Workplace(const Workplace&) = delete;
  Workplace& operator=(const Workplace&) = delete;
  ~Workplace();  // clears what can be cleared, and gives the lock back

  // Waits while another run holds the lock; `onWait` is told once, in words, before the wait.
  std::optional<Problem> lock(const std::function<void(const std::string&)>& onWait);

  // Under the lock, before anything else: finishes or clears what a killed run left behind. Notices are added
  // for what a person should know.
  std::optional<Problem> settle(std::vector<std::string>& notices);

  // Makes the empty `new` and notes its identity.
  std::optional<Problem> beginNew();

  // Puts the finished `new` in the folder's place, in one step where the disk can do it. On failure the old
  // tree stands.
  std::optional<Problem> exchange(bool exists);

  // After the exchange: takes the old tree away, moving over what somebody put into it since it was looked
  // at.
  void clearOld(std::vector<std::string>& notices);

  std::string newTree() const { return place_.work + "/new"; }
  const Place& place() const { return place_; }

 private:
  std::string oldTree() const { return place_.work + "/old"; }
  std::string note() const { return place_.work + "/which"; }
  std::string lockFile() const { return place_.work + "/lock"; }
  std::uint64_t notedInode() const;
  int clear(const std::string& tree, std::vector<std::string>& notices);

  Disk& disk_;
  Place place_;
  int lock_ = -1;
  bool building_ = false;  // `new` is ours to remove if nothing comes of it
  std::vector<std::string> madeParents_;
};

}  // namespace saggar::publishing
