#include "bench/picture.hpp"

#include <epoxy/gl.h>

#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <vector>

#include "bench/stage.hpp"
#include "bench/views.hpp"
#include "bench/words.hpp"
#include "draw/framebuffer.hpp"
#include "draw/headless.hpp"
#include "file/asset_library.hpp"
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

struct FindingLine {
    const Finding& finding;
    PixelBox box;
};

/// The worst findings, a line each at the foot of the picture; keeps their room free.
std::vector<FindingLine> finding_lines(Canvas& canvas, const Evaluation& evaluation) {
    constexpr std::size_t most = 4;
    std::vector<FindingLine> lines;
    float y = canvas.box.high.y - canvas.px(24);
    for (std::size_t i = std::min(most, evaluation.findings.size()); i-- > 0;) {
        const Finding& finding = evaluation.findings[i];
        PixelBox box = label_box(canvas, {0, y}, finding.text, status_of(finding.level));
        const float shift = canvas.box.low.x + canvas.px(20) - box.low.x;
        box.low.x += shift;
        box.high.x += shift;
        canvas.taken.push_back(box);
        lines.push_back({finding, box});
        y -= canvas.px(26);
    }
    return lines;
}

void draw_title(Canvas& canvas, const Setup& setup) {
    ImFont* font = canvas.type->large;
    const ImVec2 at{canvas.box.low.x + canvas.px(22), canvas.box.low.y + canvas.px(18)};
    canvas.list->AddText(font, font->FontSize, at, theme::ink, setup.title.c_str());
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0, setup.title.c_str());
    canvas.taken.push_back({at, {at.x + size.x, at.y + size.y}});
}

/// Title, findings, dimensions and loupe over the picture in `framebuffer`.
void write_over(const PictureRequest& request, const Evaluation& evaluation, const Camera& camera,
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
    const std::vector<FindingLine> findings = finding_lines(canvas, evaluation);

    Words words;
    words.draw(canvas, {named_view(request.view), request.setup, evaluation, look}, stage);
    for (const FindingLine& line : findings)
        draw_label(canvas, line.box, line.finding.text, status_of(line.finding.level));
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
    const MeshLibrary library = asset_library();
    Meter meter(library);
    Asked asked;
    asked.meter = &meter;
    const Evaluation evaluation = evaluate(request.setup, asked);
    const HeadlessContext context;
    Stage stage(library);
    stage.set(evaluation.assembly);
    Composition composition;
    composition.aspect = static_cast<double>(request.width) / request.height;
    composition.spread = request.explode;
    // A wide picture has room for the loupe beside the model.
    const bool beside = request.labels && request.explode == 0 && composition.aspect > 1.45;
    if (beside && named_view(request.view).loupe) composition.right_margin = 0.2;
    const Camera camera = camera_of(request.view, evaluation, composition);
    StageLook look;
    look.pose.along = request.explode > 0 ? 0 : 1;  // as it is clamped, with the blade in its gap
    look.pose.spread = request.explode;
    const NamedView& view = named_view(request.view);
    look.see_through.assign(view.see_through.begin(), view.see_through.end());
    if (request.cutaway || wants_cut(request.view)) look.cut = Cut{{1, 0, 0}, 0};

    const Framebuffer framebuffer(request.width, request.height);
    stage.renderer().draw(stage.scene(look), camera, {0, 0, request.width, request.height},
                          Quality::settled, framebuffer.id(), request.height);
    if (request.labels) write_over(request, evaluation, camera, stage, look, framebuffer);
    const std::vector<std::uint8_t> png = png_bytes(framebuffer.read());
    write_file(request.output, {reinterpret_cast<const char*>(png.data()), png.size()});
}

}  // namespace podwright
