// How open every place in sight is to the room (ambient occlusion) and to the key light. Places
// looked at are turned from pixel to pixel in squares of four by four, over which shade_blur
// averages, so that no noise is left.
uniform sampler2D u_scene;       // depth of what is in sight
uniform mat4 u_world_to_light;
uniform vec3 u_eye;
uniform vec3 u_ray_corner;       // world, per mm of depth: to the lower left corner,
uniform vec3 u_ray_along;        // and along the picture's sides
uniform vec3 u_ray_up;
uniform vec4 u_linear;           // depth to mm: 1 / (x d + y); then nearest, 1 / range
const int occluders = 7;
const float reach = 11.0;        // of the occlusion, mm
out vec4 colour;

float depth_at(vec2 place) { return 1.0 / (texture(u_scene, place).r * u_linear.x + u_linear.y); }

vec3 to_point(vec2 place, float depth) {
    return depth * (u_ray_corner + place.x * u_ray_along + place.y * u_ray_up);
}

// From the nearer of the two neighbours on each line, so that it does not reach over edges.
vec3 normal_at(vec2 here, vec3 p, vec2 texel) {
    vec2 dx = vec2(texel.x, 0.0);
    vec2 dy = vec2(0.0, texel.y);
    vec3 left = p - to_point(here - dx, depth_at(here - dx));
    vec3 right = to_point(here + dx, depth_at(here + dx)) - p;
    vec3 low = p - to_point(here - dy, depth_at(here - dy));
    vec3 high = to_point(here + dy, depth_at(here + dy)) - p;
    vec3 along = dot(left, left) < dot(right, right) ? left : right;
    vec3 up = dot(low, low) < dot(high, high) ? low : high;
    return normalize(cross(along, up));
}

// Each place nearby hides the more of the room the higher it stands above the surface here and the
// nearer it is.
float openness(vec2 here, vec3 p, float depth, vec3 n, float turn, float shift) {
    vec2 size = vec2(reach) / (depth * vec2(length(u_ray_along), length(u_ray_up)));
    float sum = 0.0;
    for (int i = 0; i < occluders; ++i) {
        float angle = float(i) * 2.39996323 + turn;
        float away = (float(i) + shift) / float(occluders);
        vec2 place = here + size * away * vec2(cos(angle), sin(angle));
        vec3 to = to_point(place, depth_at(place)) - p;
        float far2 = dot(to, to);
        float near = max(1.0 - far2 / (reach * reach), 0.0);
        sum += near * max(dot(to, n) * inversesqrt(far2 + 1e-4) - 0.08, 0.0);
    }
    return max(1.0 - 3.4 * sum / float(occluders), 0.0);
}

void main() {
    vec2 texel = 1.0 / vec2(textureSize(u_scene, 0));
    vec2 here = gl_FragCoord.xy * texel;
    float d = texture(u_scene, here).r;
    if (d >= 1.0) {
        colour = vec4(1.0);
        return;
    }
    float depth = 1.0 / (d * u_linear.x + u_linear.y);
    vec3 p = to_point(here, depth);
    vec3 n = normal_at(here, p, texel);
    ivec2 cell = ivec2(gl_FragCoord.xy) & 3;
    float step16 = float((cell.x * 4 + cell.y * 9 + (cell.x & cell.y) * 2) & 15) / 16.0;
    float turn = 6.2831853 * step16;
    float shift = 0.1 + 0.8 * float((cell.x * 7 + cell.y * 5) & 15) / 16.0;
    float open = openness(here, p, depth, n, turn, shift);
    float nl = dot(n, key_direction);
    float key = 0.0;
    if (nl > 0.0) {
        vec3 lifted = u_eye + p + n * (0.6 * u_light_scale.w);
        key = key_light((u_world_to_light * vec4(lifted, 1.0)).xyz, n, nl, turn, shift);
    }
    float far = clamp((depth - u_linear.z) * u_linear.w, 0.0, 1.0) * 255.0;
    colour = vec4(open, key, floor(far) / 255.0, fract(far));
}
