#pragma once

#include <catch2/catch.hpp>

#include "bench/label_layout.hpp"

/// What every layout must keep to.
inline void check_layout(const podwright::LabelLayout& layout,
                         const podwright::LabelGround& ground) {
    using namespace podwright;
    std::size_t missing = 0;
    for (std::size_t i = 0; i < layout.labels.size(); ++i) {
        const PlacedLabel& a = layout.labels[i];
        if (!a.shown) {
            ++missing;
            continue;
        }
        INFO("label " << i);
        CHECK(ground.frame.holds(a.box));
        for (const PixelBox& fixed : ground.fixed) {
            CHECK_FALSE(fixed.overlaps(a.box));
            if (a.leader) CHECK(length_inside(fixed, *a.leader) == 0);
        }
        for (std::size_t j = 0; j < layout.labels.size(); ++j) {
            const PlacedLabel& b = layout.labels[j];
            if (i == j || !b.shown) continue;
            INFO("and label " << j);
            CHECK_FALSE(a.box.overlaps(b.box));
            if (a.leader) CHECK(length_inside(b.box, *a.leader) == 0);
            if (a.leader && b.leader) CHECK_FALSE(cross_each_other(*a.leader, *b.leader));
        }
    }
    CHECK(layout.left_out == missing);
}
