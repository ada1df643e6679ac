#pragma once
#include <deque>
#include <string>
#include <string_view>
#include <unordered_map>

#include "dates/expression.h"

namespace saggar::reading {

// A guide says the same few dates a hundred thousand times: each text is read once and kept. One pool a thread; the
// expressions live as long as the pool and never move. Texts are views into the source, which must live as long.
class DatePool {
 public:
  struct Entry {
    const dates::Expression* expression = nullptr;  // null: unreadable
    std::string message;    // then, what was seen; of a date read, that it can mean another
    std::string hint;       // and what to type
    std::size_t at = 0;     // byte offset in the text
    std::size_t bytes = 0;  // of a date that can mean another
  };
  const Entry& read(std::string_view text);

 private:
  std::deque<dates::Expression> expressions_;
  std::unordered_map<std::string_view, Entry> byText_;
};

}  // namespace saggar::reading
