// The key light is a disc: shadows are sharp near what casts them and soften with the distance.
uniform sampler2D u_depth;      // key light's depth, 0..1
uniform vec4 u_light_scale;     // texture units per mm across, depth per mm, tangent of the light's
                                // half angle, mm of one texel
uniform vec3 u_light_along;     // the depth map's axes in the world
uniform vec3 u_light_across;
#ifdef FINE
const int searched = 24;
const int filtered = 96;
#else
const int searched = 6;
const int filtered = 9;
#endif
const float widest = 7.0;       // radius of the search and of the softest rim, mm

vec2 spiral(int i, float count, float turn, float shift) {
    float angle = float(i) * 2.39996323 + turn;
    return sqrt((float(i) + shift) / count) * vec2(cos(angle), sin(angle));
}

// Share of the light that arrives at `at` (light coordinates, 0..1) on a surface whose normal is
// `n`. `turn` and `shift` vary the places that are looked at.
float key_light(vec3 at, vec3 n, float nl, float turn, float shift) {
    // Depth of the surface's own plane beside `at`, mm per mm.
    vec2 tilt = vec2(dot(n, u_light_along), dot(n, u_light_across)) / max(nl, 0.15);
    tilt = clamp(tilt, -3.0, 3.0);
    float least = u_light_scale.w * 0.7;
    float sum = 0.0;
    float blockers = 0.0;
    for (int i = 0; i < searched; ++i) {
        vec2 o = widest * spiral(i, float(searched), turn, shift);
        float gap = (at.z - texture(u_depth, at.xy + o * u_light_scale.x).r) / u_light_scale.y +
                    dot(tilt, o);
        float nearer = step(least + 0.10 * length(o), gap);
        sum += nearer * gap;
        blockers += nearer;
    }
    if (blockers < 0.5) return 1.0;
    float radius = clamp(sum / blockers * u_light_scale.z, 0.8 * u_light_scale.w, widest);
    float lit = 0.0;
    for (int i = 0; i < filtered; ++i) {
        vec2 o = radius * spiral(i, float(filtered), turn, shift);
        float gap = (at.z - texture(u_depth, at.xy + o * u_light_scale.x).r) / u_light_scale.y +
                    dot(tilt, o);
        lit += step(gap, least + 0.10 * length(o));
    }
    return lit / float(filtered);
}
