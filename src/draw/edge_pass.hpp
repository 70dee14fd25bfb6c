#pragma once

#include <optional>
#include <vector>

#include "draw/gl_handle.hpp"
#include "draw/plan.hpp"
#include "draw/program.hpp"

namespace podwright {

/// Feature edges, the outlines of cut faces and of what is picked.
class EdgePass {
public:
    EdgePass();

    void draw_edges(const Plan& plan, const std::vector<Planned>& items);
    /// Thin dark rims of everything solid, where it stands against what lies farther.
    void draw_silhouettes(const Plan& plan, bool dark_surround);
    /// Outlines of the cut faces of those `items` that are cut.
    void draw_section(const Plan& plan, const std::vector<Planned>& items, const Cut& cut);
    /// Needs the stencil to itself.
    void draw_outlines(const Plan& plan);

private:
    const Program& lines(bool cut, const Plan& plan);
    void draw_grown(const Plan& plan, const Planned& planned, float grow, const glm::vec4& ink,
                    bool with_edges);

    std::optional<Program> line_;
    std::optional<Program> cut_line_;
    std::optional<Program> grown_;
    std::optional<Program> cut_grown_;
    GlVertexArray section_;
    GlBuffer section_ends_;
};

}  // namespace podwright
