uniform mat4 u_place_to_clip;
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;
out vec3 v_own;         // in the mesh's own frame, mm
out vec3 v_own_normal;
#ifndef SHADE
uniform mat4 u_place;
uniform mat4 u_world_to_light;  // to 0..1
uniform float u_shadow_lift;    // mm along the normal, against self-shadowing
out vec3 v_light;
#endif
invariant gl_Position;

void main() {
    v_own = position;
    v_own_normal = normal;
#ifndef SHADE
    vec3 world = (u_place * vec4(position, 1.0)).xyz;
    v_light = (u_world_to_light * vec4(world + u_shadow_lift * (mat3(u_place) * normal), 1.0)).xyz;
#endif
    gl_Position = u_place_to_clip * vec4(position, 1.0);
}
