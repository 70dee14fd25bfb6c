#pragma once

#include "choose/choose.hpp"

namespace podwright {

/// For a setup of which no build fits: which single limits are to blame, and the smallest addition
/// to the box (one part, or two alike) with which something fits. Of each addition the best few
/// builds are measured; if all of them come too close somewhere it does not count. Where the search
/// itself gave up (`in_vain`) no addition is looked for: that would be as much in vain.
Blame find_blame(const Setup& setup, const ChooseOptions& options, bool in_vain = false);

}  // namespace podwright
