import type { Result } from '@tubgap/results';
import type { Figures, QuantityKind } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';

type Input = Result['inputs'][number];

/** A length on the marks of a tape where it is there, else in decimals. */
function lengthText(metres: number, { length, onTape, exact }: Figures): string {
  const taped = onTape(metres, 'nearest');
  return Math.abs(taped - metres) < 1e-6 ? length(metres, 'nearest') : exact(metres, 'length');
}

/** A value in the words of its kind. */
const valueText = (value: number, kind: string, figures: Figures): string =>
  kind === 'length' ? lengthText(value, figures) : figures.exact(value, kind as QuantityKind);

/** A difference in the words of its kind: '+10 mph', '1/2 in less'. */
function differenceText(difference: number, kind: string, figures: Figures): string {
  const own = kind === 'temperature' ? 'temperature difference' : kind;
  const size = valueText(Math.abs(difference), own, figures);
  if (kind === 'length') return `${size} ${difference > 0 ? 'more' : 'less'}`;
  return `${difference > 0 ? '+' : '−'}${size}`;
}

/** One change of the case from the old result to the new: what a headline says, and in full. */
export interface Change {
  short: string;
  full: string;
}

/** An input is the same one in both results when tyre and field are, whatever the order of the tyres. */
const keyOf = (input: Input): string => `${input.tyre}\n${input.path.replace(/^tyres\[\d+\]/, 'tyres[]')}`;

const nameOf = (input: Input): string =>
  input.tyre === '' ? input.label : `${input.label} of ${input.tyre}`;

const SOURCES: Readonly<Record<Input['source'], string>> = {
  case: 'from the case',
  catalogue: 'from the catalogue',
  assumed: 'assumed',
};

/** Middles closer than this share of their size are the same number. */
const SAME = 1e-9;

function inputChange(before: Input, after: Input, figures: Figures): Change | undefined {
  const source =
    before.source === after.source ? '' : `; now ${SOURCES[after.source]}, was ${SOURCES[before.source]}`;
  const shown = (input: Input): string => figures.wordsOf(input.shown, input.kind);
  const full = `${nameOf(after)}: ${shown(after)}; was ${shown(before)}${source}`;
  const difference = after.middle - before.middle;
  const moved = Math.abs(difference) > SAME * Math.max(Math.abs(after.middle), Math.abs(before.middle));
  if (before.kind !== after.kind) return { short: `${nameOf(after)} given otherwise`, full };
  if (moved) return { short: `${nameOf(after)} ${differenceText(difference, after.kind, figures)}`, full };
  if (before.shown !== after.shown) return { short: `another spread of ${nameOf(after)}`, full };
  if (source !== '') return { short: `${nameOf(after)} ${SOURCES[after.source]}`, full };
  return undefined;
}

function inputChanges(before: Result, after: Result): Change[] {
  const old = new Map(before.inputs.map((input) => [keyOf(input), input]));
  return after.inputs.flatMap((input) => {
    const former = old.get(keyOf(input));
    return (former === undefined ? undefined : inputChange(former, input, figuresOf(after))) ?? [];
  });
}

/** Names that came and went, and those that stayed. */
function listChanges(what: string, before: readonly string[], after: readonly string[]): Change[] {
  const named =
    (verb: string) =>
    (name: string): Change => ({ short: `${what} ${name} ${verb}`, full: `${what} ${name} ${verb}` });
  return [
    ...after.filter((name) => !before.includes(name)).map(named('added')),
    ...before.filter((name) => !after.includes(name)).map(named('left out')),
  ];
}

/** An exact number that may have changed; absent numbers are null. */
function numberChange(
  figures: Figures,
  name: string,
  kind: string,
  before: number | null,
  after: number | null,
): Change[] {
  if (
    before === after ||
    (before !== null && after !== null && Math.abs(after - before) <= SAME * Math.abs(after))
  )
    return [];
  if (before === null)
    return [{ short: `${name} given`, full: `${name}: ${valueText(after!, kind, figures)}; was not given` }];
  if (after === null)
    return [
      {
        short: `${name} no longer given`,
        full: `${name}: no longer given; was ${valueText(before, kind, figures)}`,
      },
    ];
  return [
    {
      short: `${name} ${differenceText(after - before, kind, figures)}`,
      full: `${name}: ${valueText(after, kind, figures)}; was ${valueText(before, kind, figures)}`,
    },
  ];
}

const LIMITS = {
  highestTop: 'limit of the car above',
  lowestLeg: 'limit of the car for the legs',
  furthestAhead: 'limit of the car ahead',
  furthestBehind: 'limit of the car behind',
} as const;

function settingChanges(before: Result, after: Result): Change[] {
  const figures = figuresOf(after);
  const length = 'length';
  const tyreName =
    before.build.tyre === after.build.tyre
      ? []
      : [
          {
            short: `built on ${after.build.tyre}`,
            full: `build tyre: ${after.build.tyre}; was ${before.build.tyre}`,
          },
        ];
  const measured = ({ build }: Result): number | null => (build.axleHeightMeasured ? build.axleHeight : null);
  return [
    ...tyreName,
    ...numberChange(figures, 'build pressure', 'pressure', before.build.pressure, after.build.pressure),
    ...numberChange(figures, 'measured axle height', length, measured(before), measured(after)),
    ...numberChange(figures, 'reserve', length, before.build.reserve, after.build.reserve),
    ...numberChange(figures, 'track', length, before.track.distance, after.track.distance),
    ...numberChange(
      figures,
      'chance of grip lost',
      'ratio',
      before.track.gripLostChance,
      after.track.gripLostChance,
    ),
    ...numberChange(figures, 'accepted risk of a run', 'ratio', before.accept.runRisk, after.accept.runRisk),
    ...numberChange(
      figures,
      'accepted risk of a season',
      'ratio',
      before.accept.seasonRisk,
      after.accept.seasonRisk,
    ),
    ...(Object.keys(LIMITS) as (keyof typeof LIMITS)[]).flatMap((limit) =>
      numberChange(
        figures,
        LIMITS[limit],
        length,
        before.envelope[limit] ?? null,
        after.envelope[limit] ?? null,
      ),
    ),
  ];
}

const SIZES = [
  ['diameter', 'inside diameter', 'length'],
  ['liner', 'liner', 'length'],
  ['insideWidth', 'inside width', 'length'],
  ['centreForward', 'centre ahead of the axle', 'length'],
  ['halfExtent', 'half of the arc', 'angle'],
  ['legLength', 'legs', 'length'],
] as const;

function tubChanges(before: Result, after: Result): Change[] {
  const figures = figuresOf(after);
  return after.tubs.flatMap((tub) => {
    const former = before.tubs.find((other) => other.name === tub.name);
    if (former === undefined) return [];
    return SIZES.flatMap(([field, words, kind]) =>
      numberChange(figures, `${words} of tub ${tub.name}`, kind, former[field], tub[field]),
    );
  });
}

function tyreChanges(before: Result, after: Result): Change[] {
  const figures = figuresOf(after);
  return after.tyres.flatMap((tyre): Change[] => {
    const former = before.tyres.find((other) => other.name === tyre.name);
    if (former === undefined) return [];
    const condition =
      former.condition === tyre.condition
        ? []
        : [
            {
              short: `${tyre.name} ${tyre.condition}`,
              full: `condition of ${tyre.name}: ${tyre.condition}; was ${former.condition}`,
            },
          ];
    return [
      ...condition,
      ...numberChange(
        figures,
        `runs a season on ${tyre.name}`,
        'ratio',
        former.runsPerSeason,
        tyre.runsPerSeason,
      ),
    ];
  });
}

function hardPointChanges(before: Result, after: Result): Change[] {
  return after.hardPoints.flatMap((point): Change[] => {
    const former = before.hardPoints.find((other) => other.name === point.name);
    if (former === undefined || JSON.stringify(former) === JSON.stringify(point)) return [];
    const words = `${point.name} moved or reshaped`;
    return [{ short: words, full: words }];
  });
}

const names = (list: readonly { name: string }[]): string[] => list.map(({ name }) => name);

/** Everything of the case that is other in the new result, in the order in which a shop thinks of it. */
export function caseChanges(before: Result, after: Result): Change[] {
  return [
    ...inputChanges(before, after),
    ...settingChanges(before, after),
    ...listChanges('tyre', names(before.tyres), names(after.tyres)),
    ...tyreChanges(before, after),
    ...listChanges('tub', names(before.tubs), names(after.tubs)),
    ...tubChanges(before, after),
    ...listChanges('hard point', names(before.hardPoints), names(after.hardPoints)),
    ...hardPointChanges(before, after),
  ];
}
