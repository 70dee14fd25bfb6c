// Light on the ground: the key light's shadow and the contact shadow (how much of the room the
// parts hide).
uniform sampler2D u_contact;  // share of the hemisphere that is hidden
uniform mat4 u_map_to_light;  // map coordinates to light coordinates, all 0..1
uniform vec3 u_up;
uniform float u_size;         // of the map, texels
out vec4 colour;

void main() {
    vec2 place = gl_FragCoord.xy / u_size;
    vec3 here = (u_map_to_light * vec4(place, 0.0, 1.0)).xyz;
    float key = 1.0 - key_light(here, u_up, dot(u_up, key_direction), 0.0, 0.5);
    float contact = texture(u_contact, place).r;
    float light = (1.0 - 0.36 * key) * (1.0 - 0.64 * contact);
    colour = vec4(light, key, contact, 1.0);
}
