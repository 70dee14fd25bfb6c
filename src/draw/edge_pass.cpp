#include "draw/edge_pass.hpp"

#include "draw/framebuffer.hpp"
#include "draw/section.hpp"

namespace podwright {

namespace {

constexpr float edge_half_width = 0.5F;     // pixels at 720 lines
constexpr float section_half_width = 0.8F;  //
constexpr float outline_width = 2.2F;       //
constexpr float silhouette_width = 0.7F;    //
constexpr glm::vec4 dark_silhouette{0.05F, 0.055F, 0.07F, 0.62F};
constexpr glm::vec4 light_silhouette{0.62F, 0.65F, 0.70F, 0.50F};
constexpr glm::vec4 section_ink{0.09F, 0.10F, 0.13F, 0.9F};

// By the plane of the cut, as the shaders give it; OpenGL ES 3.0 has none.
class Clipping {
public:
    explicit Clipping(bool on) : on_(on && epoxy_is_desktop_gl()) {
        if (on_) glEnable(GL_CLIP_DISTANCE0);
    }
    ~Clipping() {
        if (on_) glDisable(GL_CLIP_DISTANCE0);
    }
    Clipping(const Clipping&) = delete;
    Clipping& operator=(const Clipping&) = delete;

private:
    bool on_;
};

std::vector<glm::vec3> section_of(const Planned& planned, const Cut& cut) {
    // The plane in the frame of the mesh.
    const glm::dmat4 place(planned.item->place);
    const glm::dvec3 normal = glm::transpose(glm::dmat3(place)) * glm::dvec3(cut.normal);
    const double offset =
        double{cut.offset} - glm::dot(glm::dvec3(cut.normal), glm::dvec3(place[3]));
    auto lines =
        section_lines(planned.mesh->positions(), planned.mesh->triangles(), normal, offset);
    for (auto& p : lines) p = glm::vec3(place * glm::dvec4(p, 1));
    return lines;
}

}  // namespace

EdgePass::EdgePass() : section_(GlVertexArray::make()), section_ends_(GlBuffer::make()) {
    glBindVertexArray(section_.id());
    describe_edges(section_ends_.id());
    glBindVertexArray(0);
}

const Program& EdgePass::lines(bool cut, const Plan& plan) {
    auto& slot = cut ? cut_line_ : line_;
    if (!slot) slot.emplace(Program({"edge_vertex"}, {"edge_fragment"}, cut ? "CUT" : ""));
    slot->use();
    slot->set("u_half_size", plan.frame.half_size);
    slot->set("u_toward", plan.frame.line_depth);
    slot->set("u_cut", plan.frame.cut_plane);
    return *slot;
}

void EdgePass::draw_edges(const Plan& plan, const std::vector<Planned>& items) {
    glEnable(GL_DEPTH_TEST);
    glDepthFunc(GL_LEQUAL);
    glDepthMask(GL_FALSE);
    glDisable(GL_CULL_FACE);
    glEnable(GL_BLEND);
    blend_over();
    for (const bool cut : {false, true}) {
        const Clipping clipping(cut);
        const Program* program = nullptr;
        for (const Planned& planned : items) {
            if (planned.is_cut != cut) continue;
            if (program == nullptr) program = &lines(cut, plan);
            const Accent accent = accent_of(planned.item->emphasis);
            glm::vec4 ink = finish_of(planned.item->look).edge;
            if (planned.item->emphasis == Emphasis::picked)
                ink = glm::vec4(picked_colour * 0.8F, 0.8F);
            if (accent.opacity < 1) ink.a *= 0.5F;
            if (planned.item->emphasis == Emphasis::ghost)
                ink = glm::vec4(ghost_colour * 0.7F, 0.55F);
            program->set("u_half_width", edge_half_width * plan.frame.line_scale);
            program->set("u_ink", ink);
            program->set("u_place", planned.item->place);
            program->set("u_place_to_clip", planned.place_to_clip);
            planned.mesh->draw_edges();
        }
    }
    glDisable(GL_BLEND);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
}

void EdgePass::draw_silhouettes(const Plan& plan, bool dark_surround) {
    // The far side of each part, grown by the line's width: it shows beside the near side.
    glEnable(GL_DEPTH_TEST);
    glDepthFunc(GL_LESS);
    glDepthMask(GL_TRUE);
    glEnable(GL_CULL_FACE);
    glCullFace(GL_FRONT);
    glEnable(GL_BLEND);
    blend_over();
    const glm::vec4 ink = dark_surround ? light_silhouette : dark_silhouette;
    const double least = 12 * plan.frame.pixel * double{plan.frame.line_scale};
    for (const Planned& planned : plan.solid)
        // Balls, screw heads and plates have their feature lines.
        if (planned.reach.radius > least && planned.mesh->layers() == glm::vec3(0))
            draw_grown(plan, planned, silhouette_width * plan.frame.line_scale, ink, false);
    glCullFace(GL_BACK);
    glDisable(GL_CULL_FACE);
    glDisable(GL_BLEND);
}

void EdgePass::draw_section(const Plan& plan, const std::vector<Planned>& items, const Cut& cut) {
    std::vector<glm::vec3> ends;
    for (const Planned& planned : items) {
        if (!planned.is_cut) continue;
        const auto more = section_of(planned, cut);
        ends.insert(ends.end(), more.begin(), more.end());
    }
    if (ends.empty()) return;
    const Program& program = lines(false, plan);
    program.set("u_half_width", section_half_width * plan.frame.line_scale);
    program.set("u_ink", section_ink);
    program.set("u_place_to_clip", glm::mat4(plan.frame.view_projection));
    glDepthFunc(GL_LEQUAL);
    glDepthMask(GL_FALSE);
    glEnable(GL_BLEND);
    blend_over();
    glBindVertexArray(section_.id());
    glBindBuffer(GL_ARRAY_BUFFER, section_ends_.id());
    glBufferData(GL_ARRAY_BUFFER, static_cast<GLsizeiptr>(ends.size() * sizeof(glm::vec3)),
                 ends.data(), GL_STREAM_DRAW);
    glDrawArraysInstanced(GL_TRIANGLE_STRIP, 0, 4, static_cast<GLsizei>(ends.size() / 2));
    glDisable(GL_BLEND);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
}

void EdgePass::draw_grown(const Plan& plan, const Planned& planned, float grow,
                          const glm::vec4& ink, bool with_edges) {
    auto& slot = planned.is_cut ? cut_grown_ : grown_;
    if (!slot)
        slot.emplace(
            Program({"outline_vertex"}, {"outline_fragment"}, planned.is_cut ? "CUT" : ""));
    slot->use();
    slot->set("u_half_size", plan.frame.half_size);
    slot->set("u_cut", plan.frame.cut_plane);
    slot->set("u_place", planned.item->place);
    slot->set("u_place_to_clip", planned.place_to_clip);
    slot->set("u_grow", grow);
    slot->set("u_ink", ink);
    const Clipping clipping(planned.is_cut);
    planned.mesh->draw_triangles();
    if (!with_edges) return;
    // The growth leaves gaps at sharp edges; thick edges fill them.
    const Program& program = lines(planned.is_cut, plan);
    program.set("u_half_width", grow);
    program.set("u_ink", ink);
    program.set("u_place", planned.item->place);
    program.set("u_place_to_clip", planned.place_to_clip);
    planned.mesh->draw_edges();
}

void EdgePass::draw_outlines(const Plan& plan) {
    bool first = true;
    for (const Planned& planned : plan.solid) {
        if (planned.item->emphasis != Emphasis::picked) continue;
        if (first) {
            glClear(GL_STENCIL_BUFFER_BIT);
            glEnable(GL_STENCIL_TEST);
            glDepthMask(GL_FALSE);
            glDisable(GL_CULL_FACE);
            blend_over();
            glStencilOp(GL_KEEP, GL_KEEP, GL_REPLACE);
            first = false;
        }
        glDisable(GL_DEPTH_TEST);
        glStencilFunc(GL_ALWAYS, 1, 0xFF);
        glColorMask(GL_FALSE, GL_FALSE, GL_FALSE, GL_FALSE);
        draw_grown(plan, planned, 0, glm::vec4(0), false);
        glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    }
    if (first) return;
    // Each place is inked once: first where the outline is in sight, then, weaker, where it is not.
    glStencilFunc(GL_NOTEQUAL, 1, 0xFF);
    glEnable(GL_BLEND);
    for (const bool in_sight : {true, false}) {
        if (in_sight)
            glEnable(GL_DEPTH_TEST);
        else
            glDisable(GL_DEPTH_TEST);
        for (const Planned& planned : plan.solid)
            if (planned.item->emphasis == Emphasis::picked)
                draw_grown(plan, planned, outline_width * plan.frame.line_scale,
                           glm::vec4(picked_colour, in_sight ? 1.0F : 0.4F), true);
    }
    glDisable(GL_BLEND);
    glDisable(GL_STENCIL_TEST);
    glDepthMask(GL_TRUE);
}

}  // namespace podwright
