#include "core/tolerance_study.hpp"

#include <algorithm>

namespace podwright {

namespace {

constexpr int bins = 60;

void set_windows(std::vector<ToleranceStudy>& all, const Setup& s) {
    const Event& event = s.event;
    all[0].low = s.axial_float.low;
    all[0].high = s.axial_float.high;
    all[1].high = event.width_max;
    all[2].low = -event.shift_max;
    all[2].high = event.shift_max;
    all[3].low = event.ride_low;
    all[3].high = event.ride_high;
    all[4].low = s.gears.backlash_low;
    all[4].high = s.gears.backlash_high;
}

}  // namespace

std::vector<ToleranceStudy> study_tolerances(const Setup& setup, const BuildCounts& builds,
                                             std::uint64_t seed, int threads) {
    std::vector<ToleranceStudy> all;
    for (StackUp& up : stack_ups(setup)) all.push_back({std::move(up), {}, {}, 0, 0, {}, {}});
    set_windows(all, setup);
    for (ToleranceStudy& study : all) {
        const StackUp& up = study.stack_up;
        study.worst = worst_case(up);
        study.root_sum_square = root_sum_square(up);
        study.contributions = contributions(up);
        const double spread = std::max(1e-6, 4 * deviation_of(up));
        study.first_bin = up.nominal - spread;
        study.last_bin = up.nominal + spread;
        SamplePlan plan;
        plan.builds = &study == all.data() ? builds.of_float : builds.of_others;
        plan.seed = seed;
        plan.threads = threads;
        plan.low = study.low.value_or(plan.low);
        plan.high = study.high.value_or(plan.high);
        plan.first_bin = study.first_bin;
        plan.last_bin = study.last_bin;
        plan.bins = bins;
        study.sample = sample(up, plan);
        study.outside = wilson(static_cast<double>(study.sample.below + study.sample.above),
                               static_cast<double>(study.sample.builds));
    }
    return all;
}

}  // namespace podwright
