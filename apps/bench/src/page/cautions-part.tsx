import type { Case } from '@tubgap/casefile';
import {
  type Caution,
  envelopeRoom,
  type RunPlace,
  shareInTheWay,
  sideFaults,
  sidesInTheWay,
  sideWords,
  tubReach,
} from '@tubgap/simulation';
import { chanceText } from '@tubgap/units';
import type { Known } from './estimate.ts';
import { lengthText, type Units } from './words.ts';

/** What stands against the tub in hand whatever the risk says: its sides, the room on the car, what it is thought to touch. */
export function placeProblems(source: Case, { tub: t, topHeight, setup }: RunPlace, units: Units): string[] {
  const tub = source.tubs[t]!;
  const sides = sideFaults(source, tub);
  const reach = tubReach({ ...tub, halfExtent: 0.5 * tub.arcExtent }, topHeight, source.envelope.lowestLeg);
  const room = envelopeRoom(source.envelope, reach);
  const sidesOfCar = { above: 'above', ahead: 'in front', behind: 'behind' } as const;
  const short = (Object.keys(sidesOfCar) as (keyof typeof sidesOfCar)[]).flatMap((side) => {
    const left = room[side];
    return left !== undefined && left < -1e-9
      ? [`The car lacks ${lengthText(-left, 'up', units)} of room ${sidesOfCar[side]} this tub.`]
      : [];
  });
  const lowest = setup.lowestHeights[t]!;
  return [
    ...(sides.length === 0 ? [] : [`${tub.name}: ${sideWords(sides)}.`]),
    ...short,
    ...(topHeight < lowest - 1e-9
      ? [
          `At this height the tyre touches standing still; risks are those of ${lengthText(lowest, 'up', units)}, the lowest that clears.`,
        ]
      : []),
  ];
}

/** What no height takes away, hard points, and the tub's sides that runs reach. */
export function wallProblems(source: Case, { runs }: Known): string[] {
  if (runs === undefined) return [];
  const { hardTouches } = runs.tally;
  const { runRisk } = source.accept;
  const points = source.hardPoints.flatMap(({ name }, h) => {
    const share = shareInTheWay(hardTouches[h]!, runs.tally, runRisk);
    return share > 0 ? [`${name} in ${chanceText(share)} runs`] : [];
  });
  const beside = sidesInTheWay(runs.tally, 0, runRisk);
  return [
    ...(points.length === 0
      ? []
      : [`Raising the tub does not help: the tyre comes too close to ${points.join(' and ')}.`]),
    ...(beside > 0
      ? [
          `The tub is narrow for this tyre: in ${chanceText(beside)} runs it comes too close to the sides, which only ends above the tyre’s shoulders mend.`,
        ]
      : []),
  ];
}

/** Cautions that an input of the case brings about, and not the model as such: they stand beside the risk. */
const OF_INPUTS: readonly Caution['code'][] = [
  'standing-waves',
  'front-wheels',
  'trap-speed',
  'launch-grip',
  'power',
];

/** What of a case lies beyond what the model knows. */
export const beyondModel = (cautions: readonly Caution[]): Caution[] =>
  cautions.filter(({ code }) => OF_INPUTS.includes(code));

/** What the numbers do not know, and what the case reader had to say. */
export function CautionsPart({ source, cautions }: { source: Case; cautions: readonly Caution[] }) {
  return (
    <ul>
      {cautions.map(({ code, text }) => (
        <li key={`${code} ${text}`}>{text}</li>
      ))}
      {source.warnings.map((issue) => (
        <li key={issue.message}>{`${issue.path}: ${issue.message}`}</li>
      ))}
      <li>
        Not in the model: tyre shake, a wheel-stand’s landing, a flat or burst tyre, flex of the tub under
        air, steering, a car out of the groove, the stretch of new slicks.
      </li>
    </ul>
  );
}
