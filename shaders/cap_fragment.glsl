// A cut face, hatched as in a section drawing.
uniform vec4 u_fill;    // screen colour, opacity
uniform vec3 u_line;
uniform vec4 u_hatch;   // direction across the lines; spacing and line width, mm
uniform float u_cross;  // 1: a second set of lines square to the first
in vec2 v_plane;
out vec4 colour;

// Share of the pixel that lines of period 1 and this width cover.
float ink(float t, float width) {
    float pixel = max(fwidth(t), 1e-6);
    float away = abs(fract(t) - 0.5);
    float inside = clamp((0.5 * width - away) / pixel + 0.5, 0.0, 1.0);
    return mix(inside, width, clamp(2.0 * pixel - 0.6, 0.0, 1.0));
}

void main() {
    float width = u_hatch.w / u_hatch.z;
    float lines = ink(dot(v_plane, u_hatch.xy) / u_hatch.z, width);
    float others = ink(dot(v_plane, vec2(-u_hatch.y, u_hatch.x)) / u_hatch.z, width);
    colour = vec4(mix(u_fill.rgb, u_line, max(lines, u_cross * others)), u_fill.a);
}
