#include "bench/bench_view.hpp"

#include <algorithm>
#include <cmath>

#include "bench/camera_moves.hpp"
#include "bench/load_case.hpp"
#include "bench/part_card.hpp"
#include "bench/part_facts.hpp"
#include "bench/part_tools.hpp"
#include "bench/texture.hpp"
#include "bench/views.hpp"

namespace podwright {

namespace {

constexpr double settle_seconds = 0.18;
constexpr double moving_scale = 0.6;
constexpr float click_slop = 4;  // pixels that a click may wander

glm::dvec2 pixels_of(const PixelBox& box) { return {box.size().x, box.size().y}; }

bool inside(const PixelBox& box, ImVec2 p) {
    return p.x >= box.low.x && p.x < box.high.x && p.y >= box.low.y && p.y < box.high.y;
}

void part_tooltip(WindowFrame& frame, const Part& part) {
    const Model& model = frame.model;
    ImGui::BeginTooltip();
    ImGui::PushFont(frame.type.strong);
    ImGui::TextUnformatted(shown_title(part, model.shown).c_str());
    ImGui::PopFont();
    ImGui::PushFont(frame.type.small);
    for (const Fact& fact : part_facts(part.key, model.setup, model.evaluation, model.shown))
        ImGui::Text("%s  %s", fact.label.c_str(), fact.value.c_str());
    ImGui::PopFont();
    const ImVec2 low = ImGui::GetWindowPos(), size = ImGui::GetWindowSize();
    frame.note_place("hover card", low, {low.x + size.x, low.y + size.y});
    ImGui::EndTooltip();
}

}  // namespace

void BenchView::handle_mouse(WindowFrame& frame, const PixelBox& box) {
    ImGuiIO& io = ImGui::GetIO();
    Model& model = frame.model;
    const bool over = inside(box, io.MousePos) && !io.WantCaptureMouse;
    if (over && io.MouseWheel != 0) {
        const glm::dvec2 pointer{io.MousePos.x - box.low.x, io.MousePos.y - box.low.y};
        zoom_camera(model.camera, io.MouseWheel, pointer, pixels_of(box));
        model.move.reset();
        model.view_moved = true;
    }
    const bool pressed =
        ImGui::IsMouseClicked(0) || ImGui::IsMouseClicked(1) || ImGui::IsMouseClicked(2);
    if (over && pressed) {
        grip_ = ImGui::IsMouseClicked(0) && !io.KeyShift ? Grip::turn : Grip::shift;
        dragged_ = 0;
    }
    const bool held = ImGui::IsMouseDown(0) || ImGui::IsMouseDown(1) || ImGui::IsMouseDown(2);
    if (grip_ != Grip::none && held) {
        dragged_ += std::abs(io.MouseDelta.x) + std::abs(io.MouseDelta.y);
        if (dragged_ > click_slop && (io.MouseDelta.x != 0 || io.MouseDelta.y != 0)) {
            model.move.reset();
            model.view_moved = true;
            const glm::dvec2 moved(io.MouseDelta.x, io.MouseDelta.y);
            if (grip_ == Grip::turn)
                turn_camera(model.camera, moved);
            else
                shift_camera(model.camera, moved, pixels_of(box).y);
        }
    }
    if (grip_ != Grip::none && !held) {
        if (grip_ == Grip::turn && dragged_ <= click_slop) model.look.picked = model.look.hovered;
        grip_ = Grip::none;
    }
    if (grip_ == Grip::none) point_at(frame, box);
}

void BenchView::point_at(WindowFrame& frame, const PixelBox& box) {
    const ImGuiIO& io = ImGui::GetIO();
    Model& model = frame.model;
    if (!inside(box, io.MousePos) || io.WantCaptureMouse) {
        model.look.hovered.clear();
        pointer_ = {-1, -1};
        return;
    }
    const Assembly& assembly = model.evaluation.assembly;
    if (io.MousePos.x != pointer_.x || io.MousePos.y != pointer_.y) {
        pointer_ = io.MousePos;
        const Ray ray = ray_through(
            model.camera, {io.MousePos.x - box.low.x, io.MousePos.y - box.low.y}, pixels_of(box));
        const auto hit = stage_.pick(model.look, ray);
        model.look.hovered = hit ? hit->part : "";
    }
    if (model.look.hovered == model.look.picked) return;  // its card stands at the side already
    if (const Part* part = assembly.find(model.look.hovered)) part_tooltip(frame, *part);
}

void BenchView::draw_model(WindowFrame& frame, const PixelBox& box) {
    Model& model = frame.model;
    const ImVec2 ratio = ImGui::GetIO().DisplayFramebufferScale;
    PictureKey key{model.revision, model.look, model.camera,
                   static_cast<int>(pixels_of(box).x * ratio.x),
                   static_cast<int>(pixels_of(box).y * ratio.y)};
    if (key.width < 16 || key.height < 16) return;
    const bool changed = !drawn_ || !same(*drawn_, key);
    const bool first = !drawn_;
    if (changed) changed_at_ = frame.now;
    const bool rested = frame.now - changed_at_ > settle_seconds;
    if (!changed && !(quality_ == Quality::moving && rested)) return;

    quality_ = changed && !first ? Quality::moving : Quality::settled;
    // While things move the picture is coarser and stretched: hard to see, and a third of the
    // pixels to draw.
    const double scale = quality_ == Quality::moving ? moving_scale : 1;
    const int width = static_cast<int>(key.width * scale);
    const int height = static_cast<int>(key.height * scale);
    Framebuffer& picture = quality_ == Quality::moving ? moving_picture_ : picture_;
    resize(picture, width, height);
    stage_.bend(model.look);
    stage_.renderer().draw(stage_.scene(model.look), model.camera, {0, 0, width, height}, quality_,
                           picture.id(), height);
    drawn_ = std::move(key);
}

void BenchView::draw_words(WindowFrame& frame, const PixelBox& box) {
    const Model& model = frame.model;
    Canvas canvas;
    canvas.list = ImGui::GetBackgroundDrawList();
    canvas.box = box;
    canvas.camera = model.camera;
    canvas.type = &frame.type;
    std::optional<PartCard> card;
    if (const Part* picked = model.evaluation.assembly.find(model.look.picked))
        card = place_part_card(canvas, *picked, model.setup, model.evaluation, model.shown);
    if (const auto tools = part_tools_box(frame, box)) canvas.taken.push_back(*tools);
    WordsInput input = words_input(model, model.look);
    input.pixel_ratio = ImGui::GetIO().DisplayFramebufferScale.x;
    if (quality_ == Quality::moving) input.pixel_ratio /= 2;
    draw_load(canvas, model);
    words_.draw(canvas, input, stage_);
    if (card) draw_part_card(canvas, *card);
}

void BenchView::show(WindowFrame& frame, const PixelBox& box) {
    if (staged_ != frame.model.revision) {
        const Ghost& ghost = frame.model.ghost;
        stage_.set(frame.model.evaluation.assembly,
                   ghost.of == Ghost::Of::nothing ? nullptr : &ghost.evaluation.assembly);
        staged_ = frame.model.revision;
    }
    handle_mouse(frame, box);
    draw_model(frame, box);
    ImDrawList& list = *ImGui::GetBackgroundDrawList();
    const Framebuffer& picture = quality_ == Quality::moving ? moving_picture_ : picture_;
    if (drawn_) list.AddImage(texture_id(picture), box.low, box.high, {0, 1}, {1, 0});
    list.PushClipRect(box.low, box.high);
    draw_words(frame, box);
    list.PopClipRect();
}

}  // namespace podwright
