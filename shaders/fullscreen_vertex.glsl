// One triangle over the whole picture, at the far plane.
out vec2 v_place;

void main() {
    v_place = vec2(float((gl_VertexID << 1) & 2), float(gl_VertexID & 2));
    gl_Position = vec4(v_place * 2.0 - 1.0, 1.0, 1.0);
}
