#include "bench/stage.hpp"

#include <algorithm>

namespace podwright {

namespace {

bool contains(const std::vector<std::string>& keys, const std::string& key) {
    return std::find(keys.begin(), keys.end(), key) != keys.end();
}

Emphasis emphasis_of(const Part& part, const StageLook& look) {
    if (contains(look.alarmed, part.key)) return Emphasis::alarm;
    if (part.key == look.picked) return Emphasis::picked;
    if (part.key == look.hovered) return Emphasis::hovered;
    if (contains(look.see_through, part.key)) return Emphasis::faded;
    return Emphasis::normal;
}

/// Shafts, screws, balls and the blade stay whole in a section, as section drawings leave them.
bool is_cut(const Part& part) { return part.key != "axle" && part.key != "blade"; }

}  // namespace

Stage::Stage(MeshLibrary library, double chord_error)
    : library_(std::move(library)), chord_error_(chord_error) {}

const Stage::Entry& Stage::entry_for(const Solid& solid) {
    for (Entry& entry : entries_)
        if (entry.solid == solid) {
            entry.used = turn_;
            return entry;
        }
    Entry& entry = entries_.emplace_back();
    entry.solid = solid;
    entry.mesh = mesh_of(solid, chord_error_, library_);
    entry.box = bounds(entry.mesh);
    entry.id = renderer_.upload(entry.mesh);
    entry.used = turn_;
    return entry;
}

void Stage::set(const Assembly& assembly) {
    ++turn_;
    assembly_ = assembly;
    bodies_.clear();
    for (const Part& part : assembly_.parts) {
        auto& row = bodies_.emplace_back();
        for (const Body& body : part.bodies) row.push_back(&entry_for(body.solid));
    }
    for (auto entry = entries_.begin(); entry != entries_.end();) {
        if (entry->used == turn_) {
            ++entry;
        } else {
            renderer_.drop(entry->id);
            entry = entries_.erase(entry);
        }
    }
}

bool Stage::shown(const Part& part, const StageLook& look) {
    if (contains(look.hidden, part.key)) return false;
    // The blade fits its gap only while the axle stands at the left end of its float.
    return part.key != "blade" || look.pose.spread > 0 || look.pose.along > 0.999;
}

Scene Stage::scene(const StageLook& look) const {
    Scene scene;
    scene.ground_point = look.ground ? look.ground->first : assembly_.ground_point;
    scene.ground_normal = look.ground ? look.ground->second : assembly_.ground_normal;
    scene.cut = look.cut;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Part& part = assembly_.parts[i];
        if (!shown(part, look)) continue;
        const glm::dmat4 place = placed(assembly_, part, look.pose);
        for (std::size_t b = 0; b < part.bodies.size(); ++b) {
            Item item;
            item.mesh = bodies_[i][b]->id;
            item.place = glm::mat4(place * part.bodies[b].place);
            item.look = part.bodies[b].look;
            item.emphasis = emphasis_of(part, look);
            if (const auto paint = look.paint.find(part.key); paint != look.paint.end())
                item.paint = paint->second;
            item.cut = is_cut(part);
            scene.items.push_back(item);
        }
    }
    return scene;
}

std::optional<PartHit> Stage::pick(const StageLook& look, const Ray& ray) const {
    std::vector<PickTarget> targets;
    std::vector<const Part*> parts;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Part& part = assembly_.parts[i];
        if (!shown(part, look) || contains(look.see_through, part.key)) continue;
        const glm::dmat4 place = placed(assembly_, part, look.pose);
        for (std::size_t b = 0; b < part.bodies.size(); ++b) {
            targets.push_back({&bodies_[i][b]->mesh, place * part.bodies[b].place, is_cut(part)});
            parts.push_back(&part);
        }
    }
    const auto hit = podwright::pick(ray, targets, look.cut);
    if (!hit) return {};
    return PartHit{parts[hit->index]->key, hit->point};
}

std::pair<glm::dvec3, double> Stage::sphere_about(const StageLook& look,
                                                  const std::vector<std::string>& keys) const {
    Bounds all;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Part& part = assembly_.parts[i];
        if (!contains(keys, part.key)) continue;
        const glm::dmat4 place = placed(assembly_, part, look.pose);
        for (std::size_t b = 0; b < part.bodies.size(); ++b) {
            const Bounds& box = bodies_[i][b]->box;
            for (int corner = 0; corner < 8; ++corner)
                all.add(glm::dvec3(place * part.bodies[b].place *
                                   glm::dvec4(corner & 1 ? box.high.x : box.low.x,
                                              corner & 2 ? box.high.y : box.low.y,
                                              corner & 4 ? box.high.z : box.low.z, 1)));
        }
    }
    if (all.empty()) return {glm::dvec3(0), 0};
    return {(all.low + all.high) / 2.0, glm::length(all.high - all.low) / 2};
}

std::size_t Stage::triangle_count() const {
    std::size_t count = 0;
    for (const auto& row : bodies_)
        for (const Entry* entry : row) count += entry->mesh.triangles.size() / 3;
    return count;
}

}  // namespace podwright
