#include "bench/words.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <map>
#include <string>

#include "bench/loupe_mesh.hpp"
#include "bench/part_facts.hpp"
#include "bench/room.hpp"
#include "bench/status_word.hpp"
#include "file/asset_library.hpp"
#include "fonts.hpp"
#include "gap/clearance.hpp"
#include "label_checks.hpp"
#include "random_setup.hpp"
#include "shape/mesher.hpp"

// Derived: what holds of any words that do not cover one another.
using namespace podwright;

namespace {

/// Boxes about the parts, from coarse meshes.
std::vector<Bounds> boxes_of(const Assembly& assembly, const NamedView& view,
                             const MeshLibrary& library) {
    std::vector<Bounds> boxes;
    for (const Part& part : assembly.parts) {
        if (std::find(view.see_through.begin(), view.see_through.end(), part.key) !=
            view.see_through.end())
            continue;
        for (const Body& body : part.bodies) {
            const Bounds box = bounds(mesh_of(body.solid, 0.5, library));
            Bounds out;
            for (int i = 0; i < 8; ++i)
                out.add(glm::dvec3(part.place * body.place *
                                   glm::dvec4(i & 1 ? box.high.x : box.low.x,
                                              i & 2 ? box.high.y : box.low.y,
                                              i & 4 ? box.high.z : box.low.z, 1)));
            boxes.push_back(out);
        }
    }
    return boxes;
}

struct Size {
    float width, height, scale;
};
// The four sizes of the picture, with the scale that a picture of that size is written at.
constexpr Size sizes[] = {{1000, 600, 0.9F}, {1280, 720, 1}, {720, 1280, 0.9F}, {3840, 2160, 3}};

Canvas canvas_of(const Size& size, const Type& type) {
    Canvas canvas;
    canvas.box = {{0, 0}, {size.width, size.height}};
    canvas.type = &type;
    // A title and a finding.
    canvas.taken = {{{16 * size.scale, 16 * size.scale}, {300 * size.scale, 44 * size.scale}},
                    {{16 * size.scale, size.height - 40 * size.scale},
                     {480 * size.scale, size.height - 16 * size.scale}}};
    return canvas;
}

/// From a label to a dimension's line, with the arrowheads that stand outside.
float distance_to(const DimensionFigure& figure, const PixelBox& label) {
    float least = distance_between(label, figure.line);
    for (const Segment& tail : figure.tails) least = std::min(least, distance_between(label, tail));
    return least;
}

}  // namespace

TEST_CASE("the words of every view keep apart and in the frame, for random setups and four sizes") {
    const MeshLibrary library = asset_library();
    std::size_t wanted = 0;
    std::size_t left_out = 0;
    for (const Size& size : sizes) {
        const Fonts fonts(size.scale);
        RandomSetups random(20250);
        for (int n = 0; n < 200; ++n) {
            const Setup setup = random.next();
            const Evaluation evaluation = evaluate(setup);
            // Every view in turn: eight setups see all of them.
            const NamedView& view =
                named_views()[static_cast<std::size_t>(n) % named_views().size()];
            Canvas canvas = canvas_of(size, fonts.type);
            canvas.camera =
                camera_of(view.name, evaluation,
                          composed(view, static_cast<double>(size.width) / size.height, 0, true));
            StageLook look;
            WordsMemory memory;
            const std::size_t before = canvas.taken.size();
            const WordsPlan plan =
                planned_words(canvas, {view, setup, evaluation, look},
                              boxes_of(evaluation.assembly, view, library), memory);
            INFO("setup " << n << ", view " << view.name << ", " << size.width << "x"
                          << size.height);
            check_layout(plan.layout, plan.ground);
            CHECK(plan.loupe.has_value() == view.loupe);
            if (plan.loupe) {
                REQUIRE(canvas.taken.size() == before + 1);
                CHECK(canvas.box.holds(canvas.taken.back()));
                CHECK_FALSE(canvas.taken.back().overlaps(canvas.taken[0]));
                CHECK_FALSE(canvas.taken.back().overlaps(canvas.taken[1]));
                const PixelBox caption = rim_words(canvas, *plan.loupe, plan.loupe_view).below;
                CHECK(canvas.box.holds(caption));
                for (const PlacedLabel& label : plan.layout.labels)
                    CHECK_FALSE((label.shown && label.box.overlaps(caption)));
            }
            wanted += plan.wishes.size();
            left_out += plan.layout.left_out;
        }
    }
    CHECK(wanted > 2000);
    CHECK(left_out == 0);  // there is room for all at these sizes
}

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
            canvas.camera =
                camera_of(view.name, evaluation,
                          composed(view, static_cast<double>(size.width) / size.height, 0, true));
            StageLook look;
            WordsMemory memory;
            const WordsPlan plan =
                planned_words(canvas, {view, setup, evaluation, look},
                              boxes_of(evaluation.assembly, view, library), memory);
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

TEST_CASE("the loupe stands beside the left hub and shows it on the side where the picture does") {
    const MeshLibrary library = asset_library();
    const Setup setup;
    const Evaluation evaluation = evaluate(setup);
    const Fonts fonts(1);
    for (const char* name : {"axle", "section", "rear", "top"}) {
        const NamedView& view = named_view(name);
        Canvas canvas = canvas_of(sizes[1], fonts.type);
        canvas.camera = camera_of(name, evaluation, composed(view, 1280.0 / 720, 0, true));
        StageLook look;
        WordsMemory memory;
        const WordsPlan plan = planned_words(canvas, {view, setup, evaluation, look},
                                             boxes_of(evaluation.assembly, view, library), memory);
        INFO("view " << name);
        REQUIRE(plan.loupe);
        const bool hub_at_left = canvas.at({0, 30, 0}).x < canvas.at({0, 0, 0}).x;
        CHECK((plan.loupe->centre.x < 640) == hub_at_left);
        CHECK((plan.loupe_view.camera.right().y < 0) == hub_at_left);
    }
}

TEST_CASE("no label lies on the loupe's caption, however long that is") {
    const MeshLibrary library = asset_library();
    Setup setup;
    setup.axial_float.set_by = FloatBy::shoulder;
    setup.axial_float.shoulder = 64.7;  // binds, which takes more words
    const Evaluation evaluation = evaluate(setup);
    for (const Size& size : {Size{384, 216, 0.9F}, Size{500, 400, 0.9F}, Size{640, 360, 0.9F}}) {
        const Fonts fonts(size.scale);
        for (const NamedView& view : named_views()) {
            if (!view.loupe) continue;
            Canvas canvas = canvas_of(size, fonts.type);
            canvas.camera =
                camera_of(view.name, evaluation,
                          composed(view, static_cast<double>(size.width) / size.height, 0, true));
            StageLook look;
            WordsMemory memory;
            const WordsPlan plan =
                planned_words(canvas, {view, setup, evaluation, look},
                              boxes_of(evaluation.assembly, view, library), memory);
            INFO("view " << view.name << ", " << size.width);
            REQUIRE(plan.loupe);
            const PixelBox caption = rim_words(canvas, *plan.loupe, plan.loupe_view).below;
            for (const PlacedLabel& label : plan.layout.labels)
                CHECK_FALSE((label.shown && label.box.overlaps(caption)));
        }
    }
}

TEST_CASE("the view of the mesh says the backlash where pinion and spur mesh") {
    const MeshLibrary library = asset_library();
    const NamedView& view = named_view("mesh");
    const Fonts fonts(1);
    // Wanted and set 0.06 mm; with 0.5 mm of it they rattle.
    for (const auto& [backlash, words] : {std::pair{0.06, "backlash 0.06 mm, ok"},
                                          {0.5, "backlash 0.50 mm, loose"},
                                          {0.02, "backlash 0.02 mm, tight"}}) {
        Setup setup;
        setup.gears.backlash = backlash;
        const Evaluation evaluation = evaluate(setup);
        const Drive& drive = evaluation.drive;
        const glm::dvec3 pitch = pitch_point(evaluation);
        const glm::dvec2 axle(0, drive.axle_z);
        CHECK(glm::length(glm::dvec2(pitch.x, pitch.z) - axle) == Approx(drive.spur_radius()));
        for (bool with_loupe : {true, false}) {
            Canvas canvas = canvas_of(sizes[1], fonts.type);
            canvas.camera = camera_of("mesh", evaluation, composed(view, 1280.0 / 720, 0, true));
            StageLook look;
            WordsInput input{view, setup, evaluation, look};
            input.loupe = with_loupe;
            WordsMemory memory;
            const WordsPlan plan =
                planned_words(canvas, input, boxes_of(evaluation.assembly, view, library), memory);
            INFO(words << (with_loupe ? ", loupe" : ""));
            const auto said = std::count(plan.texts.begin(), plan.texts.end(), words);
            CHECK(said == (with_loupe ? 0 : 1));
            CHECK(plan.layout.left_out == 0);
            if (with_loupe) {
                REQUIRE(plan.loupe);
                CHECK(plan.loupe_view.of == LoupeView::Of::mesh);
                CHECK(plan.loupe_view.caption == words);
                CHECK(plan.loupe_view.gap == pitch);
            }
        }
    }
}

TEST_CASE("what the cutaway takes away has no dimension, nor does one stand where it was") {
    const MeshLibrary library = asset_library();
    const Setup setup;
    const Evaluation evaluation = evaluate(setup);
    const Fonts fonts(1);
    std::size_t left = 0;
    for (const NamedView& view : named_views()) {
        Canvas canvas = canvas_of(sizes[1], fonts.type);
        canvas.camera = camera_of(view.name, evaluation, composed(view, 1280.0 / 720, 0, true));
        StageLook look;
        look.cut = Cut{{1, 0, 0}, 0};  // all that lies before the axle's middle
        WordsMemory memory;
        const WordsPlan plan = planned_words(canvas, {view, setup, evaluation, look},
                                             boxes_of(evaluation.assembly, view, library), memory);
        INFO("view " << view.name);
        for (const DrawnDimension& d : plan.dimensions) {
            INFO(d.name);
            ++left;
            // The motor stands before the axle, and its pinion.
            CHECK(d.name.find("mesh.") == std::string::npos);
            // In the views from before, the ride heights would hang before where the pod ended.
            if (view.name == "axle") CHECK(d.name.find("ride.") == std::string::npos);
        }
    }
    CHECK(left > 10);  // the widths and what is measured at the hubs
}

TEST_CASE("parts that are pulled apart are named where they are seen, shims of a side together") {
    Setup setup;
    setup.left.shims = {0.5, 0.5, 0.2};
    setup.right.shims = {0.3};
    const Evaluation evaluation = evaluate(setup);
    const Fonts fonts(1);
    const NamedView& view = named_view("axle");
    Canvas canvas = canvas_of(sizes[1], fonts.type);
    canvas.camera = camera_of("axle", evaluation, composed(view, 1280.0 / 720, 1, true));
    StageLook look;
    look.pose.spread = 1;
    SeenPoints seen;
    for (const Part& part : evaluation.assembly.parts)
        if (part.key != "right.hub" && part.key != "left.shim.1")
            seen[part.key] = glm::dvec3(placed(evaluation.assembly, part, look.pose)[3]);
    seen.erase("motor");
    WordsMemory memory;
    const WordsPlan plan = planned_words(canvas, {view, setup, evaluation, look}, {}, memory, seen);
    check_layout(plan.layout, plan.ground);
    std::map<std::string, int> count;
    for (std::size_t i = 0; i < plan.wishes.size(); ++i) {
        ++count[plan.texts[i]];
        const auto at = seen.find(plan.wishes[i].name);
        if (at == seen.end()) continue;
        CHECK(size_of(plan.wishes[i].anchor - canvas.at(at->second)) < 0.01F);
    }
    CHECK(count["3 left shims, 1.20 mm"] == 1);
    CHECK(count["right shim 0.30 mm"] == 1);
    CHECK(count["motor"] == 0);  // cannot be seen
    CHECK(count["left hub"] == 1);
    for (const auto& [text, times] : count) {
        INFO(text);
        CHECK(text.find("left shim ") == std::string::npos);
        CHECK(times <= 1);
    }
}

TEST_CASE("clearances have their words as well, and a frame too small says what it leaves out") {
    const MeshLibrary library = asset_library();
    Meter meter(library);
    Asked asked;
    asked.meter = &meter;
    const Setup setup;
    const Evaluation evaluation = evaluate(setup, asked);
    REQUIRE(evaluation.clearances.size() > 3);
    const NamedView& view = named_view("axle");
    const std::vector<Bounds> boxes = boxes_of(evaluation.assembly, view, library);
    const Fonts fonts(1);
    for (const Size& size : {Size{1280, 720, 1}, Size{200, 90, 1}}) {
        Canvas canvas = canvas_of(size, fonts.type);
        canvas.taken.clear();
        canvas.camera = camera_of("axle", evaluation, {size.width / size.height});
        StageLook look;
        WordsInput input{view, setup, evaluation, look};
        input.room = true;
        input.loupe = false;
        WordsMemory memory;
        const WordsPlan plan = planned_words(canvas, input, boxes, memory);
        check_layout(plan.layout, plan.ground);
        CHECK(plan.clearances.size() > 3);
        CHECK((plan.layout.left_out > 0) == (size.width < 1000));
    }
}

TEST_CASE("words stay where they are while the camera turns a little") {
    const MeshLibrary library = asset_library();
    const Setup setup;
    const Evaluation evaluation = evaluate(setup);
    const Fonts fonts(1);
    for (const NamedView& view : named_views()) {
        const std::vector<Bounds> boxes = boxes_of(evaluation.assembly, view, library);
        Camera camera = camera_of(view.name, evaluation, composed(view, 1280.0 / 720, 0, true));
        StageLook look;
        WordsMemory memory;
        std::map<std::string, ImVec2> before;
        int jumps = 0;
        std::map<std::string, int> of_label;
        constexpr int steps = 40;
        for (int step = 0; step < steps; ++step) {
            Canvas canvas = canvas_of(sizes[1], fonts.type);
            canvas.camera = camera;
            const WordsPlan plan =
                planned_words(canvas, {view, setup, evaluation, look}, boxes, memory);
            for (std::size_t i = 0; i < plan.wishes.size(); ++i) {
                const ImVec2 now = plan.layout.labels[i].box.centre();
                const auto was = before.find(plan.wishes[i].name);
                if (was != before.end() && size_of(now - was->second) > 25) {
                    ++jumps;
                    ++of_label[plan.wishes[i].name];
                }
                before[plan.wishes[i].name] = now;
            }
            camera.azimuth += radians(0.25);
        }
        INFO("view " << view.name << ", " << before.size() << " labels");
        // Ten degrees in all: some must give way, none may flicker.
        CHECK(jumps <= static_cast<int>(before.size()));
        for (const auto& [name, count] : of_label) {
            INFO(name);
            CHECK(count <= 1);
        }
    }
}

TEST_CASE("part titles and their numbers follow the unit that is shown") {
    const Evaluation evaluation = evaluate(Setup{});
    for (const Part& part : evaluation.assembly.parts) {
        INFO(part.title);
        CHECK(shown_title(part, LengthUnit::mm) == part.title);
        CHECK(shown_title(part, LengthUnit::inch).find("mm") == std::string::npos);
    }
    Part shim;
    shim.title = "left shim 0.50 mm";
    // 25.4 mm to the inch, by definition.
    CHECK(shown_title(shim, LengthUnit::inch) == "left shim 0.0197 in");
    shim.title = "left holder, step 1.27 mm up";
    CHECK(shown_title(shim, LengthUnit::inch) == "left holder, step 0.0500 in up");
    shim.title = "right wheel, inset -2.54 mm";
    CHECK(shown_title(shim, LengthUnit::inch) == "right wheel, inset -0.1000 in");
}

TEST_CASE("no word says more than the sign before it where a value is 0 but for rounding") {
    for (int teeth = 60; teeth < 100; ++teeth) {
        Setup setup;
        setup.gears.spur = teeth;
        setup.gears.backlash = 0;
        setup.axial_float.blade = 0;
        for (const Reading& r : evaluate(setup).readings) {
            const std::string_view word = status_word(r);
            INFO(r.name << ", " << teeth << " teeth, " << r.value);
            if (word == "jams" || word == "binds") CHECK(r.status == Status::stop);
        }
    }
}

TEST_CASE("every reading that has a status has a word for it") {
    RandomSetups random(8);
    for (int n = 0; n < 100; ++n) {
        const Evaluation evaluation = evaluate(random.next());
        for (const Reading& r : evaluation.readings) {
            INFO(r.name);
            CHECK(status_word(r).empty() == (r.status == Status::none));
            CHECK((status_word(r) == "ok") == (r.status == Status::ok));
        }
    }
}
