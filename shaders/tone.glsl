// Scene-linear light to the screen: exposure, a filmic toe and shoulder and the screen's transfer
// curve in one rational curve of the root of the light, which costs no powers. It rises throughout:
// a light of 0.18 gives 0.46, 1 gives 0.82, 4 gives 0.97 and 9 or more gives white.
vec3 to_screen(vec3 light) {
    vec3 s = sqrt(min(light, vec3(9.0)));
    vec3 curve = s * (1.4063 * s + 0.9853) / (1.0 + s * (1.4652 * s + 0.4716));
    return min(curve, vec3(1.0));
}
