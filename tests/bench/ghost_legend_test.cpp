#include "bench/ghost_legend.hpp"

#include <algorithm>
#include <catch2/catch.hpp>

#include "draw/finish.hpp"
#include "fonts.hpp"

// Derived: what holds of any legend that stands under a title.
using namespace podwright;

TEST_CASE("a ghost's legend stands under the title, in the picture, in the ghost's colour") {
    const glm::vec3& c = ghost_colour;
    for (const char* title : {"First look",
                              "A very long title of a car that is not set up yet, "
                              "in a hall that has a long name of its own"})
        for (float width : {320.0F, 1280.0F}) {
            const Fonts fonts(0.9F);
            ImGui::GetIO().DisplaySize = {width, 720};
            ImGui::NewFrame();
            const ImDrawList& list = *ImGui::GetBackgroundDrawList();
            Canvas canvas;
            canvas.list = ImGui::GetBackgroundDrawList();
            canvas.box = {{0, 0}, {width, 720}};
            canvas.type = &fonts.type;
            const PixelBox plate{{16, 16}, {200, 44}};
            canvas.taken = {plate};
            draw_ghost_legend(canvas, plate, title);
            INFO(title << ", " << width);
            REQUIRE(canvas.taken.size() == 2);
            CHECK(canvas.box.holds(canvas.taken[1]));
            CHECK_FALSE(canvas.taken[1].overlaps(plate));
            CHECK(canvas.taken[1].low.x == plate.low.x);
            CHECK(canvas.taken[1].low.y - plate.high.y < 8);
            const ImU32 colour = ImGui::ColorConvertFloat4ToU32({c.r, c.g, c.b, 1});
            CHECK(std::any_of(list.VtxBuffer.begin(), list.VtxBuffer.end(),
                              [&](const ImDrawVert& v) { return v.col == colour; }));
            for (const ImDrawVert& v : list.VtxBuffer) CHECK(canvas.taken[1].grown(1).holds(v.pos));
        }
}
