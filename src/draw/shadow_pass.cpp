#include "draw/shadow_pass.hpp"

#include <algorithm>
#include <cmath>

#include "draw/contact.hpp"
#include "draw/texture_filter.hpp"

namespace podwright {

namespace {

constexpr int depth_size = 1024;
constexpr int contact_size = 256;
constexpr int ground_size = 320;
constexpr double greatest_height = 60;  // mm above the ground that the contact shadow looks at
constexpr double sunk = 1;              // the contact map begins so far below the ground, mm
constexpr double depth_half_range = 2;  // of the light's depth, in radii of the scene
constexpr int followed_change = 4;      // while things move
// As in the shaders.
const glm::dvec3 key_direction = glm::normalize(glm::dvec3(0.2672, 0.3563, 0.8953));

struct Axes {
    glm::dvec3 along, across;
};
Axes axes_of(const glm::dvec3& normal) {
    const glm::dvec3 other = std::abs(normal.x) < 0.8 ? glm::dvec3(1, 0, 0) : glm::dvec3(0, 1, 0);
    const glm::dvec3 across = glm::normalize(glm::cross(normal, other));
    return {glm::cross(across, normal), across};
}

// Maps the point p to dot(row, (p, 1)) for each row.
glm::dmat4 from_rows(const glm::dvec4& x, const glm::dvec4& y, const glm::dvec4& z) {
    return glm::transpose(glm::dmat4(x, y, z, glm::dvec4(0, 0, 0, 1)));
}

glm::dvec4 row(const glm::dvec3& direction, double scale, const glm::dvec3& origin,
               double at_origin) {
    return {direction * scale, at_origin - scale * glm::dot(direction, origin)};
}

// The same texture serves as plain depth for the ground and as a comparison for the parts.
void set_comparison(bool compare) {
    set_filter(compare ? GL_LINEAR : GL_NEAREST);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_COMPARE_MODE,
                    compare ? GL_COMPARE_REF_TO_TEXTURE : GL_NONE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_COMPARE_FUNC, GL_LEQUAL);
}

}  // namespace

ShadowPass::ShadowPass()
    : plain_({"shadow_vertex"}, {"shadow_fragment"}),
      cut_({"shadow_vertex"}, {"shadow_fragment"}, "CUT"),
      bake_({"fullscreen_vertex"}, {"key_direction", "penumbra", "ground_bake_fragment"}, "FINE"),
      light_view_(GlFramebuffer::make()),
      depth_(GlTexture::make()),
      below_(contact_size, contact_size, Framebuffer::Depth::with_stencil),
      contact_(GlTexture::make()),
      ground_view_(GlFramebuffer::make()),
      ground_(GlTexture::make()),
      no_vertices_(GlVertexArray::make()) {
    glBindTexture(GL_TEXTURE_2D, depth_.id());
    glTexImage2D(GL_TEXTURE_2D, 0, GL_DEPTH_COMPONENT24, depth_size, depth_size, 0,
                 GL_DEPTH_COMPONENT, GL_UNSIGNED_INT, nullptr);
    set_comparison(true);
    glBindTexture(GL_TEXTURE_2D, contact_.id());
    set_filter(GL_LINEAR);
    glBindTexture(GL_TEXTURE_2D, ground_.id());
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, ground_size, ground_size, 0, GL_RGBA, GL_UNSIGNED_BYTE,
                 nullptr);
    set_filter(GL_LINEAR);
    glBindTexture(GL_TEXTURE_2D, 0);
    glBindFramebuffer(GL_FRAMEBUFFER, light_view_.id());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, GL_TEXTURE_2D, depth_.id(), 0);
    const GLenum none = GL_NONE;
    glDrawBuffers(1, &none);
    glReadBuffer(GL_NONE);
    glBindFramebuffer(GL_FRAMEBUFFER, ground_view_.id());
    glFramebufferTexture2D(GL_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, ground_.id(), 0);
}

void ShadowPass::bind_depth_map(bool comparing) const {
    glBindTexture(GL_TEXTURE_2D, depth_.id());
    set_comparison(comparing);
}

void ShadowPass::set_key_light(const Program& program, int unit) const {
    constexpr float half_angle = 0.17F;  // tangent: a soft box of 1 m three metres away
    const Axes light = axes_of(key_direction);
    program.set("u_depth", unit);
    program.set("u_light_scale",
                glm::vec4(0.5F / radius_, 0.5F / (static_cast<float>(depth_half_range) * radius_),
                          half_angle, texel_size_));
    program.set("u_light_along", glm::vec3(light.along));
    program.set("u_light_across", glm::vec3(light.across));
}

float ShadowPass::texel() { return 1.0F / depth_size; }

ShadowPass::Key ShadowPass::key_of(const Scene& scene, const MeshOf& mesh_of) {
    Key key;
    for (const Item& item : scene.items) {
        const bool solid = item.emphasis != Emphasis::ghost && item.emphasis != Emphasis::faded;
        if (item.casts_shadow && solid && mesh_of(item.mesh) != nullptr)
            key.casters.push_back({item.mesh, scene.cut.has_value() && item.cut, item.place});
    }
    key.ground_point = scene.ground_point;
    key.ground_normal = glm::normalize(scene.ground_normal);
    key.is_cut = scene.cut.has_value();
    if (scene.cut) key.cut = glm::vec4(scene.cut->normal, scene.cut->offset);
    return key;
}

void ShadowPass::update(const Scene& scene, const MeshOf& mesh_of, Quality quality) {
    Key key = key_of(scene, mesh_of);
    if (valid_ && key == key_) return;
    ++skipped_;
    if (valid_ && quality == Quality::moving && skipped_ < followed_change) return;
    render(key, mesh_of, ground_size);
    key_ = std::move(key);
    valid_ = true;
    skipped_ = 0;
}

void ShadowPass::rehearse(const Scene& scene, const MeshOf& mesh_of) {
    render(key_of(scene, mesh_of), mesh_of, 1);
    valid_ = false;
}

void ShadowPass::draw_casters(const Key& key, const MeshOf& mesh_of,
                              const glm::dmat4& world_to_clip, double greatest) {
    for (const bool cut : {false, true}) {
        const Program& program = cut ? cut_ : plain_;
        program.use();
        program.set("u_cut", key.cut);
        for (const Caster& caster : key.casters) {
            const GpuMesh* mesh = mesh_of(caster.mesh);
            if (caster.cut != cut || mesh == nullptr) continue;
            const Sphere reach = reach_of({caster.mesh, caster.place}, *mesh);
            const double lowest = glm::dot(reach.centre - glm::dvec3(key.ground_point),
                                           glm::dvec3(key.ground_normal)) -
                                  reach.radius;
            if (lowest > greatest) continue;
            program.set("u_place", caster.place);
            program.set("u_place_to_clip", glm::mat4(world_to_clip * glm::dmat4(caster.place)));
            mesh->draw_triangles();
        }
    }
}

// The parts, seen along the key light.
void ShadowPass::draw_from_light(const Key& key, const MeshOf& mesh_of, const Sphere& reach) {
    const Axes light = axes_of(key_direction);
    const double across = 1 / reach.radius;
    const glm::dmat4 to_light = from_rows(
        row(light.along, across, reach.centre, 0), row(light.across, across, reach.centre, 0),
        row(-key_direction, across / depth_half_range, reach.centre, 0));
    const glm::dmat4 half = from_rows({0.5, 0, 0, 0.5}, {0, 0.5, 0, 0.5}, {0, 0, 0.5, 0.5});
    world_to_light_ = half * to_light;
    texel_size_ = static_cast<float>(2 * reach.radius / depth_size);
    radius_ = static_cast<float>(reach.radius);
    glBindFramebuffer(GL_FRAMEBUFFER, light_view_.id());
    glViewport(0, 0, depth_size, depth_size);
    glEnable(GL_POLYGON_OFFSET_FILL);
    glPolygonOffset(1.5F, 2);
    glClear(GL_DEPTH_BUFFER_BIT);
    draw_casters(key, mesh_of, to_light, 1e30);
    glDisable(GL_POLYGON_OFFSET_FILL);
}

// Where the parts keep light from the ground.
void ShadowPass::place_patch(const Key& key, const Sphere& reach) {
    const glm::dvec3 normal(key.ground_normal);
    const glm::dvec3 point(key.ground_point);
    const double height = std::max(glm::dot(reach.centre - point, normal), 0.0);
    const double facing = std::max(glm::dot(key_direction, normal), 0.3);
    const glm::dvec3 centre =
        reach.centre - height * (normal + (key_direction / facing - normal) * 0.5);
    const double half = 1.3 * reach.radius + 20;
    const Axes ground = axes_of(normal);
    patch_ = {centre - half * (ground.along + ground.across), 2 * half * ground.along,
              2 * half * ground.across};
}

// How high the parts stand above the patch, seen from beneath; rows run from the bottom.
std::vector<std::uint8_t> ShadowPass::heights_above(const Key& key, const MeshOf& mesh_of) {
    const glm::dvec3 normal(key.ground_normal);
    const glm::dvec3 along(patch_.along);
    const glm::dvec3 across(patch_.across);
    const glm::dvec3 centre = glm::dvec3(patch_.corner) + (along + across) * 0.5;
    const double half = glm::length(along) / 2;
    glBindFramebuffer(GL_FRAMEBUFFER, below_.id());
    glViewport(0, 0, contact_size, contact_size);
    glClearColor(1, 1, 1, 1);
    glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
    draw_casters(key, mesh_of,
                 from_rows(row(glm::normalize(along), 1 / half, centre, 0),
                           row(glm::normalize(across), 1 / half, centre, 0),
                           row(normal, 2 / greatest_height, key.ground_point,
                               2 * sunk / greatest_height - 1)),
                 greatest_height);
    const Image below = below_.read();
    std::vector<std::uint8_t> heights(below.rgba.size() / 4);
    for (int y = 0; y < contact_size; ++y)  // rows of an image run from the top
        for (int x = 0; x < contact_size; ++x)
            heights[(contact_size - 1 - y) * contact_size + x] = *below.at(x, y);
    return heights;
}

void ShadowPass::upload_contact(const std::vector<std::uint8_t>& heights) {
    const double texel = glm::length(glm::dvec3(patch_.along)) / contact_size;
    const std::vector<std::uint8_t> hidden =
        contact_shadow(heights, contact_size, texel, greatest_height);
    glBindTexture(GL_TEXTURE_2D, contact_.id());
    glPixelStorei(GL_UNPACK_ALIGNMENT, 4);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, contact_size, contact_size, 0, GL_RED, GL_UNSIGNED_BYTE,
                 hidden.data());
}

// Both together, as the darkness of the ground: of so many lines of its map.
void ShadowPass::bake_ground(const Key& key, int lines) {
    glBindFramebuffer(GL_FRAMEBUFFER, ground_view_.id());
    glViewport(0, 0, ground_size, ground_size);
    glDisable(GL_DEPTH_TEST);
    bake_.use();
    set_key_light(bake_, 0);
    bake_.set("u_up", key.ground_normal);
    bake_.set("u_size", float{ground_size});
    bake_.set("u_contact", 1);
    const glm::mat4 map_to_world(glm::vec4(patch_.along, 0), glm::vec4(patch_.across, 0),
                                 glm::vec4(key.ground_normal, 0), glm::vec4(patch_.corner, 1));
    bake_.set("u_map_to_light", world_to_light_ * map_to_world);
    glActiveTexture(GL_TEXTURE1);
    glBindTexture(GL_TEXTURE_2D, contact_.id());
    glActiveTexture(GL_TEXTURE0);
    bind_depth_map(false);
    glBindVertexArray(no_vertices_.id());
    glEnable(GL_SCISSOR_TEST);
    glScissor(0, 0, ground_size, lines);
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glDisable(GL_SCISSOR_TEST);
}

void ShadowPass::render(const Key& key, const MeshOf& mesh_of, int ground_lines) {
    Bounds box;
    for (const Caster& caster : key.casters) {
        const GpuMesh* mesh = mesh_of(caster.mesh);
        if (mesh == nullptr || mesh->box().empty()) continue;
        const Sphere reach = reach_of({caster.mesh, caster.place}, *mesh);
        box.add(reach.centre - reach.radius);
        box.add(reach.centre + reach.radius);
    }
    if (box.empty()) box.add(key.ground_point);
    const Sphere reach{(box.low + box.high) * 0.5,
                       1.02 * glm::length(box.high - box.low) * 0.5 + 1};
    glDisable(GL_CULL_FACE);
    glDisable(GL_BLEND);
    glEnable(GL_DEPTH_TEST);
    glDepthFunc(GL_LESS);
    place_patch(key, reach);
    const std::vector<std::uint8_t> heights = heights_above(key, mesh_of);
    // The driver draws this one while the processor works on the other.
    draw_from_light(key, mesh_of, reach);
    glFlush();
    upload_contact(heights);
    bake_ground(key, ground_lines);
}

}  // namespace podwright
