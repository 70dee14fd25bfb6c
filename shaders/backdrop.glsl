// The quiet paper behind the parts, as a function of the place in the picture (0..1, origin at the
// bottom left): lighter in the middle, a little darker to the floor and in the corners. sRGB.
vec3 backdrop(vec2 place) {
    vec2 q = place - vec2(0.5, 0.56);
    float level = mix(0.845, 0.915, smoothstep(0.0, 0.9, place.y)) + 0.045;
    float falloff = dot(q, q);
    return vec3(0.985, 0.994, 1.0) * (level - 0.17 * falloff);
}

// Half a step of noise, so that slow gradients show no bands.
float grain(vec2 pixel) {
    return (fract(52.9829189 * fract(dot(pixel, vec2(0.06711056, 0.00583715)))) - 0.5) / 255.0;
}
