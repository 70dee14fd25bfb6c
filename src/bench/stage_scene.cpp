#include <algorithm>
#include <cmath>

#include "bench/keys.hpp"
#include "bench/sight.hpp"
#include "bench/stage.hpp"
#include "shape/guides.hpp"

// The stage as a scene for the renderer.
namespace podwright {

namespace {

constexpr std::string_view axle_key = "axle";
constexpr glm::vec3 guide_colour{0.0F, 0.3F, 0.52F};  // sRGB

Emphasis emphasis_of(const Part& part, const StageLook& look) {
    if (contains(look.alarmed, part.key)) return Emphasis::alarm;
    if (part.key == look.picked) return Emphasis::picked;
    if (part.key == look.hovered) return Emphasis::hovered;
    if (contains(look.see_through, part.key)) return Emphasis::faded;
    return Emphasis::normal;
}

/// A body that the section leaves whole, and that lies in what it takes away.
bool cut_away(const Bounds& box, const glm::dmat4& place, const std::optional<Cut>& cut) {
    if (!cut) return false;
    const glm::dvec3 middle(place * glm::dvec4((box.low + box.high) * 0.5, 1));
    return glm::dot(glm::dvec3(cut->normal), middle) > double{cut->offset} + 0.01;
}

/// A body as it is, its part placed.
Item item_of(const Body& body, MeshId mesh, const glm::dmat4& place) {
    Item item;
    item.mesh = mesh;
    item.place = glm::mat4(place * body.place);
    item.look = body.look;
    return item;
}

/// Whether something of the part cannot be seen to be the same in both.
bool differs(const Part& a, const Part& b) {
    constexpr double visible = 1e-3;  // mm
    if (a.bodies.size() != b.bodies.size()) return true;
    for (std::size_t i = 0; i < a.bodies.size(); ++i)
        if (!(a.bodies[i].solid == b.bodies[i].solid)) return true;
    for (int column = 0; column < 4; ++column)
        if (glm::length(a.place[column] - b.place[column]) > visible) return true;
    return false;
}

}  // namespace

bool Stage::is_cut(const Part& part, const Body& body, const StageLook& look) {
    return part.key != axle_key && part.key != "blade" && body.detail == Detail::none &&
           !contains(look.whole, part.key);
}

bool Stage::shown(const Part& part, const StageLook& look) {
    if (contains(look.hidden, part.key)) return false;
    // The blade fits its gap only while the axle stands at the left end of its float.
    return part.key != "blade" || look.pose.spread > 0 || look.pose.along > 0.999;
}

void Stage::bend(const StageLook& look) {
    for (const MeshId mesh : bent_) renderer_.drop(mesh);
    bent_.clear();
    if (look.bend.empty()) return;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Part& part = assembly_.parts[i];
        if (part.key != axle_key) continue;
        const glm::dmat4 place = placed(assembly_, part, look.pose);
        for (std::size_t b = 0; b < part.bodies.size(); ++b)
            bent_.push_back(renderer_.upload(
                bent(bodies_[i][b]->mesh, place * part.bodies[b].place, assembly_, look.bend)));
    }
}

Item Stage::body_item(const StageLook& look, std::size_t part, std::size_t body) const {
    const Part& whose = assembly_.parts[part];
    glm::dmat4 place = placed(assembly_, whose, look.pose);
    Item item = item_of(whose.bodies[body], bodies_[part][body]->id, place);
    if (look.bend.empty() || whose.moves != Moves::axle) return item;
    if (whose.key == axle_key && body < bent_.size()) {
        item.mesh = bent_[body];
        item.place = glm::mat4(1);
        return item;
    }
    const double along =
        glm::dot(glm::dvec3(place[3]) - assembly_.axle_point, assembly_.axle_direction);
    place = carried(assembly_, look.bend, along) * place;
    item.place = glm::mat4(place * whose.bodies[body].place);
    return item;
}

bool Stage::is_cut_away(const StageLook& look, std::size_t part, std::size_t body) const {
    const Body& whose = assembly_.parts[part].bodies[body];
    if (whose.detail == Detail::none) return false;
    const glm::dmat4 place = placed(assembly_, assembly_.parts[part], look.pose) * whose.place;
    return cut_away(bodies_[part][body]->box, place, look.cut);
}

Scene Stage::scene(const StageLook& look) const {
    Scene scene;
    scene.ground_point = look.ground ? look.ground->first : assembly_.ground_point;
    scene.ground_normal = look.ground ? look.ground->second : assembly_.ground_normal;
    // What leaves the pod downwards would go through the ground.
    double down = 0;
    for (const Part& part : assembly_.parts)
        down = std::min(down, glm::dot(part.explode, assembly_.ground_normal));
    scene.ground_point += scene.ground_normal * static_cast<float>(down * look.pose.spread);
    scene.cut = look.cut;
    scene.dark = look.dark;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Part& part = assembly_.parts[i];
        if (!shown(part, look)) continue;
        for (std::size_t b = 0; b < part.bodies.size(); ++b) {
            const Body& body = part.bodies[b];
            if (is_cut_away(look, i, b)) continue;
            Item item = body_item(look, i, b);
            item.emphasis = emphasis_of(part, look);
            if (const auto paint = look.paint.find(part.key); paint != look.paint.end())
                item.paint = paint->second;
            item.cut = is_cut(part, body, look);
            item.hatch = hatches_[i];
            if (body.detail == Detail::screw) item.relief = Relief::screw;
            scene.items.push_back(item);
        }
    }
    if (look.ghost && look.hidden.empty()) add_ghosts(scene, look);
    add_guides(scene, look);
    return scene;
}

void Stage::add_ghosts(Scene& scene, const StageLook& look) const {
    for (std::size_t i = 0; i < ghost_.parts.size(); ++i) {
        const Part& part = ghost_.parts[i];
        const Part* present = assembly_.find(part.key);
        if (!shown(part, look) || (present && !differs(part, *present))) continue;
        const glm::dmat4 place = placed(ghost_, part, look.pose);
        for (std::size_t b = 0; b < part.bodies.size(); ++b) {
            Item item = item_of(part.bodies[b], ghost_bodies_[i][b]->id, place);
            item.emphasis = Emphasis::ghost;
            item.cut = is_cut(part, part.bodies[b], look);
            item.casts_shadow = false;
            scene.items.push_back(item);
        }
    }
}

void Stage::add_guides(Scene& scene, const StageLook& look) const {
    const std::vector<Guide> lines = guides(assembly_, look.pose.spread);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const Guide& guide = lines[i];
        const auto in_sight = std::count_if(
            guide.parts.begin(), guide.parts.end(),
            [&](const std::string& key) { return shown(*assembly_.find(key), look); });
        // A line between several parts needs two of them.
        if (in_sight < (guide.parts.size() > 1 ? 2 : 1)) continue;
        const glm::dvec3 way = guide.to - guide.from;
        const glm::dvec3 x = glm::normalize(way);
        const glm::dvec3 other = std::abs(x.z) < 0.9 ? glm::dvec3(0, 0, 1) : glm::dvec3(1, 0, 0);
        const glm::dvec3 y = glm::normalize(glm::cross(other, x));
        const glm::dvec3 z = glm::cross(x, y);
        Item item;
        item.mesh = guide_meshes_[i];
        item.place = glm::mat4(glm::dmat4(glm::dvec4(way, 0), glm::dvec4(y, 0), glm::dvec4(z, 0),
                                          glm::dvec4(guide.from, 1)));
        item.cut = false;
        item.casts_shadow = false;
        item.paint = guide_colour;
        scene.items.push_back(item);
    }
}

std::optional<PartHit> Stage::pick(const StageLook& look, const Ray& ray) const {
    std::vector<PickTarget> targets;
    std::vector<const Part*> parts;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Part& part = assembly_.parts[i];
        if (!shown(part, look) || contains(look.see_through, part.key)) continue;
        const glm::dmat4 place = placed(assembly_, part, look.pose);
        for (std::size_t b = 0; b < part.bodies.size(); ++b) {
            if (is_cut_away(look, i, b)) continue;
            targets.push_back({&bodies_[i][b]->mesh, place * part.bodies[b].place,
                               is_cut(part, part.bodies[b], look)});
            parts.push_back(&part);
        }
    }
    const auto hit = podwright::pick(ray, targets, look.cut);
    if (!hit) return {};
    return PartHit{parts[hit->index]->key, hit->point};
}

SeenPoints Stage::seen(const StageLook& look, const Camera& camera, const PixelBox& frame,
                       float cell, std::span<const PixelBox> taken, SeenPoints& before) const {
    SightMap solid(camera, frame, cell);
    const auto add = [&](SightMap& map, std::size_t i) {
        const Part& part = assembly_.parts[i];
        const glm::dmat4 place = placed(assembly_, part, look.pose);
        for (std::size_t b = 0; b < part.bodies.size(); ++b)
            if (!is_cut_away(look, i, b))
                map.add(bodies_[i][b]->mesh, place * part.bodies[b].place,
                        is_cut(part, part.bodies[b], look) ? look.cut : std::nullopt,
                        static_cast<int>(i));
    };
    std::vector<std::size_t> faded;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        if (!shown(assembly_.parts[i], look)) continue;
        if (contains(look.see_through, assembly_.parts[i].key))
            faded.push_back(i);
        else
            add(solid, i);
    }
    SightMap all = solid;
    for (const std::size_t i : faded) add(all, i);

    const auto pixel_of = [&](const glm::dvec3& point) {
        const ImVec2 size = frame.size();
        const glm::dvec3 p = to_screen(camera, point, {size.x, size.y});
        return frame.low + ImVec2{static_cast<float>(p.x), static_cast<float>(p.y)};
    };
    SeenPoints points, now;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Part& part = assembly_.parts[i];
        const bool is_faded = std::find(faded.begin(), faded.end(), i) != faded.end();
        const SightMap& map = is_faded ? all : solid;
        const int number = static_cast<int>(i);
        const glm::dvec3 origin(placed(assembly_, part, look.pose)[3]);
        if (const auto last = before.find(part.key); last != before.end()) {
            const ImVec2 at = pixel_of(origin + last->second);
            const bool is_taken = std::any_of(taken.begin(), taken.end(),
                                              [&](const PixelBox& box) { return box.holds(at); });
            if (map.at(at) == number && !is_taken) {
                now.insert(*last);
                points[part.key] = origin + last->second;
                continue;
            }
        }
        const auto place = map.best_place(number, taken, is_faded ? &solid : nullptr);
        if (!place) continue;
        points[part.key] = map.point_at(*place);
        now[part.key] = points[part.key] - origin;
    }
    before = std::move(now);
    return points;
}

}  // namespace podwright
