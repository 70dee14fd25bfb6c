#include "bench/picture_key.hpp"

namespace podwright {

namespace {

bool same_camera(const Camera& a, const Camera& b) {
    return a.target == b.target && a.distance == b.distance && a.azimuth == b.azimuth &&
           a.elevation == b.elevation && a.field_of_view == b.field_of_view;
}

bool same_cut(const std::optional<Cut>& a, const std::optional<Cut>& b) {
    return a.has_value() == b.has_value() &&
           (!a || (a->normal == b->normal && a->offset == b->offset));
}

bool same_look(const StageLook& a, const StageLook& b) {
    return a.pose.along == b.pose.along && a.pose.turn == b.pose.turn &&
           a.pose.spread == b.pose.spread && same_cut(a.cut, b.cut) && a.hovered == b.hovered &&
           a.picked == b.picked && a.alarmed == b.alarmed && a.hidden == b.hidden &&
           a.see_through == b.see_through && a.whole == b.whole && a.ghost == b.ghost &&
           a.dark == b.dark && a.bend == b.bend && a.paint == b.paint && a.ground == b.ground;
}

}  // namespace

bool same(const PictureKey& a, const PictureKey& b) {
    return a.revision == b.revision && a.width == b.width && a.height == b.height &&
           same_camera(a.camera, b.camera) && same_look(a.look, b.look);
}

}  // namespace podwright
