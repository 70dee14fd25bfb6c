// One triangle over the whole picture, at the far plane.
void main() {
    vec2 place = vec2(float((gl_VertexID << 1) & 2), float(gl_VertexID & 2));
    gl_Position = vec4(place * 2.0 - 1.0, 1.0, 1.0);
}
