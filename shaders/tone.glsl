// Scene-linear light to the screen: exposure, filmic shoulder and sRGB's transfer curve in one
// rational curve of the root of the light, which costs no powers. A light of 0.18 gives 0.44, 1
// gives 0.87, 3 and more gives white; the shadows are a little deeper than sRGB's.
vec3 to_screen(vec3 light) {
    vec3 s = sqrt(min(light, vec3(3.0)));
    vec3 curve = s * (1.0 + 0.144 * s) / (1.0 + s * (0.4655 * s - 0.143));
    return min(curve, vec3(1.0));
}
