// A square of ground, three times as wide as the ground map: map coordinates -1..2.
uniform mat4 u_place_to_clip;
uniform vec3 u_corner;
uniform vec3 u_along;
uniform vec3 u_across;
out vec2 v_map;

void main() {
    v_map = 3.0 * vec2(float(gl_VertexID & 1), float(gl_VertexID >> 1)) - 1.0;
    gl_Position = u_place_to_clip * vec4(u_corner + v_map.x * u_along + v_map.y * u_across, 1.0);
}
