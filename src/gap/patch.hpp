#pragma once

#include <vector>

#include "gap/form.hpp"

namespace podwright {

/// A piece of a form's wall: a stretch of one element of its outline, revolved through some angle
/// (at most a quarter turn) or swept along x. In the frame of the
/// form.
struct Cell {
    const Element* element = nullptr;
    bool revolved = false;
    double s0 = 0, s1 = 1;           ///< shares of the element
    double t0 = 0, t1 = 1;           ///< angle from y towards z, or x
    glm::dvec2 p0{0}, pm{0}, p1{0};  ///< the element's points at s0, between, and at s1
    glm::dvec2 d0{0}, dm{0}, d1{0};  ///< revolved: directions of t0, between, and of t1
    double bulge = 0;                ///< of the stretch over its chord, at most
    glm::dvec3 centre{0};            ///< of a sphere that holds the cell; itself on the cell
    double radius = 0;
    glm::dvec3 normal{0};       ///< unit, outward, in the middle
    glm::dvec3 from{0}, to{0};  ///< the straight line through the middle on which it is ruled, or
                                ///< one point

    /// Greatest value of way·p over the cell, or slightly more on involutes.
    double support(const glm::dvec3& way) const;
    double length_s() const;  ///< how long it is each way
    double length_t() const;
    /// The same with straight ways counted for little.
    double size_s() const;
    double size_t() const;
    /// How much way·p varies each way, about.
    double rise_s(const glm::dvec3& way) const;
    double rise_t(const glm::dvec3& way) const;
    /// Greatest angle between its normals and the one in the middle.
    double normal_spread() const;
};

/// The whole wall of a form, in cells that turn by no more than a quarter.
std::vector<Cell> cells_of(const Form& form);

/// The cell's halves.
void halve(const Cell& cell, bool along_s, Cell& first, Cell& second);

}  // namespace podwright
