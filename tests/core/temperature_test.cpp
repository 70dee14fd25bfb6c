#include "core/temperature.hpp"

#include <catch2/catch.hpp>

#include "core/stance.hpp"
#include "random_setup.hpp"

using namespace podwright;

namespace {

Warmth warmth(const Setup& s) {
    const Stack stack = stack_of(s);
    return warmth_of(s, stack, drive_of(s, stack, stance_of(s, stack)));
}

}  // namespace

TEST_CASE("growth of single lengths") {
    // skf.com, "Verifying the axial displaceability": alpha L dT, 12e-6 for steel; the values are
    // derived from it, with the expansions of the table below.
    CHECK(growth(12, 60, 40) == Approx(0.0288).epsilon(1e-12));
    CHECK(growth(12, 1000, 50) == Approx(0.6).epsilon(1e-12));
    // Al 7075 housing over a 4140 shaft, 60 mm, 40 K: 26.64 µm more; POM over 4140, 20 K: 117.24;
    // carbon along the fibre (-0.5) over 4140: 30.72 less; Ti shaft in Al: 35.52.
    const double steel = data(Material::steel_4140).expansion;
    const double aluminium = data(Material::aluminium_7075).expansion;
    CHECK(growth(aluminium - steel, 60, 40) == Approx(0.02664).epsilon(1e-9));
    CHECK(growth(data(Material::pom).expansion - steel, 60, 20) == Approx(0.11724).epsilon(1e-9));
    CHECK(growth(-0.5 - steel, 60, 40) == Approx(-0.03072).epsilon(1e-9));
    CHECK(growth(aluminium - data(Material::titanium_6al4v).expansion, 60, 40) ==
          Approx(0.03552).epsilon(1e-9));
    // Bore of 9.525 in aluminium against a steel bearing (12), 40 K: 4.3434 µm looser.
    CHECK(growth(aluminium - 12, 9.525, 40) == Approx(0.0043434).epsilon(1e-9));
}

TEST_CASE("isotropic metals have E, G and nu that belong together") {
    // Derived: |G - E / (2 (1 + nu))| / G is 0.7 % for 4130, 0.2 % for 7075 and 3.6 % for titanium;
    // 0.05 is accepted. nu: 0.29 of 4130 from asm.matweb.com (m4130r), 0.342 of titanium (MTP641);
    // 0.33 of 7075, 0.29 of 4140 and 0.34 of brass from memory. A table that gives 50 GPa as the
    // shear modulus of 4130 is out by 60 % (negative control).
    const auto off = [](double E, double G, double nu) {
        return std::abs(G - E / (2 * (1 + nu))) / G;
    };
    const auto of = [&](Material m, double nu) {
        return off(data(m).elastic_modulus, data(m).shear_modulus, nu);
    };
    CHECK(of(Material::steel_4130, 0.29) < 0.05);
    CHECK(of(Material::steel_4140, 0.29) < 0.05);
    CHECK(of(Material::titanium_6al4v, 0.342) < 0.05);
    CHECK(of(Material::aluminium_7075, 0.33) < 0.05);
    CHECK(of(Material::brass, 0.34) < 0.05);
    CHECK(data(Material::steel_4130).shear_modulus > 75);
    for (const MaterialData& m : materials()) {
        INFO(std::string(m.key));
        CHECK_FALSE(m.source.empty());
        CHECK(m.strength > 0);
        CHECK(m.shear_strength > 0);
        CHECK(m.shear_strength <= m.strength);
    }
}

TEST_CASE("metals have the values of the tables") {
    struct Row {
        Material material;
        double density, E, G, expansion, yield;
    };
    // Expansion of 4130, G of 4140 and 7075, all of brass and every yield strength (normalised;
    // annealed; T6; half hard): from memory.
    const Row rows[] = {
        {Material::steel_4130, 7.85, 205, 80, 12.0, 460},  // asm.matweb.com, m4130r
        {Material::steel_4140, 7.85, 207, 80, 12.3, 655},  // Callister, tables B.1, B.2, B.6
        {Material::titanium_6al4v, 4.43, 113.8, 44, 8.6,
         880},  // asm.matweb.com, MTP641 and MTP644; expansion Callister, table B.6
        {Material::aluminium_7075, 2.81, 71.7, 26.9, 23.4,
         503},  // asm.matweb.com; expansion Callister, table B.6
        {Material::brass, 8.44, 105, 39, 20.2, 200},
    };
    for (const Row& row : rows) {
        const MaterialData& m = data(row.material);
        INFO(std::string(m.key));
        CHECK(m.density == row.density);
        CHECK(m.elastic_modulus == row.E);
        CHECK(m.shear_modulus == row.G);
        CHECK(m.expansion == row.expansion);
        CHECK(m.strength == row.yield);
        // Derived: von Mises for a material that is the same all ways.
        CHECK(m.shear_strength == Approx(row.yield / std::sqrt(3.0)).epsilon(1e-12));
    }
}

TEST_CASE("plastics and carbon have values within what is published") {
    // Along the fibres of a tube: the rule of mixtures for 60 % of fibres of 230 GPa in epoxy
    // of 2.41 (Callister, table B.2), derived.
    CHECK(data(Material::carbon_tube).elastic_modulus ==
          Approx(0.6 * 230 + 0.4 * 2.41).epsilon(1e-12));
    struct Row {
        Material material;
        double E_low, E_high, expansion_low, expansion_high, density_low, density_high;
    };
    const Row rows[] = {
        // Moduli 2.5 to 2.86 (scribd.com/doc/479235228 and a plastics handbook), expansion 85 to
        // 110
        // (engineeringtoolbox.com), density from memory.
        {Material::pom, 2.5, 2.86, 85, 110, 1.39, 1.42},
        // Expansion 39 to 40 (engineeringtoolbox.com), the rest from memory.
        {Material::pom_glass, 7, 10, 39, 40, 1.55, 1.62},
        // Modulus: Callister, table B.2; expansion 81 from lon-so.com, up to 144 from memory, as is
        // the density.
        {Material::pa66, 1.59, 3.79, 80, 144, 1.13, 1.15},
        // Expansion 23 along the flow (lon-so.com), the rest from memory.
        {Material::pa66_glass, 9, 10, 23, 23, 1.35, 1.38},
        // From memory.
        {Material::carbon_tube, 130, 145, -0.5, 0.5, 1.5, 1.6},
        {Material::carbon_wrapped, 50, 70, 0, 4, 1.5, 1.6},
        {Material::carbon_plate, 50, 70, 0, 4, 1.5, 1.6},
    };
    for (const Row& row : rows) {
        const MaterialData& m = data(row.material);
        INFO(std::string(m.key));
        CHECK(m.elastic_modulus >= row.E_low);
        CHECK(m.elastic_modulus <= row.E_high);
        CHECK(m.expansion >= row.expansion_low);
        CHECK(m.expansion <= row.expansion_high);
        CHECK(m.density >= row.density_low);
        CHECK(m.density <= row.density_high);
    }
    // Shear of laid-up carbon, GPa: 5 along the fibres only, 5 to 25 by lay-up; from memory.
    CHECK(data(Material::carbon_tube).shear_modulus == 5);
    CHECK(data(Material::carbon_wrapped).shear_modulus >= 5);
    CHECK(data(Material::carbon_wrapped).shear_modulus <= 25);
}

TEST_CASE("the loop by hand") {
    // Pod all aluminium, axle and hubs all of one steel: the hubs' grips cancel against the axle's
    // ends, and what is left is the pod against the axle (derived).
    Setup s;
    s.axle.material = Material::steel_4140;
    s.materials.hub = s.materials.carrier = Material::steel_4140;
    s.materials.floor = s.materials.plates = s.materials.holders = Material::aluminium_7075;
    s.temperature = {20, 20, 60};
    const Stack stack = stack_of(s);
    const double steel = 12.3e-6, aluminium = 23.4e-6;
    const double rings = 2 * 0.9 + 4 * 0.25;  // standouts; shims 0.3 + 0.2 on each side
    const double by_hand = steel * stack.thrust_faces - aluminium * 62 - steel * rings;
    const Warmth w = warmth(s);
    CHECK(w.float_per_kelvin == Approx(by_hand).epsilon(1e-12));
    CHECK(w.float_hot == Approx(0.15 + 40 * by_hand).epsilon(1e-12));
    CHECK(w.float_cold == Approx(0.15).epsilon(1e-12));
    CHECK(w.float_hot < w.float_cold);

    // One material throughout: everything grows alike, and so does the float.
    s.materials.floor = s.materials.plates = s.materials.holders = Material::steel_4140;
    s.materials.spur = s.materials.pinion = Material::steel_4140;
    const Warmth same = warmth(s);
    CHECK(same.float_per_kelvin == Approx(steel * 0.15).epsilon(1e-9));
    CHECK(same.backlash_per_kelvin == Approx(0).margin(1e-12));
}

TEST_CASE("the loop closes for any setup") {
    RandomSetups random(808);
    int settable = 0;
    for (int n = 0; n < 100; ++n) {
        const Setup s = random.next();
        const Stack stack = stack_of(s);
        double sum = 0, slope = 0;
        for (const LoopLength& l : float_loop(s, stack)) {
            sum += l.sense * l.length;
            slope += l.per_kelvin();
        }
        CHECK(sum == Approx(stack.axial_float).margin(1e-9));
        const Warmth w = warmth(s);
        CHECK(w.float_per_kelvin == Approx(slope).margin(1e-15));
        // Set within the range that it gives, the float keeps its window at both ends of the day.
        if (!w.can_be_set()) continue;
        ++settable;
        for (const double set : {w.set_low, (w.set_low + w.set_high) / 2, w.set_high})
            for (const double t : {s.temperature.cold, s.temperature.hot, s.temperature.bench}) {
                const double F = set + w.float_per_kelvin * (t - s.temperature.bench);
                CHECK(F >= s.axial_float.low - 1e-9);
                CHECK(F <= s.axial_float.high + 1e-9);
            }
    }
    CHECK(settable > 50);
}

TEST_CASE("warm gears against the exact mesh") {
    // Gears that grow alike by e have module m (1 + e): backlash from the exact involute relation
    // with the centre distance grown by the plates (derived; the formula is its slope).
    Setup s;
    s.materials.spur = s.materials.pinion = Material::pom;
    s.temperature = {20, 10, 40};
    const Stack stack = stack_of(s);
    const Drive d = drive_of(s, stack, stance_of(s, stack));
    const Warmth w = warmth_of(s, stack, d);
    for (const auto& [t, ours] : {std::pair{10.0, w.backlash_cold}, {40.0, w.backlash_hot}}) {
        const double e = 110e-6 * (t - 20), plates = 23.4e-6 * (t - 20);
        Gear pinion = d.pinion, spur = d.spur;
        pinion.module *= 1 + e;
        spur.module *= 1 + e;
        const double exact = pair_at(pinion, spur, d.mesh.distance * (1 + plates)).backlash;
        CHECK(ours == Approx(exact).margin(4e-4));
        CHECK(std::abs(ours - d.mesh.backlash) > 10 * std::abs(ours - exact));
    }
    CHECK(w.backlash_hot < w.backlash_cold);
}
