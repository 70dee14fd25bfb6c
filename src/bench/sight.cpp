#include "bench/sight.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

constexpr std::size_t least_seen = 12;  // cells; a sliver of less says nothing
constexpr double nearest_depth = 1;     // mm; what is nearer to the eye is not looked at

double twice_area(const glm::dvec2& a, const glm::dvec2& b, const glm::dvec2& c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

}  // namespace

SightMap::SightMap(const Camera& camera, const PixelBox& frame, float cell)
    : camera_(camera),
      frame_(frame),
      cell_(cell),
      columns_(std::max(1, static_cast<int>(frame.size().x / cell))),
      rows_(std::max(1, static_cast<int>(frame.size().y / cell))),
      numbers_(static_cast<std::size_t>(columns_) * static_cast<std::size_t>(rows_), -1),
      inverse_depths_(numbers_.size(), 0) {}

void SightMap::add(const Mesh& mesh, const glm::dmat4& place, const std::optional<Cut>& cut,
                   int number) {
    const glm::dvec3 eye = camera_.eye();
    const glm::dvec3 forward = glm::normalize(camera_.target - eye);
    const glm::dvec3 right = camera_.right();
    const glm::dvec3 up = camera_.up();
    const ImVec2 size = frame_.size();
    const double scale = size.y / 2 / std::tan(camera_.field_of_view / 2);
    std::vector<Corner> corners;
    corners.reserve(mesh.vertices.size());
    for (const Vertex& vertex : mesh.vertices) {
        const glm::dvec3 world(place * glm::dvec4(glm::dvec3(vertex.position), 1));
        const glm::dvec3 way = world - eye;
        const double depth = glm::dot(way, forward);
        Corner corner;
        if (depth > nearest_depth) {
            corner.inverse = 1 / depth;
            corner.at = glm::dvec2(size.x / 2 + scale * glm::dot(way, right) / depth,
                                   size.y / 2 - scale * glm::dot(way, up) / depth) /
                        double{cell_};
            if (cut)
                corner.cut =
                    (glm::dot(glm::dvec3(cut->normal), world) - double{cut->offset}) / depth;
        }
        corners.push_back(corner);
    }
    for (std::size_t i = 0; i + 2 < mesh.triangles.size(); i += 3) {
        const Corner& a = corners[mesh.triangles[i]];
        const Corner& b = corners[mesh.triangles[i + 1]];
        const Corner& c = corners[mesh.triangles[i + 2]];
        if (a.inverse > 0 && b.inverse > 0 && c.inverse > 0) fill(a, b, c, number);
    }
}

void SightMap::fill(const Corner& a, const Corner& b, const Corner& c, int number) {
    const double area = twice_area(a.at, b.at, c.at);
    if (std::abs(area) < 1e-12) return;
    // Cells whose middles lie inside, whichever way the triangle faces: of what is cut the inside
    // shows where its cap is.
    const auto first = [](double low) {
        return std::max(0, static_cast<int>(std::ceil(low - 0.5)));
    };
    const auto last = [](double high, int count) {
        return std::min(count - 1, static_cast<int>(std::floor(high - 0.5)));
    };
    const auto [left, right] = std::minmax({a.at.x, b.at.x, c.at.x});
    const auto [top, bottom] = std::minmax({a.at.y, b.at.y, c.at.y});
    if (right < 0 || bottom < 0 || left > columns_ || top > rows_) return;
    for (int row = first(top); row <= last(bottom, rows_); ++row)
        for (int column = first(left); column <= last(right, columns_); ++column) {
            const glm::dvec2 p(column + 0.5, row + 0.5);
            const double u = twice_area(b.at, c.at, p) / area;
            const double v = twice_area(c.at, a.at, p) / area;
            const double w = 1 - u - v;
            if (u < 0 || v < 0 || w < 0) continue;
            const double inverse = u * a.inverse + v * b.inverse + w * c.inverse;
            if (u * a.cut + v * b.cut + w * c.cut > 1e-4 * inverse) continue;
            const std::size_t cell = index(column, row);
            if (inverse <= double{inverse_depths_[cell]}) continue;
            inverse_depths_[cell] = static_cast<float>(inverse);
            numbers_[cell] = number;
        }
}

int SightMap::cell_at(ImVec2 pixel) const {
    const ImVec2 in = (pixel - frame_.low) * (1 / cell_);
    if (in.x < 0 || in.y < 0) return -1;
    const int column = static_cast<int>(in.x);
    const int row = static_cast<int>(in.y);
    return column < columns_ && row < rows_ ? row * columns_ + column : -1;
}

int SightMap::at(ImVec2 pixel) const {
    const int cell = cell_at(pixel);
    return cell < 0 ? -1 : numbers_[static_cast<std::size_t>(cell)];
}

glm::dvec3 SightMap::point_at(ImVec2 pixel) const {
    const int cell = cell_at(pixel);
    const ImVec2 in = pixel - frame_.low;
    const ImVec2 size = frame_.size();
    const Ray ray = ray_through(camera_, {in.x, in.y}, {size.x, size.y});
    const double inverse = cell < 0 ? 0 : double{inverse_depths_[static_cast<std::size_t>(cell)]};
    const glm::dvec3 forward = glm::normalize(camera_.target - camera_.eye());
    const double depth = inverse > 0 ? 1 / inverse : camera_.distance;
    return ray.from + ray.direction * (depth / glm::dot(ray.direction, forward));
}

/// How many cells away in each of four directions the same is still seen, at the least.
int SightMap::room_about(int column, int row) const {
    constexpr int enough = 4;
    const auto number = [&](int c, int r) { return numbers_[index(c, r)]; };
    const int own = number(column, row);
    for (int k = 1; k <= enough; ++k)
        if (column < k || row < k || column + k >= columns_ || row + k >= rows_ ||
            number(column - k, row) != own || number(column + k, row) != own ||
            number(column, row - k) != own || number(column, row + k) != own)
            return k - 1;
    return enough;
}

std::optional<ImVec2> SightMap::best_place(int number, std::span<const PixelBox> taken,
                                           const SightMap* behind) const {
    struct Place {
        int column, row, room;
    };
    std::vector<Place> places;
    bool any_alone = false;
    const auto pixel = [&](int column, int row) {
        return frame_.low + ImVec2{(static_cast<float>(column) + 0.5F) * cell_,
                                   (static_cast<float>(row) + 0.5F) * cell_};
    };
    for (int row = 0; row < rows_; ++row)
        for (int column = 0; column < columns_; ++column) {
            if (numbers_[index(column, row)] != number) continue;
            const ImVec2 at = pixel(column, row);
            if (std::any_of(taken.begin(), taken.end(),
                            [&](const PixelBox& box) { return box.holds(at); }))
                continue;
            const bool alone = !behind || behind->at(at) < 0;
            if (alone && !any_alone) places.clear();
            any_alone = any_alone || alone;
            if (alone == any_alone) places.push_back({column, row, room_about(column, row)});
        }
    if (places.size() < least_seen) return {};
    glm::dvec2 middle(0);
    for (const Place& p : places) middle += glm::dvec2(p.column, p.row);
    middle /= static_cast<double>(places.size());
    const auto worse = [&](const Place& a, const Place& b) {
        if (a.room != b.room) return a.room < b.room;
        const auto away = [&](const Place& p) {
            return glm::length(glm::dvec2(p.column, p.row) - middle);
        };
        return away(a) > away(b);
    };
    const Place& best = *std::max_element(places.begin(), places.end(), worse);
    return pixel(best.column, best.row);
}

}  // namespace podwright
