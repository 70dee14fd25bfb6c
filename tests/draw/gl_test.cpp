#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <glm/gtc/matrix_transform.hpp>

#include "gl_bench.hpp"
#include "test_meshes.hpp"

using namespace podwright;
using test_meshes::changed;
using test_meshes::count;
using test_meshes::GlBench;

namespace {

glm::mat4 at(float x, float y, float z) { return glm::translate(glm::mat4(1), glm::vec3(x, y, z)); }

// From +x, level, so that y runs to the right and z up.
Camera level(double distance, double field_of_view) {
    Camera camera;
    camera.distance = distance;
    camera.elevation = 0;
    camera.field_of_view = field_of_view;
    return camera;
}

Scene floating() {
    Scene scene;
    scene.show_ground = false;
    return scene;
}

bool is_orange(int red, int green, int blue) { return red > 140 && blue < 90 && green < red - 50; }
bool is_blue(int red, int green, int blue) { return blue > 170 && red < 90 && green < blue; }

}  // namespace

TEST_CASE("GL: a part covers the pixels that it should and no others") {
    GlBench bench(200, 200);
    Scene scene = floating();
    const Camera camera = level(400, 0.3);
    const Image empty = bench.draw(scene, camera);
    const double radius = 20;
    scene.items.push_back(
        {bench.renderer.upload(test_meshes::sphere(radius, 192, 96)), at(0, 0, 0), Look::rubber});
    for (const Quality quality : {Quality::settled, Quality::moving}) {
        const Image image = bench.draw(scene, camera, quality);
        // Seen from distance d a sphere's outline has the tangent of asin(R / d) (derived).
        const double tangent = std::tan(std::asin(radius / camera.distance));
        const double line = quality == Quality::settled ? 0.7 * 200 / 720 : 0;  // round it
        const double pixels = tangent / std::tan(camera.field_of_view / 2) * 100 + line;
        const double area = 3.14159265 * pixels * pixels;
        CHECK(changed(empty, image, 12) == Approx(area).epsilon(0.03));  // one ring of half pixels
        for (const auto& [x, y] : {std::pair{100, 100}, {100, 72}, {72, 100}, {128, 100}})
            CHECK(int{image.at(x, y)[0]} < 150);
        for (const auto& [x, y] : {std::pair{100, 62}, {62, 100}, {138, 100}, {5, 5}, {195, 195}})
            CHECK(std::abs(int{image.at(x, y)[0]} - int{empty.at(x, y)[0]}) <= 2);
    }
}

TEST_CASE("GL: the picture fills its viewport, counted from the top left, and nothing else") {
    const Quality quality = GENERATE(Quality::settled, Quality::moving);
    GlBench bench(120, 80);
    glBindFramebuffer(GL_FRAMEBUFFER, bench.picture.id());
    glClearColor(0, 1, 0, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    // Off the middle, so that nothing falls into its place by symmetry.
    Scene scene;
    scene.items.push_back(
        {bench.renderer.upload(test_meshes::box({20, 30, 30})), at(0, 20, 15), Look::brass});
    Camera camera;
    camera.distance = 300;
    const Viewport view{10, 5, 40, 30};
    bench.renderer.draw(scene, camera, view, quality, bench.picture.id(), 80);
    const Image image = bench.picture.read();
    Framebuffer alone(view.width, view.height);
    bench.renderer.draw(scene, camera, {0, 0, view.width, view.height}, quality, alone.id(),
                        view.height);
    const Image expected = alone.read();
    for (int y = 0; y < 80; ++y)
        for (int x = 0; x < 120; ++x) {
            const bool within = x >= 10 && x < 50 && y >= 5 && y < 35;
            const auto* pixel = image.at(x, y);
            const std::array<std::uint8_t, 4> green{0, 255, 0, 255};
            const auto* wanted = within ? expected.at(x - 10, y - 5) : green.data();
            for (int k = 0; k < 3; ++k)
                if (std::abs(int{pixel[k]} - int{wanted[k]}) > 1) FAIL(x << ", " << y);
        }
    SUCCEED();
}

TEST_CASE("GL: a cut sphere shows a cap of the right area") {
    GlBench bench(400, 400);
    Scene scene = floating();
    // From far away through a narrow angle, so that perspective changes the area by little.
    Camera camera = level(4000, 0.0125);
    const double radius = 20;
    const double offset = 8;
    scene.items.push_back(
        {bench.renderer.upload(test_meshes::sphere(radius, 256, 128)), at(0, 0, 0), Look::brass});
    const Image whole = bench.draw(scene, camera);
    scene.cut = Cut{{1, 0, 0}, static_cast<float>(offset)};
    const Image image = bench.draw(scene, camera);
    // The cap is flat: exactly two colours (face and hatch) and their mixtures, red over green over
    // blue in the ratio of the cap's colour. The section line around it is dark and half outside.
    const int cap = count(image, [](int r, int g, int b) {
        return std::abs(g - r * 0.80 / 0.90) < 4 && std::abs(b - r * 0.53 / 0.90) < 4;
    });
    const int ink = count(image, [](int r, int, int) { return r < 90; });
    const double per_mm = 200 / std::tan(camera.field_of_view / 2) / (camera.distance - offset);
    const double area = 3.14159265 * (radius * radius - offset * offset) * per_mm * per_mm;
    CHECK(cap + 0.5 * ink == Approx(area).epsilon(0.01));
    CHECK(changed(whole, image) > 0.9 * area);
    scene.items[0].cut = false;
    CHECK(changed(whole, bench.draw(scene, camera)) == 0);
}

TEST_CASE("GL: the cap of a part that sits tight in another is not eaten by it") {
    GlBench bench(200, 200);
    Scene scene = floating();
    const Camera camera = level(1000, 0.05);
    scene.items.push_back({bench.renderer.upload(test_meshes::tube(20, 10, 30, 96)), at(0, 0, 0),
                           Look::black_plastic});
    scene.items.push_back(
        {bench.renderer.upload(test_meshes::tube(10, 0, 30, 96)), at(0, 0, 0), Look::brass});
    scene.cut = Cut{{1, 0, 0}, 0};
    const Image image = bench.draw(scene, camera);
    const int brass = count(image, [](int r, int, int b) { return r > b + 40; });
    const double per_mm = 100 / std::tan(camera.field_of_view / 2) / camera.distance;
    const double area = 20 * 30 * per_mm * per_mm;
    CHECK(brass > 0.93 * area);  // the section line takes the rest
    CHECK(brass < 1.01 * area);
}

TEST_CASE("GL: of what the cut takes away not a speck is left") {
    // Walls seen along them: their depth between the samples is anything.
    GlBench bench(600, 400);
    const glm::mat4 along_y = glm::rotate(glm::mat4(1), 1.5708F, glm::vec3(1, 0, 0));
    std::vector<Item> rings;
    for (int radius = 6; radius <= 26; radius += 2)
        rings.push_back(
            {bench.renderer.upload(test_meshes::tube(radius, radius - 1, 24, 96)), along_y});
    int specks = 0;
    for (const double azimuth : {-1.52, -1.5, -1.48, -1.46, -1.44}) {
        Scene scene = floating();
        scene.cut = Cut{{1, 0, 0}, 0};
        Camera camera;
        camera.azimuth = azimuth;
        camera.elevation = 0.12;
        camera.distance = 160;
        const Image empty = bench.draw(scene, camera);
        scene.items = rings;
        const Image image = bench.draw(scene, camera);
        CHECK(changed(empty, image) > 5000);
        // The lines along the cut reach a little beyond it.
        const int first = static_cast<int>(to_screen(camera, {0, 12, 0}, {600, 400}).x) + 8;
        for (int y = 0; y < 400; ++y)
            for (int x = first; x < 600; ++x)
                specks += std::abs(int{image.at(x, y)[0]} - int{empty.at(x, y)[0]}) > 2 ? 1 : 0;
    }
    CHECK(specks == 0);
}

TEST_CASE("GL: parts darken the ground below them and not far away") {
    GlBench bench(240, 160);
    Scene scene;
    Camera camera;
    camera.distance = 400;
    camera.elevation = 0.7;
    const Image empty = bench.draw(scene, camera);
    scene.items.push_back(
        {bench.renderer.upload(test_meshes::box({30, 30, 4})), at(0, 0, 12), Look::white_plastic});
    const Image image = bench.draw(scene, camera);
    const auto ground = to_screen(camera, {16, 0, 0}, {240, 160});
    const auto x = static_cast<int>(ground.x);
    const auto y = static_cast<int>(ground.y);
    CHECK(image.at(x, y)[1] + 20 < empty.at(x, y)[1]);
    CHECK(std::abs(image.at(5, 5)[1] - empty.at(5, 5)[1]) <= 2);
    const auto casts_none = [&] {
        return std::abs(bench.draw(scene, camera).at(x, y)[1] - empty.at(x, y)[1]) <= 2;
    };
    scene.items[0].emphasis = Emphasis::faded;
    CHECK(casts_none());
    scene.items[0].emphasis = Emphasis::picked;
    CHECK_FALSE(casts_none());
    scene.items[0].casts_shadow = false;
    CHECK(casts_none());
}

TEST_CASE("GL: whatever is below the ground is hidden") {
    const Emphasis emphasis = GENERATE(Emphasis::normal, Emphasis::faded, Emphasis::ghost);
    const Quality quality = GENERATE(Quality::settled, Quality::moving);
    GlBench bench(200, 150);
    Scene scene;
    Camera camera;
    camera.distance = 300;
    camera.elevation = 0.3;
    const Image empty = bench.draw(scene, camera, quality);
    scene.items.push_back({bench.renderer.upload(test_meshes::sphere(15, 64, 32)), at(0, 0, 0),
                           Look::black_plastic, emphasis, true, false});
    const Image half = bench.draw(scene, camera, quality);
    scene.show_ground = false;
    const Image whole = bench.draw(scene, camera, quality);
    // Of the sphere's nearest point at that height, in all colours.
    const auto seen = [&](const Image& image, double z) {
        const auto p = to_screen(camera, {std::sqrt(15 * 15 - z * z), 0, z}, {200, 150});
        const auto* a = image.at(static_cast<int>(p.x), static_cast<int>(p.y));
        const auto* b = empty.at(static_cast<int>(p.x), static_cast<int>(p.y));
        return std::abs(int{a[0]} - int{b[0]}) + std::abs(int{a[1]} - int{b[1]}) +
               std::abs(int{a[2]} - int{b[2]});
    };
    CHECK(seen(half, -8) <= 3);
    CHECK(seen(whole, -8) > 10);
    CHECK(seen(half, 8) > 10);
}

TEST_CASE("GL: of two faces 0.05 mm apart the nearer one shows, at bench distance") {
    GlBench bench(300, 200);
    const MeshId box = bench.renderer.upload(test_meshes::box({20, 100, 60}));
    Camera camera;
    camera.distance = 450;
    for (const double azimuth : {0.0, 0.6, -1.0}) {
        camera.azimuth = azimuth;
        Scene scene = floating();
        scene.items.push_back({box, at(0, 0, 0), Look::brass});
        const Image brass = bench.draw(scene, camera);
        scene.items.push_back({box, at(-0.05F, 0, 0), Look::black_plastic});
        // An axle and wheels behind make the scene as deep as it really is.
        scene.items.push_back({box, at(-150, 0, 0), Look::brass});
        const Image both = bench.draw(scene, camera);
        const glm::dvec2 size(300, 200);
        int wrong = 0;
        for (int y = -45; y <= 45; y += 3)
            for (int z = -25; z <= 25; z += 3) {
                const auto p = to_screen(camera, {10, y, z}, size);
                const auto* a = brass.at(static_cast<int>(p.x), static_cast<int>(p.y));
                const auto* b = both.at(static_cast<int>(p.x), static_cast<int>(p.y));
                wrong += std::abs(a[0] - b[0]) > 12 ? 1 : 0;  // black would differ by over 100
            }
        CHECK(wrong == 0);
    }
}

TEST_CASE("GL: hidden edges do not show through, and edges can be seen at all") {
    GlBench bench(300, 300);
    const Mesh with_edges = test_meshes::box({40, 40, 40});
    Mesh without = with_edges;
    without.edges.clear();
    Camera camera = level(400, 0.2);
    camera.azimuth = 0.5;
    camera.elevation = 0.4;
    Scene scene = floating();
    scene.items.push_back({bench.renderer.upload(without), at(0, 0, 0), Look::white_plastic});
    const Image plain = bench.draw(scene, camera);
    scene.items[0].mesh = bench.renderer.upload(with_edges);
    const Image lined = bench.draw(scene, camera);
    CHECK(changed(plain, lined) > 600);
    // Middle of the hidden upright edge, and of the three faces in sight.
    for (const auto& point : {glm::dvec3(-20, -20, 0), glm::dvec3(20, 0, 0), glm::dvec3(0, 20, 0),
                              glm::dvec3(0, 0, 20)}) {
        const auto p = to_screen(camera, point, {300, 300});
        const auto x = static_cast<int>(p.x);
        const auto y = static_cast<int>(p.y);
        CHECK(std::abs(plain.at(x, y)[0] - lined.at(x, y)[0]) <= 2);
    }
    const auto near_edge = to_screen(camera, {20, 20, 0}, {300, 300});
    int darker = 0;
    for (int dx = -2; dx <= 2; ++dx) {
        const auto x = static_cast<int>(near_edge.x) + dx;
        const auto y = static_cast<int>(near_edge.y);
        darker = std::max(darker, plain.at(x, y)[0] - lined.at(x, y)[0]);
    }
    CHECK(darker > 20);
}

TEST_CASE("GL: emphasis can be seen, the alarm by stripes and colour, the picked by its outline") {
    GlBench bench(300, 300);
    const Camera camera = level(400, 0.2);
    Scene scene = floating();
    scene.items.push_back(
        {bench.renderer.upload(test_meshes::sphere(25, 96, 48)), at(0, 0, 0), Look::black_plastic});
    const Image normal = bench.draw(scene, camera);
    const auto with = [&](Emphasis emphasis) {
        scene.items[0].emphasis = emphasis;
        return bench.draw(scene, camera);
    };
    const int covered = 3000;  // about a third of the sphere's 9000 pixels or so
    CHECK(changed(normal, with(Emphasis::hovered)) > covered);

    const Image alarm = with(Emphasis::alarm);
    CHECK(count(alarm, is_orange) > covered);
    int turns = 0;  // from stripe to gap and back along the middle row
    for (int x = 90; x < 210; ++x) {
        const auto* a = alarm.at(x, 150);
        const auto* b = alarm.at(x + 1, 150);
        turns += is_orange(a[0], a[1], a[2]) != is_orange(b[0], b[1], b[2]) ? 1 : 0;
    }
    CHECK(turns >= 6);

    const Image picked = with(Emphasis::picked);
    CHECK(count(picked, is_blue) > 250);  // the outline alone is longer than that
    scene.items.push_back(
        {bench.renderer.upload(test_meshes::box({10, 90, 90})), at(60, 0, 0), Look::white_plastic});
    CHECK(changed(with(Emphasis::picked), with(Emphasis::normal)) > 150);  // outline shows through

    scene.items[1] = {scene.items[0].mesh, at(-60, 0, 0), Look::brass};
    const Image faded = with(Emphasis::faded);
    const auto* middle = faded.at(150, 150);
    CHECK(middle[0] > middle[2] + 25);  // brass is seen through the black ball
}

TEST_CASE("GL: the same scene gives the same bytes, and changes come back") {
    GlBench bench(160, 120);
    Camera camera;
    camera.distance = 200;
    Scene scene;
    scene.items.push_back(
        {bench.renderer.upload(test_meshes::torus(20, 7, 64, 32)), at(0, 0, 7), Look::copper});
    for (const Quality quality : {Quality::settled, Quality::moving}) {
        const Image first = bench.draw(scene, camera, quality);
        CHECK(changed(first, bench.draw(scene, camera, quality), 0) == 0);
    }
    const Image before = bench.draw(scene, camera);
    scene.items[0].place = at(0, 0, 20);
    CHECK(changed(before, bench.draw(scene, camera)) > 100);
    scene.items[0].place = at(0, 0, 7);
    CHECK(changed(before, bench.draw(scene, camera), 0) == 0);
}

TEST_CASE("GL: once it is rehearsed, a picture needs no new program") {
    const bool cut = GENERATE(false, true);
    GlBench bench(200, 150);
    bench.renderer.rehearse(test_meshes::box({2, 2, 2}), cut, true);
    Scene scene;
    Item item;
    item.mesh = bench.renderer.upload(test_meshes::box({20, 20, 20}));
    for (const Look look : {Look::aluminium, Look::carbon, Look::foam, Look::black_plastic}) {
        item.look = look;
        item.place = at(0, 25 * static_cast<float>(scene.items.size()), 10);
        item.relief = look == Look::black_plastic ? Relief::screw : Relief::none;
        item.cut = look != Look::aluminium;
        scene.items.push_back(item);
    }
    if (cut) scene.cut = Cut{{1, 0, 0}, 0};
    Camera camera;
    camera.distance = 300;
    const auto programs = [] {
        int count = 0;
        for (GLuint name = 1; name < 1000; ++name) count += glIsProgram(name) == GL_TRUE ? 1 : 0;
        return count;
    };
    const int rehearsed = programs();
    CHECK(rehearsed > 10);
    bench.draw(scene, camera);
    bench.renderer.draw_round(scene, camera, {8, 8, 40, 40}, bench.picture.id(), 150);
    CHECK(programs() == rehearsed);
}

TEST_CASE("GL: a buffer is made again when it is to be of another kind") {
    const HeadlessContext context;
    Framebuffer picture;
    resize(picture, 30, 20);
    const GLuint first = picture.texture();
    resize(picture, 30, 20);
    CHECK(picture.texture() == first);
    resize(picture, 30, 20, Framebuffer::Depth::with_stencil, 4);
    CHECK(picture.samples() == 4);
    resize(picture, 30, 20);
    CHECK(picture.samples() == 1);
    CHECK(picture.width() == 30);
}

TEST_CASE("GL: uploading, drawing and dropping leave no error and the state as promised") {
    const Quality quality = GENERATE(Quality::settled, Quality::moving);
    GlBench bench(64, 64);
    Camera camera;
    camera.distance = 200;
    Scene scene;
    scene.cut = Cut{};
    for (const Emphasis emphasis : {Emphasis::normal, Emphasis::picked, Emphasis::faded})
        scene.items.push_back({bench.renderer.upload(test_meshes::tube(12, 8, 9, 48)), at(0, 0, 8),
                               Look::carbon, emphasis});
    glViewport(1, 2, 3, 4);
    bench.draw(scene, camera, quality);
    bench.renderer.draw_round(scene, camera, {8, 8, 40, 40}, bench.picture.id(), 64);
    CHECK(glGetError() == GL_NO_ERROR);
    for (const GLenum name : {GL_DEPTH_TEST, GL_BLEND, GL_SCISSOR_TEST, GL_STENCIL_TEST,
                              GL_CULL_FACE, GL_POLYGON_OFFSET_FILL})
        CHECK_FALSE(glIsEnabled(name));
    GLint viewport[4] = {};
    glGetIntegerv(GL_VIEWPORT, viewport);
    CHECK((viewport[0] == 1 && viewport[1] == 2 && viewport[2] == 3 && viewport[3] == 4));
    GLboolean mask[4] = {};
    glGetBooleanv(GL_COLOR_WRITEMASK, mask);
    CHECK((mask[0] && mask[1] && mask[2] && mask[3]));
    GLint program = -1;
    glGetIntegerv(GL_CURRENT_PROGRAM, &program);
    CHECK(program == 0);
    for (const GLenum name :
         {GL_TEXTURE_BINDING_2D, GL_TEXTURE_BINDING_2D_MULTISAMPLE, GL_TEXTURE_BINDING_3D,
          GL_VERTEX_ARRAY_BINDING, GL_ARRAY_BUFFER_BINDING, GL_BLEND_DST_RGB}) {
        GLint bound = -1;
        glGetIntegerv(name, &bound);
        INFO(name);
        CHECK(bound == 0);
    }
    for (const Item& item : scene.items) bench.renderer.drop(item.mesh);
    const Image dropped = bench.draw(scene, camera);  // ids that are gone draw nothing
    CHECK(changed(dropped, bench.draw(Scene{}, camera), 0) == 0);
    CHECK(glGetError() == GL_NO_ERROR);
    CHECK(bench.renderer.description().find("OpenGL") == 0);
}

TEST_CASE("GL: the loupe draws within its circle and tells 0.15 mm apart") {
    GlBench bench(200, 200);
    glBindFramebuffer(GL_FRAMEBUFFER, bench.picture.id());
    glClearColor(0, 1, 0, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    // Two blocks with a gap of 0.15 mm about y = 60; the picture is 1 mm high.
    Camera camera = level(300, 2 * std::atan(0.5 / 300));
    camera.target = {10, 60, 20};
    Scene scene = floating();
    const MeshId box = bench.renderer.upload(test_meshes::box({20, 30, 30}));
    scene.items.push_back({box, at(0, 60 - 15 - 0.075F, 20), Look::black_plastic});
    scene.items.push_back({box, at(0, 60 + 15 + 0.075F, 20), Look::black_plastic});
    bench.renderer.draw_round(scene, camera, {0, 0, 200, 200}, bench.picture.id(), 200);
    const Image image = bench.picture.read();
    CHECK((image.at(5, 5)[0] == 0 && image.at(5, 5)[1] == 255));
    CHECK((image.at(195, 195)[0] == 0 && image.at(195, 195)[1] == 255));
    int light = 0;
    for (int x = 0; x < 200; ++x) light += image.at(x, 100)[0] > 200 ? 1 : 0;
    // 0.15 mm at 200 pixels a millimetre is 30 pixels; the edge lines take up to two at each side
    // and perspective shows less of the far end.
    CHECK(light >= 25);
    CHECK(light <= 31);
}

TEST_CASE("GL: a picture of no size or of impossible size is refused with a sentence") {
    const HeadlessContext context;
    CHECK_THROWS_AS(Framebuffer(0, 100), DrawError);
    CHECK_THROWS_AS(Framebuffer(100, 1 << 20), DrawError);
    CHECK_NOTHROW(require_opengl());
}
