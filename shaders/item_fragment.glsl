uniform vec4 u_base;       // linear colour; w: 1 = metal
uniform vec4 u_finish;     // roughness, reflectance at normal incidence, twill share, foam share
uniform vec3 u_eye;
uniform vec3 u_middle;      // of the studio
uniform vec4 u_ground;     // plane: dot(xyz, p) - w is the height above the ground, mm
uniform vec4 u_tint;       // screen colour and share of it
uniform vec4 u_emphasis;   // lift, opacity, stripe period in pixels, rim
uniform highp sampler2DShadow u_shadow;
uniform float u_shadow_texel;
in vec3 v_world;
in vec3 v_normal;
in vec3 v_light;
#ifdef PATTERN
uniform mat4 u_place;
in vec3 v_own;
in vec3 v_own_normal;
#endif
out vec4 colour;

float key_light() {
    vec3 r = u_shadow_texel * vec3(0.45, 0.85, 0.0);
    return 0.5 * (texture(u_shadow, v_light + r) + texture(u_shadow, v_light - r));
}

// Trowbridge-Reitz (GGX) highlight with the Smith-Schlick masking in its simplified form, from the
// squared cosines of the half vector with the normal and with the light.
float highlight(float nh2, float lh2, float roughness) {
    float a2 = roughness * roughness * roughness * roughness;
    float d = nh2 * (a2 - 1.0) + 1.0;
    return a2 / (4.0 * d * d * max(lh2, 0.1) * (roughness + 0.5));
}

void main() {
    vec3 n = normalize(v_normal);
    vec3 base = u_base.rgb;
    float roughness = u_finish.x;
#ifdef PATTERN
    vec3 side = abs(v_own_normal);
    bool top = side.z > max(side.x, side.y);
    bool end = side.x > side.y;
    vec2 flat_uv = top ? v_own.xy : end ? v_own.yz : v_own.zx;
    vec2 uv = flat_uv * 0.8;
    vec2 w = fwidth(uv);
    float pixel = max(w.x, w.y);
    vec3 weave = twill(uv, pixel);
    vec2 slope = weave.xy * u_finish.z;
    vec3 own_slope = top ? vec3(slope, 0.0) : end ? vec3(0.0, slope) : vec3(slope.y, 0.0, slope.x);
    n = normalize(n + mat3(u_place) * own_slope);
    base *= mix(1.0, weave.z, u_finish.z);
    float fine = clamp(1.3 - 1.1 * pixel, 0.0, 1.0);
    float pores = (noise(v_own * 3.4) - 0.5) * fine + (noise(v_own * 0.9) - 0.5) * 0.25;
    base *= 1.0 + 0.9 * u_finish.w * pores;
#endif
    vec3 v = normalize(u_eye - v_world);
    float nv = clamp(dot(n, v), 0.02, 1.0);
    float height = dot(u_ground.xyz, v_world) - u_ground.w;
    float open = clamp(0.35 + height * 0.022, 0.35, 1.0);  // the parts darken the ground below
    float down = clamp(0.5 - n.z, 0.0, 1.0);
    float ambient = mix(1.0, open, down);

    // The soft boxes stand near by: flat faces show a gradient, not one grey.
    vec3 r = reflect(-v, n) + (v_world - u_middle) * 0.008;
    vec3 h = v + key_direction;
    float nl = clamp(dot(n, key_direction), 0.0, 1.0);
    float key = nl > 0.0 ? key_light() * nl : 0.0;

    vec3 diffuse = base * (1.0 - u_base.w) * (studio_diffuse(studio_frame(n)) * ambient + 0.72 * key);

    vec3 f0 = mix(vec3(u_finish.y), base, u_base.w);
    float rim = 1.0 - nv;
    float rim2 = rim * rim;
    vec3 fresnel = f0 + (max(vec3(1.0 - roughness), f0) - f0) * rim2 * rim2 * rim;
    float around = studio(studio_frame(r), roughness);
    around *= mix(1.0, open, clamp(0.4 - r.z, 0.0, 1.0)) * (0.78 + 0.22 * min(key + 1.0 - nl, 1.0));
    float hh = max(dot(h, h), 0.01);
    float nh = max(dot(n, h), 0.0);
    float gloss = 0.55 * highlight(nh * nh / hh, 0.25 * hh, roughness);
    vec3 light = diffuse + fresnel * (around + min(gloss * key, 4.0));

    light = light * u_emphasis.x + 0.12 * (u_emphasis.x - 1.0);
    vec3 shown = to_screen(light);
    float period = max(u_emphasis.z, 1.0);
    float place = fract((gl_FragCoord.x + gl_FragCoord.y) / period);
    float stripe = clamp((0.27 - abs(place - 0.5)) * period * 0.7 + 0.5, 0.0, 1.0);
    float tinted = u_tint.a * (u_emphasis.z > 0.0 ? stripe : 1.0);
    float level = dot(shown, vec3(0.30, 0.59, 0.11));
    shown = mix(shown, u_tint.rgb * (0.72 + 0.5 * level), tinted);
    shown = mix(shown, u_tint.rgb, u_emphasis.w * rim2);
    colour = vec4(shown, min(u_emphasis.y * (0.75 + 1.6 * rim2), 1.0));
}
