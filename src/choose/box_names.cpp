#include "choose/box_names.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <optional>
#include <utility>

namespace podwright {

namespace {

bool same(double a, double b) { return std::abs(a - b) < 1e-9; }

/// Names of kinds that fit. A kind that says more of what it is comes before one that leaves it
/// open, which stands for what is on the car.
class Fitting {
public:
    void offer(const std::string& name, bool fits,
               std::initializer_list<std::pair<std::optional<double>, double>> may_be_open,
               const std::string& glued_to = {}) {
        int said = 0;
        for (const auto& [of_kind, of_car] : may_be_open) {
            fits = fits && (!of_kind || same(*of_kind, of_car));
            said += of_kind ? 1 : 0;
        }
        if (!fits || said < said_) return;
        if (said > said_) names_.clear();
        said_ = said;
        if (std::find(names_.begin(), names_.end(), name) == names_.end()) names_.push_back(name);
        glued_to_ = names_.size() == 1 ? glued_to : "";
    }
    std::vector<std::string> names() const { return names_; }
    std::string glued_to() const { return glued_to_; }

private:
    std::vector<std::string> names_;
    std::string glued_to_;
    int said_ = 0;
};

}  // namespace

std::vector<std::string> axle_names(const Setup& setup) {
    Fitting fitting;
    for (const AxleKind& kind : setup.choosing.box.axles)
        fitting.offer(kind.name,
                      same(kind.waist, setup.axle.waist) && same(kind.bore, setup.axle.bore) &&
                          kind.material == static_cast<int>(setup.axle.material),
                      {{kind.shoulder, setup.axial_float.shoulder}});
    return fitting.names();
}

std::vector<std::string> wheel_names(const Setup& setup, Side side) {
    const AxleSide& at = setup.side(side);
    Fitting fitting;
    for (const WheelKind& kind : setup.choosing.box.wheels)
        fitting.offer(kind.name, same(kind.inset, at.inset),
                      {{kind.rim_diameter, at.rim_diameter}});
    return fitting.names();
}

TyreNames tyre_names(const Setup& setup, Side side) {
    const Tyre& tyre = setup.side(side).tyre;
    const std::vector<std::string> wheels = wheel_names(setup, side);
    Fitting fitting;
    for (const TyreKind& kind : setup.choosing.box.tyres) {
        const bool goes_on = kind.wheel.empty() ||
                             std::find(wheels.begin(), wheels.end(), kind.wheel) != wheels.end();
        fitting.offer(kind.name, goes_on && same(kind.diameter, tyre.diameter),
                      {{kind.width, tyre.width},
                       {kind.worn_diameter, tyre.worn_diameter},
                       {kind.stiffness, tyre.stiffness}},
                      kind.wheel);
    }
    return {fitting.names(), fitting.glued_to()};
}

}  // namespace podwright
