#include "bench/felt_axle.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

constexpr int places = 81;
constexpr double shown_deflection = 5;  // mm, of the largest deflection as it is shown
constexpr double shown_twist = 0.5;     // rad

double largest(const std::vector<double>& values) {
    double most = 0;
    for (const double v : values) most = std::max(most, std::abs(v));
    return most;
}

/// The largest of 1, 2, 5 times a power of ten that is not above `value`, and at least 1.
double round_factor(double value) {
    if (!(value > 1)) return 1;
    const double ten = std::pow(10, std::floor(std::log10(value)));
    for (const double step : {5.0, 2.0})
        if (step * ten <= value) return step * ten;
    return ten;
}

double factor_for(double most, double shown) {
    constexpr double nothing = 1e-9;
    return most > nothing ? round_factor(shown / most) : 1;
}

}  // namespace

FeltAxle felt_axle(const Setup& setup, const Stack& stack, const Drive& drive,
                   const ShaftStudy& study, LoadCase which) {
    FeltAxle axle;
    axle.which = which;
    axle.curves =
        shaft_curves(shaft_model(setup, stack, drive), study.solved(which), study.places, places);
    axle.bend_factor =
        factor_for(std::max(largest(axle.curves.x), largest(axle.curves.z)), shown_deflection);
    axle.twist_factor = factor_for(largest(axle.curves.twist), shown_twist);
    return axle;
}

ChalkLine chalk_line(const Assembly& assembly, const BentShape& shape, double hub, double from,
                     double to, double radius, const glm::dvec3& eye) {
    const glm::dvec3 axis = assembly.axle_direction;
    const glm::dvec3 middle = assembly.axle_point + axis * ((from + to) / 2);
    const glm::dvec3 to_eye = eye - middle;
    glm::dvec3 out = to_eye - axis * glm::dot(to_eye, axis);
    // Seen along the axle any side is as good.
    out = glm::length(out) > 1 ? glm::normalize(out) : glm::dvec3(0, 0, 1);
    BentShape untwisted = shape;
    for (BentPoint& p : untwisted) p.twist = 0;
    const glm::dmat4 wound = carried(assembly, shape, hub);
    const glm::dmat4 straight = carried(assembly, untwisted, hub);
    ChalkLine line;
    for (const double y : {from, to}) {
        const glm::dvec4 point(assembly.axle_point + axis * y + out * radius, 1);
        line.wound.emplace_back(wound * point);
        line.straight.emplace_back(straight * point);
    }
    return line;
}

BentShape bent_shape(const FeltAxle& axle, double share) {
    const ShaftCurves& c = axle.curves;
    const double bend = share * axle.bend_factor;
    BentShape shape;
    shape.reserve(c.y.size());
    for (std::size_t i = 0; i < c.y.size(); ++i)
        shape.push_back(
            {c.y[i], bend * c.x[i], bend * c.z[i], 0, 0, share * axle.twist_factor * c.twist[i]});
    for (std::size_t i = 0; i < shape.size(); ++i) {
        const BentPoint& a = shape[i > 0 ? i - 1 : 0];
        const BentPoint& b = shape[std::min(i + 1, shape.size() - 1)];
        const double way = b.along - a.along;
        shape[i].slope_x = (b.x - a.x) / way;
        shape[i].slope_z = (b.z - a.z) / way;
    }
    return shape;
}

}  // namespace podwright
