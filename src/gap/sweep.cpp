#include "gap/sweep.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "core/units.hpp"
#include "gap/swept_outline.hpp"
#include "shape/loops.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

constexpr double same_direction = 1e-12;
constexpr double same_place = 1e-9;  // mm

/// A body of revolution about x whose profile is the region, ready for measuring.
Form revolved(Region region) {
    Form form;
    form.region = std::move(region);
    auto& all = form.region.elements;
    all.erase(std::remove_if(all.begin(), all.end(),
                             [](const Element& e) { return e.a.y <= 0 && e.b.y <= 0; }),
              all.end());
    form.region.finish();
    form.low = form.region.low.x;
    form.high = form.region.high.x;
    form.radius = form.region.high.y;
    form.box_low = {form.low, -form.radius, -form.radius};
    form.box_high = {form.high, form.radius, form.radius};
    return form;
}

/// The ring that a prism along the axis sweeps.
Form ring_of_prism(const Form& form, const Frame& in_axis) {
    const double a = in_axis({form.low, 0, 0}).x;
    const double b = in_axis({form.high, 0, 0}).x;
    const dvec3 axis = in_axis.back({0, 0, 0});
    const dvec2 centre{axis.y, axis.z};
    const double inner =
        form.region.contains(centre) ? 0 : nearest_edge(form.region, centre).distance;
    const double outer = farthest_edge(form.region, centre).distance;
    Region region;
    region.add(rectangle({std::min(a, b), inner}, {std::max(a, b), outer}));
    return revolved(std::move(region));
}

/// Whether the profile closes on its own axis: a body without a bore.
bool is_solid(const Form& form) {
    int ends = 0;
    for (const Element& e : form.region.elements)
        ends += (e.a.y <= same_place) + (e.b.y <= same_place);
    return ends == 2;
}

/// What a solid body of revolution beside the axis, and parallel to it, sweeps: where its radius is
/// r, all from d - r to d + r.
Form swept_beside(const Form& form, const Frame& in_axis) {
    const double d = std::hypot(in_axis.origin.y, in_axis.origin.z);
    const double way = in_axis.turn[0].x < 0 ? -1 : 1;
    Region region;
    for (const Element& e : form.region.elements)
        for (const double side : {1.0, -1.0}) {
            const auto put = [&](const dvec2& p) {
                return dvec2(in_axis.origin.x + way * p.x, d + side * p.y);
            };
            // Mirrored once it runs the other way round; its bend stays the same then.
            const bool mirrored = way * side < 0;
            const double bulge = e.kind == Element::Kind::arc ? e.sign * std::tan(e.last / 4) : 0;
            region.elements.push_back(mirrored ? arc_element(put(e.b), put(e.a), bulge)
                                               : arc_element(put(e.a), put(e.b), bulge));
        }
    return revolved(std::move(region));
}

using Triangles = std::vector<Facets::Triangle>;

void add_quad(Triangles& all, const dvec3& a, const dvec3& b, const dvec3& c, const dvec3& d) {
    all.push_back({a, b, c});
    all.push_back({a, c, d});
}

/// The wall of a body of revolution in flat pieces, which hold it but for `fine`.
Triangles wall_of(const Form& form) {
    constexpr double fine = swept_excess / 10;
    const auto segments = static_cast<int>(
        std::ceil(pi / std::acos(std::max(0.5, 1 - fine / std::max(form.radius, fine)))));
    const double outward = 1 / std::cos(pi / segments);
    Triangles all;
    for (const Element& e : form.region.elements) {
        int pieces = 1;
        while (e.sagitta(0, 1.0 / pieces) > fine) pieces *= 2;
        for (int i = 0; i < pieces; ++i) {
            const dvec2 p = e.at(static_cast<double>(i) / pieces);
            const dvec2 q = e.at(static_cast<double>(i + 1) / pieces);
            for (int k = 0; k < segments; ++k) {
                const auto ring = [&](const dvec2& at, int number) {
                    const double angle = 2 * pi * number / segments;
                    return dvec3(at.x, dvec2(std::cos(angle), std::sin(angle)) * at.y * outward);
                };
                add_quad(all, ring(p, k), ring(q, k), ring(q, k + 1), ring(p, k + 1));
            }
        }
    }
    return all;
}

Triangles box_of(const Form& form) {
    const auto corner = [&](int i) {
        return glm::mix(form.box_low, form.box_high,
                        glm::dvec3(i & 1 ? 1 : 0, i & 2 ? 1 : 0, i & 4 ? 1 : 0));
    };
    Triangles all;
    for (const auto& face : {std::array{0, 2, 6, 4},
                             {1, 3, 7, 5},
                             {0, 1, 5, 4},
                             {2, 3, 7, 6},
                             {0, 1, 3, 2},
                             {4, 5, 7, 6}})
        add_quad(all, corner(face[0]), corner(face[1]), corner(face[2]), corner(face[3]));
    return all;
}

Form revolved(const std::vector<Loop>& loops) {
    Region region;
    for (const Loop& loop : loops) region.add(loop);
    return revolved(std::move(region));
}

/// What a solid body of revolution whose axis lies across the other one sweeps.
Form swept_across(const Form& form, const Frame& in_axis, SweptMemory& memory) {
    const dvec3& way = in_axis.turn[0];
    const double along = glm::dot(in_axis.origin, way);
    const double beside = glm::dot(in_axis.origin, glm::cross(dvec3(1, 0, 0), way));
    std::vector<Loop> loops = memory.crosswise(form.region.elements, along, beside);
    for (Loop& loop : loops)
        for (Corner& corner : loop) corner.at.x += in_axis.origin.x;
    return revolved(loops);
}

/// What anything sweeps, by its surface.
Form swept_surface(const Form& form, bool own_mesh, const Frame& in_axis) {
    Triangles surface = own_mesh && form.mesh               ? form.mesh->facets->triangles()
                        : form.kind == Form::Kind::revolved ? wall_of(form)
                                                            : box_of(form);
    for (Facets::Triangle& t : surface)
        for (dvec3& p : t) p = in_axis(p);
    return revolved(swept_outline(surface));
}

/// What `form` sweeps, in the axis' frame.
Form swept_form(const Form& form, const Frame& in_axis, bool own_mesh, SweptMemory& memory) {
    const dvec3& along = in_axis.turn[0];
    const bool parallel = std::hypot(along.y, along.z) < same_direction;
    if (own_mesh && form.mesh) return swept_surface(form, true, in_axis);
    if (form.kind == Form::Kind::prism && parallel) return ring_of_prism(form, in_axis);
    if (form.kind == Form::Kind::revolved && is_solid(form)) {
        if (parallel) return swept_beside(form, in_axis);
        if (std::abs(along.x) < same_direction) return swept_across(form, in_axis, memory);
    }
    return swept_surface(form, false, in_axis);
}

bool turns_on_itself(const Form& form, const Frame& in_axis) {
    const dvec3& along = in_axis.turn[0];
    return form.kind == Form::Kind::revolved && std::hypot(along.y, along.z) < same_direction &&
           std::hypot(in_axis.origin.y, in_axis.origin.z) < same_place;
}

}  // namespace

const std::vector<Loop>& SweptMemory::crosswise(const std::vector<Element>& profile, double along,
                                                double beside) {
    constexpr std::size_t most = 16;
    const auto same = [](const Element& a, const Element& b) {
        return a.kind == b.kind && a.a == b.a && a.b == b.b && a.sign == b.sign && a.last == b.last;
    };
    const auto found = std::find_if(known_.begin(), known_.end(), [&](const Known& known) {
        return known.along == along && known.beside == beside &&
               std::equal(known.profile.begin(), known.profile.end(), profile.begin(),
                          profile.end(), same);
    });
    if (found != known_.end()) {
        known_.splice(known_.begin(), known_, found);
    } else {
        known_.push_front({profile, along, beside, swept_crosswise(profile, along, beside)});
        if (known_.size() > most) known_.pop_back();
    }
    return known_.front().loops;
}

MeasuredPart swept(const MeasuredPart& part, const Frame& axis, bool own_mesh,
                   SweptMemory& memory) {
    MeasuredPart result;
    result.forms.reserve(part.forms.size());
    for (const Form& form : part.forms) {
        const Frame in_axis = axis.to(form.place);
        if (turns_on_itself(form, in_axis) && !(own_mesh && form.mesh)) {
            result.forms.push_back(form);
            continue;
        }
        Form all = swept_form(form, in_axis, own_mesh, memory);
        all.place = axis;
        all.hull = form.hull;
        result.forms.push_back(std::move(all));
    }
    return result;
}

Frame settled(const Frame& axis) {
    const dvec3& along = axis.turn[0];
    const bool on_x = std::hypot(along.y, along.z) < same_place &&
                      std::hypot(axis.origin.y, axis.origin.z) < same_place;
    return on_x ? axis_frame({0, 0, 0}, {along.x < 0 ? -1 : 1, 0, 0}) : axis;
}

Frame axis_frame(const dvec3& point, const dvec3& along) {
    const dvec3 helper = std::abs(along.x) < 0.7 ? dvec3(1, 0, 0) : dvec3(0, 1, 0);
    const dvec3 y = glm::normalize(glm::cross(helper, along));
    return {glm::dmat3(along, y, glm::cross(along, y)), point};
}

}  // namespace podwright
