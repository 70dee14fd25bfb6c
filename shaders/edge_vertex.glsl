// A straight edge as a strip of constant width on the screen: one instance for each edge.
uniform mat4 u_place_to_clip;
uniform vec2 u_half_size;   // of the picture, pixels
uniform float u_half_width; // of the line, pixels
uniform float u_toward;     // clip depth by which the line is drawn towards the eye
layout(location = 0) in vec3 from;
layout(location = 1) in vec3 to;
#ifdef CUT
uniform mat4 u_place;
uniform vec4 u_cut;
out float v_cut;
#endif
out float v_away;  // pixels from the middle of the line

void main() {
    vec4 a = u_place_to_clip * vec4(from, 1.0);
    vec4 b = u_place_to_clip * vec4(to, 1.0);
    float near_a = a.z + a.w;
    float near_b = b.z + b.w;
    if (near_a < 0.0) a = mix(a, b, min(near_a / (near_a - near_b) + 1e-4, 1.0));
    if (near_b < 0.0) b = mix(b, a, min(near_b / (near_b - near_a) + 1e-4, 1.0));
    vec2 pa = a.xy / a.w * u_half_size;
    vec2 pb = b.xy / b.w * u_half_size;
    vec2 along = pb - pa;
    float size = length(along);
    along = size > 1e-4 ? along / size : vec2(1.0, 0.0);
    float reach = u_half_width + 1.1;  // every sample of the pixels that it covers
    float side = float(gl_VertexID & 1) * 2.0 - 1.0;
    bool first = gl_VertexID < 2;
    vec4 p = first ? a : b;
    vec2 shift = side * reach * vec2(-along.y, along.x);
    v_away = side * reach;
#ifdef CUT
    v_cut = dot(u_cut.xyz, (u_place * vec4(first ? from : to, 1.0)).xyz) - u_cut.w;
#ifndef GL_ES
    gl_ClipDistance[0] = -v_cut;
#endif
#endif
    p.xy += shift / u_half_size * p.w;
    p.z -= u_toward;
    gl_Position = (near_a < 0.0 && near_b < 0.0) ? vec4(2.0, 2.0, 2.0, 1.0) : p;
}
