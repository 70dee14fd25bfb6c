uniform vec4 u_ink;  // screen colour, opacity
uniform float u_half_width;
#ifdef CUT
in float v_cut;
#endif
in float v_away;
out vec4 colour;

void main() {
#ifdef CUT
    if (v_cut > 0.0) discard;
#endif
    // What a pixel's width covers of the line: the same darkness wherever the line lies.
    float cover = clamp(min(u_half_width + 0.5 - abs(v_away), 2.0 * u_half_width), 0.0, 1.0);
    colour = vec4(u_ink.rgb, u_ink.a * cover);
}
