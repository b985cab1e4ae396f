import type { LargestTyre, Limit, Standing } from '@tubgap/simulation';
import { figuresIn, formatQuantity, type LengthUnits, type Rounding, shownLength } from '@tubgap/units';
import type { ReportLine } from './verdict.ts';

type Told = Pick<Limit, 'kind' | 'unit'>;

/** A value of a limit in the unit that the case uses for it. */
const valueWords = ({ kind, unit }: Told, value: number, rounding: Rounding = 'nearest'): string => {
  if (unit === 'in') return shownLength(value, rounding).inch;
  if (unit === 'mm') return shownLength(value, rounding).mm;
  return formatQuantity(value, kind, unit === '' ? undefined : unit);
};

/** What is asked of a number, with its limit in it. */
const ASKED: Readonly<
  Record<Limit['code'], { label: string; mend: (value: string, tyre: string) => string }>
> = {
  speed: { label: 'Speed', mend: (value) => `cross the line at no more than ${value}` },
  launch: { label: 'Launch', mend: (value) => `launch at no more than ${value}` },
  pressure: { label: 'Pressure', mend: (value, label) => `${label} of ${value} or more` },
  spring: { label: 'Springs', mend: (value) => `a wheel rate of ${value} or more` },
  stop: { label: 'Stop', mend: (value) => `a stop that adds ${value} or more` },
  travel: { label: 'Travel', mend: (value) => `no more than ${value} of bump travel` },
  mass: { label: 'Weight', mend: (value) => `a car of no more than ${value}` },
  reserve: { label: 'To be kept', mend: (value) => `no more than ${value} to be kept` },
  diameter: { label: 'Diameter', mend: (value) => `a tub of at least ${value} inside` },
  runs: { label: 'Runs', mend: (value) => `no more than ${value} runs a season` },
};

function rangeWords(limit: Limit): string {
  const { ranges, from, to } = limit;
  const looked = `of the values looked at from ${valueWords(limit, from)} to ${valueWords(limit, to)}`;
  const within = ranges.map((range) =>
    range.from === range.to
      ? valueWords(limit, range.from)
      : `${valueWords(limit, range.from)} to ${valueWords(limit, range.to)}`,
  );
  const which = within.length === 0 ? `none ${looked} is within` : `within ${looked}: ${within.join('; ')}`;
  return `the height does not follow it one way only; ${which}`;
}

/** How far one number may go: 'up to 266 mph (now 224 mph); 270 mph is surely too much'. */
export function limitWords(limit: Limit): string {
  const { outcome, value, beyond, end, now } = limit;
  const [way, much] = end === 'most' ? ['up to', 'too much'] : ['down to', 'too little'];
  // An inside is told down, as wherever a tub is named.
  const stands = `now ${valueWords(limit, now, limit.code === 'diameter' ? 'down' : 'nearest')}`;
  const surely = beyond === null ? '' : `; ${valueWords(limit, beyond)} is surely ${much}`;
  // The end of what was looked at that asks for the least height.
  const easiest = valueWords(limit, limit.from);
  switch (outcome) {
    case 'limit':
      return `${way} ${valueWords(limit, value!)} (${stands})${surely}`;
    case 'any':
      return `any ${way} ${valueWords(limit, value!)}, and no further was looked (${stands})`;
    case 'none':
      return `by itself it does not do: not within even at ${easiest} (${stands})`;
    case 'not known':
      return `not known from so few runs: none from ${easiest} on can be told to be within (${stands})${surely}`;
    default:
      return `${rangeWords(limit)} (${stands})`;
  }
}

/** How far every number may go by itself, a line each. */
export const limitLines = (limits: readonly Limit[]): ReportLine[] =>
  limits.map((limit) => ({ label: ASKED[limit.code].label, text: `${limit.label}: ${limitWords(limit)}` }));

/** Which tub of a list is the smallest at least as large as a limit of the diameter asks for; empty where none was found. */
export function standardLines(
  limits: readonly Limit[],
  tub: Readonly<{ name: string; diameter: number }> | undefined,
  units?: LengthUnits,
): ReportLine[] {
  const found = limits.some(({ code, value }) => code === 'diameter' && value !== null);
  if (!found) return [];
  const text =
    tub === undefined
      ? 'none of the list is as large'
      : `${tub.name}, ${figuresIn(units).length(tub.diameter, 'down')} inside, is the smallest of the list at least as large; its arc and legs are its own, so judge it as well`;
  return [{ label: 'Standard', text }];
}

type Tried = LargestTyre['now'];

const tyreWords = ({ name, diameter }: Tried, units?: LengthUnits): string =>
  `${name} (${figuresIn(units).length(diameter, 'nearest')} across)`;

/** Which tyre of a catalogue is the largest that a tub takes: 'wide-34 (34 in across; now …); … is surely too large'. */
export function largestTyreLines(found: LargestTyre, units?: LengthUnits): ReportLine[] {
  const words = (tyre: Tried): string => tyreWords(tyre, units);
  const { now, looked, tooWide, passedOver, largest, smallest } = found;
  const wide = tooWide.length === 0 ? '' : `; too wide for it whatever the height: ${tooWide.join(', ')}`;
  const line = (text: string): ReportLine[] => [{ label: 'Tyre', text: `${text}${wide}` }];
  if (looked.length + passedOver === 1) {
    return line(`the catalogue has no other tyre built as ${now.name} is that could go in`);
  }
  const surely = smallest === null ? '' : `; ${words(smallest)} is surely too large`;
  const same = `in the place of ${now.name}, at its pressure and on its wheel`;
  if (largest === null) {
    const none = smallest === null ? 'too few runs to tell' : 'none of the catalogue is within';
    return line(`${none}, ${same}${surely}`);
  }
  const which = largest.name === now.name ? `${words(now)} itself` : words(largest);
  const order =
    smallest !== null && smallest.diameter < largest.diameter
      ? `; they do not follow by size: of those looked at ${looked
          .filter(({ standing }) => standing === 'within')
          .map(words)
          .join(', ')} are within`
      : '';
  const ownSize = largest.name === now.name ? '' : `, now ${words(now)}`;
  return line(`the largest of the catalogue that is within is ${which}, ${same}${ownSize}${surely}${order}`);
}

/** What alone would bring a tub within what is accepted, each in a few words; empty where nothing was found. */
export const mendsByLimits = (limits: readonly Limit[]): string[] =>
  limits.flatMap((limit) =>
    limit.value === null || (limit.outcome !== 'limit' && limit.outcome !== 'any')
      ? []
      : [ASKED[limit.code].mend(valueWords(limit, limit.value), limit.label)],
  );

/** What the lines below say, in one sentence. */
export const limitsHeading = (standing: Standing): string =>
  standing === 'within'
    ? 'How far each may go by itself, all else as it stands, for the tub to stay within what is accepted'
    : 'What each by itself, all else as it stands, would have to be for the tub to be within what is accepted';
