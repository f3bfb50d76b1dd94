/** Colours of the map: seven classes, each in thirteen shades of relief, as one table. */

export const SHADES = 13;
const RELIEF = 0.03;

/** Bare land, then the classes, rising. Light darkens with field, dark brightens. */
export const RAMP = {
  light: ['#E3E6E1', '#E4BDDD', '#C893C5', '#A76CAF', '#844896', '#5E2A79', '#381255'],
  dark: ['#262D32', '#543775', '#784B9B', '#9B66BA', '#BB87CE', '#D8ACDF', '#EFD4ED'],
};

type Rgb = [number, number, number];

const rgb = (hex: string): Rgb => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16) / 255) as Rgb;
const toLinear = (c: number) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
const fromLinear = (c: number) => (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055);

/** A colour made lighter or darker in OKLab, hue and chroma kept. Björn Ottosson's matrices, 2020. */
export function lighter(hex: string, by: number): Rgb {
  const [r, g, b] = rgb(hex).map(toLinear) as Rgb;
  const l = Math.cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
  const m = Math.cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
  const s = Math.cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
  const L = 0.2104542553 * l + 0.793617785 * m - 0.0040720468 * s + by;
  const A = 1.9779984951 * l - 2.428592205 * m + 0.4505937099 * s;
  const B = 0.0259040371 * l + 0.7827717662 * m - 0.808675766 * s;
  const l3 = (L + 0.3963377774 * A + 0.2158037573 * B) ** 3;
  const m3 = (L - 0.1055613458 * A - 0.0638541728 * B) ** 3;
  const s3 = (L - 0.0894841775 * A - 1.291485548 * B) ** 3;
  const out = [
    4.0767416621 * l3 - 3.3077115913 * m3 + 0.2309699292 * s3,
    -1.2684380046 * l3 + 2.6097574011 * m3 - 0.3413193965 * s3,
    -0.0041960863 * l3 - 0.7034186147 * m3 + 1.707614701 * s3,
  ];
  return out.map((c) => Math.round(Math.min(1, Math.max(0, fromLinear(Math.max(0, c)))) * 255)) as Rgb;
}

/** Class by class, shade by shade, as pixels of a canvas (red first in memory). */
export function table(dark: boolean): Uint32Array {
  const colours = dark ? RAMP.dark : RAMP.light;
  const out = new Uint32Array(colours.length * SHADES);
  colours.forEach((hex, i) => {
    for (let shade = 0; shade < SHADES; shade++) {
      const [r, g, b] = lighter(hex, (shade / (SHADES - 1) - 0.5) * 2 * RELIEF);
      out[i * SHADES + shade] = ((255 << 24) | (b << 16) | (g << 8) | r) >>> 0;
    }
  });
  return out;
}

/** The colour of a class without relief. */
export function classColour(index: number, dark: boolean): string {
  return (dark ? RAMP.dark : RAMP.light)[index] ?? 'none';
}
