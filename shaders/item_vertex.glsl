uniform mat4 u_place;
uniform mat4 u_place_to_clip;
layout(location = 0) in vec3 position;
layout(location = 1) in vec3 normal;
out vec3 v_world;
out vec3 v_normal;
out vec3 v_own;
#if defined(CARBON) || defined(SCREW)
out vec3 v_own_normal;
#endif
#ifndef SHADE
uniform mat4 u_world_to_light;  // to 0..1
uniform float u_shadow_lift;    // mm along the normal, against self-shadowing
out vec3 v_light;
#endif
invariant gl_Position;

void main() {
    vec3 world = (u_place * vec4(position, 1.0)).xyz;
    v_world = world;
    v_normal = mat3(u_place) * normal;
    v_own = position;
#if defined(CARBON) || defined(SCREW)
    v_own_normal = normal;
#endif
#ifndef SHADE
    v_light = (u_world_to_light * vec4(world + u_shadow_lift * v_normal, 1.0)).xyz;
#endif
    gl_Position = u_place_to_clip * vec4(position, 1.0);
}
