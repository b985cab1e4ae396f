import { panelMass } from '@tubgap/core';
import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { angleHeading, type Figures, FOOT, INCH, POUND } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { type ChosenTub, RETURN, tubMaterial } from './chosen-tub.ts';
import { flatLengths } from './notch-flats.ts';
import { sheetTable } from './sheet-page.ts';

/** Left on each end of the skin until it is fitted. Common practice, no source. */
const TRIM = INCH / 2;

/** Rounded up to so many digits: a weight or an area is never said smaller than it is. */
const upTo = (digits: number, value: number): string =>
  (Math.ceil(value * 10 ** digits - 1e-9) / 10 ** digits).toFixed(digits);
/** Area and weight in the units of the case; areas of square metres want hundredths. */
const areaText = (squareMetres: number, { units }: Figures): string =>
  units === 'mm' ? `${upTo(2, squareMetres)} m²` : `${upTo(1, squareMetres / FOOT ** 2)} sq ft`;
const weightText = (kilograms: number, { units }: Figures): string =>
  units === 'mm' ? `${upTo(1, kilograms)} kg` : `${upTo(1, kilograms / POUND)} lb`;

/** Flats that close the notches, each as far as the next one leaves it. */
function notchRows(tub: ChosenTub['tub'], figures: Figures): { cells: string[] }[] {
  const { length } = figures;
  const lengths = flatLengths(tub);
  return tub.notches.map(({ angle, depth }, i) => {
    const chord = lengths[i]!;
    const size =
      chord === 0
        ? 'none: the flats beside it leave nothing of it'
        : `${length(chord, 'up')} × ${length(tub.insideWidth, 'up')}, no more than ${length(depth, 'down')} inside the arc`;
    return {
      cells: [
        `notch flat, ${angleHeading(angle)}`,
        chord === 0 ? '0' : '1',
        size,
        areaText(chord * tub.insideWidth, figures),
        weightText(panelMass(chord * tub.insideWidth, tub.arealDensity), figures),
      ],
    };
  });
}

/** How deep each notch could be at the pick, as far as the result says. */
function notchText(result: Result): string {
  const { length } = figuresOf(result);
  const texts = (result.notches ?? []).map(
    ({ angle, deepest, height }) =>
      ` The notch ${angleHeading(angle)} costs ${height > 1e-6 ? `${length(height, 'up')} of` : 'no'} height; at the least height it may be ${length(deepest, 'down')} deep.`,
  );
  return texts.join('');
}

/** What is cut for one tub: lengths up, trim marked; areas and weights up. */
export function materialSection(result: Result, { tub, reach }: ChosenTub): Markup {
  const figures = figuresOf(result);
  const { length, onTape } = figures;
  const found = tubMaterial(tub, reach.legTrim);
  const { developedLength, jointLength } = found;
  const cut = onTape(developedLength + 2 * TRIM, 'up');
  const density =
    figures.units === 'mm'
      ? `${(tub.skinThickness * 1000).toFixed(2)} mm, ${tub.arealDensity.toFixed(2)} kg per m²`
      : `${(tub.skinThickness / INCH).toFixed(3)} in, ${((tub.arealDensity / POUND) * FOOT ** 2).toFixed(2)} lb per sq ft`;
  const by = (a: number, b: number): string => `${length(a, 'up')} × ${length(b, 'up')}`;
  const rows = [
    {
      cells: [
        'skin, arc and legs',
        '1',
        `${by(developedLength, tub.insideWidth)} finished; cut ${length(cut, 'up')} long, trim lines ${length(TRIM, 'down')} from each end`,
        areaText(found.skinArea, figures),
        weightText(found.skinMass, figures),
      ],
    },
    {
      cells: [
        'inner end panel, flat',
        '1',
        `${by(found.endWidth, found.endHeight)} over all; arc of ${length(0.5 * tub.diameter, 'nearest')} radius`,
        areaText(found.endArea, figures),
        weightText(found.endMass, figures),
      ],
    },
    {
      cells: [
        'return round the open outer side',
        '1',
        `${by(jointLength, RETURN)}, flanged or bonded on`,
        areaText(found.returnArea, figures),
        weightText(found.returnMass, figures),
      ],
    },
    {
      cells: ['core strip along the joint', '2', `${length(jointLength, 'up')} long`, '', ''],
    },
    ...notchRows(tub, figures),
    {
      cells: [
        'one tub, skin, end and return',
        '',
        '',
        areaText(found.skinArea + found.endArea + found.returnArea, figures),
        weightText(found.skinMass + found.endMass + found.returnMass, figures),
      ],
      main: true,
    },
  ];
  const legs = length(tub.legLength - reach.legTrim, reach.legTrim > 0 ? 'down' : 'nearest');
  return markup`${sheetTable(
    `Skin ${density} for all of it: the catalogue’s, put in the shop’s own. A flat length is taken along the middle of the skin.`,
    [
      { text: 'piece' },
      { text: 'pieces', kind: 'n' },
      { text: 'size' },
      { text: 'area', kind: 'n' },
      { text: 'weight', kind: 'n' },
    ],
    rows,
  )}
<p>${
    reach.legTrim > 0
      ? `Trim each leg by ${length(reach.legTrim, 'up')}, to ${legs}: it then ends ${length(reach.legEnd, 'up')} above the track, where the car ends it.`
      : `Legs ${legs} long, their ends ${length(reach.legEnd, 'down')} above the track.`
  }${notchText(result)}</p>`;
}
