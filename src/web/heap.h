#pragma once
// How a server that runs for hours asks the system for memory.

namespace ohmstead::web {

/// What GLIBC_TUNABLES has to say when the program starts, for later it cannot be told (glibc): no thread keeps for itself what was let
/// go of. Else what an answer needed for a moment and what stays of it lie mixed, and memory grows by some KiB with each.
inline constexpr const char* kHeapAtStart = "glibc.malloc.tcache_count=0";

/// To be called before any thread is started. All threads take memory from one heap, and large pieces go back to the system at once.
/// Else each thread has a heap of its own (glibc), and every one of them grows to what the largest answer needs, and keeps it.
/// Where the C library is another one, nothing is done. Programs that are started from this one have the usual heap again.
void share_one_heap();

}  // namespace ohmstead::web
