#include "bench/stage.hpp"

#include <algorithm>

#include "bench/chain_line.hpp"
#include "bench/keys.hpp"
#include "shape/guides.hpp"

namespace podwright {

namespace {

glm::dvec3 corner(const Bounds& box, int index) {
    return {index & 1 ? box.high.x : box.low.x, index & 2 ? box.high.y : box.low.y,
            index & 4 ? box.high.z : box.low.z};
}

void add_corners(Bounds& all, const Bounds& box, const glm::dmat4& place) {
    for (int i = 0; i < 8; ++i) all.add(glm::dvec3(place * glm::dvec4(corner(box, i), 1)));
}

/// Teeth are made finer than the rest: their backlash, which the loupe shows, is of the size of the
/// usual error.
double error_for(const Solid& solid, double chord_error) {
    constexpr double of_teeth = 0.005;  // mm
    return std::holds_alternative<ToothedRing>(solid) ? std::min(chord_error, of_teeth)
                                                      : chord_error;
}

constexpr double thin = 0.3;  // mm; a section of less is filled, as there is no room for lines

/// Two boxes that touch, or nearly.
bool meet(const Bounds& a, const Bounds& b) {
    constexpr double near = 0.3;  // mm
    return glm::all(glm::lessThan(a.low, b.high + near)) &&
           glm::all(glm::lessThan(b.low, a.high + near));
}

/// What a cut square to an axis leaves of a box; all of it for any other cut.
Bounds left_by(const Cut& cut, Bounds box) {
    for (int i = 0; i < 3; ++i) {
        if (cut.normal[i] > 0.999F) box.high[i] = std::min(box.high[i], double{cut.offset});
        if (cut.normal[i] < -0.999F) box.low[i] = std::max(box.low[i], -double{cut.offset});
    }
    return box;
}

}  // namespace

std::list<Meshed> meshed(const Assembly& assembly, const MeshLibrary& library, double chord_error) {
    std::list<Meshed> all;
    for (const Part& part : assembly.parts)
        for (const Body& body : part.bodies) {
            const auto same = [&](const Meshed& known) { return known.solid == body.solid; };
            if (std::any_of(all.begin(), all.end(), same)) continue;
            all.push_back(
                {body.solid, mesh_of(body.solid, error_for(body.solid, chord_error), library)});
        }
    return all;
}

Stage::Stage(MeshLibrary library, double chord_error)
    : library_(std::move(library)), chord_error_(chord_error) {}

Mesh Stage::mesh_for(const Solid& solid) {
    const auto found = std::find_if(ahead_.begin(), ahead_.end(),
                                    [&](const Meshed& known) { return known.solid == solid; });
    return found == ahead_.end() ? mesh_of(solid, error_for(solid, chord_error_), library_)
                                 : std::move(found->mesh);
}

const Stage::Entry& Stage::entry_for(const Solid& solid) {
    for (Entry& entry : entries_)
        if (entry.solid == solid) {
            entry.used = turn_;
            return entry;
        }
    Entry& entry = entries_.emplace_back();
    entry.solid = solid;
    entry.mesh = mesh_for(solid);
    entry.box = bounds(entry.mesh);
    entry.id = renderer_.upload(entry.mesh);
    entry.used = turn_;
    return entry;
}

Stage::Shapes Stage::shapes_of(const Assembly& assembly) {
    Shapes shapes;
    for (const Part& part : assembly.parts) {
        auto& row = shapes.emplace_back();
        for (const Body& body : part.bodies) row.push_back(&entry_for(body.solid));
    }
    return shapes;
}

void Stage::set(const Assembly& assembly, const Assembly* ghost) {
    ++turn_;
    assembly_ = assembly;
    ghost_ = ghost ? *ghost : Assembly{};
    bodies_ = shapes_of(assembly_);
    ghost_bodies_ = shapes_of(ghost_);
    ahead_.clear();
    guide_meshes_.clear();
    for (const Guide& guide : guides(assembly_, 1)) {
        const int dashes = dashes_for(glm::length(guide.to - guide.from));
        MeshId& mesh = chain_lines_[dashes];
        if (mesh == 0) mesh = renderer_.upload(chain_line(dashes));
        guide_meshes_.push_back(mesh);
    }
    for (auto entry = entries_.begin(); entry != entries_.end();) {
        if (entry->used == turn_) {
            ++entry;
        } else {
            renderer_.drop(entry->id);
            entry = entries_.erase(entry);
        }
    }
    set_hatches();
}

// Each part gets the first hatch that no part which meets it has yet.
void Stage::set_hatches() {
    std::vector<Bounds> boxes;
    hatches_.clear();
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Bounds box = box_of(i, {});
        std::vector<bool> taken(hatch_count, false);
        for (std::size_t k = 0; k < i; ++k)
            if (hatches_[k] >= 0 && meet(box, boxes[k]))
                taken[static_cast<std::size_t>(hatches_[k])] = true;
        const auto free = std::find(taken.begin(), taken.end(), false);
        const glm::dvec3 size = box.high - box.low;
        const bool filled = std::min({size.x, size.y, size.z}) < thin;
        boxes.push_back(box);
        hatches_.push_back(filled ? solid_hatch
                                  : static_cast<int>(free - taken.begin()) % hatch_count);
    }
}

Bounds Stage::box_of(std::size_t i, const Pose& pose) const {
    const Part& part = assembly_.parts[i];
    const glm::dmat4 place = placed(assembly_, part, pose);
    Bounds all;
    for (std::size_t b = 0; b < part.bodies.size(); ++b)
        add_corners(all, bodies_[i][b]->box, place * part.bodies[b].place);
    return all;
}

std::vector<Bounds> Stage::boxes(const StageLook& look) const {
    Pose still = look.pose;
    still.turn = 0;
    std::vector<Bounds> boxes;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        const Part& part = assembly_.parts[i];
        // The blade is a gauge in a gap: what is measured there ends at the parts beside it.
        if (!shown(part, look) || contains(look.see_through, part.key) || part.key == "blade")
            continue;
        const glm::dmat4 place = placed(assembly_, part, still);
        for (std::size_t b = 0; b < part.bodies.size(); ++b) {
            Bounds box;
            if (is_cut_away(look, i, b)) continue;
            add_corners(box, bodies_[i][b]->box, place * part.bodies[b].place);
            if (look.cut && is_cut(part, part.bodies[b], look)) box = left_by(*look.cut, box);
            if (glm::all(glm::lessThanEqual(box.low, box.high))) boxes.push_back(box);
        }
    }
    return boxes;
}

std::pair<glm::dvec3, double> Stage::sphere_about(const StageLook& look,
                                                  const std::vector<std::string>& keys) const {
    Bounds all;
    for (std::size_t i = 0; i < assembly_.parts.size(); ++i) {
        if (!contains(keys, assembly_.parts[i].key)) continue;
        const Bounds box = box_of(i, look.pose);
        all.add(box.low);
        all.add(box.high);
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
