#include "bench/envelope_run.hpp"

#include <algorithm>
#include <cmath>

#include "bench/swing.hpp"

namespace podwright {

namespace {

double wear_at(const Model& model, Side side) {
    const Tyre& tyre = model.setup.side(side).tyre;
    return ease(model.envelope) * std::max(0.0, tyre.diameter - tyre.worn_diameter);
}
double roll_at(const Model& model) {
    return model.setup.needs.roll * std::sin(4 * pi * model.envelope);
}

}  // namespace

void show_envelope(Model& model) {
    const double t = model.envelope;
    model.look.ground.reset();
    model.look.pose.along = std::cos(4 * pi * t);
    model.look.pose.turn = 2 * pi * t;
    if (t <= 0) return;
    Setup worn = model.setup;
    for (Side side : both_sides) worn.side(side).tyre.diameter -= wear_at(model, side);
    const double roll = roll_at(model);
    const GroundPlane plane = ground_plane(stance_of(worn, stack_of(worn)), roll);
    model.look.ground = {plane.point, plane.normal};
}

std::string envelope_words(const Model& model) {
    if (model.envelope <= 0) return {};
    const double along = model.look.pose.along;
    const std::string axle = along > 0.3    ? "axle at the left"
                             : along < -0.3 ? "axle at the right"
                                            : "axle in the middle";
    const double wear = std::max(wear_at(model, Side::left), wear_at(model, Side::right));
    const double roll = degrees(roll_at(model));
    return axle + ", tyres " + length(wear, model.shown) + " smaller, " + fixed(std::abs(roll), 1) +
           "° of roll to the " + (roll > 0 ? "right" : "left");
}

}  // namespace podwright
