#include "evaluate/evaluate.hpp"

#include <algorithm>

#include "core/findings.hpp"
#include "core/readings.hpp"
#include "shape/assembly.hpp"

namespace podwright {

Evaluation evaluate(const Setup& setup, LengthUnit shown) {
    Evaluation e;
    e.stack = stack_of(setup);
    e.stance = stance_of(setup, e.stack);
    e.drive = drive_of(setup, e.stack, e.stance);
    e.readings = readings_of(setup, e.stack, e.stance, e.drive);
    e.findings = findings_of({setup, e.stack, e.stance, e.drive, shown});
    e.assembly = assemble(setup, e.stack, e.stance, e.drive);
    return e;
}

const Reading* Evaluation::reading(std::string_view name) const {
    const auto found = std::find_if(readings.begin(), readings.end(),
                                    [&](const Reading& r) { return r.name == name; });
    return found == readings.end() ? nullptr : &*found;
}

Level Evaluation::worst() const { return findings.empty() ? Level::note : findings.front().level; }

}  // namespace podwright
