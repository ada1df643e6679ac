#pragma once
#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace saggar::choosing {

// Runs `work(begin, end, share)` for equal shares of `count` things, on as many threads as there is work for. Shares
// are numbered in order, so that what they make can be put together in order.
template <class Work>
void inShares(std::size_t count, std::size_t shareSize, Work work) {
  const std::size_t shares = (count + shareSize - 1) / shareSize;
  std::atomic<std::size_t> next{0};
  auto take = [&] {
    for (std::size_t share = next++; share < shares; share = next++)
      work(share * shareSize, std::min(count, (share + 1) * shareSize), share);
  };
  const std::size_t threads = std::clamp<std::size_t>(
      std::min<std::size_t>(std::max(1U, std::thread::hardware_concurrency()), shares), 1, 16);
  std::vector<std::thread> others;
  for (std::size_t i = 1; i < threads; ++i) others.emplace_back(take);
  take();
  for (std::thread& one : others) one.join();
}

constexpr std::size_t sharesOf(std::size_t count, std::size_t shareSize) {
  return (count + shareSize - 1) / shareSize;
}

}  // namespace saggar::choosing
