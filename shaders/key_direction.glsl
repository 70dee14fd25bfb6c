// To the key light: in the world, so that shadows stand.
const vec3 key_direction = vec3(0.2672, 0.3563, 0.8953);
