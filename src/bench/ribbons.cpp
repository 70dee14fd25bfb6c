#include "bench/ribbons.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "core/text.hpp"
#include "core/units.hpp"

namespace podwright {

namespace {

constexpr double ribbon_height = 22;    // mm, of the largest moment
constexpr double torque_height = 14;    // mm
constexpr double ribbon_distance = 26;  // mm, of the torque's ribbon below the axle
constexpr ImU32 moment_fill = IM_COL32(0x00, 0x72, 0xB2, 96);
constexpr ImU32 torque_fill = IM_COL32(0xCC, 0x79, 0xA7, 110);

double largest(const std::vector<double>& values) {
    double most = 0;
    for (const double v : values) most = std::max(most, std::abs(v));
    return most;
}

std::string number(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.0f", value);
    return text;
}

/// A band from the axle's line to `height` above it, along `up`.
struct Ribbon {
    glm::dvec3 up;        ///< unit
    double distance = 0;  ///< of its base from the axle, along `up`
    std::vector<double> heights;
    ImU32 fill, edge;
};

void draw_ribbon(const Canvas& canvas, const Assembly& assembly, const std::vector<double>& y,
                 const Ribbon& ribbon) {
    const auto at = [&](std::size_t i, double height) {
        return canvas.at(assembly.axle_point + assembly.axle_direction * y[i] +
                         ribbon.up * (ribbon.distance + height));
    };
    for (std::size_t i = 0; i + 1 < y.size(); ++i) {
        const ImVec2 corners[] = {at(i, 0), at(i, ribbon.heights[i]),
                                  at(i + 1, ribbon.heights[i + 1]), at(i + 1, 0)};
        canvas.list->AddConvexPolyFilled(corners, 4, ribbon.fill);
        canvas.list->AddLine(corners[1], corners[2], ribbon.edge, canvas.px(1.6F));
    }
    canvas.list->AddLine(at(0, 0), at(y.size() - 1, 0), ribbon.edge, canvas.px(1));
}

/// A plate with words at a place of the model, moved up or down until it is free.
void draw_words_at(Canvas& canvas, const glm::dvec3& place, const std::string& text) {
    const ImVec2 size = label_size(canvas, text, Status::none);
    const ImVec2 at = canvas.at(place);
    PixelBox box{{at.x - size.x / 2, at.y - size.y - canvas.px(6)},
                 {at.x + size.x / 2, at.y - canvas.px(6)}};
    for (const float way : {-1.0F, 1.0F}) {
        PixelBox moved = box;
        for (int step = 0; step < 12; ++step) {
            const bool free = std::none_of(canvas.taken.begin(), canvas.taken.end(),
                                           [&](const PixelBox& t) { return t.overlaps(moved); });
            if (free && canvas.box.holds(moved)) {
                canvas.taken.push_back(moved);
                draw_label(canvas, moved, text, Status::none);
                return;
            }
            moved.low.y += way * size.y;
            moved.high.y += way * size.y;
        }
    }
}

std::vector<double> scaled(const std::vector<double>& values, double most, double height) {
    std::vector<double> result;
    result.reserve(values.size());
    for (const double v : values) result.push_back(most > 0 ? v / most * height : 0);
    return result;
}

}  // namespace

void draw_ribbons(Canvas& canvas, const Assembly& assembly, const FeltAxle& axle, double share) {
    const ShaftCurves& c = axle.curves;
    const glm::dvec3 up = glm::normalize(glm::cross(glm::dvec3(1, 0, 0), assembly.axle_direction));
    std::vector<double> moment;
    moment.reserve(c.y.size());
    for (std::size_t i = 0; i < c.y.size(); ++i)
        moment.push_back(std::hypot(c.moment_x[i], c.moment_z[i]));
    const double most_moment = largest(moment);
    const double most_torque = largest(c.torque);
    draw_ribbon(canvas, assembly, c.y,
                {up, 0, scaled(moment, most_moment, share * ribbon_height), moment_fill,
                 canvas.colours().accent});
    if (most_torque > 0)
        draw_ribbon(canvas, assembly, c.y,
                    {-up, ribbon_distance, scaled(c.torque, most_torque, share * torque_height),
                     torque_fill, IM_COL32(0xCC, 0x79, 0xA7, 255)});
    const auto place = [&](const std::vector<double>& values, double height) {
        std::size_t most = 0;
        for (std::size_t i = 0; i < values.size(); ++i)
            if (std::abs(values[i]) > std::abs(values[most])) most = i;
        return assembly.axle_point + assembly.axle_direction * c.y[most] + up * height;
    };
    draw_words_at(canvas, place(moment, share * ribbon_height),
                  "moment " + number(share * most_moment) + " N\xC2\xB7mm");
    if (most_torque > 0)
        draw_words_at(canvas, place(c.torque, -ribbon_distance - share * torque_height),
                      "torque " + number(share * most_torque) + " N\xC2\xB7mm");
    const ImVec2 corner{(canvas.box.low.x + canvas.box.high.x) / 2,
                        canvas.box.low.y + canvas.px(40)};
    std::string text = std::string(title(axle.which)) + ": bent " + number(axle.bend_factor) +
                       " times as much as in truth";
    if (largest(c.twist) > 0) text += ", wound up " + number(axle.twist_factor) + " times";
    const ImVec2 size = label_size(canvas, text, Status::none);
    PixelBox box{{corner.x - size.x / 2, corner.y}, {corner.x + size.x / 2, corner.y + size.y}};
    const auto overlaps = [&](const PixelBox& other) { return other.overlaps(box); };
    // Below a picture's title.
    for (int step = 0; step < 4 && std::any_of(canvas.taken.begin(), canvas.taken.end(), overlaps);
         ++step) {
        box.low.y += size.y;
        box.high.y += size.y;
    }
    draw_label(canvas, box, text, Status::none);
    canvas.taken.push_back(box);
}

void draw_windup(Canvas& canvas, const Evaluation& evaluation, const FeltAxle& axle, double share) {
    if (largest(axle.curves.twist) <= 0 || share <= 0) return;
    const Assembly& assembly = evaluation.assembly;
    const BentShape shape = bent_shape(axle, share);
    const ShaftStudy& study = evaluation.feel.shaft;
    const ImU32 white = IM_COL32_WHITE, dark = IM_COL32(20, 24, 28, 200);
    for (const Side side : both_sides) {
        const bool left = side == Side::left;
        const double sign = left ? 1 : -1;
        const SideStack& stack = evaluation.stack.side(side);
        const double inner = sign * (2 * stack.wheel - stack.outer);
        const ChalkLine line = chalk_line(
            assembly, shape, left ? study.places.hub_left : study.places.hub_right, inner,
            sign * stack.outer, evaluation.stance.side(side).rolling, canvas.camera.eye());
        const ImVec2 a = canvas.at(line.wound[0]), b = canvas.at(line.wound[1]);
        const ImVec2 c = canvas.at(line.straight[0]), d = canvas.at(line.straight[1]);
        canvas.list->AddLine(c, d, dark, canvas.px(3));
        canvas.list->AddLine(c, d, IM_COL32(255, 255, 255, 150), canvas.px(1.2F));
        const ImVec2 between[] = {a, b, d, c};
        canvas.list->AddConvexPolyFilled(between, 4, torque_fill);
        canvas.list->AddLine(a, b, dark, canvas.px(5));
        canvas.list->AddLine(a, b, white, canvas.px(2.6F));
        draw_words_at(canvas, (line.wound[0] + line.wound[1]) / 2.0,
                      "wound up " + angle(share * (left ? study.windup_left : study.windup_right)));
    }
}

}  // namespace podwright
