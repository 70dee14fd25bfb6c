#include "bench/picture.hpp"

#include <epoxy/gl.h>

#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <vector>

#include "bench/assets.hpp"
#include "bench/dimension_lines.hpp"
#include "bench/loupe.hpp"
#include "bench/stage.hpp"
#include "bench/views.hpp"
#include "draw/framebuffer.hpp"
#include "draw/headless.hpp"
#include "file/disk.hpp"

namespace podwright {

namespace {

/// Dear ImGui with no window behind it, for the words.
class WordsSession {
public:
    WordsSession(int width, int height) {
        ImGui::CreateContext();
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
        ImGui_ImplOpenGL3_Init("#version 330 core");
    }
    ~WordsSession() {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui::DestroyContext();
    }
    WordsSession(const WordsSession&) = delete;
    WordsSession& operator=(const WordsSession&) = delete;
};

ImTextureID texture_id(const Framebuffer& framebuffer) {
    return reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(framebuffer.texture()));
}

/// The findings as a line each at the foot of the picture.
void draw_findings(Canvas& canvas, const Evaluation& evaluation) {
    float y = canvas.box.high.y - canvas.px(24);
    constexpr std::size_t most = 4;
    const std::size_t count = std::min(most, evaluation.findings.size());
    for (std::size_t i = count; i-- > 0;) {
        const Finding& finding = evaluation.findings[i];
        const Status status = status_of(finding.level);
        PixelBox box = label_box(canvas, {0, y}, finding.text, status);
        const float shift = canvas.box.low.x + canvas.px(20) - box.low.x;
        box.low.x += shift;
        box.high.x += shift;
        draw_label(canvas, box, finding.text, status);
        y -= canvas.px(26);
    }
}

void draw_title(Canvas& canvas, const Setup& setup) {
    ImFont* font = canvas.type->large;
    const ImVec2 at{canvas.box.low.x + canvas.px(22), canvas.box.low.y + canvas.px(18)};
    canvas.list->AddText(font, font->FontSize, at, theme::ink, setup.title.c_str());
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0, setup.title.c_str());
    canvas.taken.push_back({at, {at.x + size.x, at.y + size.y}});
}

/// The words over the picture in `framebuffer`.
void draw_words(const PictureRequest& request, const Evaluation& evaluation, const Camera& camera,
                Stage& stage, const StageLook& look, const Framebuffer& framebuffer) {
    const WordsSession session(request.width, request.height);
    const float scale = std::clamp(static_cast<float>(request.height) / 720.0F, 0.8F, 4.0F);
    const Type type = set_type_and_style(scale);
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    Canvas canvas;
    canvas.list = ImGui::GetBackgroundDrawList();
    canvas.box = {{0, 0}, ImGui::GetIO().DisplaySize};
    canvas.camera = camera;
    canvas.type = &type;
    draw_title(canvas, request.setup);
    draw_findings(canvas, evaluation);

    Framebuffer loupe;
    if (look.pose.spread == 0) {
        const LoupePlace place = loupe_place(canvas);
        const LoupeView view = loupe_view(request.setup, evaluation, look.pose);
        const int size = static_cast<int>(2 * place.radius);
        loupe = Framebuffer(size, size);
        StageLook whole = look;
        whole.cut.reset();
        stage.renderer().draw_round(stage.scene(whole), view.camera, {0, 0, size, size}, loupe.id(),
                                    size);
        draw_loupe(canvas, place, view, texture_id(loupe), request.setup, evaluation,
                   LengthUnit::mm);
        draw_dimensions(canvas, dimensions_on(named_view(request.view), request.setup, evaluation),
                        evaluation, LengthUnit::mm);
    }
    ImGui::Render();
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer.id());
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

}  // namespace

std::span<const std::string_view> view_names() {
    static const std::vector<std::string_view> names = [] {
        std::vector<std::string_view> all;
        for (const NamedView& view : named_views()) all.push_back(view.name);
        return all;
    }();
    return names;
}

void write_picture(const PictureRequest& request) {
    const Evaluation evaluation = evaluate(request.setup);
    const HeadlessContext context;
    Stage stage(asset_library());
    stage.set(evaluation.assembly);
    const double aspect = static_cast<double>(request.width) / request.height;
    const Camera camera = camera_of(request.view, evaluation, aspect);
    StageLook look;
    look.pose.along = request.explode > 0 ? 0 : 1;  // as it is clamped, with the blade in its gap
    look.pose.spread = request.explode;
    const NamedView& view = named_view(request.view);
    look.see_through.assign(view.see_through.begin(), view.see_through.end());
    if (request.cutaway || wants_cut(request.view)) look.cut = Cut{{1, 0, 0}, 0};

    const Framebuffer framebuffer(request.width, request.height);
    stage.renderer().draw(stage.scene(look), camera, {0, 0, request.width, request.height},
                          Quality::settled, framebuffer.id(), request.height);
    if (request.labels) draw_words(request, evaluation, camera, stage, look, framebuffer);
    const std::vector<std::uint8_t> png = png_bytes(framebuffer.read());
    write_file(request.output, {reinterpret_cast<const char*>(png.data()), png.size()});
}

}  // namespace podwright
