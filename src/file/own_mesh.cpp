#include "file/own_mesh.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <system_error>

#include "file/asset.hpp"
#include "file/disk.hpp"
#include "file/own_part_read.hpp"
#include "file/scene.hpp"
#include "file/value_text.hpp"

namespace podwright {

namespace fs = std::filesystem;

namespace {

// What can be a part of such an axle, mm.
constexpr double smallest = 0.05;
constexpr double largest = 500;
constexpr double farthest = 1000;

/// What a scene has to know of a mesh.
struct Facts {
    Bounds box;
    std::uint64_t stamp = 0;
};

std::string rounded(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.3g", value);
    return number_text(std::strtod(text, nullptr));
}

/// "; try scale = 0.001 if it was drawn in mm, or ...": every unit that would give a likely size.
std::string scale_hint(double size, double scale) {
    struct Unit {
        double factor;
        const char* why;
    };
    constexpr Unit units[] = {{0.001, "if it was drawn in mm"},
                              {0.0254, "if it was drawn in inches"},
                              {1000, "if it was made smaller on the way"}};
    constexpr double likely = 1.0;
    std::string hint;
    for (const Unit& unit : units) {
        const double then = size * unit.factor;
        if (then < likely || then > largest) continue;
        hint += (hint.empty() ? "; it looks as if it was drawn in another unit: try scale = "
                              : ", or ") +
                rounded(scale * unit.factor) + " " + unit.why;
    }
    return hint.empty() ? "; check scale and the unit in which it was drawn" : hint;
}

/// What is wrong with the size of `own`; empty if nothing.
std::string size_fault(const OwnPart& own, const Bounds& box) {
    const glm::dvec3 span = (box.high - box.low) * own.scale;
    const double size = std::max({span.x, span.y, span.z});
    const std::string at_scale = " mm at scale = " + number_text(own.scale);
    if (!(size >= smallest && size <= largest))
        return "measures " + rounded(size) + at_scale + "; it must be " + number_text(smallest) +
               " to " + number_text(largest) + " mm" + scale_hint(size, own.scale);
    const glm::dvec3 middle = (box.low + box.high) * (own.scale / 2);
    if (!(glm::length(middle) <= farthest))
        return "lies " + rounded(glm::length(middle)) + at_scale +
               " from the origin of its file; it must be within " + number_text(farthest) +
               " mm: draw it about the origin";
    return {};
}

}  // namespace

Mesh read_own_mesh(const fs::path& path) {
    Mesh mesh = read_gltf(path);
    if (const std::size_t open = open_edges(mesh); open > 0)
        throw FileError(path.string() + ": not a solid, which distances need: " +
                        std::to_string(open) + " edge" + (open == 1 ? " does" : "s do") +
                        " not join exactly two triangles that face the same way; close the surface "
                        "and export it again");
    if (!(volume(mesh) > 0))
        throw FileError(path.string() +
                        ": the mesh is inside out; turn its faces outward and export it again");
    return mesh;
}

std::uint64_t file_stamp(const fs::path& path) {
    std::error_code error;
    const auto time = fs::last_write_time(path, error);
    if (error) return 0;
    const auto size = fs::file_size(path, error);
    if (error) return 0;
    // Mixed by the odd multiplier of Knuth's multiplicative hashing, 2^64 over the golden ratio.
    const auto ticks = static_cast<std::uint64_t>(time.time_since_epoch().count());
    return std::max<std::uint64_t>(1, (ticks ^ (size << 32U)) * 0x9E3779B97F4A7C15U);
}

fs::path scene_folder(const fs::path& path) {
    return fs::absolute(link_target(path)).parent_path();
}

void find_own_meshes(Setup& setup, const Document& document, const fs::path& path) {
    if (setup.own_parts.empty()) return;
    const fs::path folder = scene_folder(path);
    const std::vector<const TableNode*> tables = own_part_tables(document);
    std::map<std::string, Facts> known;
    for (std::size_t i = 0; i < setup.own_parts.size(); ++i) {
        OwnPart& own = setup.own_parts[i];
        const Place place = tables.at(i)->find("file")->value.place;
        const fs::path file = (folder / own.file).lexically_normal();
        own.found = file.string();
        try {
            auto found = known.find(own.found);
            if (found == known.end()) {
                // The stamp first: a file that changes meanwhile is then read again.
                const std::uint64_t stamp = file_stamp(file);
                found = known.emplace(own.found, Facts{bounds(read_own_mesh(file)), stamp}).first;
            }
            own.stamp = found->second.stamp;
            const std::string fault = size_fault(own, found->second.box);
            if (!fault.empty()) throw FileError("\"" + shown(own.file) + "\" " + fault);
        } catch (const FileError& error) {
            fail_at(path.string(), place, error.what());
        }
    }
}

std::vector<OwnPart> own_parts_from(const fs::path& path, std::vector<OwnPart> own_parts) {
    if (own_parts.empty()) return own_parts;
    const fs::path folder = scene_folder(path);
    for (OwnPart& own : own_parts) {
        std::error_code error;
        const bool lost = own.found.empty() || !fs::exists(own.found, error);
        if (!lost && !fs::equivalent(folder / own.file, own.found, error)) own.file = own.found;
    }
    return own_parts;
}

}  // namespace podwright
