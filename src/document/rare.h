#pragma once
#include <memory>
#include <utility>

// The problem: a tree of a few million nodes, of which one in ten leads anywhere and one in thousands is a table; room
// for both in every node is most of the tree. The choice: what few nodes have stands apart, behind one pointer, and is
// otherwise a value like any other: copied with its owner, empty until it is given. The cost: whoever writes into it
// says so, with make().
namespace saggar::document {

template <class T>
class Rare {
 public:
  Rare() = default;
  Rare(T value) : value_(std::make_unique<T>(std::move(value))) {}
  Rare(const Rare& other) : value_(other.value_ ? std::make_unique<T>(*other.value_) : nullptr) {}
  Rare(Rare&&) noexcept = default;
  Rare& operator=(const Rare& other) { return *this = Rare(other); }
  Rare& operator=(Rare&&) noexcept = default;
  ~Rare() = default;

  // To read: an empty T where there is none.
  const T& operator*() const { return value_ ? *value_ : none(); }
  const T* operator->() const { return &**this; }
  operator const T&() const { return **this; }

  // To write: from now on there is one.
  T& make() {
    if (!value_) value_ = std::make_unique<T>();
    return *value_;
  }
  // To change what is there; null where there is none.
  T* given() { return value_.get(); }
  void clear() { value_.reset(); }

 private:
  static const T& none() {
    static const T kNone;
    return kNone;
  }
  std::unique_ptr<T> value_;
};

}  // namespace saggar::document
