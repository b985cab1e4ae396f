import { readLength } from '@tubgap/units';
import type { Answers } from './answers.ts';
import { type AssumedItem, type CaseDraft, openDraft, standing, type ToldItem } from './case-draft.ts';
import { type Doubt, doubtsOf } from './doubts.ts';
import { fillCar } from './fill-car.ts';
import { fillTyre, tyreNames } from './fill-tyre.ts';
import type { KindOfCar } from './kind-ranges.ts';
import { distanceRow, likelyKind } from './kinds-of-car.ts';
import { tyreTable } from './tyre-table.ts';

/** What the answers come to. */
export interface InterviewedCase {
  /** The case file as plain values in its own form: text with units. It names `tubs.csv` and `tyres.csv`. */
  document: Record<string, unknown>;
  /** Text of the tyres' catalogue that the case names. */
  tyres: string;
  kind: { value: KindOfCar; told: boolean };
  told: ToldItem[];
  /** What stands in the case although nobody told it, then what its reader assumes beside that. */
  assumed: AssumedItem[];
  doubts: Doubt[];
  /** Text of the shop's priors that the case starts from; left out: the program's own. */
  book?: string;
  /** The tub that is in the car, as told; `withExisting` puts it into the case. */
  existing?: NonNullable<Answers['existing']>;
}

/** Runs that such a case allows: one round; cars that bear the usual risk of a season without weights. */
const DRAWS = 65_536;
const CARS = 512;

/** How much is simulated: no more cars than the runs are for, each a season on the tyre that runs most. */
function fillSample(draft: CaseDraft): void {
  const tyres = draft.document.tyres as readonly { runsPerSeason: number }[];
  const longest = Math.max(1, ...tyres.map(({ runsPerSeason }) => runsPerSeason));
  const cars = Math.max(1, Math.min(CARS, Math.floor(DRAWS / longest)));
  draft.assume(['simulation', 'draws'], DRAWS, 'enough for a first answer', 'judgement');
  const reason = `no more than ${DRAWS} runs give a season of ${longest} each`;
  draft.assume(['simulation', 'cars'], cars, reason, 'derived');
}

/** Name of a case for files and folders, from its title. */
const nameOf = (title: string): string =>
  title
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+/, '')
    .slice(0, 60)
    .replace(/-+$/, '') || UNNAMED;

const UNNAMED = 'from-a-call';

const kindOf = ({ kind, tyres, speed, distance }: Answers): KindOfCar =>
  kind ??
  likelyKind(
    tyres.map(({ build }) => build),
    speed.value,
    distance?.value,
  );

/** Length of the track, m: as told, or as is usual for the kind of car. */
export const distanceOf = (answers: Answers): number =>
  answers.distance?.value ?? readLength(String(distanceRow(kindOf(answers), answers.speed.value).value))!;

/**
 * The case that the answers come to: what was told in its place, a prior of the kind of car in every other that the case
 * file needs, the case file's own defaults for the rest. Its reader takes it without a fault.
 * Nothing is measured here: a case from a phone call is for a first answer, not for cutting.
 */
export function toCase(answers: Answers): InterviewedCase {
  const kind = kindOf(answers);
  const distance = distanceOf(answers);
  const draft = openDraft({
    name: nameOf(answers.title ?? ''),
    title: answers.title ?? 'From a phone call',
    catalogues: { tubs: 'tubs.csv', tyres: 'tyres.csv' },
    car: {},
    aero: {},
    suspension: {},
    build: {},
    run: {},
    tyres: [],
    tubs: 'all',
    accept: {},
  });
  fillCar(draft, answers, kind, distance);
  const names = tyreNames(answers.tyres);
  const rows = answers.tyres.map((its, i) => fillTyre(draft, its, i, answers, { kind, distance }, names[i]!));
  fillSample(draft);
  const constructions = rows.map(({ construction }) => construction);
  return {
    document: draft.document,
    tyres: tyreTable(rows),
    kind: { value: kind, told: answers.kind !== undefined },
    told: draft.told,
    assumed: [...draft.assumed, ...standing(draft, constructions)],
    doubts: doubtsOf(answers, distance),
    ...(answers.existing ? { existing: answers.existing } : {}),
  };
}
