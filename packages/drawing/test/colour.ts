/** Colours as eyes see them: light, Lab, differences, and what the colour-blind and a copier make of them. */

export type Triple = readonly [number, number, number];

/** Linear light of an sRGB colour '#rrggbb', each 0 to 1 (IEC 61966-2-1, the threshold as WCAG 2.1 prints it). */
export function linear(colour: string): Triple {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return share <= 0.03928 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  });
  return [red!, green!, blue!];
}

/** sRGB's primaries in CIE XYZ, D65 (IEC 61966-2-1; more digits from memory); the middle row is WCAG's luminance. */
const XYZ: readonly Triple[] = [
  [0.4124564, 0.3575761, 0.1804375],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339, 0.119192, 0.9503041],
];

/**
 * Dichromacy at full severity, on linear sRGB: Machado, Oliveira and Fernandes, "A physiologically-based model for
 * simulation of color vision deficiency", 2009.
 */
const DICHROMACY: Readonly<Record<'protan' | 'deutan' | 'tritan', readonly Triple[]>> = {
  protan: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deutan: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritan: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
};

const times = (rows: readonly Triple[], [a, b, c]: Triple): Triple => {
  const [x, y, z] = rows.map(([p, q, r]) => p * a + q * b + r * c);
  return [x!, y!, z!];
};

export const luminance = (light: Triple): number => times(XYZ, light)[1];

/** How a kind of eye, or a copier without colours, sees light. */
export const SEEN: Readonly<Record<string, (light: Triple) => Triple>> = {
  normal: (light) => light,
  grey: (light) => [luminance(light), luminance(light), luminance(light)],
  ...Object.fromEntries(
    Object.entries(DICHROMACY).map(([kind, rows]) => [
      kind,
      (light: Triple): Triple => {
        const [red, green, blue] = times(rows, light).map((part) => Math.min(1, Math.max(0, part)));
        return [red!, green!, blue!];
      },
    ]),
  ),
};

/** CIE 1976 L*a*b* against the white of sRGB. */
export function lab(light: Triple): Triple {
  const white = times(XYZ, [1, 1, 1]);
  const [x, y, z] = times(XYZ, light).map((part, i) => {
    const share = part / white[i]!;
    return share > 216 / 24389 ? Math.cbrt(share) : ((24389 / 27) * share + 16) / 116;
  });
  return [116 * y! - 16, 500 * (x! - y!), 200 * (y! - z!)];
}

const RAD = Math.PI / 180;

/** Colour difference CIEDE2000 (CIE 142-2001) as Sharma, Wu and Dalal write it out, 2005; kL = kC = kH = 1. */
export function ciede2000([l1, a1, b1]: Triple, [l2, a2, b2]: Triple): number {
  const seventh = (chroma: number): number => Math.sqrt(chroma ** 7 / (chroma ** 7 + 25 ** 7));
  const g = 0.5 * (1 - seventh(0.5 * (Math.hypot(a1, b1) + Math.hypot(a2, b2))));
  const [c1, c2] = [Math.hypot((1 + g) * a1, b1), Math.hypot((1 + g) * a2, b2)];
  const hue = (a: number, b: number): number => (Math.atan2(b, (1 + g) * a) / RAD + 360) % 360;
  const [h1, h2] = [hue(a1, b1), hue(a2, b2)];
  const far = Math.abs(h2 - h1) > 180;
  const none = c1 * c2 === 0;
  const turn = none ? 0 : h2 - h1 + (far ? (h2 > h1 ? -360 : 360) : 0);
  const middle = none ? h1 + h2 : 0.5 * (h1 + h2 + (far ? (h1 + h2 < 360 ? 360 : -360) : 0));
  const chroma = 0.5 * (c1 + c2);
  const light = (0.5 * (l1 + l2) - 50) ** 2;
  const t =
    1 -
    0.17 * Math.cos((middle - 30) * RAD) +
    0.24 * Math.cos(2 * middle * RAD) +
    0.32 * Math.cos((3 * middle + 6) * RAD) -
    0.2 * Math.cos((4 * middle - 63) * RAD);
  const rotation = -Math.sin(60 * Math.exp(-(((middle - 275) / 25) ** 2)) * RAD) * 2 * seventh(chroma);
  const dl = (l2 - l1) / (1 + (0.015 * light) / Math.sqrt(20 + light));
  const dc = (c2 - c1) / (1 + 0.045 * chroma);
  const dh = (2 * Math.sqrt(c1 * c2) * Math.sin(0.5 * turn * RAD)) / (1 + 0.015 * chroma * t);
  return Math.sqrt(dl ** 2 + dc ** 2 + dh ** 2 + rotation * dc * dh);
}

/** Contrast ratio of two colours, 1 to 21 (WCAG 2.1). */
export function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(linear(one)), luminance(linear(other))].sort((a, b) => b - a);
  return (light! + 0.05) / (dark! + 0.05);
}

/** Distance of two colours to a kind of eye. */
export const apart = (one: string, other: string, kind: string): number =>
  ciede2000(lab(SEEN[kind]!(linear(one))), lab(SEEN[kind]!(linear(other))));
