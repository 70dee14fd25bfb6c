#include "bench/window.hpp"

#include <epoxy/gl.h>

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "bench/advice_panels.hpp"
#include "bench/bench_view.hpp"
#include "bench/file_words.hpp"
#include "bench/panels.hpp"
#include "bench/part_tools.hpp"
#include "bench/shortcuts.hpp"
#include "bench/tell.hpp"
#include "bench/views.hpp"
#include "file/asset.hpp"
#include "file/asset_library.hpp"
#include "file/scene.hpp"

namespace podwright {

namespace {

/// Widths and heights of the panels, in pixels: the side panels give way in a small window.
struct PanelSizes {
    float left, right, top, foot, strip;
};
PanelSizes panel_sizes(const WindowFrame& frame) {
    const float width = ImGui::GetIO().DisplaySize.x;
    return {std::clamp(0.23F * width, frame.px(236), frame.px(300)),
            std::clamp(0.25F * width, frame.px(252), frame.px(320)), frame.px(grid::top_bar),
            frame.px(grid::foot_bar), frame.px(grid::tool_strip)};
}

// On a small screen a window smaller than it would like to be, so that all of it is in sight.
void keep_on_screen(GLFWwindow* window) {
    GLFWmonitor* monitor = glfwGetPrimaryMonitor();
    if (monitor == nullptr) return;
    int x = 0, y = 0, most_wide = 0, most_high = 0, width = 0, height = 0;
    glfwGetMonitorWorkarea(monitor, &x, &y, &most_wide, &most_high);
    glfwGetWindowSize(window, &width, &height);
    if (width <= most_wide && height <= most_high) return;
    glfwSetWindowSize(window, std::min(width, most_wide), std::min(height, most_high));
    glfwSetWindowPos(window, x, y);
}

/// The window and its OpenGL context; everything is undone in reverse at the end.
class Glfw {
public:
    Glfw() {
        glfwSetErrorCallback([](int, const char*) {});  // what matters is said by what fails
        if (!glfwInit())
            throw DrawError(
                "No window can be opened here: there is no display. `podwright report` "
                "and `podwright picture` work without one.");
        glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
        glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
        glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
        glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
        glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
        window_ = glfwCreateWindow(1360, 820, "Podwright", nullptr, nullptr);
        if (!window_) {
            glfwTerminate();
            throw DrawError("This computer offers no OpenGL 3.3, which Podwright needs to draw.");
        }
        keep_on_screen(window_);
        glfwMakeContextCurrent(window_);
        glfwSwapInterval(1);
        glfwSetWindowSizeLimits(window_, 900, 560, GLFW_DONT_CARE, GLFW_DONT_CARE);
    }
    ~Glfw() {
        glfwDestroyWindow(window_);
        glfwTerminate();
    }
    Glfw(const Glfw&) = delete;
    Glfw& operator=(const Glfw&) = delete;
    GLFWwindow* window() const { return window_; }

private:
    GLFWwindow* window_ = nullptr;
};

class ImGuiSession {
public:
    explicit ImGuiSession(GLFWwindow* window) {
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        ImGui::GetIO().ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
        ImGui_ImplGlfw_InitForOpenGL(window, true);
        ImGui_ImplOpenGL3_Init("#version 330 core");
    }
    ~ImGuiSession() {
        ImGui_ImplOpenGL3_Shutdown();
        ImGui_ImplGlfw_Shutdown();
        ImGui::DestroyContext();
    }
    ImGuiSession(const ImGuiSession&) = delete;
    ImGuiSession& operator=(const ImGuiSession&) = delete;
};

/// What GLFW's callbacks leave for the next frame.
struct WindowInput {
    std::vector<KeyPress> keys;
    std::string dropped;
    bool came = false;  ///< anything at all
};

WindowInput& input_of(GLFWwindow* window) {
    return *static_cast<WindowInput*>(glfwGetWindowUserPointer(window));
}

/// To be called before ImGui takes its own callbacks, which pass on to these.
void listen(GLFWwindow* window, WindowInput& input) {
    glfwSetWindowUserPointer(window, &input);
    glfwSetKeyCallback(window, [](GLFWwindow* w, int key, int, int action, int mods) {
        input_of(w).came = true;
        if (action == GLFW_PRESS)
            input_of(w).keys.push_back(
                {key, (mods & GLFW_MOD_CONTROL) != 0, (mods & GLFW_MOD_SHIFT) != 0});
    });
    glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** paths) {
        input_of(w).came = true;
        if (count > 0) input_of(w).dropped = paths[0];
    });
    glfwSetWindowRefreshCallback(window, [](GLFWwindow* w) { input_of(w).came = true; });
    glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int) { input_of(w).came = true; });
    glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int) { input_of(w).came = true; });
    glfwSetCharCallback(window, [](GLFWwindow* w, unsigned) { input_of(w).came = true; });
    glfwSetMouseButtonCallback(window,
                               [](GLFWwindow* w, int, int, int) { input_of(w).came = true; });
    const auto moved = [](GLFWwindow* w, double, double) { input_of(w).came = true; };
    glfwSetCursorPosCallback(window, moved);
    glfwSetScrollCallback(window, moved);
}

/// The bench in its window.
class Bench {
public:
    Bench(GLFWwindow* window, WindowInput& input, const WindowRequest& request, Setup setup)
        : window_(window),
          input_(input),
          tell_(request.tell),
          library_(asset_library()),
          meter_(library_),
          scales_(library_),
          model_(std::move(setup), &meter_, &scales_),
          stage_(library_),
          view_(stage_),
          advisor_(glfwPostEmptyEvent) {
        model_.path = request.scene;
        model_.is_demo = is_demo_scene(request.scene);
        float scale = 1;
        glfwGetWindowContentScale(window_, &scale, nullptr);
        type_ = set_type_and_style(std::clamp(scale, 1.0F, 4.0F), model_.dark);
    }

    void run() {
        while (!files_.may_leave()) {
            wait();
            if (glfwWindowShouldClose(window_)) {
                glfwSetWindowShouldClose(window_, GLFW_FALSE);
                files_.close(model_);
                if (files_.may_leave()) return;
                frames_due_ = frames_after_input;
            }
            one_frame();
        }
    }

private:
    // ImGui shows some effects of an event a frame or two later.
    static constexpr int frames_after_input = 4;

    /// Sleeps until there is something to draw.
    void wait() {
        if (moving_ || frames_due_ > 0) {
            glfwPollEvents();
            --frames_due_;
            // What comes while frames are due has its own.
            if (std::exchange(input_.came, false)) frames_due_ = frames_after_input - 1;
            return;
        }
        if (view_.wants_settled() || advisor_.busy())
            glfwWaitEventsTimeout(0.1);
        else if (!model_.message.empty())
            glfwWaitEventsTimeout(1.0);
        else
            glfwWaitEvents();
        input_.came = false;
        frames_due_ = frames_after_input - 1;
    }

    void one_frame() {
        const double now = glfwGetTime();
        if (!input_.dropped.empty()) files_.open(model_, std::exchange(input_.dropped, {}), now);
        if (files_.was_opened()) framed_ = false;
        show_title();
        advisor_.poll(model_, now);
        moving_ = advance(model_, now);
        follow_pose(model_, moving_ || ImGui::GetIO().MouseDown[0]);
        model_.look.cut = cut_of(model_);
        model_.look.dark = model_.dark;
        model_.look.paint = paint_of(model_);
        ImGui_ImplOpenGL3_NewFrame();
        ImGui_ImplGlfw_NewFrame();
        keep_own_keys();
        ImGui::NewFrame();
        if (type_.colours->dark != model_.dark) set_dark(type_, model_.dark);
        WindowFrame frame{model_, type_, now, std::exchange(input_.keys, {}), {}};
        build(frame);
        ImGui::Render();
        int width = 0;
        int height = 0;
        glfwGetFramebufferSize(window_, &width, &height);
        glBindFramebuffer(GL_FRAMEBUFFER, 0);
        glViewport(0, 0, width, height);
        glClearColor(0.93F, 0.94F, 0.95F, 1);
        glClear(GL_COLOR_BUFFER_BIT);
        ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
        glfwSwapBuffers(window_);
        ++frames_;
        if (tell_ && !moving_ && frames_due_ <= 0 && !view_.wants_settled())
            teller_.tell(model_, frame.places, frames_);
    }

    /// Keys that mean something here and move the focus in ImGui as well.
    static void keep_own_keys() {
        ImGuiIO& io = ImGui::GetIO();
        if (io.WantTextInput) return;
        io.KeysDown[GLFW_KEY_TAB] = false;
        if (!io.KeyCtrl) return;
        for (const int key : {GLFW_KEY_LEFT, GLFW_KEY_RIGHT, GLFW_KEY_UP, GLFW_KEY_DOWN})
            io.KeysDown[key] = false;
    }

    void show_title() {
        std::string title = window_title(model_);
        if (title == title_) return;
        glfwSetWindowTitle(window_, title.c_str());
        title_ = std::move(title);
    }

    PixelBox bench_box(const WindowFrame& frame) const {
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        if (!model_.panels) return {{0, 0}, size};
        const PanelSizes panels = panel_sizes(frame);
        return {{panels.left + panels.strip, panels.top},
                {size.x - panels.right, size.y - panels.foot}};
    }

    void build(WindowFrame& frame) {
        const PixelBox box = bench_box(frame);
        const double aspect = (box.high.x - box.low.x) / std::max(1.0F, box.high.y - box.low.y);
        if (!framed_) {
            go_to_view(model_, "axle", aspect, frame.now);
            keep_view(model_, aspect);
            framed_ = true;
        } else if (aspect != aspect_ || model_.look.pose.spread != spread_) {
            keep_view(model_, aspect);
        } else if (model_.felt.has_value() != felt_) {
            ease_view(model_, aspect, frame.now);
        }
        felt_ = model_.felt.has_value();
        aspect_ = aspect;
        spread_ = model_.look.pose.spread;
        handle_shortcuts(frame, files_, stage_, aspect);
        view_.show(frame, box);
        if (model_.panels) panels(frame, aspect);
        advisor_.show_offered(model_);
        part_tools(frame, box);
        message_line(frame, box);
        help_sheet(frame);
        effects_sheet(frame, advisor_);
        files_.show(frame);
    }

    /// `bench_side` is the direction, from the panel, of the edge that a hairline marks.
    template <class Fill>
    void panel(const char* name, ImVec2 at, ImVec2 size, ImVec2 bench_side, bool scrolls,
               Fill fill) {
        ImGui::SetNextWindowPos(at);
        ImGui::SetNextWindowSize(size);
        ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, 0);
        ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0);
        constexpr ImGuiWindowFlags still =
            ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse;
        ImGui::Begin(name, nullptr,
                     ImGuiWindowFlags_NoTitleBar | ImGuiWindowFlags_NoResize |
                         ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                         ImGuiWindowFlags_NoBringToFrontOnFocus | (scrolls ? 0 : still));
        ImGui::PopStyleVar(2);
        fill();
        const ImVec2 edge{at.x + (bench_side.x > 0 ? size.x - 1 : 0),
                          at.y + (bench_side.y > 0 ? size.y - 1 : 0)};
        ImDrawList& list = *ImGui::GetWindowDrawList();
        list.PushClipRectFullScreen();
        list.AddRectFilled(edge,
                           bench_side.x != 0 ? ImVec2{edge.x + 1, at.y + size.y}
                                             : ImVec2{at.x + size.x, edge.y + 1},
                           type_.colours->line);
        list.PopClipRect();
        ImGui::End();
    }

    void panels(WindowFrame& frame, double aspect) {
        const ImVec2 size = ImGui::GetIO().DisplaySize;
        const auto [left, right, top, foot, strip] = panel_sizes(frame);
        const float middle = size.y - top - foot;
        panel("top", {0, 0}, {size.x, top}, {0, 1}, false, [&] { top_bar(frame, files_); });
        panel("adjusters", {0, top}, {left, middle}, {1, 0}, true, [&] { adjuster_panel(frame); });
        panel("tools", {left, top}, {strip, middle}, {1, 0}, false, [&] { tool_strip(frame); });
        const float pages = frame.px(grid::page_bar);
        panel("pages", {size.x - right, top}, {right, pages}, {-1, 0}, false,
              [&] { page_tabs(frame); });
        // Each page scrolls on its own.
        panel(("page " + std::string(page_name(model_.page))).c_str(),
              {size.x - right, top + pages}, {right, middle - pages}, {-1, 0}, true,
              [&] { page(frame, aspect); });
        panel("views", {0, size.y - foot}, {size.x, foot}, {0, -1}, false,
              [&] { view_bar(frame, aspect); });
    }

    void page(WindowFrame& frame, double aspect) {
        switch (model_.page) {
            case Page::car:
                finding_panel(frame, stage_, aspect);
                ghost_panel(frame);
                room_panel(frame, stage_, aspect);
                reading_panel(frame);
                break;
            case Page::feel: feel_panel(frame); break;
            case Page::choose: choose_page(frame, advisor_); break;
            case Page::day: day_page(frame, advisor_); break;
            case Page::checks: checks_page(frame, advisor_, aspect); break;
            case Page::effects: effects_page(frame, advisor_); break;
        }
    }

    static void message_line(WindowFrame& frame, const PixelBox& box) {
        const std::string& text = frame.model.message;
        if (text.empty()) return;
        ImFont* font = frame.type.text;
        ImDrawList& list = *ImGui::GetForegroundDrawList();
        const float room = box.high.x - box.low.x - frame.px(60);
        const ImVec2 size = font->CalcTextSizeA(font->FontSize, 1e9F, room, text.c_str());
        const ImVec2 low{(box.low.x + box.high.x - size.x) / 2, box.high.y - size.y - frame.px(24)};
        const float pad = frame.px(10);
        list.AddRectFilled({low.x - pad, low.y - pad / 2},
                           {low.x + size.x + pad, low.y + size.y + pad / 2}, frame.colours().tip,
                           frame.px(6));
        list.AddText(font, font->FontSize, low, frame.colours().on_tip, text.c_str(), nullptr,
                     room);
    }

    GLFWwindow* window_;
    WindowInput& input_;
    bool tell_;
    MeshLibrary library_;
    Meter meter_;
    Scales scales_;
    Model model_;
    Stage stage_;
    BenchView view_;
    Advisor advisor_;
    FileDialog files_;
    Teller teller_;
    Type type_;
    std::string title_;
    int frames_due_ = frames_after_input;
    std::size_t frames_ = 0;
    bool moving_ = false;
    bool framed_ = false;
    bool felt_ = false;
    double aspect_ = 0;
    double spread_ = 0;
};

}  // namespace

void run_window(const WindowRequest& request) {
    Setup setup = read_scene(request.scene);
    const Glfw glfw;
    require_opengl();
    WindowInput input;
    listen(glfw.window(), input);
    const ImGuiSession session(glfw.window());
    Bench(glfw.window(), input, request, std::move(setup)).run();
}

}  // namespace podwright
