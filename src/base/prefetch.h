#pragma once

namespace saggar {

// Asks the processor to have the memory at hand soon. A hint alone: of any address, and never wrong. A function that does
// nothing else must be always_inline as well, or g++ takes it to do nothing at all and drops the calls.
[[gnu::always_inline]] inline void prefetch(const void* memory) {
  __builtin_prefetch(memory);
}

}  // namespace saggar
