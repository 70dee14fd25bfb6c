uniform vec4 u_ink;
#ifdef CUT
in float v_cut;
#endif
out vec4 colour;

void main() {
#ifdef CUT
    if (v_cut > 0.0) discard;
#endif
    colour = u_ink;
}
