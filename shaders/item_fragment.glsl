uniform vec4 u_base;      // linear colour; w: 1 = metal
uniform vec4 u_finish;    // roughness, reflectance at normal incidence, grooves of turning, sheen
uniform vec3 u_eye;
uniform vec3 u_middle;    // of the studio
uniform vec4 u_ground;    // plane: dot(xyz, p) - w is the height above the ground, mm
uniform vec4 u_tint;      // screen colour and share of it
uniform vec4 u_emphasis;  // lift, opacity, stripe period in pixels, rim
uniform mat4 u_place;
// The same for every kind: drivers set triangles up by a program for each list of these.
in vec3 v_own;
in vec3 v_own_normal;
#ifdef FOAM
uniform highp sampler3D u_grain;  // slope and level, about 0.5; repeats
#endif
out vec4 colour;

#ifdef SHADE
uniform sampler2D u_light;    // of shade_fragment: open to the room, to the key light, depth
uniform vec4 u_light_view;    // pixels to texels, and the last texel
uniform vec2 u_light_range;   // nearest, mm; 255 levels of depth / range

// Between the texels about this pixel; at edges, where some of them belong to what lies behind,
// from the one that is nearest in depth.
vec2 arriving() {
    vec2 at = gl_FragCoord.xy * u_light_view.xy;
    float depth = (1.0 / gl_FragCoord.w - u_light_range.x) * u_light_range.y;
    vec4 light = texture(u_light, at / (u_light_view.zw + 1.0));
    bool found = abs(light.z * 255.0 + 0.5 - depth) < 1.2;
    ivec2 low = ivec2(floor(at - 0.5));
    float best = 1e9;
    for (int i = 0; i < 4 && !found; ++i) {
        ivec2 texel = clamp(low + ivec2(i & 1, i >> 1), ivec2(0), ivec2(u_light_view.zw));
        vec4 s = texelFetch(u_light, texel, 0);
        float apart = abs(s.z * 255.0 + s.w - depth);
        if (apart < best) light = s;
        best = min(best, apart);
    }
    return light.xy;
}
#else
uniform highp sampler2DShadow u_shadow;
uniform float u_shadow_texel;
in vec3 v_light;

vec2 arriving() {
    vec3 r = u_shadow_texel * vec3(0.8, 1.5, 0.0);
    return vec2(0.94, 0.5 * (texture(u_shadow, v_light + r) + texture(u_shadow, v_light - r)));
}
#endif

// Light from the studio on a glossy surface: the soft boxes stand near by, so that flat faces show
// a gradient and not one grey. `calm` is the light that nearby surfaces keep from reflections.
float reflected(vec3 world, vec3 n, vec3 v, float roughness, float open, float calm) {
    vec3 r = reflect(-v, n) + (world - u_middle) * 0.008;
    return studio(studio_frame(r), roughness) * mix(1.0, open, clamp(0.4 - r.z, 0.0, 1.0)) * calm;
}

// On the screen, with what the emphasis adds; `rim2` grows where the surface turns away.
vec4 emphasised(vec3 light, float rim2) {
    vec3 shown = to_screen(light * u_emphasis.x + 0.12 * (u_emphasis.x - 1.0));
    float period = max(u_emphasis.z, 1.0);
    float place = fract((gl_FragCoord.x + gl_FragCoord.y) / period);
    float stripe = clamp((0.27 - abs(place - 0.5)) * period * 0.7 + 0.5, 0.0, 1.0);
    float tinted = u_tint.a * (u_emphasis.z > 0.0 ? stripe : 1.0);
    float level = dot(shown, vec3(0.30, 0.59, 0.11));
    shown = mix(shown, u_tint.rgb * (0.72 + 0.5 * level), tinted);
    shown = mix(shown, u_tint.rgb, u_emphasis.w * rim2);
    return vec4(shown, u_emphasis.y < 1.0 ? min(u_emphasis.y * (0.75 + 1.6 * rim2), 1.0) : 1.0);
}

void main() {
    vec3 world = (u_place * vec4(v_own, 1.0)).xyz;
    vec3 n = normalize(mat3(u_place) * v_own_normal);
    vec3 v = normalize(u_eye - world);
    vec3 base = u_base.rgb;
    float roughness = u_finish.x;
    vec2 light = arriving();
#ifdef CARBON
    Weave weave = weave_at(v_own, v_own_normal, 0.6 * length(fwidth(v_own)));
    vec3 fibre = mat3(u_place) * weave.fibre;
    vec3 woven = normalize(n + mat3(u_place) * weave.slope);
    base *= weave.shade;
#endif
#ifdef FOAM
    vec4 pores = texture(u_grain, v_own * 0.145 + v_own.yzx * 0.053) - 0.5;
    n = normalize(n + mat3(u_place) * (pores.xyz * 0.6));
    base *= max(1.0 + 2.0 * pores.w, 0.0);
#endif
#ifdef SCREW
    // A thread of pitch 0.5 on the shank, a knurl round the head; own units are of a 3 mm screw.
    float turn = atan(v_own.z, v_own.y);
    bool shank = v_own.x < 0.0;
    float wave = shank ? v_own.x * 12.5663706 + turn : turn * 40.0;
    float pixel = length(fwidth(v_own));
    float fade = clamp(1.3 - pixel * (shank ? 5.0 : 6.0), 0.0, 1.0) * step(abs(v_own_normal.x), 0.5);
    vec3 way = shank ? vec3(1.0, 0.0, 0.0) : normalize(vec3(0.0, -v_own.z, v_own.y));
    n = normalize(n + mat3(u_place) * way * (cos(wave) * 0.8 * fade));
#endif
    float nv = clamp(dot(n, v), 0.02, 1.0);
    float height = dot(u_ground.xyz, world) - u_ground.w;
    float open = clamp(0.35 + height * 0.022, 0.35, 1.0);  // the parts darken the ground below
    float ambient = light.x * mix(1.0, open, clamp(0.5 - n.z, 0.0, 1.0));
    float key = light.y * clamp(dot(n, key_direction), 0.0, 1.0);
    float rim = 1.0 - nv;
    float rim2 = rim * rim;
    float around = studio_diffuse(studio_frame(n)) * ambient;
#ifdef FOAM
    // Too rough for any soft box to show: it mirrors the room as a whole.
    vec3 shone = base * (around + 1.05 * key) + (u_finish.y + u_finish.w * rim2 * rim) * (around + key);
#else
    float calm = clamp(light.x * (0.35 + 0.65 * nv) + light.x * light.x * 0.65 * rim, 0.0, 1.0) *
                 (0.72 + 0.28 * light.y);

    vec3 shone = base * (1.0 - u_base.w) * (around + 1.05 * key);
    shone += u_finish.w * rim2 * rim * (around + key);
    vec3 f0 = mix(vec3(u_finish.y), base, u_base.w);
    vec3 fresnel = f0 + (max(vec3(1.0 - roughness), f0) - f0) * rim2 * rim2 * rim;
#ifdef CARBON
    // The tows shine round their fibres; the clear coat over them mirrors like glass.
    vec3 bent = mix(woven, normalize(v - fibre * dot(fibre, v) + 1e-4), 0.55 * weave.coat);
    shone += weave.shade * u_finish.z * reflected(world, normalize(bent), v, 0.42, open, calm);
    shone += weave.coat * fresnel * reflected(world, n, v, roughness, open, calm);
#else
    // Turning leaves fine grooves round the axis: light spreads across them.
    vec3 groove = mat3(u_place) * vec3(0.0, -v_own.z, v_own.y) * inversesqrt(dot(v_own.yz, v_own.yz) + 1e-4);
    vec3 across = v - groove * dot(groove, v);
    vec3 bent = normalize(mix(n, across * inversesqrt(dot(across, across) + 1e-4), u_finish.z));
    shone += fresnel * reflected(world, bent, v, roughness, open, calm);
#endif
#endif

    colour = emphasised(shone, rim2);
}
