// Depth alone for the key light; the height above the ground for the contact map.
#ifdef CUT
centroid in float v_cut;
#endif
out vec4 colour;

void main() {
#ifdef CUT
    if (v_cut > 0.0) discard;
#endif
    float height = gl_FragCoord.z;
    colour = vec4(height * (254.0 / 255.0), 0.0, 0.0, 1.0);
}
