import { type Markup, markup } from '@tubgap/drawing';
import { limitsOf, type Result } from '@tubgap/results';
import { angleWords, chanceText, noneOf, percentText, rareRun, whole } from '@tubgap/units';
import { BOUND } from '@tubgap/wording';
import { figuresOf } from '../figures-of.ts';
import { decidingPoints, type HardFigures, hardSights } from '../hard-points/hard-sight.ts';
import { moveWords } from '../hard-points/hard-words.ts';
import { limitText } from '../sheets/lengths.ts';
import { measuresOf } from './measures.ts';
import { list, table } from './parts.ts';

/** How often something surely is at the most; where nothing was seen it is only known to be less. */
const worst = ({ estimate, high }: HardFigures['risk']): string =>
  estimate === 0 ? `under ${chanceText(high)}` : chanceText(high);

/** A share of the touches at the pick. */
const part = (share: number): string => (share <= 0 ? 'none' : whole(percentText(share)));

/** How many runs stand behind the bounds where none came too close. */
function nothingSeen(result: Result): string {
  const rows = result.hardPointFigures.flat().filter(({ risk }) => risk.estimate === 0);
  return rows.length === 0
    ? ''
    : `Where a risk is only said to be under something, ${noneOf(rows[0]!.risk.events, 'run')} came too close. `;
}

/** The part of a point in all touches: as a whole, and how much of it is its own where both are worth telling. */
function partText({ alone, together }: NonNullable<HardFigures['atPick']>): string {
  const all = part(Math.min(1, alone + together));
  return alone + together < 0.01 ? all : `${all}, ${part(alone)} alone`;
}

/** Each hard point with its own gap, limit and risk, tyre by tyre; undefined when the case has none. */
export function hardPointsPart(result: Result): Markup | undefined {
  const { length, both } = measuresOf(result);
  const sights = hardSights(result);
  if (sights.length === 0) return undefined;
  const picked = result.chosen ?? result.nearest;
  const { build } = result;
  const ofTyres = result.tyres.map((tyre) => limitsOf(result, tyre.name));
  const isOneGap = ofTyres.every(({ reserve }) => reserve === build.reserve);
  const left = (gap: number): string => whole(figuresOf(result).gapLeft(gap));
  const rareText = (rare: number | null, tyre: number): string => {
    const { runRisk } = ofTyres[tyre]!;
    const own = runRisk === result.accept.runRisk ? '' : `, ${rareRun(runRisk)}`;
    return rare === null ? 'not known' : `${left(rare)}${own}`;
  };
  return markup`<p>A hard point is fixed to the car: raising the tub does not move it, so its risk is the same in every tub at every height.
Where it is too large, the point has to move.</p>
${list(decidingPoints(result).map((sight) => markup`<b>${moveWords(result, sight)}.</b>`))}
${table({
  caption: `To measure standing on ${build.tyre} at the build pressure: the shortest way from the tyre to the point.`,
  head: [
    { text: 'hard point' },
    { text: 'gap to see', figure: true },
    { text: 'passes at', figure: true },
    { text: 'nearest place of the tyre' },
  ],
  rows: sights.map((sight) => ({
    cells: [
      { text: sight.name },
      { text: both(sight.atRest, 'up'), figure: true },
      { text: limitText(sight.limit, figuresOf(result)), figure: true },
      { text: angleWords(sight.atRestAngle) },
    ],
  })),
})}
${table({
  caption: `What each tyre does there, before the ${isOneGap ? length(build.reserve, 'up') : 'gap'} to be kept is taken off (* ${BOUND}).`,
  look: 'noted',
  head: [
    { text: 'hard point' },
    { text: 'tyre' },
    { text: 'left in an ordinary run', figure: true },
    { text: `${rareRun(result.accept.runRisk)} leaves`, figure: true },
    { text: 'run too close*', figure: true },
    { text: 'run in contact*', figure: true },
    ...(picked === null ? [] : [{ text: 'part in all runs too close', figure: true }]),
    { text: 'tightest' },
  ],
  rows: result.hardPoints.flatMap(({ name }, h) =>
    (result.hardPointFigures[h] ?? []).map((row, i) => ({
      cells: [
        { text: name },
        { text: result.tyres[i]!.name },
        { text: left(row.p50), figure: true },
        { text: rareText(row.rare, i), figure: true },
        { text: worst(row.risk), figure: true },
        { text: worst(row.contact), figure: true },
        ...(row.atPick === null || picked === null ? [] : [{ text: partText(row.atPick), figure: true }]),
        { text: `${row.tightestMoment}, ${angleWords(row.tightestAngle)}` },
      ],
    })),
  ),
})}
<p>${nothingSeen(result)}A point passes as long as it takes no more than a tenth of the accepted risk of a run, so that it hardly moves the pick.</p>`;
}
