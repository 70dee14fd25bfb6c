#include "gap/form.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <variant>

#include "core/units.hpp"
#include "gap/mesh_hull.hpp"
#include "shape/gear_outline.hpp"
#include "shape/loops.hpp"

namespace podwright {

namespace {

using glm::dvec2;
using glm::dvec3;

Loop scaled(Loop loop, double scale) {
    for (Corner& corner : loop) corner.at *= scale;
    return loop;
}

Form revolved_form(const Loop& profile) {
    constexpr double on_axis = 1e-9;
    Form form;
    form.region.add(profile);
    std::vector<Element>& all = form.region.elements;
    all.erase(std::remove_if(all.begin(), all.end(),
                             [](const Element& e) {
                                 return e.a.y <= on_axis && e.b.y <= on_axis &&
                                        e.kind == Element::Kind::line;
                             }),
              all.end());
    form.region.finish();
    form.low = form.region.low.x;
    form.high = form.region.high.x;
    form.radius = form.region.high.y;
    return form;
}

Form prism_form(Region region, double low, double high) {
    Form form;
    form.kind = Form::Kind::prism;
    form.region = std::move(region);
    form.region.finish();
    form.low = low;
    form.high = high;
    form.radius = farthest_edge(form.region, {0, 0}).distance;
    return form;
}

/// Radii of a tooth, read off the mesher's coarsest outline so that both agree: one root corner
/// where the flank goes on below the base circle, the foot, the tip.
struct ToothRadii {
    double root, foot, tip;
};
ToothRadii tooth_radii(const Gear& gear) {
    const Outline outline = gear_outline(gear, gear.module * gear.teeth);
    const auto radius = [&](std::size_t i) { return glm::length(outline[i].at); };
    if (std::abs(radius(1) - radius(2)) < 1e-9) return {radius(0), radius(0), radius(1)};
    return {radius(0), radius(1), radius(2)};
}

dvec2 polar(double radius, double angle) {
    return {radius * std::cos(angle), radius * std::sin(angle)};
}

/// One tooth about the angle `centre` with the root to the next, counter-clockwise.
void add_tooth(Region& region, const Gear& gear, const ToothRadii& r, double centre) {
    const double base = diameters(gear).base / 2;
    const auto half = [&](double radius) {
        return tooth_thickness(gear, 2 * radius) / (2 * radius);
    };
    const auto roll = [&](double radius) {
        return std::sqrt(std::max(0.0, radius * radius / (base * base) - 1));
    };
    const auto arc = [&](double radius, double from, double to) {
        region.elements.push_back(
            arc_element(polar(radius, from), polar(radius, to), std::tan((to - from) / 4)));
    };
    const double at_base = half(base), foot = half(r.foot), tip = half(r.tip);
    const double next = centre + 2 * pi / gear.teeth;
    const bool radial = r.root < r.foot - 1e-12;
    if (radial)
        region.elements.push_back(
            line_element(polar(r.root, centre - foot), polar(r.foot, centre - foot)));
    region.elements.push_back(
        involute_element({0, 0}, base, centre - at_base, 1, roll(r.foot), roll(r.tip)));
    arc(r.tip, centre - tip, centre + tip);
    region.elements.push_back(
        involute_element({0, 0}, base, centre + at_base, -1, roll(r.tip), roll(r.foot)));
    if (radial)
        region.elements.push_back(
            line_element(polar(r.foot, centre + foot), polar(r.root, centre + foot)));
    arc(r.root, centre + foot, next - foot);
}

Form toothed_form(const ToothedRing& ring, double scale) {
    Gear gear = ring.gear;
    for (double* length : {&gear.module, &gear.dedendum, &gear.addendum, &gear.thinning})
        *length *= scale;
    Region region;
    const ToothRadii radii = tooth_radii(gear);
    for (int i = 0; i < gear.teeth; ++i)
        add_tooth(region, gear, radii, pi / 2 + 2 * pi * i / gear.teeth);
    if (ring.bore > 0) region.add(circle_hole({0, 0}, ring.bore / 2 * scale));
    return prism_form(std::move(region), -ring.face / 2 * scale, ring.face / 2 * scale);
}

Form extruded_form(const Extruded& solid, double scale) {
    Region region;
    region.add(scaled(solid.outline, scale));
    for (const Loop& hole : solid.holes) region.add(scaled(hole, scale));
    return prism_form(std::move(region), 0, solid.thickness * scale);
}

Form box_form(const Box& box, double scale) {
    Region region;
    region.add(scaled(rectangle({box.low.y, box.low.z}, {box.high.y, box.high.z}), scale));
    return prism_form(std::move(region), box.low.x * scale, box.high.x * scale);
}

template <class... F>
struct Overloaded : F... {
    using F::operator()...;
};
template <class... F>
Overloaded(F...) -> Overloaded<F...>;

SurfacePoint of_revolved(const Form& form, const dvec3& p) {
    const dvec2 across(p.y, p.z);
    const double r = glm::length(across);
    const Foot foot = signed_foot(form.region, {p.x, r});
    const dvec2 way = r > 0 ? across / r : dvec2(0, 1);
    return {dvec3(foot.at.x, way * foot.at.y), foot.distance};
}

SurfacePoint of_prism(const Form& form, const dvec3& p) {
    const dvec2 across(p.y, p.z);
    const double axial = std::max(form.low - p.x, p.x - form.high);
    const double face = p.x < form.middle() ? form.low : form.high;
    const Foot foot = signed_foot(form.region, across);
    if (axial <= 0 && foot.distance <= 0)
        return axial > foot.distance ? SurfacePoint{dvec3(face, across), axial}
                                     : SurfacePoint{dvec3(p.x, foot.at), foot.distance};
    const double x = std::clamp(p.x, form.low, form.high);
    const dvec2 at = foot.distance > 0 ? foot.at : across;
    return {dvec3(x, at), std::hypot(std::max(axial, 0.0), std::max(foot.distance, 0.0))};
}

SurfacePoint of_facets(const Facets& facets, const dvec3& p) {
    const dvec3 at = facets.nearest(p);
    const double distance = glm::length(at - p);
    return {at, facets.contains(p) ? -distance : distance};
}

std::shared_ptr<const Form> facet_form(const Mesh& mesh, double scale) {
    std::vector<Facets::Triangle> triangles;
    triangles.reserve(mesh.triangles.size() / 3);
    auto form = std::make_shared<Form>();
    dvec3 low(1e300), high(-1e300);
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        Facets::Triangle t{};
        for (std::size_t k = 0; k < 3; ++k) {
            t[k] = dvec3(mesh.vertices[mesh.triangles[i + k]].position) * scale;
            low = glm::min(low, t[k]);
            high = glm::max(high, t[k]);
        }
        triangles.push_back(t);
    }
    form->facets = std::make_shared<Facets>(std::move(triangles));
    form->low = low.x;
    form->high = high.x;
    form->box_low = low;
    form->box_high = high;
    return form;
}

}  // namespace

SurfacePoint signed_distance(const Form& form, const dvec3& p) {
    if (form.facets) return of_facets(*form.facets, p);
    return form.kind == Form::Kind::revolved ? of_revolved(form, p) : of_prism(form, p);
}

Form form_of(const Body& body, const MeshLibrary& imports) {
    double scale = 1;
    const Frame place = frame_of(body.place, &scale);
    Form form = std::visit(
        Overloaded{[&](const Revolved& s) { return revolved_form(scaled(s.profile, scale)); },
                   [&](const Extruded& s) { return extruded_form(s, scale); },
                   [&](const ToothedRing& s) { return toothed_form(s, scale); },
                   [&](const Box& s) { return box_form(s, scale); },
                   [&](const Imported& s) {
                       const Mesh& import = imports(s.name);
                       if (import.triangles.empty())
                           throw std::runtime_error("mesh " + s.name + " has no triangles");
                       Form hull = revolved_form(scaled(hull_profile(import), scale));
                       hull.hull = true;
                       hull.mesh = facet_form(import, scale);
                       return hull;
                   }},
        body.solid);
    form.place = place;
    const Region& region = form.region;
    if (form.kind == Form::Kind::prism) {
        form.box_low = {form.low, region.low.x, region.low.y};
        form.box_high = {form.high, region.high.x, region.high.y};
    } else {
        form.box_low = {form.low, -form.radius, -form.radius};
        form.box_high = {form.high, form.radius, form.radius};
    }
    return form;
}

Frame frame_of(const glm::dmat4& place, double* scale) {
    Frame frame{glm::dmat3(place), glm::dvec3(place[3])};
    const double size = std::cbrt(glm::determinant(frame.turn));
    if (scale) *scale = size;
    // A rotation is kept as it is: dividing by its length would only blur its digits.
    if (std::abs(size - 1) > 1e-12) frame.turn = frame.turn / size;
    return frame;
}

}  // namespace podwright
