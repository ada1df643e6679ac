#pragma once
#include <cstddef>
#include <cstring>
#include <memory>
#include <new>
#include <span>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

namespace saggar::base {

// Memory that is given back all at once. What lives here must need no destructor; views into it stay valid as long
// as the arena does, wherever the arena object is moved.
class Arena {
 public:
  Arena() = default;
  Arena(Arena&&) = default;
  Arena& operator=(Arena&&) = default;

  void* allocate(std::size_t bytes, std::size_t alignment) {
    std::size_t start = (used_ + alignment - 1) & ~(alignment - 1);
    if (blocks_.empty() || start + bytes > size_) {
      size_ = bytes > kBlock ? bytes : kBlock;
      blocks_.push_back(std::make_unique_for_overwrite<std::byte[]>(size_));
      start = 0;
    }
    used_ = start + bytes;
    return blocks_.back().get() + start;
  }

  template <class T, class... Args>
  T* make(Args&&... args) {
    static_assert(std::is_trivially_destructible_v<T>);
    return new (allocate(sizeof(T), alignof(T))) T{std::forward<Args>(args)...};
  }

  template <class T>
  std::span<T> copy(const std::vector<T>& items) {
    static_assert(std::is_trivially_destructible_v<T>);
    if (items.empty()) return {};
    T* to = static_cast<T*>(allocate(sizeof(T) * items.size(), alignof(T)));
    for (std::size_t i = 0; i < items.size(); ++i) new (to + i) T(items[i]);
    return {to, items.size()};
  }

  std::string_view copy(std::string_view text) {
    if (text.empty()) return {};
    char* to = static_cast<char*>(allocate(text.size(), 1));
    std::memcpy(to, text.data(), text.size());
    return {to, text.size()};
  }

  // Forgets everything but keeps one block for reuse.
  void clear() {
    if (blocks_.size() > 1) blocks_.resize(1);
    if (!blocks_.empty() && size_ != kBlock) blocks_.clear();
    used_ = 0;
    size_ = blocks_.empty() ? 0 : kBlock;
  }

 private:
  static constexpr std::size_t kBlock = 64 * 1024;
  std::vector<std::unique_ptr<std::byte[]>> blocks_;
  std::size_t used_ = 0;
  std::size_t size_ = 0;
};

}  // namespace saggar::base
