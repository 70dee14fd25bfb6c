#pragma once

#include <string_view>
#include <vector>

#include "shape/mesh.hpp"

// The small parts that are the same in every assembly. Generic and self-made; sizes of screws are
// round numbers near ISO 4762 (from memory), not any maker's.
namespace podwright {

/// Hexagon-socket cap screw: shank 3 mm, 6 mm long, from x = -6 to its head's underside at x = 0;
/// head 5.5 mm across, to x = 3.
Mesh cap_screw_mesh();

/// Headless set screw, 3 mm, from x = -3 to its socket end at x = 0.
Mesh set_screw_mesh();

/// End bell of a small motor: 35.8 mm outside, open face at x = 0, back at x = -9, with two brush
/// towers and vents.
Mesh end_bell_mesh();

/// One-piece wheel hub, turned: thrust face at x = 0, wheel face at x = 28, for an axle of 6.35 mm.
Mesh own_hub_mesh();

struct NamedMesh {
    std::string_view name;  ///< as an Imported solid names it; the file is name.glb
    Mesh mesh;
};

/// All that Imported solids name.
std::vector<NamedMesh> asset_meshes();

/// Those that stand beside demo scenes, as a user's own would.
std::vector<NamedMesh> scene_meshes();

}  // namespace podwright
