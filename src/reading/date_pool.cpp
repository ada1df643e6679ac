#include "reading/date_pool.h"

#include "dates/parse.h"

namespace saggar::reading {

const DatePool::Entry& DatePool::read(std::string_view text) {
  const auto [slot, fresh] = byText_.try_emplace(text);
  if (!fresh) return slot->second;
  dates::Result result = dates::parse(text);
  if (result) {
    expressions_.push_back(*result);
    slot->second.expression = &expressions_.back();
  } else {
    const dates::Error& error = result.error();
    slot->second.message = error.message;
    slot->second.hint = error.hint;
    slot->second.at = error.byte;
  }
  return slot->second;
}

}  // namespace saggar::reading
