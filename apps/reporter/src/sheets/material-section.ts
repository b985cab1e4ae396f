import { panelMass } from '@tubgap/core';
import { type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { angleHeading, FOOT, INCH, onTape, POUND, sixteenths } from '@tubgap/units';
import { type ChosenTub, RETURN, tubMaterial } from './chosen-tub.ts';
import { flatLengths } from './notch-flats.ts';
import { sheetTable } from './sheet-page.ts';

/** Left on each end of the skin until it is fitted. Common practice, no source. */
const TRIM = INCH / 2;

/** Tenths, rounded up: a weight or an area is never said smaller than it is. */
const tenthsUp = (value: number): string => (Math.ceil(value * 10 - 1e-9) / 10).toFixed(1);
const areaText = (squareMetres: number): string => `${tenthsUp(squareMetres / FOOT ** 2)} sq ft`;
const weightText = (kilograms: number): string => `${tenthsUp(kilograms / POUND)} lb`;

/** Flats that close the notches, each as far as the next one leaves it. */
function notchRows(tub: ChosenTub['tub']): { cells: string[] }[] {
  const lengths = flatLengths(tub);
  return tub.notches.map(({ angle, depth }, i) => {
    const chord = lengths[i]!;
    const size =
      chord === 0
        ? 'none: the flats beside it leave nothing of it'
        : `${sixteenths(chord, 'up')} × ${sixteenths(tub.insideWidth, 'up')}, no more than ${sixteenths(depth, 'down')} inside the arc`;
    return {
      cells: [
        `notch flat, ${angleHeading(angle)}`,
        chord === 0 ? '0' : '1',
        size,
        areaText(chord * tub.insideWidth),
        weightText(panelMass(chord * tub.insideWidth, tub.arealDensity)),
      ],
    };
  });
}

/** How deep each notch could be at the pick, as far as the result says. */
function notchText(notches: Result['notches']): string {
  const texts = (notches ?? []).map(
    ({ angle, deepest, height }) =>
      ` The notch ${angleHeading(angle)} costs ${height > 1e-6 ? `${sixteenths(height, 'up')} of` : 'no'} height; at the least height it may be ${sixteenths(deepest, 'down')} deep.`,
  );
  return texts.join('');
}

/** What is cut for one tub: lengths up, trim marked; areas and weights up. */
export function materialSection(result: Result, { tub, reach }: ChosenTub): Markup {
  const found = tubMaterial(tub, reach.legTrim);
  const { developedLength, jointLength } = found;
  const cut = onTape(developedLength + 2 * TRIM, 'up');
  const density = (tub.arealDensity / POUND) * FOOT ** 2;
  const by = (a: number, b: number): string => `${sixteenths(a, 'up')} × ${sixteenths(b, 'up')}`;
  const rows = [
    {
      cells: [
        'skin, arc and legs',
        '1',
        `${by(developedLength, tub.insideWidth)} finished; cut ${sixteenths(cut, 'up')} long, trim lines ${sixteenths(TRIM, 'down')} from each end`,
        areaText(found.skinArea),
        weightText(found.skinMass),
      ],
    },
    {
      cells: [
        'inner end panel, flat',
        '1',
        `${by(found.endWidth, found.endHeight)} over all; arc of ${sixteenths(0.5 * tub.diameter, 'nearest')} radius`,
        areaText(found.endArea),
        weightText(found.endMass),
      ],
    },
    {
      cells: [
        'return round the open outer side',
        '1',
        `${by(jointLength, RETURN)}, flanged or bonded on`,
        areaText(found.returnArea),
        weightText(found.returnMass),
      ],
    },
    {
      cells: ['core strip along the joint', '2', `${sixteenths(jointLength, 'up')} long`, '', ''],
    },
    ...notchRows(tub),
    {
      cells: [
        'one tub, skin, end and return',
        '',
        '',
        areaText(found.skinArea + found.endArea + found.returnArea),
        weightText(found.skinMass + found.endMass + found.returnMass),
      ],
      main: true,
    },
  ];
  const legs = sixteenths(tub.legLength - reach.legTrim, reach.legTrim > 0 ? 'down' : 'nearest');
  return markup`${sheetTable(
    `Skin ${(tub.skinThickness / INCH).toFixed(3)} in, ${density.toFixed(2)} lb per sq ft for all of it: the catalogue’s, put in the shop’s own. A flat length is taken along the middle of the skin.`,
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
      ? `Trim each leg by ${sixteenths(reach.legTrim, 'up')}, to ${legs}: it then ends ${sixteenths(reach.legEnd, 'up')} above the track, where the car ends it.`
      : `Legs ${legs} long, their ends ${sixteenths(reach.legEnd, 'down')} above the track.`
  }${notchText(result.notches)}</p>`;
}
