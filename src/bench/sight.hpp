#pragma once

#include <optional>
#include <span>
#include <vector>

#include <glm/glm.hpp>

#include "bench/plane.hpp"
#include "draw/camera.hpp"
#include "draw/renderer.hpp"
#include "shape/mesh.hpp"

namespace podwright {

/// What stands foremost in each cell of a picture. Found without a renderer, all parts at once,
/// which costs less than a ray for each of them.
class SightMap {
public:
    /// `frame` is the picture in pixels, `cell` the size of a cell.
    SightMap(const Camera& camera, const PixelBox& frame, float cell);

    /// A closed mesh of the body of that number (0 or more), with what the cut leaves of it.
    void add(const Mesh& mesh, const glm::dmat4& place, const std::optional<Cut>& cut, int number);

    /// Number of what is seen at a pixel; -1 if nothing is or it lies outside the frame.
    int at(ImVec2 pixel) const;
    /// The point that is seen there, pod axes.
    glm::dvec3 point_at(ImVec2 pixel) const;
    /// Where of that number most is seen round about, the nearest to its middle; none if hardly
    /// anything of it is seen. Outside `taken`,
    /// and, if there is such a place, where nothing is seen in `behind`.
    std::optional<ImVec2> best_place(int number, std::span<const PixelBox> taken,
                                     const SightMap* behind = nullptr) const;

private:
    struct Corner {
        glm::dvec2 at;       // in cells
        double inverse = 0;  // of the depth
        double cut = 0;      // way into what the cut removes, over the depth
    };
    void fill(const Corner& a, const Corner& b, const Corner& c, int number);
    int cell_at(ImVec2 pixel) const;
    int room_about(int column, int row) const;

    Camera camera_;
    PixelBox frame_;
    float cell_;
    std::size_t index(int column, int row) const {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
               static_cast<std::size_t>(column);
    }

    int columns_, rows_;
    std::vector<int> numbers_;
    std::vector<float> inverse_depths_;
};

}  // namespace podwright
