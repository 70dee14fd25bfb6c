#include "core/other_axle.hpp"

namespace podwright {

Axle completed_other_axle(const Setup& setup) {
    const OtherAxle& other = setup.other_axle;
    Axle axle = setup.axle;
    if (other.material) {
        axle.material = *other.material;
        axle.elastic_modulus.reset();
        axle.shear_modulus.reset();
        axle.strength.reset();
    }
    axle.diameter = other.diameter.value_or(axle.diameter);
    axle.waist = other.waist.value_or(axle.waist);
    axle.bore = other.bore.value_or(axle.bore);
    if (other.elastic_modulus) axle.elastic_modulus = other.elastic_modulus;
    if (other.shear_modulus) axle.shear_modulus = other.shear_modulus;
    if (other.strength) axle.strength = other.strength;
    return axle;
}

std::optional<Axle> other_axle_of(const Setup& setup) {
    const OtherAxle& other = setup.other_axle;
    const bool named = other.diameter || other.waist || other.bore || other.material ||
                       other.elastic_modulus || other.shear_modulus || other.strength;
    if (!named) return {};
    return completed_other_axle(setup);
}

Setup with_axles_swapped(Setup setup) {
    const auto other = other_axle_of(setup);
    if (!other) return setup;
    const Axle own = setup.axle;
    setup.axle = *other;
    setup.other_axle = {own.diameter,        own.waist,         own.bore,    own.material,
                        own.elastic_modulus, own.shear_modulus, own.strength};
    return setup;
}

}  // namespace podwright
