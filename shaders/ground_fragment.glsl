// The ground is the backdrop itself, darkened where the parts keep light from it: so there is no
// horizon and no edge.
uniform sampler2D u_map;
in vec2 v_map;
out vec4 colour;

void main() {
    vec2 rim = smoothstep(vec2(0.0), vec2(0.12), 0.5 - abs(v_map - 0.5));
    float shade = (1.0 - texture(u_map, v_map).r) * rim.x * rim.y;
    vec3 paper = backdrop();
    colour = vec4(paper * (1.0 - shade * vec3(1.0, 0.985, 0.965)) + dither(gl_FragCoord.xy), 1.0);
}
