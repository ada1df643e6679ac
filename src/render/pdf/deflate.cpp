#include "render/pdf/deflate.h"

#include <libdeflate.h>

#include <memory>
#include <new>
#include <utility>

namespace saggar::render {
namespace {

constexpr int kLevel = 3;  // four times as quick as zlib's usual level, for a tenth more bytes

struct Free {
  void operator()(libdeflate_compressor* one) const { libdeflate_free_compressor(one); }
};
using Compressor = std::unique_ptr<libdeflate_compressor, Free>;

Compressor newCompressor() {
  Compressor made(libdeflate_alloc_compressor(kLevel));
  if (!made) throw std::bad_alloc();
  return made;
}

std::string deflatedWith(libdeflate_compressor* compressor, std::string_view bytes) {
  std::string out;
  out.resize(libdeflate_zlib_compress_bound(compressor, bytes.size()));
  out.resize(libdeflate_zlib_compress(compressor, bytes.data(), bytes.size(), out.data(), out.size()));
  out.shrink_to_fit();
  return out;
}

}  // namespace

std::string deflated(std::string_view bytes) {
  return deflatedWith(newCompressor().get(), bytes);
}

Deflater::Deflater() : worker_([this] { work(); }) {}

Deflater::~Deflater() {
  {
    const std::lock_guard guard(lock_);
    closed_ = true;
    waiting_.clear();
  }
  changed_.notify_one();
  if (worker_.joinable()) worker_.join();
}

void Deflater::add(std::string bytes) {
  {
    const std::lock_guard guard(lock_);
    waiting_.push_back(std::move(bytes));
  }
  changed_.notify_one();
}

std::vector<std::string> Deflater::finish() {
  {
    const std::lock_guard guard(lock_);
    closed_ = true;
  }
  changed_.notify_one();
  worker_.join();
  if (failed_) throw std::bad_alloc();
  return std::move(done_);
}

void Deflater::work() {
  try {
    const Compressor compressor = newCompressor();
    for (;;) {
      std::string bytes;
      {
        std::unique_lock guard(lock_);
        changed_.wait(guard, [this] { return closed_ || !waiting_.empty(); });
        if (waiting_.empty()) return;
        bytes = std::move(waiting_.front());
        waiting_.pop_front();
      }
      done_.push_back(deflatedWith(compressor.get(), bytes));
    }
  } catch (const std::bad_alloc&) {
    failed_ = true;
  }
}

}  // namespace saggar::render
