#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/reading.hpp"
#include "core/setup.hpp"
#include "core/stance.hpp"
#include "gap/distance.hpp"
#include "gap/sweep.hpp"
#include "shape/part.hpp"

// How far the parts of an assembly are from each other, as they stand and at the worst of
// everything that can happen to them.
namespace podwright {

/// One measured distance. Lengths in mm, points in pod axes.
struct Closeness {
    double gap = 0;  ///< negative: interference, by its depth
    glm::dvec3 point_a{0}, point_b{0};
    Status status = Status::none;  ///< ok, caution: less than needed, stop: interference
};

/// "interference", "touching" or "clearance", of two parts that are not meant to touch.
std::string_view fit_word(const Closeness&);

/// What the worst case of a pair is made of.
struct Circumstance {
    double along = 0;       ///< of the axle in its float, -1 right .. +1 left
    bool any_turn = false;  ///< some turn of the axle or the motor's shaft
    bool worn_left = false, worn_right = false;
    double roll = 0;  ///< of the pod, rad, positive: left side up
};

/// In words: "axle at the left end of its float, worn tyres, 1.0° of roll to the right".
std::string words(const Circumstance&);

/// A pair of parts that is not meant to touch.
struct Clearance {
    std::string a, b;   ///< keys of the parts; b may be "ground"
    double need = 0;    ///< mm
    Closeness now;      ///< as the parts stand
    Closeness worst;    ///< over the envelope; a lower bound, within 0.01 mm of the least, of an
                        ///< overlap within 3 % of its depth
    Circumstance when;  ///< where the worst case occurs
    double margin() const { return worst.gap - need; }
};

inline constexpr const char* ground_key = "ground";

/// Whether the part is a mesh of the user's: of any shape, and slow to measure.
bool has_own_mesh(const Part& part);

/// The ground in pod axes.
struct GroundPlane {
    glm::dvec3 point, normal;
};
/// For a stance, and a roll of pod and axle while running (rad, positive: left side up).
GroundPlane ground_plane(const Stance& stance, double roll);

/// Pairs farther apart than this are not listed unless they are asked for, mm.
inline constexpr double clearance_horizon = 5;

/// Measures assemblies. Keeps the solids that it has made ready and the pairs that it has measured,
/// so that of two assemblies in a row only what differs is done again; its answers do not depend on
/// that.
class Meter {
public:
    explicit Meter(MeshLibrary imports) : imports_(std::move(imports)) {}

    /// All pairs that are not meant to touch, as they stand and over the envelope: any place in the
    /// float, any turn, each tyre down to its worn diameter, roll to either side. The smallest
    /// margin first. The feeler blade is left out: it is taken away before the axle turns. Pairs
    /// whose worst gap is not below `horizon` are left out too.
    std::vector<Clearance> clearances(const Setup& setup, const Assembly& assembly,
                                      const Pose& pose = {}, double horizon = clearance_horizon);

    /// One of them, whatever its distance.
    Clearance clearance(const Setup& setup, const Assembly& assembly, const std::string& a,
                        const std::string& b);

private:
    /// A part made ready.
    struct Ready {
        std::vector<Body> bodies;  ///< what it was made from
        Frame axis;                ///< of its turning, in the part's frame
        MeasuredPart still;
        MeasuredPart turning;     ///< swept about the axis; the same as `still` for a fixed part
        std::size_t version = 0;  ///< another one whenever anything above changes
        bool own_mesh = false;    ///< holds a mesh of the user's, which may be of any shape
        std::size_t used = 0;
    };
    /// A pair that was measured, and what its answer depends on.
    struct Known {
        std::size_t version_a = 0, version_b = 0;
        glm::dmat4 place_a{0}, place_b{0};
        glm::dvec3 along{0};
        double axial_float = 0, turn = 0, position = 0, horizon = 0;
        bool near = false;
        Clearance clearance;
        std::size_t used = 0;
    };
    const Ready& ready(const Assembly& assembly, const Part& part);
    const Known& known(const Assembly& assembly, const Part& a, const Ready& form_a, const Part& b,
                       const Ready& form_b, const Pose& pose, double horizon);

    MeshLibrary imports_;
    SweptMemory swept_;
    std::map<std::string, Ready> kept_;
    std::map<std::pair<std::string, std::string>, Known> known_;
    std::size_t turn_ = 0;
    std::size_t versions_ = 0;
};

}  // namespace podwright
