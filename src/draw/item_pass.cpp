#include "draw/item_pass.hpp"

#include <array>
#include <cmath>

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

void set_material(const Program& program, const Item& item, float line_scale) {
    const Material& material = material_of(item.look);
    const Accent accent = accent_of(item.emphasis);
    if (item.paint) {
        program.set("u_base", glm::vec4(linear(*item.paint), 0));
        program.set("u_finish", glm::vec4(0.6F, 0.04F, 0, 0));
    } else {
        program.set("u_base", glm::vec4(material.base, material.metal));
        program.set("u_finish", glm::vec4(material.roughness, material.reflectance, material.twill,
                                          material.foam));
    }
    program.set("u_tint", accent.tint);
    constexpr float stripe_period = 22;  // pixels, along x, at 720 lines
    program.set("u_emphasis",
                glm::vec4(accent.lift, accent.opacity,
                          accent.striped ? stripe_period * line_scale : 0, accent.rim));
}

// Spacing near nine pixels whatever the zoom, in steps of two so that it seldom changes; no two
// neighbours in the list alike.
glm::vec4 hatch_of(std::size_t index, const Frame& frame) {
    constexpr std::array<double, 3> spacings{1.0, 1.35, 0.78};  // mm
    const double base = spacings.at(index / 2 % spacings.size());
    const double wanted = 9 * frame.pixel * double{frame.line_scale};
    const double spacing = base * std::exp2(std::round(std::log2(wanted / base)));
    const double side = index % 2 == 0 ? 1 : -1;
    return {std::sqrt(0.5), side * std::sqrt(0.5), spacing,
            0.9 * frame.pixel * double{frame.line_scale}};
}

}  // namespace

ItemPass::ItemPass() : no_vertices_(GlVertexArray::make()) {}

const Program& ItemPass::program_for(const Planned& planned) {
    const Material& material = material_of(planned.item->look);
    const bool patterned = material.twill > 0 || material.foam > 0;
    auto& slot = patterned ? patterned_ : plain_;
    if (!slot && patterned)
        slot.emplace(
            Program({"item_vertex"}, {"tone", "studio", "pattern", "item_fragment"}, "PATTERN"));
    else if (!slot)
        slot.emplace(Program({"item_vertex"}, {"tone", "studio", "item_fragment"}));
    return *slot;
}

void ItemPass::prepare(const Program& program, const Plan& plan, const Scene& scene,
                       const ShadowPass& shadows) {
    const glm::vec3 up = glm::normalize(scene.ground_normal);
    program.set("u_eye", plan.frame.eye);
    program.set("u_middle", plan.frame.middle);
    program.set("u_studio", plan.frame.studio);
    program.set("u_ground", glm::vec4(up, glm::dot(up, scene.ground_point)));
    program.set("u_world_to_light", plan.frame.world_to_light);
    program.set("u_shadow_lift", 1.2F * shadows.texel_size());
    program.set("u_shadow_texel", ShadowPass::texel());
    program.set("u_shadow", 0);
}

void ItemPass::draw(const Planned& planned, const Plan& plan, const Scene& scene,
                    const ShadowPass& shadows) {
    const Program& program = program_for(planned);
    program.use();
    if (&program != prepared_) prepare(program, plan, scene, shadows);
    prepared_ = &program;
    program.set("u_place", planned.item->place);
    program.set("u_place_to_clip", planned.place_to_clip);
    set_material(program, *planned.item, plan.frame.line_scale);
    planned.mesh->draw_triangles();
}

void ItemPass::draw_solid(const Plan& plan, const Scene& scene, const ShadowPass& shadows) {
    prepared_ = nullptr;
    glActiveTexture(GL_TEXTURE0);
    glBindTexture(GL_TEXTURE_2D, shadows.depth_map());
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
        if (!planned.is_cut) draw(planned, plan, scene, shadows);
    if (scene.cut) mark_cut(plan, shadows);
    // The kept part of the cut surfaces lies where the marking has put the depth.
    glDisable(GL_STENCIL_TEST);
    glDepthFunc(GL_EQUAL);
    glDepthMask(GL_FALSE);
    for (const Planned& planned : plan.solid)
        if (planned.is_cut) draw(planned, plan, scene, shadows);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
    glDisable(GL_POLYGON_OFFSET_FILL);
}

void ItemPass::mark_cut(const Plan& plan, const ShadowPass& shadows) {
    const Program& program = shadows.cut_program();
    program.use();
    program.set("u_cut", plan.frame.cut_plane);
    glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
    for (const Planned& planned : plan.solid) {
        if (!planned.is_cut) continue;
        program.set("u_place", planned.item->place);
        program.set("u_place_to_clip", planned.place_to_clip);
        glStencilFunc(GL_ALWAYS, 0, 0xFF);
        planned.mesh->draw_triangles();
        // The inside, a little nearer: where another part sits tight on this one, the cap wins.
        glCullFace(GL_FRONT);
        glDisable(GL_POLYGON_OFFSET_FILL);
        glStencilFunc(GL_ALWAYS, cap_mark(planned), 0xFF);
        planned.mesh->draw_triangles();
        glEnable(GL_POLYGON_OFFSET_FILL);
        glCullFace(GL_BACK);
    }
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
}

void ItemPass::draw_caps(const Plan& plan, const Cut& cut) {
    const glm::dvec3 normal(cut.normal);
    if (glm::dot(normal, glm::dvec3(plan.frame.eye)) <= double{cut.offset}) return;
    if (!cap_) cap_.emplace(Program({"cap_vertex"}, {"cap_fragment"}));
    cap_->use();
    const glm::vec3 other = std::abs(normal.z) < 0.8 ? glm::vec3(0, 0, 1) : glm::vec3(1, 0, 0);
    const glm::vec3 along = glm::normalize(glm::cross(other, cut.normal));
    const glm::vec3 across = glm::normalize(glm::cross(cut.normal, along));
    cap_->set("u_along", along);
    cap_->set("u_across", across);
    cap_->set("u_place_to_clip", glm::mat4(plan.frame.view_projection));
    cap_->set("u_pixel", static_cast<float>(plan.frame.pixel));
    glDisable(GL_CULL_FACE);
    glEnable(GL_STENCIL_TEST);
    glStencilOp(GL_KEEP, GL_KEEP, GL_ZERO);
    glBindVertexArray(no_vertices_.id());
    for (const Planned& planned : plan.solid) {
        if (!planned.is_cut) continue;
        const double away = glm::dot(normal, planned.reach.centre) - double{cut.offset};
        cap_->set("u_centre", glm::vec3(planned.reach.centre - away * normal));
        cap_->set("u_reach", static_cast<float>(planned.reach.radius * 1.01));
        const Accent accent = accent_of(planned.item->emphasis);
        const glm::vec3 fill = glm::mix(material_of(planned.item->look).cap, glm::vec3(accent.tint),
                                        accent.tint.a * 0.9F);
        cap_->set("u_fill", fill);
        cap_->set("u_line", accent.striped ? glm::vec3(1) : fill * 0.66F);
        cap_->set("u_hatch", hatch_of(planned.index, plan.frame));
        glStencilFunc(GL_EQUAL, cap_mark(planned), 0xFF);
        glDrawArrays(GL_TRIANGLE_STRIP, 0, 4);
    }
    glDisable(GL_STENCIL_TEST);
}

void ItemPass::draw_faded(const Plan& plan, const Scene& scene, const ShadowPass& shadows) {
    if (plan.faded.empty()) return;
    prepared_ = nullptr;
    glBindTexture(GL_TEXTURE_2D, shadows.depth_map());
    glEnable(GL_CULL_FACE);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    glEnable(GL_POLYGON_OFFSET_FILL);
    for (auto planned = plan.faded.rbegin(); planned != plan.faded.rend(); ++planned) {
        glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
        glDepthFunc(GL_LESS);
        draw(*planned, plan, scene, shadows);
        glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
        glDepthFunc(GL_EQUAL);
        glEnable(GL_BLEND);
        draw(*planned, plan, scene, shadows);
        glDisable(GL_BLEND);
    }
    glDepthFunc(GL_LESS);
    glDisable(GL_POLYGON_OFFSET_FILL);
}

}  // namespace podwright
