#include "bench/easel.hpp"

#include <epoxy/gl.h>

#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <vector>

#include "bench/views.hpp"

namespace podwright {

namespace {

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

}  // namespace

/// Dear ImGui with no window behind it, for the words.
struct Easel::WordsSession {
    WordsSession(int width, int height) {
        ImGui::CreateContext();
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
        ImGui_ImplOpenGL3_Init("#version 330 core");
        type = set_type_and_style(std::clamp(static_cast<float>(height) / 720.0F, 0.8F, 4.0F));
    }
    ~WordsSession() {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui::DestroyContext();
    }
    WordsSession(const WordsSession&) = delete;
    WordsSession& operator=(const WordsSession&) = delete;

    Type type;
    Words words;
};

Easel::Easel(int width, int height, const MeshLibrary& library)
    : stage_(library), picture_(width, height) {}

Easel::~Easel() = default;

Image Easel::draw(const Model& model, bool labels) {
    if (staged_ != model.revision) {
        const Ghost& ghost = model.ghost;
        stage_.set(model.evaluation.assembly,
                   ghost.of == Ghost::Of::nothing ? nullptr : &ghost.evaluation.assembly);
        staged_ = model.revision;
    }
    const int width = picture_.width();
    const int height = picture_.height();
    StageLook look = model.look;
    look.cut = cut_of(model);
    stage_.bend(look);
    stage_.renderer().draw(stage_.scene(look), model.camera, {0, 0, width, height},
                           Quality::settled, picture_.id(), height);
    if (labels) write_over(model);
    return picture_.read();
}

void Easel::write_over(const Model& model) {
    if (!words_) words_ = std::make_unique<WordsSession>(picture_.width(), picture_.height());
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    Canvas canvas;
    canvas.list = ImGui::GetBackgroundDrawList();
    canvas.box = {{0, 0}, ImGui::GetIO().DisplaySize};
    canvas.camera = model.camera;
    canvas.type = &words_->type;
    draw_title(canvas, model.setup);
    const std::vector<FindingLine> findings = finding_lines(canvas, model.evaluation);
    WordsInput input = words_input(model);
    words_->words.draw(canvas, input, stage_);
    for (const FindingLine& line : findings)
        draw_label(canvas, line.box, line.finding.text, status_of(line.finding.level));
    ImGui::Render();
    glBindFramebuffer(GL_FRAMEBUFFER, picture_.id());
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

}  // namespace podwright
