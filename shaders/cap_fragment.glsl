// A cut face, hatched as in a section drawing.
uniform vec3 u_fill;   // screen colours
uniform vec3 u_line;
uniform vec4 u_hatch;  // direction across the lines; spacing and line width, mm
uniform float u_pixel; // mm
in vec2 v_plane;
out vec4 colour;

void main() {
    float t = dot(v_plane, u_hatch.xy) / u_hatch.z;
    float away = abs(fract(t) - 0.5) * u_hatch.z;
    float ink = clamp((0.5 * u_hatch.w - away) / u_pixel + 0.5, 0.0, 1.0);
    colour = vec4(mix(u_fill, u_line, ink), 1.0);
}
