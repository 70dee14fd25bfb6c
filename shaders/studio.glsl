// The studio: an even room with soft boxes that keep their places about the camera, so that metal
// shows clean bands of light from every side. `d` is a direction in the studio's frame: x towards
// the camera (level), y to its right, z up.
uniform vec2 u_studio;  // level direction from the scene to the camera

const vec3 key_direction = vec3(0.2672, 0.3563, 0.8953);  // in the world, so that shadows stand

vec3 studio_frame(vec3 world) {
    return vec3(dot(world.xy, u_studio), dot(world.xy, vec2(-u_studio.y, u_studio.x)), world.z);
}

float soft_box(vec3 d, vec3 centre, vec3 across, vec2 size, float blur) {
    float facing = dot(d, centre);
    vec2 p = abs(vec2(dot(d, across), dot(d, cross(centre, across)))) / max(facing, 0.02);
    vec2 inside = clamp((size - p) / blur + 0.5, 0.0, 1.0);
    vec2 filled = min(2.0 * size / blur, 1.0);
    return inside.x * inside.y * filled.x * filled.y;
}

// Light that arrives from direction d, averaged over a lobe as wide as the roughness.
float studio(vec3 d, float roughness) {
    float blur = 0.10 + 2.0 * roughness * roughness + 0.5 * roughness;
    float sky = mix(0.30, 0.60, clamp(d.z * 1.3, 0.0, 1.0)) - 0.16 * d.x;
    float ground = mix(0.52, 0.82, clamp(-d.z * 1.5, 0.0, 1.0));
    float room = mix(ground, sky, clamp(d.z / (0.06 + blur) + 0.5, 0.0, 1.0));
    float over = soft_box(d, vec3(-0.10, 0.0, 0.995), vec3(0.0, 1.0, 0.0), vec2(1.1, 0.50), blur);
    float back = soft_box(d, vec3(-0.8480, 0.0, 0.5300), vec3(0.0, 1.0, 0.0), vec2(1.0, 0.34), blur);
    float left = soft_box(d, vec3(0.4000, -0.8000, 0.4472), vec3(0.8944, 0.4472, 0.0),
                          vec2(0.26, 0.75), blur);
    float right = soft_box(d, vec3(0.1961, 0.9325, 0.3032), vec3(-0.9786, 0.2058, 0.0),
                           vec2(0.42, 0.60), blur);
    return room + 1.9 * over + 0.65 * back + 1.3 * left + 0.9 * right;
}

// The same studio averaged over the hemisphere about n.
float studio_diffuse(vec3 n) {
    return 0.60 + 0.30 * n.z + 0.10 * n.x + 0.05 * n.y * n.y;
}
