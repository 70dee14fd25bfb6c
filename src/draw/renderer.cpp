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

// Keeps the caller's framebuffers and viewport; leaves nothing else bound, and what can be switched
// as OpenGL begins with.
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
        glBlendFunc(GL_ONE, GL_ZERO);
        glActiveTexture(GL_TEXTURE1);
        glBindTexture(GL_TEXTURE_2D, 0);
        glBindTexture(GL_TEXTURE_3D, 0);
        glActiveTexture(GL_TEXTURE0);
        glBindTexture(GL_TEXTURE_2D, 0);
        if (epoxy_is_desktop_gl()) glBindTexture(GL_TEXTURE_2D_MULTISAMPLE, 0);
        glBindVertexArray(0);
        glBindBuffer(GL_ARRAY_BUFFER, 0);
        glUseProgram(0);
    }

private:
    std::array<GLint, 4> viewport_{};
    GLint target_ = 0;
    GLint source_ = 0;
};

// Parts drawn at several samples a pixel; made again when their size changes.
struct Sampled {
    Framebuffer samples;
    Framebuffer averaged;  // only where samples cannot be read
};

int multisamples() {
    constexpr GLint wanted = 4;
    GLint most = 0;
    glGetIntegerv(GL_MAX_SAMPLES, &most);
    if (!epoxy_is_desktop_gl()) return std::min(most, wanted);
    GLint most_in_texture = 0;
    glGetIntegerv(GL_MAX_COLOR_TEXTURE_SAMPLES, &most_in_texture);
    return std::min({most, most_in_texture, wanted});
}

std::string describe() {
    const int version = epoxy_gl_version();
    return std::string(epoxy_is_desktop_gl() ? "OpenGL " : "OpenGL ES ") +
           std::to_string(version / 10) + "." + std::to_string(version % 10) + ", " +
           text_of(GL_RENDERER);
}

constexpr float light_paper = 0.955F;
constexpr float dark_paper = 0.17F;
constexpr Framebuffer::Depth with_stencil = Framebuffer::Depth::with_stencil;

void bind(GLuint picture, const Framebuffer& size) {
    glBindFramebuffer(GL_FRAMEBUFFER, picture);
    glViewport(0, 0, size.width(), size.height());
}

void scissor(const Viewport& part) {
    glEnable(GL_SCISSOR_TEST);
    glScissor(part.x, part.y, part.width, part.height);
}

void clear_depth() { glClear(GL_DEPTH_BUFFER_BIT | GL_STENCIL_BUFFER_BIT); }

void clear_colour(float level) {
    glClearColor(level, level, level, 1);
    glClear(GL_COLOR_BUFFER_BIT);
}

// For present(), of the part that is wanted.
const Framebuffer& readable(Sampled& sampled, const Viewport& part) {
    const Framebuffer& samples = sampled.samples;
    if (samples.texture() != 0) return samples;
    resize(sampled.averaged, samples.width(), samples.height());
    samples.average_into(sampled.averaged, part.x, part.y, part.width, part.height);
    return sampled.averaged;
}

}  // namespace

struct Renderer::State {
    std::string description;
    std::map<MeshId, GpuMesh> meshes;
    MeshId next = 1;
    int samples = 1;
    ShadowPass shadows;
    ShadePass shade;
    ItemPass items;
    EdgePass edges;
    BackdropPass backdrop;
    Sampled settled, round;
    Framebuffer moving, finished;

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

    void draw_all(const Plan& plan, const Scene& scene, const Lighting& lighting) {
        clear_depth();
        // Where walls are cut along may stand depth without colour, where no backdrop comes.
        if (scene.cut) backdrop.draw_over(plan, scene, shadows);
        draw_parts(plan, scene, lighting);
        backdrop.draw_behind(plan, scene, shadows);
        draw_lines(plan, scene, lighting);
    }

    void draw_settled(const Plan& plan, const Scene& scene, const Viewport& view, GLuint target,
                      int target_height);
    void draw_moving(const Plan& plan, const Scene& scene, const Viewport& view, GLuint target,
                     int target_height);
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
    state_->description = describe();
    state_->samples = multisamples();
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

// Samples are dear: only where the parts are.
void Renderer::State::draw_settled(const Plan& plan, const Scene& scene, const Viewport& view,
                                   GLuint target, int target_height) {
    shade.render(plan, shadows);
    // A picture of our own kind is made in its place, without a copy.
    const bool in_place = target != 0 && view.x == 0 && view.y == 0 && view.height == target_height;
    resize(settled.samples, view.width, view.height, with_stencil, samples);
    if (!in_place) resize(finished, view.width, view.height);
    const GLuint picture = in_place ? target : finished.id();
    bind(picture, settled.samples);
    backdrop.draw_around(plan, scene, shadows);
    scissor(plan.touched);
    bind(settled.samples.id(), settled.samples);
    draw_all(plan, scene, {shadows, &shade});
    glDisable(GL_SCISSOR_TEST);
    const Framebuffer& parts = readable(settled, plan.touched);
    glBindFramebuffer(GL_FRAMEBUFFER, picture);
    scissor(plan.touched);
    backdrop.present(parts, 0, 0, Presenting::plain);
    glDisable(GL_SCISSOR_TEST);
    if (in_place) return;
    glBindFramebuffer(GL_FRAMEBUFFER, target);
    backdrop.present(finished, view.x, target_height - view.y - view.height, Presenting::plain);
}

// Everything at one sample a pixel, smoothed afterwards.
void Renderer::State::draw_moving(const Plan& plan, const Scene& scene, const Viewport& view,
                                  GLuint target, int target_height) {
    resize(moving, view.width, view.height, with_stencil);
    bind(moving.id(), moving);
    draw_all(plan, scene, {shadows});
    glBindFramebuffer(GL_FRAMEBUFFER, target);
    backdrop.present_smoothed(moving, view.x, target_height - view.y - view.height, plan.touched);
}

void Renderer::draw(const Scene& scene, const Camera& camera, const Viewport& view, Quality quality,
                    unsigned target, int target_height) {
    if (view.width < 1 || view.height < 1) return;
    const KeptState kept;
    State& state = *state_;
    const auto mesh_of = [&](MeshId id) { return state.mesh_of(id); };
    state.shadows.update(scene, mesh_of, quality);

    const bool settled = quality == Quality::settled;
    Plan plan = plan_picture(scene, camera, view.width, view.height, mesh_of);
    plan.frame.world_to_light = state.shadows.world_to_light();
    if (settled)
        state.draw_settled(plan, scene, view, target, target_height);
    else
        state.draw_moving(plan, scene, view, target, target_height);
}

void Renderer::draw_round(const Scene& scene, const Camera& camera, const Viewport& view,
                          unsigned target, int target_height) {
    if (view.width < 1 || view.height < 1) return;
    const KeptState kept;
    State& state = *state_;
    const auto mesh_of = [&](MeshId id) { return state.mesh_of(id); };
    const Plan plan = plan_picture(scene, camera, view.width, view.height, mesh_of);
    // Shadows of the bench are too coarse for the loupe: it is lit from everywhere.
    state.shade.clear();
    Framebuffer& samples = state.round.samples;
    resize(samples, view.width, view.height, with_stencil, state.samples);
    bind(samples.id(), samples);
    clear_depth();
    clear_colour(scene.dark ? dark_paper : light_paper);
    const Lighting lighting{state.shadows, &state.shade};
    state.draw_parts(plan, scene, lighting);
    state.draw_lines(plan, scene, lighting);
    const Framebuffer& finished = readable(state.round, {0, 0, view.width, view.height});
    glBindFramebuffer(GL_FRAMEBUFFER, target);
    state.backdrop.present(finished, view.x, target_height - view.y - view.height,
                           Presenting::round);
}

void Renderer::rehearse(const Mesh& thing, bool cut, bool round) {
    // Large enough for what is left out of small pictures; drivers make other code for sizes that
    // are powers of two.
    constexpr int width = 72, height = 60;
    const KeptState kept;
    State& state = *state_;
    const Framebuffer small(width, height);
    const MeshId id = upload(thing);
    Scene scene;
    for (const Look look : {Look::aluminium, Look::carbon, Look::foam, Look::black_plastic}) {
        Item item;
        item.mesh = id;
        item.look = look;
        item.cut = look != Look::aluminium;
        if (look == Look::black_plastic) item.relief = Relief::screw;
        scene.items.push_back(item);
    }
    scene.ground_point = {0, 0, -2};
    if (cut) scene.cut = Cut{{1, 0, 0}, 0};
    Camera camera;
    camera.distance = 10;
    const Viewport view{0, 0, width, height};
    const auto mesh_of = [&](MeshId which) { return state.mesh_of(which); };
    state.shadows.rehearse(scene, mesh_of);
    state.draw_settled(plan_picture(scene, camera, width, height, mesh_of), scene, view, small.id(),
                       height);
    if (round) draw_round(scene, camera, view, small.id(), height);
    drop(id);
}

std::string Renderer::description() const { return state_->description; }

}  // namespace podwright
