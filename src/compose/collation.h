#pragma once
#include <memory>
#include <string>
#include <string_view>

// The order of names in lists and in the index.
//
// Word by word ("New Deal" before "newborn"), numbers by value, and what stands before a comma or bracket first:
// "New, Arthur", "New Deal", "newborn". Sources: NISO TR03-1999 (order of signs; "nothing before something"); The Chicago
// Manual of Style, 18th ed., 15.66 and 15.69 (word by word; a comma or opening bracket interrupts).
namespace saggar::compose {

class Collation {
 public:
  explicit Collation(std::string_view language);
  ~Collation();
  Collation(Collation&&) noexcept;

  // Keys that compare as bytes. Leading quotation marks and English articles are passed over.
  std::string key(std::string_view heading) const;

  // The letter under which a heading stands: "A" to "Z" for headings that begin with a Latin letter, with or without
  // marks on it; else its own first letter; "0-9" for figures and "#" for signs.
  std::string letter(std::string_view heading) const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace saggar::compose
