#include "bench/picture.hpp"

#include <future>
#include <list>
#include <utility>
#include <vector>

#include "bench/easel.hpp"
#include "bench/load_case.hpp"
#include "bench/views.hpp"
#include "file/asset_library.hpp"
#include "file/disk.hpp"

namespace podwright {

std::span<const std::string_view> view_names() {
    static const std::vector<std::string_view> names = [] {
        std::vector<std::string_view> all;
        for (const NamedView& view : named_views()) all.push_back(view.name);
        return all;
    }();
    return names;
}

std::span<const std::string_view> load_names() {
    static const std::vector<std::string_view> names = [] {
        std::vector<std::string_view> all;
        all.reserve(all_load_cases.size());
        for (const LoadCase which : all_load_cases) all.push_back(key(which));
        return all;
    }();
    return names;
}

Model model_for(const PictureRequest& request, Meter& meter, Scales& scales) {
    Model model(request.setup, &meter, &scales);
    if (request.ghost) keep_ghost(model, *request.ghost);
    const NamedView& view = named_view(request.view);
    const double aspect = static_cast<double>(request.width) / request.height;
    const Composition composition =
        request.load ? composed_for_load(view, aspect, request.explode, request.labels)
                     : composed(view, aspect, request.explode, request.labels);
    model.view = request.view;
    model.dark = request.dark;
    if (request.shown != model.shown) set_unit(model, request.shown);
    model.camera = camera_of(request.view, model.evaluation, composition);
    model.look.pose = request.explode > 0 ? Pose{} : clamped_pose;
    model.look.pose.spread = request.explode;
    model.look.see_through.assign(view.see_through.begin(), view.see_through.end());
    if (request.load) {
        show_load_case(model, request.load, 0);
        model.felt_glide.reset();
        put_load(model, 1);
    }
    model.cutaway = request.cutaway || wants_cut(request.view) ? 1 : 0;
    return model;
}

void write_picture(const PictureRequest& request) {
    const MeshLibrary library = asset_library();
    Meter meter(library);
    Scales scales(library);
    struct Work {
        Model model;
        std::list<Meshed> meshes;
    };
    // The driver's compiler and the calculations take about as long: each gets a thread.
    std::future<Work> work = std::async(std::launch::async, [&] {
        Work done{model_for(request, meter, scales), {}};
        done.meshes =
            meshed(done.model.evaluation.assembly, library, chord_error_for(request.height));
        return done;
    });
    Easel easel(request.width, request.height, library);
    easel.rehearse(request.cutaway || wants_cut(request.view), request.labels);
    Work done = work.get();
    easel.take(std::move(done.meshes));
    const std::vector<std::uint8_t> png = png_bytes(easel.draw(done.model, request.labels));
    write_file(request.output, {reinterpret_cast<const char*>(png.data()), png.size()});
}

}  // namespace podwright
