#include "gap/sweep.hpp"

#include <algorithm>
#include <cmath>

#include "shape/loops.hpp"

namespace podwright {

namespace {

constexpr double same_direction = 1e-12;
constexpr double same_place = 1e-9;  // mm

/// Ring of rectangular section about x.
Form ring(double low, double high, double inner, double outer) {
    Form form;
    form.region.add(rectangle({low, inner}, {high, outer}));
    if (inner <= 0) {
        auto& all = form.region.elements;
        all.erase(std::remove_if(all.begin(), all.end(),
                                 [](const Element& e) { return e.a.y <= 0 && e.b.y <= 0; }),
                  all.end());
    }
    form.region.finish();
    form.low = low;
    form.high = high;
    form.radius = outer;
    form.box_low = {low, -outer, -outer};
    form.box_high = {high, outer, outer};
    return form;
}

/// The ring that a prism along the axis, its own axis at `offset` from the axis' origin, sweeps.
Form ring_of_prism(const Form& form, const Frame& in_axis) {
    const double a = in_axis({form.low, 0, 0}).x;
    const double b = in_axis({form.high, 0, 0}).x;
    const glm::dvec3 axis = in_axis.back({0, 0, 0});
    const glm::dvec2 centre{axis.y, axis.z};
    const double inner =
        form.region.contains(centre) ? 0 : nearest_edge(form.region, centre).distance;
    return ring(std::min(a, b), std::max(a, b), inner, farthest_edge(form.region, centre).distance);
}

/// The ring that holds a body of revolution about an axis parallel to the sweep's, at distance d.
Form ring_of_parallel(const Form& form, const Frame& in_axis) {
    const double a = in_axis({form.low, 0, 0}).x;
    const double b = in_axis({form.high, 0, 0}).x;
    const double d = std::hypot(in_axis.origin.y, in_axis.origin.z);
    return ring(std::min(a, b), std::max(a, b), std::max(0.0, d - form.radius), d + form.radius);
}

/// The ring that holds the box of any form.
Form ring_of_box(const Form& form, const Frame& in_axis) {
    const glm::dvec3 half = (form.box_high - form.box_low) * 0.5;
    const glm::dvec3 middle = in_axis((form.box_high + form.box_low) * 0.5);
    double low = 1e300;
    double high = -1e300;
    double outer = 0;
    for (int corner = 0; corner < 8; ++corner) {
        const glm::dvec3 sign{corner & 1 ? 1 : -1, corner & 2 ? 1 : -1, corner & 4 ? 1 : -1};
        const glm::dvec3 p = middle + in_axis.turn * (half * sign);
        low = std::min(low, p.x);
        high = std::max(high, p.x);
        outer = std::max(outer, std::hypot(p.y, p.z));
    }
    const double inner = std::hypot(middle.y, middle.z) - glm::length(half);
    return ring(low, high, std::max(0.0, inner), outer);
}

}  // namespace

MeasuredPart swept(const MeasuredPart& part, const Frame& axis) {
    MeasuredPart result;
    result.forms.reserve(part.forms.size());
    for (const Form& form : part.forms) {
        const Frame in_axis = axis.to(form.place);
        const glm::dvec3 along = in_axis.turn[0];
        const bool parallel = std::hypot(along.y, along.z) < same_direction;
        const bool coaxial =
            parallel && std::hypot(in_axis.origin.y, in_axis.origin.z) < same_place;
        if (coaxial && form.kind == Form::Kind::revolved) {
            result.forms.push_back(form);
            continue;
        }
        Form swept_form = !parallel                        ? ring_of_box(form, in_axis)
                          : form.kind == Form::Kind::prism ? ring_of_prism(form, in_axis)
                                                           : ring_of_parallel(form, in_axis);
        swept_form.place = axis;
        swept_form.hull = form.hull || !parallel;
        result.forms.push_back(std::move(swept_form));
    }
    return result;
}

Frame axis_frame(const glm::dvec3& point, const glm::dvec3& along) {
    const glm::dvec3 helper = std::abs(along.x) < 0.7 ? glm::dvec3(1, 0, 0) : glm::dvec3(0, 1, 0);
    const glm::dvec3 y = glm::normalize(glm::cross(helper, along));
    return {glm::dmat3(along, y, glm::cross(along, y)), point};
}

}  // namespace podwright
