#include "bench/room.hpp"

#include <algorithm>
#include <cmath>

#include "bench/views.hpp"
#include "gap/clearance_findings.hpp"

namespace podwright {

namespace {

constexpr glm::vec3 rgb(int r, int g, int b) {
    return {static_cast<float>(r) / 255, static_cast<float>(g) / 255, static_cast<float>(b) / 255};
}

bool counts(const Clearance& c) { return c.need > 0 || c.worst.status >= Status::caution; }

std::size_t step_of(const Clearance& c) {
    if (c.worst.status == Status::stop) return 0;
    if (c.worst.status == Status::caution) return 1;
    return c.worst.gap < 2 * c.need ? 2 : 3;
}

/// How well a direction (from the gap towards the eye) shows the gap: 1 = square to it, 0 = along
/// it.
double squareness(const Clearance& c, const glm::dvec3& to_eye) {
    const glm::dvec3 gap = c.now.point_b - c.now.point_a;
    const double length = glm::length(gap);
    return length < 1e-9 ? 1 : 1 - std::abs(glm::dot(gap / length, to_eye));
}

bool is_open(const glm::dvec3& middle, const glm::dvec3& to_eye, const Stage& stage,
             const StageLook& look) {
    constexpr double away = 250;  // mm
    constexpr double near = 0.8;  // what hits this close to the gap is one of its own surfaces
    const auto hit = stage.pick(look, {middle + to_eye * away, -to_eye});
    return !hit || glm::length(hit->point - middle) < near ||
           glm::dot(hit->point - middle, to_eye) < 0;
}

}  // namespace

// The first two and the fourth are of the Okabe-Ito palette (Okabe and Ito, 2008).
const std::array<HeatStep, 5> heat_steps = {{
    {"touches", rgb(0xD5, 0x5E, 0x00)},
    {"less than needed", rgb(0xF0, 0xC0, 0x40)},
    {"less than twice that", rgb(0x56, 0xB4, 0xE9)},
    {"plenty", rgb(0x1F, 0x5F, 0x96)},
    {"nothing near", rgb(0xD2, 0xD7, 0xDC)},
}};

std::map<std::string, std::size_t> heat_of(const Evaluation& evaluation) {
    std::map<std::string, std::size_t> heat;
    for (const Part& part : evaluation.assembly.parts) heat[part.key] = heat_steps.size() - 1;
    for (const Clearance& c : evaluation.clearances) {
        if (!counts(c)) continue;
        for (const std::string& key : {c.a, c.b})
            if (key != ground_key) heat[key] = std::min(heat[key], step_of(c));
    }
    return heat;
}

std::vector<const Clearance*> shown_clearances(const Evaluation& evaluation, bool all,
                                               std::size_t most) {
    std::vector<const Clearance*> shown;
    for (const Clearance& c : evaluation.clearances) {
        if (!counts(c)) continue;
        const bool trouble = c.worst.status >= Status::caution;
        if (trouble || (all && shown.size() < most)) shown.push_back(&c);
    }
    return shown;
}

void draw_gap_line(const Canvas& canvas, const glm::dvec3& point_a, const glm::dvec3& point_b,
                   Status status) {
    const ImVec2 a = canvas.at(point_a);
    const ImVec2 b = canvas.at(point_b);
    const ImU32 colour = status == Status::stop ? canvas.colours().stop : canvas.colours().accent;
    ImDrawList& list = *canvas.list;
    list.AddLine(a, b, canvas.colours().card, canvas.px(5));
    list.AddLine(a, b, colour, canvas.px(2));
    for (const ImVec2 end : {a, b}) {
        list.AddCircleFilled(end, canvas.px(4), canvas.colours().card);
        list.AddCircleFilled(end, canvas.px(2.8F), colour);
    }
    if (status != Status::stop) return;
    const ImVec2 middle{(a.x + b.x) / 2, (a.y + b.y) / 2};
    const float r = canvas.px(11);
    list.AddCircle(middle, r, canvas.colours().card, 32, canvas.px(5));
    list.AddCircle(middle, r, colour, 32, canvas.px(2.5F));
    const float d = r * 0.7F;
    for (float s : {-1.0F, 1.0F})
        list.AddLine({middle.x - d, middle.y - s * d}, {middle.x + d, middle.y + s * d}, colour,
                     canvas.px(2.5F));
}

std::string text_of(const Clearance& c, const Evaluation& evaluation, LengthUnit shown) {
    std::string text = spoken(evaluation.assembly, c.a) + " / " + spoken(evaluation.assembly, c.b) +
                       " " + length(c.now.gap, shown);
    if (c.worst.status == Status::stop) text += ", touches";
    if (c.worst.status == Status::caution) text += ", close";
    if (c.worst.status >= Status::caution && c.now.status < c.worst.status) text += " at its worst";
    return text;
}

LabelWish wish_of(const Canvas& canvas, const Clearance& c, const std::string& text, int rank) {
    LabelWish wish;
    wish.name = c.a + "|" + c.b;
    wish.rank = rank;
    wish.sizes = {label_size(canvas, text, c.worst.status)};
    wish.anchor = (canvas.at(c.now.point_a) + canvas.at(c.now.point_b)) * 0.5F;
    wish.anchor_clear = canvas.px(c.now.status == Status::stop ? 13.0F : 6.0F);
    return wish;
}

void draw_heat_legend(Canvas& canvas) {
    const ImFont* font = canvas.type->small;
    const float line = font->FontSize + canvas.px(7);
    const float count = static_cast<float>(heat_steps.size());
    const ImVec2 low{canvas.box.low.x + canvas.px(18),
                     canvas.box.high.y - canvas.px(30) - line * (count + 1)};
    const ImVec2 high{low.x + canvas.px(190), canvas.box.high.y - canvas.px(18)};
    ImDrawList& list = *canvas.list;
    list.AddRectFilled(low, high, canvas.colours().plate, canvas.px(6));
    float y = low.y + canvas.px(6);
    list.AddText(canvas.type->small, font->FontSize, {low.x + canvas.px(10), y},
                 canvas.colours().quiet, "clearance at its worst");
    for (const HeatStep& step : heat_steps) {
        y += line;
        const ImVec2 box{low.x + canvas.px(10), y + canvas.px(1)};
        const ImU32 colour =
            ImGui::ColorConvertFloat4ToU32({step.colour.r, step.colour.g, step.colour.b, 1});
        list.AddRectFilled(box, {box.x + canvas.px(22), box.y + font->FontSize}, colour,
                           canvas.px(3));
        list.AddRect(box, {box.x + canvas.px(22), box.y + font->FontSize}, canvas.colours().ink,
                     canvas.px(3));
        list.AddText(font, font->FontSize, {box.x + canvas.px(32), y}, canvas.colours().ink,
                     step.words);
    }
    canvas.taken.push_back({low, high});
}

Camera camera_on_gap(const Clearance& c, const Camera& from, const Stage& stage,
                     const StageLook& look, double aspect) {
    const glm::dvec3 middle = (c.now.point_a + c.now.point_b) / 2.0;
    const glm::dvec3 present = glm::normalize(from.eye() - from.target);
    Camera best = from;
    double most = -1;
    constexpr int around = 24;
    for (int i = 0; i < around; ++i)
        for (double elevation : {-0.15, 0.15, 0.45, 0.8, 1.2}) {
            Camera camera = from;
            camera.azimuth = from.azimuth + 2 * pi * i / around;
            camera.elevation = elevation;
            const glm::dvec3 to_eye = glm::normalize(camera.eye() - camera.target);
            if (!is_open(middle, to_eye, stage, look)) continue;
            const double score = squareness(c, to_eye) + 0.25 * glm::dot(to_eye, present);
            if (score > most) {
                most = score;
                best = camera;
            }
        }
    return looking_at(best, middle, std::max(9.0, 2.5 * std::abs(c.now.gap)), aspect);
}

}  // namespace podwright
