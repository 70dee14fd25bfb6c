#include "main/large_pages.hpp"

#include <cstdlib>

#ifdef __GLIBC__
#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstddef>
#include <cstdint>
#endif

namespace podwright {

#ifdef __GLIBC__
void ask_for_large_pages() {
    constexpr int mebibyte = 1 << 20;
    constexpr int heap = 192 * mebibyte;  // what a picture of 1280x720 takes, and some
    // Framebuffers come from the heap too, and what is given back stays for the next frame.
    mallopt(M_MMAP_THRESHOLD, 32 * mebibyte);
    mallopt(M_TRIM_THRESHOLD, heap);
    mallopt(M_TOP_PAD, heap);
    auto* start = static_cast<char*>(sbrk(0));
    void* volatile grow = std::malloc(mebibyte);
    std::free(grow);
    const auto* end = static_cast<const char*>(sbrk(0));
    const auto page = static_cast<std::uintptr_t>(sysconf(_SC_PAGESIZE));
    start += -reinterpret_cast<std::uintptr_t>(start) & (page - 1);
    if (end > start)
        static_cast<void>(madvise(start, static_cast<std::size_t>(end - start), MADV_HUGEPAGE));
}
#else
void ask_for_large_pages() {}
#endif

}  // namespace podwright
