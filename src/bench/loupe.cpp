#include "bench/loupe.hpp"

#include <algorithm>
#include <cmath>

#include "bench/room.hpp"
#include "core/limits.hpp"
#include "gap/clearance_findings.hpp"

namespace podwright {

namespace {

std::string_view float_word(const Setup& setup, double F) {
    switch (float_status(setup, F)) {
        case Status::stop: return "binds";
        case Status::caution: return F < setup.axial_float.low ? "tight" : "loose";
        default: return "good";
    }
}

/// Looks at `target` from near by through a narrow opening.
void aim(LoupeView& view, const glm::dvec3& target) {
    view.camera.target = target;
    view.camera.distance = 60;
    view.camera.field_of_view = 2 * std::atan(view.across / 2 / view.camera.distance);
}

/// A canvas whose points are those of the loupe's camera.
Canvas inside(const Canvas& canvas, const LoupePlace& place, const LoupeView& view) {
    Canvas in = canvas;
    in.box = place.box();
    in.camera = view.camera;
    in.taken.clear();
    return in;
}

void draw_gap(const Canvas& in, const LoupePlace& place, const LoupeView& view) {
    const glm::dvec3 edge = view.gap;
    const auto at = [&](double u) { return in.at({edge.x, u, edge.z}).x; };
    const float a = at(view.shim_face);
    const float b = at(view.thrust_face);
    const float y = place.centre.y + place.radius * 0.5F;
    const float top = place.centre.y - place.radius * 0.1F;
    ImDrawList& list = *in.list;
    for (float x : {a, b}) list.AddLine({x, top}, {x, y + in.px(6)}, theme::ink, in.px(1.2F));
    const float tail = in.px(26);
    const float head = in.px(9);
    const float half = head * static_cast<float>(std::tan(radians(15)));
    const float left = std::min(a, b);
    const float right = std::max(a, b);
    list.AddLine({left - tail, y}, {left, y}, theme::ink, in.px(1.2F));
    list.AddLine({right, y}, {right + tail, y}, theme::ink, in.px(1.2F));
    list.AddTriangleFilled({left, y}, {left - head, y - half}, {left - head, y + half}, theme::ink);
    list.AddTriangleFilled({right, y}, {right + head, y + half}, {right + head, y - half},
                           theme::ink);
}

/// Each shim's thickness on it, on the first of a few heights where it fits into the circle.
void draw_shim_numbers(Canvas& in, const LoupePlace& place, const LoupeView& view,
                       const Setup& setup, LengthUnit shown) {
    const auto inside_circle = [&](const PixelBox& box) {
        for (float x : {box.low.x, box.high.x})
            for (float y : {box.low.y, box.high.y})
                if (std::hypot(x - place.centre.x, y - place.centre.y) > place.radius) return false;
        return true;
    };
    double u = view.shim_face;
    for (auto t = setup.left.shims.rbegin(); t != setup.left.shims.rend(); ++t) {
        const ImVec2 at = in.at({view.gap.x, u - *t / 2, view.gap.z});
        u -= *t;
        const std::string text =
            shown == LengthUnit::mm ? fixed(*t, 2) : fixed(*t / mm_per_inch, 3);
        for (float height : {-0.36F, -0.56F, -0.16F}) {
            const PixelBox box =
                label_box(in, {at.x, place.centre.y + place.radius * height}, text, Status::none);
            if (!inside_circle(box) || !in.is_free(box)) continue;
            draw_label(in, box, text, Status::none);
            break;
        }
    }
}

void draw_line_to_gap(Canvas& canvas, const LoupePlace& place, const LoupeView& view) {
    const ImVec2 target = canvas.at(view.gap);
    const float dx = target.x - place.centre.x;
    const float dy = target.y - place.centre.y;
    const float distance = std::hypot(dx, dy);
    const float ring = canvas.px(7);
    if (distance < place.radius + ring) return;
    const ImVec2 from = {place.centre.x + dx / distance * place.radius,
                         place.centre.y + dy / distance * place.radius};
    const ImVec2 to = {target.x - dx / distance * ring, target.y - dy / distance * ring};
    canvas.list->AddLine(from, to, IM_COL32(255, 255, 255, 170), canvas.px(1.5F) + 2);
    canvas.list->AddLine(from, to, theme::accent, canvas.px(1.5F));
    canvas.list->AddCircle(target, ring, theme::accent, 0, canvas.px(1.5F));
}

}  // namespace

LoupeView loupe_on_float(const Setup& setup, const Evaluation& evaluation, const Pose& pose,
                         LengthUnit shown) {
    LoupeView view;
    const SideStack& left = evaluation.stack.left;
    view.shim_face = left.bearing + left.shims;
    view.thrust_face = left.thrust + pose.along * evaluation.stack.axial_float / 2;
    const double middle = (view.shim_face + view.thrust_face) / 2;
    const double shim_radius = setup.axle.diameter / 2 + 1.5;
    view.across = std::max(2.6, 2.2 * left.shims + 1.2);
    view.gap = {shim_radius, middle, evaluation.stance.axle_z(middle)};
    view.camera.azimuth = 0;
    view.camera.elevation = radians(12);
    aim(view, view.gap - glm::dvec3(0, 0.18 * view.across, 0));
    const double F = evaluation.stack.axial_float;
    view.status = float_status(setup, F);
    view.caption = "float " + length(F, shown) + ", " + std::string(float_word(setup, F));
    return view;
}

LoupeView loupe_on_gap(const Clearance& c, const Evaluation& evaluation, const Camera& from,
                       LengthUnit shown) {
    LoupeView view;
    view.of_float = false;
    view.point_a = c.now.point_a;
    view.point_b = c.now.point_b;
    view.gap = (view.point_a + view.point_b) / 2.0;
    view.across = std::max(1.5, 3.2 * std::abs(c.now.gap));
    view.camera.azimuth = from.azimuth;
    view.camera.elevation = from.elevation;
    aim(view, view.gap);
    view.status = c.worst.status;
    view.caption = spoken(evaluation.assembly, c.a) + " / " + spoken(evaluation.assembly, c.b) +
                   " " + length(c.now.gap, shown);
    return view;
}

LoupePlace take_loupe_place(Canvas& canvas, std::span<const ImVec2> points) {
    const PixelBox& box = canvas.box;
    LoupePlace best;
    best.radius = std::clamp(0.17F * std::min(box.high.x - box.low.x, box.high.y - box.low.y),
                             canvas.px(70), canvas.px(150));
    const float off = best.radius + canvas.px(22);
    const auto room_at = [&](ImVec2 centre) {
        PixelBox room = LoupePlace{centre, best.radius}.box();
        room.low.y -= canvas.px(14);
        room.high.y += canvas.px(16);  // its caption stands on the rim
        return room;
    };
    const auto hidden_at = [&](ImVec2 centre) {
        const PixelBox room = room_at(centre);
        const bool written = std::any_of(canvas.taken.begin(), canvas.taken.end(),
                                         [&](const PixelBox& t) { return t.overlaps(room); });
        return std::count_if(points.begin(), points.end(),
                             [&](ImVec2 p) {
                                 return room.overlaps({p, {p.x + 1, p.y + 1}});
                             }) +
               (written ? 1000 : 0);
    };
    const ImVec2 corners[] = {{box.high.x - off, box.low.y + off},
                              {box.high.x - off, box.high.y - off},
                              {box.low.x + off, box.low.y + off},
                              {box.low.x + off, box.high.y - off}};
    best.centre =
        *std::min_element(std::begin(corners), std::end(corners),
                          [&](ImVec2 a, ImVec2 b) { return hidden_at(a) < hidden_at(b); });
    canvas.taken.push_back(room_at(best.centre));
    return best;
}

void draw_loupe(Canvas& canvas, const LoupePlace& place, const LoupeView& view, ImTextureID picture,
                const Setup& setup, LengthUnit shown) {
    ImDrawList& list = *canvas.list;
    draw_line_to_gap(canvas, place, view);
    const PixelBox box = place.box();
    list.AddCircleFilled(place.centre, place.radius, IM_COL32(0xF2, 0xF4, 0xF6, 255), 96);
    list.AddImageRounded(picture, box.low, box.high, {0, 1}, {1, 0}, IM_COL32_WHITE, place.radius);
    Canvas in = inside(canvas, place, view);
    if (view.of_float) {
        draw_gap(in, place, view);
        draw_shim_numbers(in, place, view, setup, shown);
    } else {
        draw_gap_line(in, view.point_a, view.point_b, view.status);
    }
    list.AddCircle(place.centre, place.radius, theme::white, 96, canvas.px(5));
    list.AddCircle(place.centre, place.radius + canvas.px(2), theme::ink, 96, canvas.px(1.6F));

    const double loupe_scale = 2 * place.radius / view.across;
    const double magnification = loupe_scale / canvas.scale_at(view.gap);
    const std::string scale = "\xC3\x97" + fixed(magnification, magnification < 10 ? 1 : 0);
    const auto write = [&](float y, const std::string& text, Status status) {
        const PixelBox label = label_box(canvas, {place.centre.x, y}, text, status);
        draw_label(canvas, label, text, status);
    };
    write(place.centre.y + place.radius + canvas.px(2), view.caption, view.status);
    write(place.centre.y - place.radius + canvas.px(2), scale, Status::none);
}

}  // namespace podwright
