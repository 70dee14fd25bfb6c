out vec4 colour;

void main() { colour = vec4(backdrop() + dither(gl_FragCoord.xy), 1.0); }
