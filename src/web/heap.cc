#include "web/heap.h"

#include <cstdlib>  // says which C library it is, too
#include <cstring>

#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace ohmstead::web {

void share_one_heap() {
#ifdef __GLIBC__
  constexpr int kLarge = 128 * 1024;  // as glibc begins; once set, it does not rise with what was asked for
  mallopt(M_ARENA_MAX, 1);
  mallopt(M_MXFAST, 0);  // small pieces are joined at once, too
  mallopt(M_MMAP_THRESHOLD, kLarge);
  mallopt(M_TRIM_THRESHOLD, kLarge);
  const char* const at_start = std::getenv("GLIBC_TUNABLES");
  if (at_start != nullptr && std::strcmp(at_start, kHeapAtStart) == 0) unsetenv("GLIBC_TUNABLES");
#endif
}

}  // namespace ohmstead::web
