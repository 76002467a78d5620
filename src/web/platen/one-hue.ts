/** Scales of one hue, light to dark, so that they read without telling colours apart; fixed, as a picture is. */
const scales = {
  /** Cool to hot. */
  warmth: ['#f8ecdd', '#e9c49c', '#cf8c57', '#a3562c', '#642b16'],
  /** None to much. */
  difference: ['#f3f6f8', '#c3d6e1', '#8bafc4', '#4d7a95', '#1f3d50'],
} as const;
export type HueScale = keyof typeof scales;

type Rgb = readonly [number, number, number];
const parse = (hex: string): Rgb => [
  Number.parseInt(hex.slice(1, 3), 16),
  Number.parseInt(hex.slice(3, 5), 16),
  Number.parseInt(hex.slice(5, 7), 16),
];

/** Colour of a share 0..1 of the scale; outside it is the end's. */
export function shadeRgb(scale: HueScale, share: number): Rgb {
  const stops = scales[scale];
  const at = Math.min(1, Math.max(0, share)) * (stops.length - 1);
  const i = Math.min(stops.length - 2, Math.floor(at));
  const [from, to] = [parse(stops[i] ?? '#000000'), parse(stops[i + 1] ?? '#000000')];
  return [0, 1, 2].map((c) => Math.round((from[c] ?? 0) + (at - i) * ((to[c] ?? 0) - (from[c] ?? 0)))) as [
    number,
    number,
    number,
  ];
}

export const shade = (scale: HueScale, share: number): string => `rgb(${shadeRgb(scale, share).join(' ')})`;
export const gradient = (scale: HueScale): string => `linear-gradient(90deg, ${scales[scale].join(', ')})`;

/** Relative luminance of an sRGB colour and contrast of two (WCAG 2.2, definitions). */
const luminance = (rgb: Rgb): number => {
  const [r = 0, g = 0, b = 0] = rgb.map((byte) => {
    const v = byte / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
export const contrast = (one: Rgb, two: Rgb): number => {
  const [light, dark] = [luminance(one), luminance(two)].sort((a, b) => b - a) as [number, number];
  return (light + 0.05) / (dark + 0.05);
};

const dark: Rgb = [0, 0, 0];
const white: Rgb = [255, 255, 255];
/** Dark or white, whichever stands out more on that share of the scale. */
export function inkOn(scale: HueScale, share: number): string {
  const ground = shadeRgb(scale, share);
  return contrast(ground, dark) >= contrast(ground, white) ? '#000' : '#fff';
}
