#pragma once
#include "invented.h"

// Invented guides that are one long row each, whose days follow from one another all the way. No facts in them clash.
namespace bench {

// Decorations in one series of numbers, each introduced by a day that is earlier than that of the number before it: the
// last number binds them all.
std::vector<TextFile> fallingNumbers(unsigned count);

// Decorations each introduced after the one before it; only the first and the last are dated.
std::vector<TextFile> oneAfterAnother(unsigned count);

}  // namespace bench
