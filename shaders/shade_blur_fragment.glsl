// Averages the sixteen turns of shade_fragment, each place with those that are about as far away.
uniform sampler2D u_shade;
uniform float u_range;  // mm of depth
out vec4 colour;

void main() {
    ivec2 at = ivec2(gl_FragCoord.xy);
    vec4 here = texelFetch(u_shade, at, 0);
    colour = here;
    if (here.z >= 1.0) return;
    float depth = here.z * 255.0 + here.w;
    ivec2 top = textureSize(u_shade, 0) - 1;
    float tolerance = u_range / 255.0;
    vec3 sum = vec3(0.0);
    for (int y = -2; y < 2; ++y)
        for (int x = -2; x < 2; ++x) {
            vec4 s = texelFetch(u_shade, clamp(at + ivec2(x, y), ivec2(0), top), 0);
            float apart = abs(s.z * 255.0 + s.w - depth) * tolerance;
            float weight = 1.0 / (0.5 + apart * apart);
            sum += weight * vec3(s.xy, 1.0);
        }
    colour.xy = sum.xy / sum.z;
}
