#pragma once
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// "Did you mean": the nearest of a few names to one that was mistyped.
namespace saggar::base {

// Edits of one letter that turn `a` into `b`: insert, drop, change, exchange two neighbours (optimal string
// alignment). Gives `limit + 1` as soon as the answer is known to exceed `limit`. Bytes, not code points.
std::size_t editDistance(std::string_view a, std::string_view b, std::size_t limit);

// How many edits are still "near" for a word of that length: 1 up to four letters, 2 up to nine, then 3.
std::size_t nearLimit(std::size_t length);

// The nearest candidate within nearLimit, whatever the case of its letters; nullopt if none is near. Ties: the one that shares the longer beginning,
// then the one of nearer length, then the first of the list.
std::optional<std::string_view> nearest(std::string_view word, std::span<const std::string_view> candidates);

}  // namespace saggar::base
