#pragma once

#include <list>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "bench/bent_axle.hpp"
#include "draw/pick.hpp"
#include "draw/renderer.hpp"
#include "shape/mesher.hpp"
#include "shape/part.hpp"

namespace podwright {

struct PixelBox;

/// How the assembly is to be looked at.
struct StageLook {
    Pose pose;
    std::optional<Cut> cut;
    bool dark = false;    ///< a dark surround
    std::string hovered;  ///< key of a part
    std::string picked;
    std::vector<std::string> alarmed;  ///< keys of the parts that a chosen finding concerns
    std::optional<std::pair<glm::dvec3, glm::dvec3>>
        ground;  ///< point, normal; instead of today\'s
    std::map<std::string, glm::vec3>
        paint;                             ///< key of a part -> colour in place of its look (sRGB)
    std::vector<std::string> hidden;       ///< keys of parts that are left out
    std::vector<std::string> see_through;  ///< keys of parts that would hide what is looked at
    std::vector<std::string> whole;        ///< keys of parts that the cut leaves whole
    BentShape bend;                        ///< of the axle as it is to be shown; empty: straight
    bool ghost = false;                    ///< shown where it differs, while no part is hidden
};

struct PartHit {
    std::string part;  ///< key
    glm::dvec3 point{0};
};

/// Points of parts that can be seen, pod axes, by key. A part that cannot be seen has none.
using SeenPoints = std::map<std::string, glm::dvec3>;

/// A solid and its mesh for display.
struct Meshed {
    Solid solid;
    Mesh mesh;
};
/// Meshes of all solids of an assembly, each once. Needs no OpenGL, so that another thread can make
/// them.
std::list<Meshed> meshed(const Assembly& assembly, const MeshLibrary& library,
                         double chord_error = default_chord_error);

/// Holds the meshes of an assembly on the graphics card. A solid is meshed and uploaded once,
/// however many parts show it and wherever they move; solids that are no longer used are dropped.
class Stage {
public:
    /// Needs a current OpenGL context. Throws DrawError.
    explicit Stage(MeshLibrary library, double chord_error = default_chord_error);

    /// Takes meshes that were made ahead, of the same chord error; set() uses those that it needs.
    void take(std::list<Meshed> ahead) { ahead_ = std::move(ahead); }
    /// Puts the assembly on the stage; the functions below speak of it. Of `ghost` what stands
    /// elsewhere or is of another shape can be shown as a ghost.
    void set(const Assembly& assembly, const Assembly* ghost = nullptr);
    /// Bends the axle's mesh; to be called before scene() whenever `look.bend` has changed, and
    /// after set().
    void bend(const StageLook& look);
    Scene scene(const StageLook& look) const;
    std::optional<PartHit> pick(const StageLook& look, const Ray& ray) const;
    /// For each part that can be seen in that picture, outside `taken`, a point where it is; of
    /// those that are see-through as well. A point stays where it was `before`, relative to where
    /// its part stands, while it can be seen; this is brought up to date. `cell` in pixels: of what
    /// is smaller some is missed.
    SeenPoints seen(const StageLook& look, const Camera& camera, const PixelBox& frame, float cell,
                    std::span<const PixelBox> taken, SeenPoints& before) const;
    /// Centre and radius of a sphere about the parts with these keys, as they stand.
    std::pair<glm::dvec3, double> sphere_about(const StageLook& look,
                                               const std::vector<std::string>& keys) const;
    /// Boxes in pod axes about the bodies that stand in the way of the eye, as they stand and as
    /// the cut leaves them, but with the axle not turned and without the blade.
    std::vector<Bounds> boxes(const StageLook& look) const;
    Renderer& renderer() { return renderer_; }
    std::size_t triangle_count() const;

private:
    struct Entry {
        Solid solid;
        Mesh mesh;
        MeshId id = 0;
        Bounds box;
        std::size_t used = 0;  ///< number of the set() that last showed it
    };
    /// Meshes of an assembly's bodies: per part, per body.
    using Shapes = std::vector<std::vector<const Entry*>>;
    const Entry& entry_for(const Solid& solid);
    Mesh mesh_for(const Solid& solid);
    Shapes shapes_of(const Assembly& assembly);
    void set_hatches();
    /// About part `i` where the pose has it.
    Bounds box_of(std::size_t i, const Pose& pose) const;
    static bool shown(const Part& part, const StageLook& look);
    /// A body of the assembly as it is to be drawn: its mesh and where it goes.
    Item body_item(const StageLook& look, std::size_t part, std::size_t body) const;
    /// Shafts, screws, balls and the blade stay whole in a section, as section drawings leave them,
    /// and what the user wants whole.
    static bool is_cut(const Part& part, const Body& body, const StageLook& look);
    /// A small body that the cut leaves whole and that lies in what it takes away.
    bool is_cut_away(const StageLook& look, std::size_t part, std::size_t body) const;
    void add_ghosts(Scene& scene, const StageLook& look) const;
    void add_guides(Scene& scene, const StageLook& look) const;

    MeshLibrary library_;
    double chord_error_;
    Renderer renderer_;
    Assembly assembly_;
    std::list<Entry> entries_;
    std::list<Meshed> ahead_;
    Shapes bodies_;
    std::vector<MeshId> bent_;  ///< of the axle's bodies, in pod axes
    Assembly ghost_;
    Shapes ghost_bodies_;
    std::map<int, MeshId> chain_lines_;  ///< by their number of dashes
    std::vector<MeshId> guide_meshes_;   ///< in the order of guides()
    std::vector<int> hatches_;           ///< per part
    std::size_t turn_ = 0;
};

}  // namespace podwright
