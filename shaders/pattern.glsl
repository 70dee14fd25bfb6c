// Fine structure of woven carbon, from the part's own coordinates (mm): 2/2 twill, in which each
// tow passes over two and under two, each row one further. It fades to its mean where a pixel
// covers more than the structure.
uniform vec4 u_weave;  // axis square to the layers (own frame) or 0; w: 1 = turned about x
const float tow = 1.5; // mm wide

struct Weave {
    vec3 fibre;   // direction of the tow on top, own frame
    vec3 slope;   // of the surface, own frame
    float shade;  // darker in the gaps between tows
    float coat;   // 1: under clear resin; 0: a cut edge that shows the layers
};

Weave twill(vec2 uv, vec3 u, vec3 v, float fade) {
    vec2 cell = floor(uv);
    vec2 f = uv - cell - 0.5;
    float step4 = mod(cell.x + cell.y, 4.0);
    bool warp = step4 >= 2.0;
    float across = warp ? f.x : f.y;
    float along = warp ? (step4 - 2.0 + f.y) * 0.5 - 0.25 : (step4 + f.x) * 0.5 - 0.25;
    vec3 fibre = warp ? v : u;
    vec3 side = warp ? u : v;
    float gap = smoothstep(0.36, 0.5, abs(across)) + smoothstep(0.40, 0.5, abs(along));
    return Weave(fibre, (side * across * 0.75 + fibre * along * 0.5) * fade,
                 1.0 - 0.5 * min(gap, 1.0) * fade, 1.0);
}

Weave weave_at(vec3 p, vec3 n, float pixel) {
    vec3 side = abs(n);
    vec2 uv;
    vec3 u;
    vec3 v;
    float covered;  // how much this side faces across the layers
    if (u_weave.w > 0.5) {
        float r = max(length(p.yz), 1e-3);
        float around = 4.0 * max(floor(6.2831853 * r / (4.0 * tow) + 0.5), 1.0);
        uv = vec2(p.x, atan(p.z, p.y) * around * tow / 6.2831853);
        u = vec3(1.0, 0.0, 0.0);
        v = vec3(0.0, -p.z, p.y) / r;
        covered = 1.0 - side.x;
    } else {
        vec3 most = step(max(side.yzx, side.zxy), side);
        vec3 face = dot(u_weave.xyz, u_weave.xyz) > 0.5 ? u_weave.xyz : most;
        u = face.zxy;
        v = face.yzx;
        uv = vec2(dot(p, u), dot(p, v));
        covered = dot(face, side);
    }
    Weave weave = twill(uv / tow, u, v, clamp(1.5 - 1.8 * pixel / tow, 0.0, 1.0));
    if (covered < 0.4) {  // a cut edge: layers of half a millimetre
        float layer = abs(fract(dot(p, u_weave.xyz) / 0.5) - 0.5);
        float line = smoothstep(0.1, 0.4, layer) - 0.5;
        weave.shade = 1.0 + 0.7 * line * clamp(1.4 - 4.0 * pixel, 0.0, 1.0);
        weave.slope = vec3(0.0);
        weave.coat = 0.0;
    }
    return weave;
}
