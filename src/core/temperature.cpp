#include "core/temperature.hpp"

#include <algorithm>
#include <cmath>

namespace podwright {

namespace {

double expansion_of(Material material) { return data(material).expansion; }

void add_side(std::vector<LoopLength>& loop, const Setup& setup, const SideStack& stack,
              const AxleSide& side, const std::string& at, Material clamped) {
    const double steel = expansion_of(Material::steel_4140);
    const Pod& pod = setup.pod;
    const double lip = side.seat - pod.plate_inner - pod.plate_thickness;
    loop.push_back(
        {at + "half of the floor", pod.plate_inner, expansion_of(setup.materials.floor), -1});
    loop.push_back({at + "plate", pod.plate_thickness, expansion_of(setup.materials.plates), -1});
    loop.push_back({at + "holder lip", lip, expansion_of(setup.materials.holders), -1});
    loop.push_back({at + "standout", side.standout, steel, -1});
    loop.push_back({at + "shims", stack.shims, steel, -1});
    loop.push_back({at + "grip", side.reach / 2, expansion_of(clamped), -1});
}

}  // namespace

double growth(double expansion, double length, double kelvin) {
    return expansion * 1e-6 * length * kelvin;
}

std::vector<LoopLength> float_loop(const Setup& setup, const Stack& stack) {
    std::vector<LoopLength> loop;
    loop.reserve(13);
    loop.push_back({"axle between its grips",
                    stack.thrust_faces + (setup.left.reach + setup.right.reach) / 2,
                    expansion_of(setup.axle.material), 1});
    add_side(loop, setup, stack.left, setup.left, "left ", setup.materials.hub);
    add_side(loop, setup, stack.right, setup.right, "right ", setup.materials.carrier);
    return loop;
}

Warmth warmth_of(const Setup& setup, const Stack& stack, const Drive& drive) {
    Warmth w;
    w.loop = float_loop(setup, stack);
    for (const LoopLength& length : w.loop) w.float_per_kelvin += length.per_kelvin();
    const double cold = setup.temperature.cold - setup.temperature.bench,
                 hot = setup.temperature.hot - setup.temperature.bench;
    const double to_cold = w.float_per_kelvin * cold, to_hot = w.float_per_kelvin * hot;
    w.float_cold = stack.axial_float + to_cold;
    w.float_hot = stack.axial_float + to_hot;

    const double least = std::min({0.0, to_cold, to_hot}), most = std::max({0.0, to_cold, to_hot});
    w.set_low = setup.axial_float.low - least;
    w.set_high = setup.axial_float.high - most;
    w.bind_low = -least;

    const double apart = growth(expansion_of(setup.materials.plates), drive.mesh.distance, 1) -
                         growth(expansion_of(setup.materials.pinion), drive.pinion_radius(), 1) -
                         growth(expansion_of(setup.materials.spur), drive.spur_radius(), 1);
    w.backlash_per_kelvin = 2 * std::tan(drive.mesh.pressure_angle) * apart;
    w.backlash_cold = drive.mesh.backlash + w.backlash_per_kelvin * cold;
    w.backlash_hot = drive.mesh.backlash + w.backlash_per_kelvin * hot;
    return w;
}

}  // namespace podwright
