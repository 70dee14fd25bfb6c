in vec2 v_place;
out vec4 colour;

void main() { colour = vec4(backdrop(v_place) + grain(gl_FragCoord.xy), 1.0); }
