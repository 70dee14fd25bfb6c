#include <algorithm>
#include <cmath>

#include "core/text.hpp"
#include "shape/builders.hpp"

namespace podwright {

void add_blade(Build& build) {
    const double thickness = build.stack.axial_float;
    if (thickness <= 0) return;
    const double axle = build.setup.axle.diameter / 2;
    const double fork = axle + 0.2;
    const double half = std::max(6.0, fork + 2.5);
    const double top = std::max(38.0, 3 * half), corner = 2.0;
    const double quarter = std::tan(pi / 8);
    const SideStack& left = build.stack.left;
    const double u = left.bearing + left.shims;

    // Straddles the axle and leans back, to where a hand can hold it.
    std::string title = "blade ";
    title.append(fixed(thickness, 2)).append(" mm");
    Part& part = add_part(build, "blade", std::move(title), Moves::pod,
                          axle_frame(build, Side::left, u) * turn_about_x(-radians(35)));
    const Loop outline{{{half, -axle - 1}, 0},
                       {{half, top - corner}, quarter},
                       {{half - corner, top}, 0},
                       {{-half + corner, top}, quarter},
                       {{-half, top - corner}, 0},
                       {{-half, -axle - 1}, 0},
                       {{-fork, -axle - 1}, 0},
                       {{-fork, 0}, -1},
                       {{fork, 0}, 0},
                       {{fork, -axle - 1}, 0}};
    part.bodies.push_back({Extruded{outline, {}, thickness}, glm::dmat4(1.0), Look::bright_steel});
    build.left.push_back({build.out.parts.size() - 1, u, u + thickness});
}

}  // namespace podwright
