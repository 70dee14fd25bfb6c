// Fine structure of woven carbon and of foam, from the part's own coordinates (mm). Both fade to
// their mean where a pixel covers more than the structure.
float hash(vec3 p) {
    p = fract(p * 0.1031);
    p += dot(p, p.yzx + 33.33);
    return fract((p.x + p.y) * p.z);
}

float noise(vec3 p) {
    vec3 i = floor(p);
    vec3 f = p - i;
    f = f * f * (3.0 - 2.0 * f);
    vec2 o = vec2(0.0, 1.0);
    vec4 low = vec4(hash(i), hash(i + o.yxx), hash(i + o.xyx), hash(i + o.yyx));
    vec4 high = vec4(hash(i + o.xxy), hash(i + o.yxy), hash(i + o.xyy), hash(i + o.yyy));
    vec4 level = mix(low, high, f.z);
    vec2 line = mix(level.xz, level.yw, f.x);
    return mix(line.x, line.y, f.y);
}

// 2/2 twill: each tow passes over two and under two, each row one further. Returns x, y: slope of
// the surface along the two tangents of the flat side that faces us; z: brightness about 1.
vec3 twill(vec2 uv, float pixel) {
    float fade = clamp(1.6 - 2.2 * pixel, 0.0, 1.0);
    vec2 cell = floor(uv);
    vec2 f = uv - cell - 0.5;
    float warp = step(2.0, mod(cell.x + cell.y, 4.0));
    float across = mix(f.y, f.x, warp);
    vec2 slope = mix(vec2(0.0, across), vec2(across, 0.0), warp) * 0.30 * fade;
    float gap = 1.0 - 0.55 * smoothstep(0.34, 0.5, abs(across)) * fade;
    return vec3(slope, gap * mix(1.0, mix(0.70, 1.35, warp), fade));
}
