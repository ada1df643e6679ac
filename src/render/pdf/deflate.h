#pragma once
#include <condition_variable>
#include <deque>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

// Pages are compressed while the next ones are being set.
namespace saggar::render {

// The zlib form of the bytes (RFC 1950), at a quick level. Same bytes in, same bytes out.
std::string deflated(std::string_view bytes);

class Deflater {
 public:
  Deflater();
  ~Deflater();
  Deflater(const Deflater&) = delete;
  Deflater& operator=(const Deflater&) = delete;

  // Hands the bytes over; results come back from finish() in the same order.
  void add(std::string bytes);
  // Waits for all. Throws std::bad_alloc if memory ran out on the way. To be called once.
  std::vector<std::string> finish();

 private:
  void work();

  std::mutex lock_;
  std::condition_variable changed_;
  std::deque<std::string> waiting_;
  bool closed_ = false;
  bool failed_ = false;
  std::vector<std::string> done_;  // the worker's alone until it has ended
  std::thread worker_;
};

}  // namespace saggar::render
