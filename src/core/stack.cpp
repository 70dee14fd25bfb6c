#include "core/stack.hpp"

#include <numeric>

namespace podwright {

namespace {

SideStack side_without_float(const AxleSide& side) {
    SideStack s{};
    s.bearing = side.seat + side.standout;
    s.shims = std::accumulate(side.shims.begin(), side.shims.end(), 0.0);
    return s;
}

void place(SideStack& s, const AxleSide& side, double F) {
    s.thrust = s.bearing + s.shims + F / 2;
    s.mounting = s.thrust + side.reach;
    s.wheel = s.mounting - side.inset;
    s.outer = s.wheel + side.tyre.width / 2;
}

}  // namespace

Stack stack_of(const Setup& setup) {
    Stack stack{};
    stack.left = side_without_float(setup.left);
    stack.right = side_without_float(setup.right);
    const double loop =
        stack.left.bearing + stack.left.shims + stack.right.bearing + stack.right.shims;
    if (setup.axial_float.set_by == FloatBy::blade) {
        stack.axial_float = setup.axial_float.blade;
        stack.thrust_faces = loop + stack.axial_float;
    } else {
        stack.thrust_faces = setup.axial_float.shoulder;
        stack.axial_float = stack.thrust_faces - loop;
    }
    place(stack.left, setup.left, stack.axial_float);
    place(stack.right, setup.right, stack.axial_float);
    stack.overall_width = stack.left.outer + stack.right.outer;
    stack.track = stack.left.wheel + stack.right.wheel;
    stack.shift = (stack.left.outer - stack.right.outer) / 2;
    return stack;
}

}  // namespace podwright
