// The sweep behind the parts, as a function of the place in the picture (0..1, origin at the bottom
// left): the floor runs up into the wall without a line. sRGB.
uniform vec3 u_floor;
uniform vec3 u_wall;
uniform vec2 u_size;   // of the picture, pixels
uniform vec2 u_sweep;  // height of the horizon in the picture; darkening of the corners

vec3 backdrop() {
    vec2 place = gl_FragCoord.xy / u_size;
    float up = smoothstep(-0.55, 0.75, place.y - u_sweep.x);
    vec2 q = place - vec2(0.5, 0.52);
    return mix(u_floor, u_wall, up) * (1.0 - u_sweep.y * dot(q, q));
}

// Half a step of noise, so that slow gradients show no bands.
float dither(vec2 pixel) {
    return (fract(52.9829189 * fract(dot(pixel, vec2(0.06711056, 0.00583715)))) - 0.5) / 255.0;
}
