// The studio: a room with a pale floor and rectangular soft boxes that keep their places about the
// camera, so that metal shows clean bands of light from every side. `d` is a direction in the
// studio's frame: x towards the camera (level), y to its right, z up.
uniform vec2 u_studio;  // level direction from the scene to the camera

vec3 studio_frame(vec3 world) {
    return vec3(dot(world.xy, u_studio), dot(world.xy, vec2(-u_studio.y, u_studio.x)), world.z);
}

// The share of a lobe of width `blur` about d that a rectangle fills: centre, sides and half sizes
// on the plane one away. A rectangle smaller than the lobe is dimmer and no smaller.
float soft_box(vec3 d, vec3 centre, vec3 across, vec3 up, vec2 size, float blur) {
    float facing = dot(d, centre);
    vec2 p = abs(vec2(dot(d, across), dot(d, up))) / max(facing, 0.02);
    vec2 inside = clamp((size - p) / blur + 0.5, 0.0, 1.0);
    inside *= inside * (3.0 - 2.0 * inside);
    vec2 filled = min(2.0 * size / blur, 1.0);
    if (facing < 0.0) return 0.0;
    return inside.x * inside.y * filled.x * filled.y;
}

// Light that arrives from direction d, averaged over a lobe as wide as the roughness.
float studio(vec3 d, float roughness) {
    float blur = 0.07 + roughness * (0.5 + 2.0 * roughness);
    float wall = 0.15 + 0.28 * clamp(d.z, 0.0, 1.0) + 0.20 * max(d.x, 0.0);
    float ground = mix(0.24, 0.70, clamp(-1.4 * d.z, 0.0, 1.0));
    float room = mix(ground, wall, clamp(d.z / (0.10 + blur) + 0.5, 0.0, 1.0));
    float over = soft_box(d, vec3(-0.0995, 0.0, 0.9950), vec3(0.0, 1.0, 0.0),
                          vec3(0.9950, 0.0, 0.0995), vec2(1.05, 0.52), blur);
    float back = soft_box(d, vec3(-0.8480, 0.0, 0.5300), vec3(0.0, 1.0, 0.0),
                          vec3(0.5300, 0.0, 0.8480), vec2(1.1, 0.20), blur);
    // One on either side, the left one brighter.
    vec3 side = vec3(d.x, -abs(d.y), d.z);
    float beside = soft_box(side, vec3(0.3000, -0.8600, 0.4127), vec3(0.9442, 0.3294, 0.0),
                            vec3(-0.1359, 0.3897, 0.9109), vec2(0.27, 0.72), blur);
    return room + 2.9 * over + 1.9 * back + (d.y < 0.0 ? 2.5 : 1.4) * beside;
}

// The same studio averaged over the hemisphere about n, without the key light.
float studio_diffuse(vec3 n) {
    return 0.40 + 0.19 * n.z + 0.17 * n.x + 0.08 * n.y * n.y;
}
