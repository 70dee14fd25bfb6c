#include "draw/item_pass.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "draw/grain.hpp"

namespace podwright {

namespace {

GLint cap_mark(const Planned& planned) { return 1 + static_cast<GLint>(planned.index % 255); }

/// IEC 61966-2-1.
glm::vec3 linear(const glm::vec3& screen) {
    glm::vec3 result;
    for (int i = 0; i < 3; ++i)
        result[i] = screen[i] <= 0.04045F ? screen[i] / 12.92F
                                          : std::pow((screen[i] + 0.055F) / 1.055F, 2.4F);
    return result;
}

void set_finish(const Program& program, const Planned& planned, float line_scale) {
    const Item& item = *planned.item;
    const Finish& finish = finish_of(item.look);
    const Accent accent = accent_of(item.emphasis);
    const bool ghost = item.emphasis == Emphasis::ghost;
    if (item.paint || ghost) {
        const glm::vec3 colour = ghost ? ghost_colour : *item.paint;
        program.set("u_base", glm::vec4(linear(colour), 0));
        program.set("u_finish", glm::vec4(0.6F, 0.04F, 0, 0));
    } else {
        const float grooves =
            planned.mesh->turned() || finish.pattern == Pattern::woven ? finish.grooves : 0;
        program.set("u_base", glm::vec4(finish.base, finish.metal));
        program.set("u_finish",
                    glm::vec4(finish.roughness, finish.reflectance, grooves, finish.sheen));
    }
    program.set("u_weave", glm::vec4(planned.mesh->layers(), planned.mesh->turned() ? 1.0F : 0.0F));
    program.set("u_tint", accent.tint);
    constexpr float stripe_period = 22;  // pixels, along x, at 720 lines
    program.set("u_emphasis",
                glm::vec4(accent.lift, accent.opacity,
                          accent.striped ? stripe_period * line_scale : 0, accent.rim));
}

// Direction across the lines; spacing and width in pixels at 720 lines. Spacing and direction of
// neighbours differ as in section drawings (ISO 128-3 asks for it; which, is chosen here).
struct HatchPattern {
    float degrees;
    float spacing;
};

HatchPattern pattern_of(int hatch) {
    constexpr std::array<HatchPattern, hatch_count> patterns{{{45, 9},
                                                              {-45, 7},
                                                              {45, 6},
                                                              {-45, 11},
                                                              {30, 8},
                                                              {-60, 8},
                                                              {60, 9},
                                                              {-30, 10},
                                                              {30, 5.5F},
                                                              {-60, 6},
                                                              {60, 12},
                                                              {-30, 6.5F}}};
    return patterns.at(static_cast<std::size_t>(hatch % hatch_count));
}

glm::vec4 hatch_of(const Item& item, const Frame& frame) {
    const HatchPattern pattern = pattern_of(std::max(item.hatch, 0));
    const float angle = glm::radians(pattern.degrees);
    const float pixel = static_cast<float>(frame.pixel) * frame.line_scale;  // mm, at 720 lines
    const bool crossed = finish_of(item.look).fill == Fill::crossed;
    return {std::cos(angle), std::sin(angle), pattern.spacing * pixel * (crossed ? 0.8F : 1),
            pixel};
}

}  // namespace

ItemPass::ItemPass() : no_vertices_(GlVertexArray::make()) {}

ItemPass::Kind ItemPass::kind_of(const Planned& planned, const Frame& frame) {
    const Item& item = *planned.item;
    if (item.paint || item.emphasis == Emphasis::ghost) return plain;
    // Threads too small to be seen cost nothing.
    constexpr double least_thread = 14;  // pixels
    if (item.relief == Relief::screw && planned.reach.radius > least_thread * frame.pixel)
        return screw;
    switch (finish_of(item.look).pattern) {
        case Pattern::woven: return carbon;
        case Pattern::porous: return foam;
        default: return plain;
    }
}

const Program& ItemPass::program_for(Kind kind, bool shaded) {
    auto& slot = (shaded ? shaded_ : quick_).at(kind);
    if (slot) return *slot;
    const std::string shade = shaded ? "SHADE " : "";
    switch (kind) {
        case carbon:
            slot.emplace(Program({"item_vertex"},
                                 {"tone", "key_direction", "studio", "pattern", "item_fragment"},
                                 shade + "CARBON"));
            break;
        case foam:
            slot.emplace(Program({"item_vertex"},
                                 {"tone", "key_direction", "studio", "item_fragment"},
                                 shade + "FOAM"));
            if (grain_.id() == 0) grain_ = make_grain();
            break;
        case screw:
            slot.emplace(Program({"item_vertex"},
                                 {"tone", "key_direction", "studio", "item_fragment"},
                                 shade + "SCREW"));
            break;
        default:
            slot.emplace(Program({"item_vertex"},
                                 {"tone", "key_direction", "studio", "item_fragment"}, shade));
    }
    return *slot;
}

void ItemPass::prepare(const Program& program, Kind kind, const Plan& plan, const Scene& scene,
                       const Lighting& lighting) const {
    const glm::vec3 up = glm::normalize(scene.ground_normal);
    program.set("u_eye", plan.frame.eye);
    program.set("u_middle", plan.frame.middle);
    program.set("u_studio", plan.frame.studio);
    program.set("u_ground", glm::vec4(up, glm::dot(up, scene.ground_point)));
    if (lighting.shade != nullptr) {
        program.set("u_light", 0);
        lighting.shade->bind(program, plan);
    } else {
        program.set("u_world_to_light", plan.frame.world_to_light);
        program.set("u_shadow_lift", 1.6F * lighting.shadows.texel_size());
        program.set("u_shadow_texel", ShadowPass::texel());
        program.set("u_shadow", 0);
        lighting.shadows.bind_depth_map(true);
    }
    if (kind != foam) return;
    program.set("u_grain", 1);
    glActiveTexture(GL_TEXTURE1);
    glBindTexture(GL_TEXTURE_3D, grain_.id());
    glActiveTexture(GL_TEXTURE0);
}

void ItemPass::draw(const Planned& planned, const Plan& plan, const Scene& scene,
                    const Lighting& lighting) {
    const Kind kind = kind_of(planned, plan.frame);
    const Program& program = program_for(kind, lighting.shade != nullptr);
    program.use();
    if (std::find(prepared_.begin(), prepared_.end(), &program) == prepared_.end()) {
        prepare(program, kind, plan, scene, lighting);
        prepared_.push_back(&program);
    }
    program.set("u_place", planned.item->place);
    program.set("u_place_to_clip", planned.place_to_clip);
    set_finish(program, planned, plan.frame.line_scale);
    planned.mesh->draw_triangles();
}

void ItemPass::draw_solid(const Plan& plan, const Scene& scene, const Lighting& lighting) {
    prepared_.clear();
    glActiveTexture(GL_TEXTURE0);
    glEnable(GL_DEPTH_TEST);
    glDepthFunc(GL_LESS);
    glDepthMask(GL_TRUE);
    glDisable(GL_BLEND);
    glEnable(GL_POLYGON_OFFSET_FILL);
    glPolygonOffset(1, 1);
    glEnable(GL_CULL_FACE);
    glCullFace(GL_BACK);
    if (scene.cut) {
        glEnable(GL_STENCIL_TEST);
        glStencilOp(GL_KEEP, GL_KEEP, GL_REPLACE);
        glStencilFunc(GL_ALWAYS, 0, 0xFF);
    }
    for (const Planned& planned : plan.solid)
        if (!planned.is_cut) draw(planned, plan, scene, lighting);
    for (const Planned& planned : plan.solid)
        if (planned.is_cut) mark_cut(planned, plan, lighting.shadows);
    // The kept part of the cut surfaces lies where the marking has put the depth.
    glDisable(GL_STENCIL_TEST);
    glDepthFunc(GL_EQUAL);
    glDepthMask(GL_FALSE);
    for (const Planned& planned : plan.solid)
        if (planned.is_cut) draw(planned, plan, scene, lighting);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
    glDisable(GL_POLYGON_OFFSET_FILL);
}

// Needs culling, depth offset and a stencil that is replaced.
void ItemPass::mark_cut(const Planned& planned, const Plan& plan, const ShadowPass& shadows) {
    const Program& program = shadows.cut_program();
    program.use();
    program.set("u_cut", plan.frame.cut_plane);
    program.set("u_place", planned.item->place);
    program.set("u_place_to_clip", planned.place_to_clip);
    glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
    glStencilFunc(GL_ALWAYS, 0, 0xFF);
    planned.mesh->draw_triangles();
    // The inside, a little nearer: where another part sits tight on this one, the cap wins.
    glCullFace(GL_FRONT);
    glDisable(GL_POLYGON_OFFSET_FILL);
    glStencilFunc(GL_ALWAYS, cap_mark(planned), 0xFF);
    planned.mesh->draw_triangles();
    glEnable(GL_POLYGON_OFFSET_FILL);
    glCullFace(GL_BACK);
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
}

void ItemPass::begin_caps(const Plan& plan, const Cut& cut) {
    const glm::dvec3 normal(cut.normal);
    if (!cap_) cap_.emplace(Program({"cap_vertex"}, {"cap_fragment"}));
    cap_->use();
    const glm::vec3 other = std::abs(normal.z) < 0.8 ? glm::vec3(0, 0, 1) : glm::vec3(1, 0, 0);
    const glm::vec3 along = glm::normalize(glm::cross(other, cut.normal));
    const glm::vec3 across = glm::normalize(glm::cross(cut.normal, along));
    cap_->set("u_along", along);
    cap_->set("u_across", across);
    cap_->set("u_place_to_clip", glm::mat4(plan.frame.view_projection));
    glDisable(GL_CULL_FACE);
    glEnable(GL_STENCIL_TEST);
    glStencilOp(GL_KEEP, GL_KEEP, GL_ZERO);
    glBindVertexArray(no_vertices_.id());
}

void ItemPass::draw_cap(const Planned& planned, const Plan& plan, const Cut& cut) {
    const Item& item = *planned.item;
    const glm::dvec3 normal(cut.normal);
    const double away = glm::dot(normal, planned.reach.centre) - double{cut.offset};
    cap_->set("u_centre", glm::vec3(planned.reach.centre - away * normal));
    cap_->set("u_reach", static_cast<float>(planned.reach.radius * 1.01));
    const Finish& finish = finish_of(item.look);
    const Accent accent = accent_of(item.emphasis);
    const glm::vec3 own = item.hatch == solid_hatch ? finish.cap * 0.30F : finish.cap;
    const glm::vec3 fill = glm::mix(own, glm::vec3(accent.tint), accent.tint.a * 0.9F);
    const float opacity = accent.opacity < 1 ? 2 * accent.opacity : 1;
    cap_->set("u_fill", glm::vec4(fill, opacity));
    const glm::vec3 line = item.hatch == solid_hatch ? fill : fill * 0.5F;
    cap_->set("u_line", accent.striped ? glm::vec3(1) : line);
    cap_->set("u_hatch", hatch_of(item, plan.frame));
    cap_->set("u_cross", finish.fill == Fill::crossed ? 1.0F : 0.0F);
    glStencilFunc(GL_EQUAL, cap_mark(planned), 0xFF);
    glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
}

void ItemPass::draw_caps(const Plan& plan, const Cut& cut) {
    if (glm::dot(glm::dvec3(cut.normal), glm::dvec3(plan.frame.eye)) <= double{cut.offset}) return;
    begin_caps(plan, cut);
    for (const Planned& planned : plan.solid)
        if (planned.is_cut) draw_cap(planned, plan, cut);
    glDisable(GL_STENCIL_TEST);
}

// The nearest layer's depth alone.
void ItemPass::fill_depth(const Planned& planned, const Plan& plan, const ShadowPass& shadows) {
    const Program& program = planned.is_cut ? shadows.cut_program() : shadows.whole_program();
    program.use();
    program.set("u_cut", plan.frame.cut_plane);
    program.set("u_place", planned.item->place);
    program.set("u_place_to_clip", planned.place_to_clip);
    glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
    planned.mesh->draw_triangles();
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
}

void ItemPass::draw_faded(const Plan& plan, const Scene& scene, const Lighting& lighting) {
    if (plan.faded.empty()) return;
    prepared_.clear();
    const bool capped =
        scene.cut && glm::dot(scene.cut->normal, plan.frame.eye) > scene.cut->offset;
    blend_over();
    for (auto planned = plan.faded.rbegin(); planned != plan.faded.rend(); ++planned) {
        glEnable(GL_CULL_FACE);
        glEnable(GL_POLYGON_OFFSET_FILL);
        glDepthFunc(GL_LESS);
        if (planned->is_cut) {
            glClear(GL_STENCIL_BUFFER_BIT);
            glEnable(GL_STENCIL_TEST);
            glStencilOp(GL_KEEP, GL_KEEP, GL_REPLACE);
            mark_cut(*planned, plan, lighting.shadows);
            glDisable(GL_STENCIL_TEST);
        } else {
            fill_depth(*planned, plan, lighting.shadows);
        }
        glDepthFunc(GL_EQUAL);
        glEnable(GL_BLEND);
        draw(*planned, plan, scene, lighting);
        if (planned->is_cut && capped) {
            glDisable(GL_POLYGON_OFFSET_FILL);
            glDepthFunc(GL_LESS);
            begin_caps(plan, *scene.cut);
            draw_cap(*planned, plan, *scene.cut);
            glDisable(GL_STENCIL_TEST);
        }
        glDisable(GL_BLEND);
    }
    glDepthFunc(GL_LESS);
    glDisable(GL_POLYGON_OFFSET_FILL);
}

void ItemPass::draw_ghost(const Plan& plan, const Scene& scene, const Lighting& lighting) {
    if (plan.ghost.empty()) return;
    prepared_.clear();
    glEnable(GL_CULL_FACE);
    glEnable(GL_POLYGON_OFFSET_FILL);
    // Where a part has stayed where it was, the present one shows alone.
    glPolygonOffset(2, 4);
    glDepthFunc(GL_LESS);
    for (const Planned& planned : plan.ghost) fill_depth(planned, plan, lighting.shadows);
    glDepthFunc(GL_EQUAL);
    glEnable(GL_BLEND);
    blend_over();
    for (const Planned& planned : plan.ghost) draw(planned, plan, scene, lighting);
    glDisable(GL_BLEND);
    glDepthFunc(GL_LESS);
    glDisable(GL_POLYGON_OFFSET_FILL);
}

}  // namespace podwright
