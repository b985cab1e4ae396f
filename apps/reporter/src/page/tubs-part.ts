import { heightDots, type Markup, markup, type TubHeightDots } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { chanceText } from '@tubgap/units';
import { chosenPlaceText } from '../best-place.ts';
import { noHeightWord } from '../fit-words.ts';
import { tubNote } from '../no-tub.ts';
import { measuresOf } from './measures.ts';
import { type Cell, figure, table } from './parts.ts';

function tubTable(result: Result): Markup {
  const { length, both } = measuresOf(result);
  const ahead = result.build.staticGapAngles.findIndex((angle) => Math.abs(angle - Math.PI / 12) < 1e-6);
  return table({
    caption:
      'Every tub at its lowest top height for the accepted risks. The risks: surely no more often than (95 %).',
    look: 'noted',
    head: [
      { text: 'tub' },
      { text: 'inside', figure: true },
      { text: 'top at least', figure: true },
      { text: 'gap to see 15° ahead', figure: true },
      { text: 'run too close', figure: true },
      { text: 'run in contact', figure: true },
      { text: 'season', figure: true },
      { text: 'note' },
    ],
    rows: result.picks.map((pick, t) => {
      const { height } = pick;
      const note = tubNote(result, t);
      const figures: readonly string[] =
        height === undefined
          ? [noHeightWord(pick.verdict), '', '', '', '']
          : [
              both(height.topHeight, 'up'),
              length(height.staticGaps[ahead]!, 'up'),
              chanceText(height.runRisk.high),
              chanceText(height.contactRisk.high),
              chanceText(height.seasonRisk.high),
            ];
      return {
        chosen: t === result.chosen,
        cells: [
          { text: pick.tub },
          { text: length(result.tubs[t]!.diameter, 'down'), figure: true },
          ...figures.map((text) => ({ text, figure: true })),
          { text: note },
        ],
      };
    }),
  });
}

/** Lowest top height of each tyre alone, and of the whole car, a tub. */
const tubHeights = (result: Result): TubHeightDots[] =>
  result.picks.map((pick) => ({
    tub: pick.tub,
    alone: pick.alone.map((height) => height ?? undefined),
    together: pick.height?.topHeight,
  }));

function mixedClasses(result: Result): Markup {
  const { length, both } = measuresOf(result);
  const rows = tubHeights(result);
  const cell = (height: number | undefined): Cell => ({
    text: height === undefined ? 'none' : both(height, 'up'),
    figure: true,
  });
  const names = result.tyres.map((tyre) => tyre.name);
  return markup`<h3>Each tyre alone, and all together</h3>
<p>A car that runs several classes lives with the tyre that asks for the most. Where the other tyre’s mark stands far to the
left, that tyre has room to spare.</p>
${table({
  caption:
    'Lowest top height by tub, for the accepted risk of a run with each tyre alone, and for the whole car.',
  head: [
    { text: 'tub' },
    ...names.map((name) => ({ text: `${name} alone`, figure: true })),
    { text: 'all, and the season', figure: true },
  ],
  rows: rows.map((row, t) => ({
    chosen: t === result.chosen,
    cells: [{ text: row.tub }, ...row.alone.map(cell), cell(row.together)],
  })),
})}
${figure(
  heightDots({
    words: {
      id: 'heights',
      title: 'Lowest top height by tub and tyre',
      description: rows
        .map((row) => {
          const all = row.together === undefined ? 'no height' : length(row.together, 'up');
          return `${row.tub}: ${all} for the whole car`;
        })
        .join('; '),
    },
    units: result.case.units,
    tyres: names,
    rows,
    noneText: 'no height keeps the accepted risk',
  }),
  'Lowest top heights of the table above.',
)}`;
}

/** All tubs of the case side by side, and what each tyre would ask for. */
export function tubsPart(result: Result): Markup {
  const place = chosenPlaceText(result);
  return markup`${tubTable(result)}${
    place !== undefined && markup`<p>Place of the tub to build along the car: ${place}.</p>`
  }${mixedClasses(result)}`;
}
