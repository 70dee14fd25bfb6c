#include "bench/words.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>

#include "file/asset_library.hpp"
#include "fonts.hpp"
#include "label_checks.hpp"
#include "random_setup.hpp"
#include "words_support.hpp"

// Derived: what holds of any words that do not cover one another.
using namespace podwright;

namespace {

/// From a label to a dimension's line, with the arrowheads that stand outside.
float distance_to(const DimensionFigure& figure, const PixelBox& label) {
    float least = distance_between(label, figure.line);
    for (const Segment& tail : figure.tails) least = std::min(least, distance_between(label, tail));
    return least;
}

}  // namespace

TEST_CASE(
    "a dimension's label stands at its own line and says its name, or all of it is left out") {
    const MeshLibrary library = asset_library();
    RandomSetups random(11);
    std::size_t shown = 0;
    std::size_t wanted = 0;
    std::size_t with_leader = 0;
    // The model's part of a window of 1000x600, and the picture's sizes.
    for (const Size& size :
         {Size{469, 489, 1}, sizes[0], sizes[1], sizes[2], Size{360, 200, 0.9F}}) {
        const Fonts fonts(size.scale);
        for (int n = 0; n < 80; ++n) {
            const Setup setup = n < 8 ? Setup{} : random.next();
            const Evaluation evaluation = evaluate(setup);
            const NamedView& view =
                named_views()[static_cast<std::size_t>(n) % named_views().size()];
            Canvas canvas = canvas_of(size, fonts.type);
            if (size.width < 500) {
                canvas.taken.clear();
                // The finding at the foot of the smallest picture.
                if (size.width < 400) canvas.taken = {{{14, 160}, {310, 186}}};
            }
            canvas.camera = camera_for(view, evaluation, size);
            const WordsPlan plan = plan_of(canvas, view, setup, evaluation, library);
            INFO("setup " << n << ", view " << view.name << ", " << size.width << "x"
                          << size.height);
            check_layout(plan.layout, plan.ground);
            if (plan.layout.left_out > 0) {
                CHECK(plan.ground.frame.holds(plan.left_out_note));
                for (const PixelBox& taken : canvas.taken)
                    CHECK_FALSE(taken.overlaps(plan.left_out_note));
                for (const PlacedLabel& label : plan.layout.labels)
                    CHECK_FALSE((label.shown && label.box.overlaps(plan.left_out_note)));
            }
            if (size.width < 400) continue;  // where words are larger than what they speak of
            for (std::size_t i = 0; i < plan.dimensions.size(); ++i) {
                const DrawnDimension& d = plan.dimensions[i];
                INFO(d.name);
                ++wanted;
                const PlacedLabel& label = plan.layout.labels[i];
                CHECK(plan.shows_dimension(i) == label.shown);
                if (!label.shown) {
                    // What a car is judged by gives way to nothing.
                    CHECK(d.name != "width.overall");
                    continue;
                }
                ++shown;
                if (label.leader) ++with_leader;
                const std::string& text = label.size == 0 ? plan.texts[i] : plan.short_texts[i];
                CHECK(text.find(d.text.substr(0, d.text.find_first_of("-0123456789"))) == 0);
                const float own = distance_to(d.figure, label.box);
                CHECK(own <= (label.leader ? 90 : 48) * size.scale);
                for (std::size_t k = 0; k < plan.dimensions.size(); ++k) {
                    if (k == i || !plan.shows_dimension(k)) continue;
                    INFO("and " << plan.dimensions[k].name);
                    const DimensionFigure& other = plan.dimensions[k].figure;
                    if (!label.leader) CHECK(own < distance_between(label.box, other.line));
                    CHECK(length_inside(label.box, other.line) == 0);
                    for (const Segment& tail : other.tails)
                        CHECK(length_inside(label.box, tail) == 0);
                    if (label.leader) CHECK_FALSE(cross_each_other(*label.leader, other.line));
                }
            }
        }
    }
    INFO(shown << " of " << wanted << ", " << with_leader << " on leaders");
    CHECK(shown > wanted * 8 / 10);
    CHECK(with_leader < shown / 4);
}

TEST_CASE("extension lines start at what is measured") {
    const MeshLibrary library = asset_library();
    Setup setup;
    setup.left.shims = {0.5, 0.5, 0.2};
    const Evaluation evaluation = evaluate(setup);
    const Fonts fonts(1);
    const auto dimensions_in = [&](const char* name) {
        const NamedView& view = named_view(name);
        Canvas canvas = canvas_of(sizes[1], fonts.type);
        canvas.camera = camera_of(name, evaluation, composed(view, 1280.0 / 720, 0, true));
        StageLook look;
        look.pose = clamped_pose;
        std::vector<Bounds> boxes = boxes_of(evaluation.assembly, view, library);
        WordsMemory memory;
        return std::pair{
            canvas,
            planned_words(canvas, {view, setup, evaluation, look}, boxes, memory).dimensions};
    };
    const auto find = [](const std::vector<DrawnDimension>& all, const std::string& name) {
        return std::find_if(all.begin(), all.end(),
                            [&](const DrawnDimension& d) { return d.name == name; });
    };
    SECTION("at the shims, not at what stands behind or before them") {
        const auto [canvas, all] = dimensions_in("float");
        const auto shims = find(all, "left.shims");
        REQUIRE(shims != all.end());
        const double u = evaluation.stack.left.bearing;
        const ImVec2 axis = canvas.at({0, u, evaluation.stance.axle_z(u)});
        // The bearing's radius, some 6 mm, and the gap of 8 line widths (ISO 129-1).
        const double reach = 9 * canvas.scale_at({0, u, evaluation.stance.axle_z(u)}) + gap_widths;
        for (const Segment& line : shims->figure.extensions)
            CHECK(size_of(line.from - axis) < reach);
    }
    SECTION("of the ride heights beside the floor's edge") {
        const auto [canvas, all] = dimensions_in("axle");
        const Part& floor = *evaluation.assembly.find("pod.floor");
        Bounds box;
        for (const Body& body : floor.bodies) {
            const Bounds own = bounds(mesh_of(body.solid, 0.5, library));
            const glm::dmat4 place = floor.place * body.place;
            box.add(glm::dvec3(place * glm::dvec4(own.low, 1)));
            box.add(glm::dvec3(place * glm::dvec4(own.high, 1)));
        }
        for (const auto& [name, y] :
             {std::pair{"ride.left", box.high.y}, {"ride.right", box.low.y}}) {
            INFO(name);
            const auto ride = find(all, name);
            REQUIRE(ride != all.end());
            REQUIRE(ride->figure.extensions.size() == 2);
            const Segment edge{canvas.at({box.low.x, y, 0}), canvas.at({box.high.x, y, 0})};
            const ImVec2 from = ride->figure.extensions.front().from;
            CHECK(size_of(nearest_on(edge, from) - from) <
                  2 * canvas.scale_at({box.high.x, y, 0}));  // mm beside it
        }
    }
    SECTION("of the overall width above both tyres") {
        for (const char* name : {"axle", "rear", "section"}) {
            INFO(name);
            const auto [canvas, all] = dimensions_in(name);
            const auto overall = find(all, "width.overall");
            REQUIRE(overall != all.end());
            REQUIRE(overall->figure.extensions.size() == 2);
            const double half = evaluation.stack.overall_width / 2;
            for (const Segment& line : overall->figure.extensions) {
                // Nearer to the line than to the axle.
                const float left = size_of(line.from - canvas.at({0, half, 0}));
                const float right = size_of(line.from - canvas.at({0, -half, 0}));
                CHECK(std::min(left, right) >
                      17 * canvas.scale_at({0, left < right ? half : -half, 0}));
            }
        }
    }
}

TEST_CASE("a dimension's words say its value") {
    // 2 x (31 + 0.9 + 0.5 + 0.075 + 28 + 4.5 + 20.5) = 170.95, derived; 170.95/25.4 = 6.730.
    const MeshLibrary library = asset_library();
    const Setup setup;
    const Evaluation evaluation = evaluate(setup);
    const Fonts fonts(1);
    const NamedView& view = named_view("axle");
    for (const auto& [unit, words] :
         {std::pair{LengthUnit::mm, "170.95"}, {LengthUnit::inch, "6.730"}}) {
        Canvas canvas = canvas_of(sizes[1], fonts.type);
        canvas.camera = camera_of("axle", evaluation, composed(view, 1280.0 / 720, 0, true));
        StageLook look;
        WordsInput input{view, setup, evaluation, look};
        input.shown = unit;
        WordsMemory memory;
        const WordsPlan plan =
            planned_words(canvas, input, boxes_of(evaluation.assembly, view, library), memory);
        int found = 0;
        for (std::size_t i = 0; i < plan.wishes.size(); ++i) {
            if (plan.wishes[i].name != "width.overall") continue;
            ++found;
            INFO(plan.texts.at(i));
            CHECK(plan.texts.at(i).find(words) != std::string::npos);
            CHECK(plan.layout.labels.at(i).shown);
        }
        CHECK(found == 1);
    }
}
