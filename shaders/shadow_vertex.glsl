uniform mat4 u_place_to_clip;
#ifdef CUT
uniform mat4 u_place;
uniform vec4 u_cut;
centroid out float v_cut;
#endif
layout(location = 0) in vec3 position;
invariant gl_Position;

void main() {
#ifdef CUT
    v_cut = dot(u_cut.xyz, (u_place * vec4(position, 1.0)).xyz) - u_cut.w;
#endif
    gl_Position = u_place_to_clip * vec4(position, 1.0);
}
