#pragma once
#include <compare>
#include <cstdint>
#include <string_view>

namespace saggar::records {

// A std::string_view in twelve bytes instead of sixteen, for what a guide holds a million times. Texts are at most
// 4 GB. Converts to a view by itself; is made from one only where that is said.
class CompactText {
 public:
  constexpr CompactText() = default;
  explicit CompactText(std::string_view text) { *this = text; }
  CompactText& operator=(std::string_view text) {
    const auto address = reinterpret_cast<std::uintptr_t>(text.data());
    low_ = static_cast<std::uint32_t>(address);
    high_ = static_cast<std::uint32_t>(address >> 32);
    size_ = static_cast<std::uint32_t>(text.size());
    return *this;
  }

  std::string_view view() const { return {data(), size_}; }
  operator std::string_view() const { return view(); }
  const char* data() const {
    static_assert(sizeof(std::uintptr_t) == 8);
    return reinterpret_cast<const char*>(static_cast<std::uintptr_t>(high_) << 32 | low_);
  }
  std::size_t size() const { return size_; }
  bool empty() const { return size_ == 0; }
  const char* begin() const { return data(); }
  const char* end() const { return data() + size_; }
  char operator[](std::size_t at) const { return data()[at]; }
  char front() const { return data()[0]; }
  char back() const { return data()[size_ - 1]; }
  std::string_view substr(std::size_t at, std::size_t count = std::string_view::npos) const {
    return view().substr(at, count);
  }
  template <class What>
  std::size_t find(const What& what, std::size_t from = 0) const {
    return view().find(what, from);
  }
  template <class What>
  std::size_t rfind(const What& what) const {
    return view().rfind(what);
  }
  bool starts_with(std::string_view with) const { return view().starts_with(with); }
  bool starts_with(char with) const { return view().starts_with(with); }
  bool ends_with(std::string_view with) const { return view().ends_with(with); }
  bool ends_with(char with) const { return view().ends_with(with); }

  friend bool operator==(const CompactText& a, const CompactText& b) { return a.view() == b.view(); }
  friend auto operator<=>(const CompactText& a, const CompactText& b) { return a.view() <=> b.view(); }
  friend bool operator==(const CompactText& a, std::string_view b) { return a.view() == b; }
  friend auto operator<=>(const CompactText& a, std::string_view b) { return a.view() <=> b; }

 private:
  std::uint32_t low_ = 0;  // the address in two halves, so that nothing need stand on a multiple of eight
  std::uint32_t high_ = 0;
  std::uint32_t size_ = 0;
};
static_assert(sizeof(CompactText) == 12);

}  // namespace saggar::records
