#include "bench/loupe_float.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <string>

#include "bench/views.hpp"
#include "file/asset_library.hpp"
#include "fonts.hpp"
#include "random_setup.hpp"
#include "shape/mesher.hpp"

// Derived: the stack's own sums; what holds of any words in a circle.
using namespace podwright;

namespace {

/// The loupe in the middle of a canvas of its own.
struct Seen {
    LoupeView view;
    LoupePlace place;
    Canvas in;
};
Seen seen(const Type& type, const Setup& setup, const Evaluation& evaluation, const Pose& pose,
          float radius, const char* from = "axle", LengthUnit shown = LengthUnit::mm) {
    Canvas canvas;
    canvas.box = {{0, 0}, {400, 400}};
    canvas.type = &type;
    canvas.camera = camera_of(from, evaluation, {});
    Seen all;
    all.view = loupe_on_float(setup, evaluation, pose, canvas.camera, shown);
    all.place = {{200, 200}, radius};
    all.in = inside(canvas, all.place, all.view);
    return all;
}

bool in_circle(const LoupePlace& place, const PixelBox& box) {
    for (const ImVec2 corner :
         {box.low, box.high, ImVec2{box.low.x, box.high.y}, ImVec2{box.high.x, box.low.y}})
        if (size_of(corner - place.centre) > place.radius + 1) return false;
    return true;
}

/// Of the faces that look along the axle, the one at the part's low end.
double low_face(const Part& part, const glm::dmat4& place, const MeshLibrary& library) {
    double low = 1e9;
    for (const Body& body : part.bodies)
        for (const Vertex& v : mesh_of(body.solid, 0.05, library).vertices)
            low = std::min(low, (place * body.place * glm::dvec4(v.position, 1)).y);
    return low;
}

}  // namespace

TEST_CASE("the loupe gives each shim's thickness or their count and sum, in its circle") {
    struct Size {
        float radius, scale;
    };
    for (const Size& size : {Size{138, 1}, {89, 1}, {72, 0.9F}, {46, 0.9F}, {38, 0.9F}, {300, 3}}) {
        const Fonts fonts(size.scale);
        RandomSetups random(411);
        for (int n = 0; n < 60; ++n) {
            const Setup setup = random.next();
            const LengthUnit shown = n % 3 == 0 ? LengthUnit::inch : LengthUnit::mm;
            const Evaluation evaluation = evaluate(setup);
            const Seen loupe = seen(fonts.type, setup, evaluation, clamped_pose, size.radius,
                                    n % 2 == 0 ? "axle" : "rear", shown);
            const std::vector<LoupeWord> words =
                float_words(loupe.in, loupe.place, loupe.view, setup, shown);
            INFO("setup " << n << ", radius " << size.radius << ", " << setup.left.shims.size()
                          << " shims");
            std::size_t numbers = 0;
            std::size_t sums = 0;
            for (const LoupeWord& word : words) {
                INFO(word.text);
                const bool sum = word.text.find("shim") != std::string::npos;
                const bool of_gap = word.text.find("blade") == 0 || word.text.find("overlap") == 0;
                if (sum)
                    ++sums;
                else if (!of_gap)
                    ++numbers;
                // The narrowest may touch the rim; what is written on it begins farther out.
                CHECK((in_circle(loupe.place, word.box) || (sum && size.radius < 50)));
                for (const LoupeWord& other : words)
                    if (&other != &word) CHECK_FALSE(word.box.overlaps(other.box));
            }
            if (setup.left.shims.empty())
                CHECK(numbers + sums == 0);
            else if (sums == 0)
                CHECK(numbers == setup.left.shims.size());
            else
                CHECK((sums == 1 && numbers == 0));
        }
    }
}

TEST_CASE("the loupe says what shims come to, where not each has room, in the unit that is shown") {
    Setup setup;
    setup.left.shims = {0.5, 0.5, 0.2};
    const Evaluation evaluation = evaluate(setup);
    // 1.20 / 25.4 = 0.0472.
    for (const auto& [unit, sum] :
         {std::pair{LengthUnit::mm, "1.20 mm"}, {LengthUnit::inch, "0.0472 in"}}) {
        const Fonts fonts(0.9F);
        const Seen loupe = seen(fonts.type, setup, evaluation, clamped_pose, 46, "axle", unit);
        const auto words = float_words(loupe.in, loupe.place, loupe.view, setup, unit);
        REQUIRE_FALSE(words.empty());
        CHECK(words[0].text.find("3 shims") == 0);
        CHECK(words[0].text.find(sum) != std::string::npos);
    }
    // In the usual circle each has room, and the blade as well.
    const Fonts usual(1);
    const Seen loupe = seen(usual.type, setup, evaluation, clamped_pose, 89);
    const auto words = float_words(loupe.in, loupe.place, loupe.view, setup, LengthUnit::mm);
    CHECK(words.size() == 4);
}

TEST_CASE(
    "the loupe names the blade while it is in the gap, and the overlap of an axle that binds") {
    const Fonts fonts(1);
    const auto words_of = [&](const Setup& setup, const Pose& pose) {
        const Evaluation evaluation = evaluate(setup);
        const Seen loupe = seen(fonts.type, setup, evaluation, pose, 138);
        std::vector<std::string> texts;
        for (const LoupeWord& w :
             float_words(loupe.in, loupe.place, loupe.view, setup, LengthUnit::mm))
            texts.push_back(w.text);
        return texts;
    };
    const auto has = [](const std::vector<std::string>& texts, const char* text) {
        return std::count(texts.begin(), texts.end(), text) == 1;
    };
    Setup setup;
    const double F = evaluate(setup).stack.axial_float;
    CHECK(has(words_of(setup, clamped_pose), ("blade " + fixed(F, 2)).c_str()));
    CHECK(words_of(setup, Pose{}).size() == setup.left.shims.size());
    // 64.80 mm of bearings and shims between faces 64.70 apart: half of the 0.10 at either end.
    setup.axial_float.set_by = FloatBy::shoulder;
    setup.axial_float.shoulder = 64.7;
    const std::vector<std::string> texts = words_of(setup, clamped_pose);
    for (const std::string& text : texts) UNSCOPED_INFO(text);
    CHECK(has(texts, "overlap 0.05"));
    // Nothing overlaps where nothing is left but rounding.
    setup.axial_float.shoulder = 64.8 - 1e-12;
    CHECK(words_of(setup, clamped_pose).size() == setup.left.shims.size());
}

TEST_CASE("the float's dimension in the loupe stands on the faces as they are drawn") {
    const MeshLibrary library = asset_library();
    const Fonts fonts(1);
    RandomSetups random(77);
    int binding = 0;
    for (int n = 0; n < 40; ++n) {
        Setup setup = random.next();
        // A tilted axle's faces lean.
        setup.right.holder_step = setup.left.holder_step;
        setup.right.holder_way = setup.left.holder_way;
        if (n % 4 == 0) {
            setup.axial_float.set_by = FloatBy::shoulder;
            setup.axial_float.shoulder = evaluate(setup).stack.thrust_faces - 0.4;
        }
        const Evaluation evaluation = evaluate(setup);
        for (double along : {-1.0, 0.3, 1.0}) {
            const Pose pose{along, 0, 0};
            const Seen loupe = seen(fonts.type, setup, evaluation, pose, 138);
            const Part* hub = evaluation.assembly.find("left.hub");
            REQUIRE(hub);
            INFO("setup " << n << ", along " << along);
            const double face = low_face(*hub, placed(evaluation.assembly, *hub, pose), library);
            CHECK(loupe.view.thrust_face == Approx(face).margin(1e-4));
            const DimensionFigure figure = float_figure(loupe.in, loupe.place, loupe.view);
            CHECK(loupe.place.box().holds(figure.line.from));
            CHECK(loupe.place.box().holds(figure.line.to));
            // Shim, hub and the blade's edge lie at several depths.
            for (double nearer : {-1.0, 0.0, 3.0})
                for (double u : {loupe.view.shim_face, loupe.view.thrust_face}) {
                    const ImVec2 at = loupe.in.at({loupe.view.gap.x + nearer, u, loupe.view.gap.z});
                    CHECK(std::min(std::abs(at.x - figure.line.from.x),
                                   std::abs(at.x - figure.line.to.x)) < 0.75F);
                }
            const auto band = overlap_band(loupe.in, loupe.place, loupe.view);
            const bool overlaps = loupe.view.thrust_face < loupe.view.shim_face;
            CHECK(band.has_value() == overlaps);
            if (band) {
                ++binding;
                CHECK(band->low.x == Approx(figure.line.from.x));
                CHECK(band->high.x == Approx(figure.line.to.x));
            }
        }
    }
    CHECK(binding > 5);
}

TEST_CASE("the loupe covers whole pixels") {
    Canvas canvas;
    const Fonts fonts(0.9F);
    canvas.type = &fonts.type;
    for (float width = 500; width < 1300; width += 37) {
        canvas.box = {{0, 0}, {width, 600}};
        canvas.taken.clear();
        CoverMap cover(canvas.box, 8);
        cover.finish();
        std::optional<LoupePlace> last;
        const LoupePlace place = take_loupe_place(canvas, cover, {}, false, last);
        CHECK(place.centre.x == std::round(place.centre.x));
        CHECK(place.centre.y == std::round(place.centre.y));
        CHECK(place.radius == std::round(place.radius));
        CHECK(canvas.box.holds(canvas.taken.back()));
    }
}
