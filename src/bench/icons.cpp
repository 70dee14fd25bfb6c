#include "bench/icons.hpp"

#include <algorithm>
#include <initializer_list>

#include "bench/plane.hpp"

namespace podwright {

namespace {

/// A pen on a field of 24 by 24, the middle at 12, 12.
class Pen {
public:
    Pen(ImDrawList& list, ImVec2 at, float size, ImU32 colour)
        : list_(list), at_(at), unit_(size / 24), colour_(colour) {}

    void line(std::initializer_list<ImVec2> points, bool closed = false) const {
        for (const ImVec2 p : points) list_.PathLineTo(to(p));
        list_.PathStroke(colour_, closed ? ImDrawFlags_Closed : 0, width());
    }
    void fill(std::initializer_list<ImVec2> points) const {
        for (const ImVec2 p : points) list_.PathLineTo(to(p));
        list_.PathFillConvex(colour_);
    }
    void ring(ImVec2 centre, float radius) const {
        list_.AddCircle(to(centre), radius * unit_, colour_, 0, width());
    }
    void dot(ImVec2 centre, float radius) const {
        list_.AddCircleFilled(to(centre), radius * unit_, colour_);
    }
    /// Angles in quarter turns, clockwise from the right.
    void arc(ImVec2 centre, float radius, float from, float to_quarter) const {
        constexpr float quarter = 1.5707963F;
        list_.PathArcTo(to(centre), radius * unit_, from * quarter, to_quarter * quarter);
        list_.PathStroke(colour_, 0, width());
    }
    void box(ImVec2 low, ImVec2 high, float rounding = 1) const {
        list_.AddRect(to(low), to(high), colour_, rounding * unit_, 0, width());
    }

private:
    ImVec2 to(ImVec2 p) const { return at_ + (p - ImVec2{12, 12}) * unit_; }
    float width() const { return std::max(1.0F, 1.9F * unit_); }

    ImDrawList& list_;
    ImVec2 at_;
    float unit_;
    ImU32 colour_;
};

void draw_arrow_back(const Pen& pen, bool forward) {
    const auto x = [&](float value) { return forward ? 24 - value : value; };
    pen.line({{x(9), 5}, {x(4), 10}, {x(9), 15}});
    pen.line({{x(4), 10}, {x(15), 10}});
    if (forward)
        pen.arc({x(15), 14.5F}, 4.5F, 1, 3);
    else
        pen.arc({x(15), 14.5F}, 4.5F, -1, 1);
    pen.line({{x(15), 19}, {x(9), 19}});
}

void draw_disk(const Pen& pen, bool with_more) {
    pen.line({{4, 4}, {16, 4}, {20, 8}, {20, with_more ? 12.0F : 20.0F}});
    pen.line({{4, 4}, {4, 20}, {with_more ? 12.0F : 20.0F, 20}});
    pen.line({{8, 4}, {8, 9}, {15, 9}, {15, 4}});
    if (with_more) {
        pen.line({{18, 15}, {18, 22}});
        pen.line({{14.5F, 18.5F}, {21.5F, 18.5F}});
    } else {
        pen.line({{8, 20}, {8, 14}, {16, 14}, {16, 20}});
    }
}

void draw_link(const Pen& pen, bool broken) {
    pen.arc({8, 12}, 4.5F, 1, 3);
    pen.arc({16, 12}, 4.5F, -1, 1);
    pen.line({{8, 7.5F}, {10.5F, 7.5F}});
    pen.line({{8, 16.5F}, {10.5F, 16.5F}});
    pen.line({{13.5F, 7.5F}, {16, 7.5F}});
    pen.line({{13.5F, 16.5F}, {16, 16.5F}});
    if (broken)
        pen.line({{14, 4}, {10, 20}});
    else
        pen.line({{8.5F, 12}, {15.5F, 12}});
}

void draw_double_arrow(const Pen& pen, float y, float left, float right) {
    pen.line({{left, y}, {right, y}});
    pen.line({{left + 3.5F, y - 3}, {left, y}, {left + 3.5F, y + 3}});
    pen.line({{right - 3.5F, y - 3}, {right, y}, {right - 3.5F, y + 3}});
}

void draw_rays(const Pen& pen) {
    for (int i = 0; i < 8; ++i) {
        const float angle = 0.7853982F * static_cast<float>(i);
        const ImVec2 way{std::cos(angle), std::sin(angle)};
        pen.line({ImVec2{12, 12} + way * 7.5F, ImVec2{12, 12} + way * 10});
    }
}

}  // namespace

void draw_icon(ImDrawList& list, Icon icon, ImVec2 at, float size, ImU32 colour) {
    const Pen pen(list, at, size, colour);
    switch (icon) {
        case Icon::open:
            pen.line({{3, 18}, {3, 5}, {9, 5}, {11, 8}, {18, 8}, {18, 11}});
            pen.line({{3, 18}, {6.5F, 11}, {22, 11}, {18.5F, 18}}, true);
            break;
        case Icon::save: draw_disk(pen, false); break;
        case Icon::save_as: draw_disk(pen, true); break;
        case Icon::undo: draw_arrow_back(pen, false); break;
        case Icon::redo: draw_arrow_back(pen, true); break;
        case Icon::play: pen.fill({{8, 5}, {19, 12}, {8, 19}}); break;
        case Icon::pause:
            pen.fill({{7, 6}, {10.5F, 6}, {10.5F, 18}, {7, 18}});
            pen.fill({{13.5F, 6}, {17, 6}, {17, 18}, {13.5F, 18}});
            break;
        case Icon::link: draw_link(pen, false); break;
        case Icon::unlink: draw_link(pen, true); break;
        case Icon::dimensions:
            pen.line({{4, 5}, {4, 19}});
            pen.line({{20, 5}, {20, 19}});
            draw_double_arrow(pen, 12, 5, 19);
            break;
        case Icon::loupe:
            pen.ring({10.5F, 10.5F}, 6.5F);
            pen.line({{15.2F, 15.2F}, {21, 21}});
            break;
        case Icon::room:
            pen.box({2.5F, 5}, {8, 19});
            pen.box({16, 5}, {21.5F, 19});
            pen.line({{9.5F, 12}, {14.5F, 12}});
            pen.dot({9.7F, 12}, 1.6F);
            pen.dot({14.3F, 12}, 1.6F);
            break;
        case Icon::heat:
            pen.line({{9, 13}, {9, 5}});
            pen.arc({12, 5}, 3, 2, 4);
            pen.line({{15, 5}, {15, 13}});
            pen.ring({12, 16.5F}, 4.5F);
            pen.dot({12, 16.5F}, 2.2F);
            pen.line({{12, 16}, {12, 8}});
            break;
        case Icon::explode:
            pen.box({9.5F, 7}, {14.5F, 17});
            pen.line({{7, 12}, {2, 12}});
            pen.line({{5, 9}, {2, 12}, {5, 15}});
            pen.line({{17, 12}, {22, 12}});
            pen.line({{19, 9}, {22, 12}, {19, 15}});
            break;
        case Icon::cutaway:
            pen.line({{12, 3}, {12, 21}});
            pen.arc({12, 12}, 8, 1, 3);
            pen.line({{12, 8}, {16, 4.8F}});
            pen.line({{12, 14}, {19.3F, 8.2F}});
            pen.line({{12, 20}, {19.6F, 14}});
            break;
        case Icon::envelope:
            pen.ring({12, 12}, 3.5F);
            pen.arc({12, 12}, 8.5F, 2.3F, 3.7F);
            pen.arc({12, 12}, 8.5F, 0.3F, 1.7F);
            pen.line({{3, 9}, {3, 15}});
            pen.line({{21, 9}, {21, 15}});
            break;
        case Icon::slide:
            pen.line({{3, 6}, {3, 18}});
            pen.line({{21, 6}, {21, 18}});
            draw_double_arrow(pen, 12, 6, 18);
            break;
        case Icon::ghost:
            pen.box({3, 8}, {15, 20});
            pen.line({{8, 5}, {8, 4}, {10, 4}});
            pen.line({{13, 4}, {16, 4}});
            pen.line({{19, 4}, {20, 4}, {20, 6}});
            pen.line({{20, 9}, {20, 12}});
            pen.line({{20, 15}, {20, 16}, {18, 16}});
            break;
        case Icon::isolate:
            pen.line({{3, 8}, {3, 3}, {8, 3}});
            pen.line({{16, 3}, {21, 3}, {21, 8}});
            pen.line({{21, 16}, {21, 21}, {16, 21}});
            pen.line({{8, 21}, {3, 21}, {3, 16}});
            pen.dot({12, 12}, 4);
            break;
        case Icon::sun:
            pen.ring({12, 12}, 4.2F);
            draw_rays(pen);
            break;
        case Icon::moon:
            pen.arc({11.5F, 12.5F}, 8, 0.35F, 3.1F);
            pen.arc({16.2F, 8}, 7.2F, 0.92F, 2.53F);
            break;
        case Icon::help:
            pen.arc({12, 9}, 4.5F, 2, 4.6F);
            pen.line({{14.3F, 12.6F}, {12, 14.5F}, {12, 16}});
            pen.dot({12, 19.5F}, 1.3F);
            break;
        case Icon::plus:
            pen.line({{12, 5}, {12, 19}});
            pen.line({{5, 12}, {19, 12}});
            break;
        case Icon::camera:
            pen.box({2.5F, 7}, {21.5F, 19}, 2);
            pen.ring({12, 13}, 3.6F);
            pen.line({{8, 7}, {9.5F, 4.5F}, {14.5F, 4.5F}, {16, 7}});
            break;
        case Icon::eye:
            pen.arc({12, 18}, 11, 2.5F, 3.5F);
            pen.arc({12, 6}, 11, 0.5F, 1.5F);
            pen.ring({12, 12}, 2.8F);
            break;
        case Icon::wrench:
            pen.arc({16.5F, 7.5F}, 4.5F, -0.1F, 2.9F);
            pen.line({{16, 3.2F}, {16, 8}, {20.8F, 8}});
            pen.line({{13.2F, 10.6F}, {4.5F, 19.3F}});
            break;
    }
}

}  // namespace podwright
