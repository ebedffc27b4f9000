// pH as colour: the order of the universal indicator, laid out so that it stays readable without colour vision.
// Lightness rises to the yellow near pH 6 and falls again; the alkaline side is blue of yellow. It always stands beside
// the number, never instead of it.
export type Rgb = [number, number, number];

// OKLab (L, a, b) at whole and half units; between them straight lines in OKLab.
const anchors: [number, number, number, number][] = [
  [0, 0.4, 0.15, 0.06],
  [2, 0.53, 0.18, 0.09],
  [3, 0.62, 0.15, 0.12],
  [4, 0.72, 0.095, 0.14],
  [5, 0.82, 0.035, 0.155],
  [6, 0.9, -0.025, 0.15],
  [7, 0.8, -0.105, 0.07],
  [8, 0.69, -0.105, 0.0],
  [9, 0.6, -0.075, -0.06],
  [10, 0.52, -0.035, -0.115],
  [11, 0.44, 0.015, -0.15],
  [12, 0.38, 0.055, -0.155],
  [14, 0.27, 0.075, -0.12],
];

/** OKLab of a pH, ends held. */
export function ph_oklab(ph: number): [number, number, number] {
  const x = Math.min(Math.max(ph, 0), 14);
  let i = 0;
  while (i < anchors.length - 2 && x > anchors[i + 1][0]) i++;
  const [p0, ...from] = anchors[i];
  const [p1, ...to] = anchors[i + 1];
  const t = (x - p0) / (p1 - p0);
  return from.map((v, k) => v + t * (to[k] - v)) as [number, number, number];
}

/** OKLab to linear sRGB (Ottosson 2020), clipped to the gamut. */
export function oklab_to_linear([L, a, b]: readonly number[]): Rgb {
  const l = (L + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (L - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (L - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const clip = (v: number) => Math.min(1, Math.max(0, v));
  return [
    clip(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
    clip(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
    clip(-0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s),
  ];
}
export function linear_to_oklab([r, g, b]: readonly number[]): [number, number, number] {
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  return [
    0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s,
    1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s,
    0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s,
  ];
}
const encode = (v: number) => (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);

/** Linear sRGB of a pH. */
export const ph_linear = (ph: number): Rgb => oklab_to_linear(ph_oklab(ph));
/** sRGB of a pH, 0 to 255. */
export function ph_rgb(ph: number): Rgb {
  return ph_linear(ph).map((v) => Math.round(255 * encode(v))) as Rgb;
}
export function ph_css(ph: number): string {
  const [r, g, b] = ph_rgb(ph);
  return `rgb(${r}, ${g}, ${b})`;
}

/** One hue from paper to ink, for quantities that are not pH; 0 to 1. */
export function shade_css(part: number): string {
  const t = Math.min(Math.max(part, 0), 1);
  const [r, g, b] = oklab_to_linear([0.95 - 0.6 * t, -0.01 - 0.02 * t, -0.01 - 0.09 * t]).map((v) => Math.round(255 * encode(v)));
  return `rgb(${r}, ${g}, ${b})`;
}
