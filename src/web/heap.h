#pragma once
// How a server that runs for hours asks the system for memory.

namespace ohmstead::web {

/// To be called before any thread is started. All threads take memory from one heap, and large pieces go back to the system at once.
/// Else each thread has a heap of its own (glibc), and every one of them grows to what the largest answer needs, and keeps it.
/// Where the C library is another one, nothing is done.
void share_one_heap();

}  // namespace ohmstead::web
