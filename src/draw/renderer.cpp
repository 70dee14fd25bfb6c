#include "draw/renderer.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <string>

#include "draw/backdrop_pass.hpp"
#include "draw/edge_pass.hpp"
#include "draw/framebuffer.hpp"
#include "draw/gpu_mesh.hpp"
#include "draw/item_pass.hpp"
#include "draw/plan.hpp"
#include "draw/shade_pass.hpp"
#include "draw/shadow_pass.hpp"

namespace podwright {

namespace {

std::string text_of(GLenum name) {
    const GLubyte* text = glGetString(name);
    return text == nullptr ? "nothing" : reinterpret_cast<const char*>(text);
}

// Keeps what the caller has bound; the rest of the state is left as OpenGL begins with.
class KeptState {
public:
    KeptState() {
        glGetIntegerv(GL_VIEWPORT, viewport_.data());
        glGetIntegerv(GL_DRAW_FRAMEBUFFER_BINDING, &target_);
        glGetIntegerv(GL_READ_FRAMEBUFFER_BINDING, &source_);
        glActiveTexture(GL_TEXTURE0);
        glDisable(GL_SCISSOR_TEST);
        glDisable(GL_STENCIL_TEST);
        glDisable(GL_BLEND);
        glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
        glDepthMask(GL_TRUE);
        glStencilMask(0xFF);
        glClearStencil(0);
        glFrontFace(GL_CCW);
        glCullFace(GL_BACK);
        glBlendEquation(GL_FUNC_ADD);
        if (epoxy_is_desktop_gl()) glPolygonMode(GL_FRONT_AND_BACK, GL_FILL);
    }
    KeptState(const KeptState&) = delete;
    KeptState& operator=(const KeptState&) = delete;
    ~KeptState() {
        glBindFramebuffer(GL_DRAW_FRAMEBUFFER, static_cast<GLuint>(target_));
        glBindFramebuffer(GL_READ_FRAMEBUFFER, static_cast<GLuint>(source_));
        glViewport(viewport_[0], viewport_[1], viewport_[2], viewport_[3]);
        glDisable(GL_DEPTH_TEST);
        glDisable(GL_CULL_FACE);
        glDepthFunc(GL_LESS);
        glActiveTexture(GL_TEXTURE1);
        glBindTexture(GL_TEXTURE_2D, 0);
        glBindTexture(GL_TEXTURE_3D, 0);
        glActiveTexture(GL_TEXTURE0);
        glBindTexture(GL_TEXTURE_2D, 0);
        glBindVertexArray(0);
        glBindBuffer(GL_ARRAY_BUFFER, 0);
        glUseProgram(0);
    }

private:
    std::array<GLint, 4> viewport_{};
    GLint target_ = 0;
    GLint source_ = 0;
};

// The buffers of one kind of picture, made again when its size changes.
struct Pictures {
    Framebuffer sampled;
    Framebuffer finished;

    void fit(int width, int height, int samples) {
        if (finished.width() == width && finished.height() == height) return;
        if (samples > 1) sampled = Framebuffer(width, height, samples);
        finished = Framebuffer(width, height);
    }
};

int multisamples() {
    GLint most = 0;
    glGetIntegerv(GL_MAX_SAMPLES, &most);
    return std::min(most, 4);
}

std::string describe() {
    const int version = epoxy_gl_version();
    return std::string(epoxy_is_desktop_gl() ? "OpenGL " : "OpenGL ES ") +
           std::to_string(version / 10) + "." + std::to_string(version % 10) + ", " +
           text_of(GL_RENDERER);
}

constexpr float light_paper = 0.955F;
constexpr float dark_paper = 0.17F;

// For pictures whose colour the backdrop completes.
void begin(const Framebuffer& picture) {
    glBindFramebuffer(GL_FRAMEBUFFER, picture.id());
    glViewport(0, 0, picture.width(), picture.height());
    glClear(GL_DEPTH_BUFFER_BIT | GL_STENCIL_BUFFER_BIT);
}

void begin_on_paper(const Framebuffer& picture, bool dark) {
    const float paper = dark ? dark_paper : light_paper;
    begin(picture);
    glClearColor(paper, paper, paper, 1);
    glClear(GL_COLOR_BUFFER_BIT);
}

}  // namespace

struct Renderer::State {
    std::string description = describe();
    std::map<MeshId, GpuMesh> meshes;
    MeshId next = 1;
    int samples = multisamples();
    ShadowPass shadows;
    ShadePass shade;
    ItemPass items;
    EdgePass edges;
    BackdropPass backdrop;
    Pictures moving, settled, round;

    const GpuMesh* mesh_of(MeshId id) const {
        const auto found = meshes.find(id);
        return found == meshes.end() ? nullptr : &found->second;
    }

    void draw_parts(const Plan& plan, const Scene& scene, const Lighting& lighting) {
        items.draw_solid(plan, scene, lighting);
        if (scene.cut) items.draw_caps(plan, *scene.cut);
    }

    void draw_lines(const Plan& plan, const Scene& scene, const Lighting& lighting) {
        // Silhouettes cost a second round of all triangles: not while things move.
        if (lighting.shade != nullptr) edges.draw_silhouettes(plan, scene.dark);
        edges.draw_edges(plan, plan.solid);
        if (scene.cut) edges.draw_section(plan, plan.solid, *scene.cut);
        items.draw_faded(plan, scene, lighting);
        edges.draw_edges(plan, plan.faded);
        if (scene.cut) edges.draw_section(plan, plan.faded, *scene.cut);
        items.draw_ghost(plan, scene, lighting);
        edges.draw_edges(plan, plan.ghost);
        edges.draw_outlines(plan);
    }
};

void require_opengl() {
    const int version = epoxy_gl_version();
    const bool enough = epoxy_is_desktop_gl() ? version >= 33 : version >= 30;
    if (enough) return;
    throw DrawError("Podwright needs OpenGL 3.3 or newer; this computer offers \"" +
                    text_of(GL_VERSION) + "\" by " + text_of(GL_RENDERER) + ".");
}

Renderer::Renderer() {
    require_opengl();
    const KeptState kept;
    state_ = std::make_unique<State>();
}
Renderer::~Renderer() = default;
Renderer::Renderer(Renderer&&) noexcept = default;
Renderer& Renderer::operator=(Renderer&&) noexcept = default;

MeshId Renderer::upload(const Mesh& mesh) {
    const MeshId id = state_->next++;
    state_->meshes.emplace(id, GpuMesh(mesh));
    return id;
}

void Renderer::drop(MeshId id) { state_->meshes.erase(id); }

void Renderer::draw(const Scene& scene, const Camera& camera, const Viewport& view, Quality quality,
                    unsigned target, int target_height) {
    if (view.width < 1 || view.height < 1) return;
    const KeptState kept;
    State& state = *state_;
    const auto mesh_of = [&](MeshId id) { return state.mesh_of(id); };
    state.shadows.update(scene, mesh_of, quality);

    const bool settled = quality == Quality::settled;
    Pictures& pictures = settled ? state.settled : state.moving;
    pictures.fit(view.width, view.height, settled ? state.samples : 1);
    const bool sampled = settled && state.samples > 1;
    Plan plan = plan_picture(scene, camera, view.width, view.height, mesh_of);
    plan.frame.world_to_light = state.shadows.world_to_light();
    if (settled) state.shade.render(plan, state.shadows);
    const Lighting lighting{state.shadows, settled ? &state.shade : nullptr};
    const bool whole = view.x == 0 && view.y == 0 && view.height == target_height;
    // A picture of our own kind is made in its place, without a copy.
    const bool in_place = sampled && whole && target != 0;
    const Viewport& touched = plan.touched;
    if (sampled) {
        glBindFramebuffer(GL_FRAMEBUFFER, in_place ? target : pictures.finished.id());
        glViewport(0, 0, view.width, view.height);
        glDisable(GL_DEPTH_TEST);
        state.backdrop.draw_surroundings(plan, scene, state.shadows);
        // Samples are dear: only where the parts are.
        glEnable(GL_SCISSOR_TEST);
        glScissor(touched.x, touched.y, touched.width, touched.height);
    }
    const Framebuffer& drawn = sampled ? pictures.sampled : pictures.finished;
    // Along the rim of a cap may stand depth without colour, where no backdrop comes.
    scene.cut ? begin_on_paper(drawn, scene.dark) : begin(drawn);
    state.draw_parts(plan, scene, lighting);
    glEnable(GL_DEPTH_TEST);
    if (scene.show_ground) state.backdrop.draw_ground(plan, scene, state.shadows);
    state.backdrop.draw_backdrop(plan, scene);
    state.draw_lines(plan, scene, lighting);
    glDisable(GL_SCISSOR_TEST);
    if (sampled)
        pictures.sampled.resolve_into(in_place ? target : pictures.finished.id(), touched.x,
                                      touched.y, touched.width, touched.height);
    if (in_place) return;
    glBindFramebuffer(GL_FRAMEBUFFER, target);
    const int bottom = target_height - view.y - view.height;
    if (settled)
        state.backdrop.present(pictures.finished, view.x, bottom, Presenting::plain);
    else
        state.backdrop.present_smoothed(pictures.finished, view.x, bottom, touched);
}

void Renderer::draw_round(const Scene& scene, const Camera& camera, const Viewport& view,
                          unsigned target, int target_height) {
    if (view.width < 1 || view.height < 1) return;
    const KeptState kept;
    State& state = *state_;
    const auto mesh_of = [&](MeshId id) { return state.mesh_of(id); };
    Pictures& pictures = state.round;
    pictures.fit(view.width, view.height, state.samples);
    const bool sampled = state.samples > 1;
    // Shadows of the bench are too coarse for the loupe: it is lit from everywhere.
    const Plan plan = plan_picture(scene, camera, view.width, view.height, mesh_of);
    state.shade.clear();
    const Lighting lighting{state.shadows, &state.shade};
    begin_on_paper(sampled ? pictures.sampled : pictures.finished, scene.dark);
    state.draw_parts(plan, scene, lighting);
    state.draw_lines(plan, scene, lighting);
    if (sampled)
        pictures.sampled.resolve_into(pictures.finished.id(), 0, 0, view.width, view.height);
    glBindFramebuffer(GL_FRAMEBUFFER, target);
    state.backdrop.present(pictures.finished, view.x, target_height - view.y - view.height,
                           Presenting::round);
}

std::string Renderer::description() const { return state_->description; }

}  // namespace podwright
