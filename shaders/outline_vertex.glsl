// A part grown along its normals by a constant width on the screen.
uniform mat4 u_place_to_clip;
uniform vec2 u_half_size;  // of the picture, pixels
uniform float u_grow;      // pixels
#ifdef CUT
uniform mat4 u_place;
uniform vec4 u_cut;
out float v_cut;
#endif
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;

void main() {
#ifdef CUT
    v_cut = dot(u_cut.xyz, (u_place * vec4(position, 1.0)).xyz) - u_cut.w;
#ifndef GL_ES
    // Of what is seen edge on, nothing between the corners can be relied on but clipping.
    gl_ClipDistance[0] = -v_cut;
#endif
#endif
    vec4 p = u_place_to_clip * vec4(position, 1.0);
    vec4 q = u_place_to_clip * vec4(normal, 0.0);
    vec2 away = (q.xy * p.w - p.xy * q.w) * u_half_size;
    float size = length(away);
    p.xy += (size > 1e-9 ? away / size : vec2(0.0)) * u_grow / u_half_size * p.w;
    gl_Position = p;
}
