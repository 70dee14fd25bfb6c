// A picture, to where it is wanted: as it is, with its stairs smoothed (SMOOTH), or within a circle
// (ROUND); from the mean of its samples (SAMPLES).
#ifdef SAMPLES
uniform sampler2DMS u_picture;
uniform int u_samples;
#else
uniform sampler2D u_picture;
#endif
uniform vec4 u_view;  // x, y, width, height in pixels
out vec4 colour;

#ifdef SMOOTH
float level(vec3 c) { return dot(c, vec3(0.30, 0.59, 0.11)); }

// Finds the run of an edge from the levels of the four diagonal neighbours and averages along it.
vec3 smoothed(ivec2 at, vec2 place) {
    ivec2 top = textureSize(u_picture, 0) - 1;
    ivec2 low = max(at - 1, ivec2(0));
    ivec2 high = min(at + 1, top);
    vec3 here = texelFetch(u_picture, at, 0).rgb;
    float m = level(here);
    float sw = level(texelFetch(u_picture, low, 0).rgb);
    float ne = level(texelFetch(u_picture, high, 0).rgb);
    float nw = level(texelFetch(u_picture, ivec2(low.x, high.y), 0).rgb);
    float se = level(texelFetch(u_picture, ivec2(high.x, low.y), 0).rgb);
    float range = max(m, max(max(sw, ne), max(nw, se))) - min(m, min(min(sw, ne), min(nw, se)));
    vec2 run = vec2((sw + se) - (nw + ne), (nw + sw) - (ne + se));
    float shortest = min(abs(run.x), abs(run.y)) + 0.02;
    run = clamp(run / shortest, -3.0, 3.0) / u_view.zw;
    vec3 along = 0.5 * (texture(u_picture, place + run * 0.1667).rgb +
                        texture(u_picture, place - run * 0.1667).rgb);
    return mix(here, along, clamp(range * 12.0 - 0.6, 0.0, 1.0));
}
#endif

vec4 colour_at(ivec2 at) {
#ifdef SAMPLES
    vec4 sum = vec4(0.0);
    for (int i = 0; i < u_samples; ++i) sum += texelFetch(u_picture, at, i);
    return sum / float(u_samples);
#else
    return texelFetch(u_picture, at, 0);
#endif
}

void main() {
    vec2 pixel = gl_FragCoord.xy - u_view.xy;
#ifdef SMOOTH
    colour = vec4(smoothed(ivec2(pixel), pixel / u_view.zw), 1.0);
#else
    colour = colour_at(ivec2(pixel));
#endif
#ifdef ROUND
    vec2 half_size = 0.5 * u_view.zw;
    float radius = min(half_size.x, half_size.y);
    colour.a = clamp(radius - length(pixel - half_size), 0.0, 1.0);
#endif
}
