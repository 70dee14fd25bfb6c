#include "bench/easel.hpp"

#include <epoxy/gl.h>

#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <vector>

#include "bench/ghost_legend.hpp"
#include "bench/load_case.hpp"
#include "bench/widgets.hpp"

namespace podwright {

namespace {

struct FindingLine {
    Level level;
    std::string text;
    PixelBox box;
};

/// The worst findings at the foot of the picture; keeps their room free.
std::vector<FindingLine> finding_lines(Canvas& canvas, const Evaluation& evaluation) {
    constexpr std::size_t most = 4;
    const float margin = canvas.px(grid::large);
    std::vector<FindingLine> lines;
    float y = canvas.box.high.y - margin;
    for (std::size_t i = std::min(most, evaluation.findings.size()); i-- > 0;) {
        const Finding& finding = evaluation.findings[i];
        const float width = canvas.box.size().x - 2 * margin - canvas.px(40);
        const std::string text = broken(*canvas.type->small, finding.text, width);
        const ImVec2 size = label_size(canvas, text, status_of(finding.level));
        const ImVec2 low{canvas.box.low.x + margin, y - size.y};
        lines.push_back({finding.level, text, {low, low + size}});
        canvas.taken.push_back(lines.back().box);
        y -= size.y + canvas.px(grid::hair);
    }
    return lines;
}

/// Its plate.
PixelBox draw_title(Canvas& canvas, const Setup& setup) {
    ImFont* font = canvas.type->large;
    const ImVec2 pad{canvas.px(grid::small), canvas.px(grid::hair)};
    const ImVec2 low = canvas.box.low + ImVec2{canvas.px(grid::large), canvas.px(grid::large)};
    const std::string text =
        broken(*font, setup.title, canvas.box.size().x - 2 * canvas.px(grid::large) - 2 * pad.x);
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, 0, text.c_str());
    const PixelBox plate{low, low + size + pad * 2};
    canvas.list->AddRectFilled(plate.low, plate.high, canvas.colours().plate, canvas.px(4));
    canvas.list->AddText(font, font->FontSize, low + pad, canvas.colours().ink, text.c_str());
    canvas.taken.push_back(plate);
    return plate;
}

}  // namespace

/// Dear ImGui with no window behind it, for the words.
struct Easel::WordsSession {
    WordsSession(int width, int height, bool dark) {
        ImGui::CreateContext();
        ImGuiIO& io = ImGui::GetIO();
        io.IniFilename = nullptr;
        io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
        ImGui_ImplOpenGL3_Init("#version 330 core");
        const float scale =
            std::min(static_cast<float>(height) / 720.0F, static_cast<float>(width) / 800.0F);
        type = set_type_and_style(std::clamp(scale, 0.9F, 4.0F), dark);
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

double chord_error_for(int height) {
    // A seventh of a pixel where the whole axle fills the picture; no finer than files need it.
    constexpr double at_720 = 0.02, finest = 0.005;
    return std::clamp(at_720 * 720 / height, finest, at_720);
}

Easel::Easel(int width, int height, const MeshLibrary& library)
    : stage_(library, chord_error_for(height)), picture_(width, height) {}

Easel::~Easel() = default;

void Easel::rehearse(bool cut, bool labels) {
    const Mesh block = mesh_of(Box{{-1, -1, -1}, {1, 1, 1}}, default_chord_error, nullptr);
    stage_.renderer().rehearse(block, cut, labels);
}

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
    look.dark = model.dark;
    stage_.bend(look);
    stage_.renderer().draw(stage_.scene(look), model.camera, {0, 0, width, height},
                           Quality::settled, picture_.id(), height);
    if (labels) write_over(model, look);
    return picture_.read();
}

void Easel::write_over(const Model& model, const StageLook& look) {
    if (!words_)
        words_ = std::make_unique<WordsSession>(picture_.width(), picture_.height(), model.dark);
    ImGui_ImplOpenGL3_NewFrame();
    ImGui::NewFrame();
    Canvas canvas;
    canvas.list = ImGui::GetBackgroundDrawList();
    canvas.box = {{0, 0}, ImGui::GetIO().DisplaySize};
    canvas.camera = model.camera;
    canvas.type = &words_->type;
    const PixelBox title = draw_title(canvas, model.setup);
    const Ghost& ghost = model.ghost;
    if (ghost.of == Ghost::Of::kept) draw_ghost_legend(canvas, title, ghost.title);
    if (ghost.of == Ghost::Of::before) draw_ghost_legend(canvas, title, "the setup before");
    const std::vector<FindingLine> findings = finding_lines(canvas, model.evaluation);
    WordsInput input = words_input(model, look);
    draw_load(canvas, model);
    words_->words.draw(canvas, input, stage_);
    for (const FindingLine& line : findings)
        draw_label(canvas, line.box, line.text, status_of(line.level));
    ImGui::Render();
    glBindFramebuffer(GL_FRAMEBUFFER, picture_.id());
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
}

}  // namespace podwright
