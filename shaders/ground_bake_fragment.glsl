// Light on the ground: the key light's shadow with a wide soft rim, and the contact shadow (how much
// of the room the parts hide).
uniform sampler2D u_depth;    // key light's depth
uniform sampler2D u_contact;  // share of the hemisphere that is hidden
uniform mat4 u_map_to_light;  // map coordinates to light coordinates, all 0..1
uniform float u_soft;         // radius of the shadow's rim, light texture units
in vec2 v_place;
out vec4 colour;

vec2 spiral(int i, float count) {
    float angle = float(i) * 2.39996323;
    return sqrt((float(i) + 0.5) / count) * vec2(cos(angle), sin(angle));
}

void main() {
    vec3 here = (u_map_to_light * vec4(v_place, 0.0, 1.0)).xyz;
    float hidden = 0.0;
    for (int i = 0; i < 64; ++i) {
        vec2 at = here.xy + u_soft * spiral(i, 64.0);
        hidden += smoothstep(-0.004, 0.0, here.z - 0.002 - texture(u_depth, at).r);
    }
    float key = hidden / 64.0;
    float contact = texture(u_contact, v_place).r;
    float light = (1.0 - 0.30 * key) * (1.0 - 0.72 * contact);
    colour = vec4(light, key, contact, 1.0);
}
