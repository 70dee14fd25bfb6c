#pragma once

namespace podwright {

/// Asks the system for a heap in large pages, to be called first of all. A software renderer and
/// its compiler touch some 150 MB once each, and the thousands of page faults that this takes in
/// small pages are a third of a picture's time (podwright_draw_benchmark). Costs address space, and
/// memory only as it is used. Where the C library or the system has no such thing it does nothing.
void ask_for_large_pages();

}  // namespace podwright
