// Averages the sixteen turns of shade_fragment: four squares of two by two, each as a whole if it is
// about as far away as this place.
uniform sampler2D u_shade;
out vec4 colour;

void main() {
    vec2 at = floor(gl_FragCoord.xy);
    vec2 texel = 1.0 / vec2(textureSize(u_shade, 0));
    vec4 here = texelFetch(u_shade, ivec2(at), 0);
    float depth = here.z * 255.0 + here.w - 0.5;
    vec3 sum = vec3(here.xy, 1.0) * 0.02;
    for (int i = 0; i < 4; ++i) {
        vec2 corner = at + 2.0 * vec2(float(i & 1), float(i >> 1)) - 1.0;
        vec4 s = texture(u_shade, corner * texel);
        float weight = clamp(2.0 - abs(s.z * 255.0 - depth), 0.0, 1.0);
        sum += weight * vec3(s.xy, 1.0);
    }
    colour = vec4(sum.xy / sum.z, here.zw);
}
