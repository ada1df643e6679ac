#include "reading/date_pool.h"

#include "dates/parse.h"
#include "dates/two_ways.h"

namespace saggar::reading {

const DatePool::Entry& DatePool::read(std::string_view text) {
  const auto [slot, fresh] = byText_.try_emplace(text);
  if (!fresh) return slot->second;
  dates::Result result = dates::parse(text);
  if (result) {
    expressions_.push_back(*result);
    slot->second.expression = &expressions_.back();
    if (auto two = dates::meantInTwoWays(text)) {
      slot->second.message = std::move(two->message);
      slot->second.hint = std::move(two->hint);
      slot->second.at = two->byte;
      slot->second.bytes = two->bytes;
    }
  } else {
    const dates::Error& error = result.error();
    slot->second.message = error.message;
    slot->second.hint = error.hint;
    slot->second.at = error.byte;
  }
  return slot->second;
}

}  // namespace saggar::reading
