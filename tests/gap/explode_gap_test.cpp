#include <catch2/catch.hpp>
#include <string>

#include "gap_support.hpp"
#include "random_setup.hpp"
#include "shape/assembly.hpp"

// The exploded view, measured on the true solids. Derived: what is apart neither touches nor
// overlaps.
namespace podwright {

namespace {

/// The axle stays where it is, and what is threaded on it stays about its line.
bool stays_threaded(const Part& a, const Part& b) { return a.key == "axle" || b.key == "axle"; }

}  // namespace

TEST_CASE("at full spread no part overlaps or touches another") {
    RandomSetups random(20261125);
    for (int round = 0; round < 20; ++round) {
        const Setup setup = round == 0 ? Setup{} : random.next();
        const Stack stack = stack_of(setup);
        const Stance stance = stance_of(setup, stack);
        const Assembly assembly = assemble(setup, stack, stance, drive_of(setup, stack, stance));
        std::vector<MeasuredPart> forms;
        for (const Part& part : assembly.parts) forms.push_back(measured(part, asset_mesh));
        const Pose apart{0, 0, 1};
        for (std::size_t i = 0; i < forms.size(); ++i)
            for (std::size_t j = i + 1; j < forms.size(); ++j) {
                const Part& a = assembly.parts[i];
                const Part& b = assembly.parts[j];
                if (stays_threaded(a, b)) continue;
                const Gap gap = gap_between(forms[i], placed(assembly, a, apart), forms[j],
                                            placed(assembly, b, apart), 1.0);
                INFO("round " << round << ": " << a.key << " and " << b.key << " " << gap.gap);
                CHECK(gap.gap > 0.5);
            }
    }
}

}  // namespace podwright
