// A square of the cutting plane that covers one part.
uniform mat4 u_place_to_clip;
uniform vec3 u_centre;
uniform vec3 u_along;
uniform vec3 u_across;
uniform float u_reach;
out vec2 v_plane;  // mm

void main() {
    vec2 corner = vec2(float(gl_VertexID & 1), float(gl_VertexID >> 1)) * 2.0 - 1.0;
    v_plane = corner * u_reach + vec2(dot(u_centre, u_along), dot(u_centre, u_across));
    vec3 world = u_centre + u_reach * (corner.x * u_along + corner.y * u_across);
    gl_Position = u_place_to_clip * vec4(world, 1.0);
}
