#pragma once

namespace podwright {

/// What a surface is made of, for the eye.
enum class Look {
    bright_steel,
    dark_steel,
    aluminium,
    anodised,
    brass,
    copper,
    black_plastic,
    white_plastic,
    carbon,
    foam,
    rubber
};

}  // namespace podwright
