import type { EntryField, EntryKind, FieldProblem, NumberColumn } from '@tubgap/evidence';
import { formatQuantity, usualUnit, wholeDegrees, wholeText } from '@tubgap/units';
import { lengthText, speedText, type Units } from '../page/words.ts';

/** Kinds of entries as somebody at the car says them. */
export const KIND_WORDS: readonly (readonly [EntryKind, string])[] = [
  ['runs', 'runs made'],
  ['gap', 'a gap measured'],
  ['tyre', 'tyre changed'],
  ['tub', 'tub moved or changed'],
  ['looked into', 'a mark looked into'],
];

const LABELS: Readonly<Record<EntryField, string>> = {
  tyre: 'Which tyre ran?',
  batch: 'Its compound batch or date code',
  tub: 'Which tub is in the car?',
  top_height: 'How high is its inside top above the track?',
  centre_forward: 'How far is its centre ahead of the axle?',
  runs: 'How many runs?',
  speed_low: 'Slowest at the finish',
  speed_high: 'Fastest at the finish',
  mark: 'Is there a new mark anywhere on the tub?',
  angle: 'Where: angle at the hub, forward from straight up',
  measured: 'Gap from tyre to tub there',
  note: 'What else is to be known',
};

const OWN_LABELS: Readonly<Partial<Record<EntryKind, Readonly<Partial<Record<EntryField, string>>>>>> = {
  tyre: { tyre: 'Which tyre was put on?' },
  runs: { tub: 'Which tub was in the car?', top_height: 'How high was its inside top?' },
  gap: { tub: 'Which tub was in the car?', top_height: 'How high was its inside top?' },
  'looked into': { note: 'What was it, and what was done?' },
};

/** What a field is called. @param mark  whether a mark was told: then it matters where */
export const fieldLabel = (kind: EntryKind, field: EntryField, mark: boolean): string =>
  mark && field === 'note'
    ? 'Where is the mark, and how large?'
    : (OWN_LABELS[kind]?.[field] ?? LABELS[field]);

const EXAMPLES: Readonly<Partial<Record<EntryField, Readonly<Record<Units, string>>>>> = {
  tyre: { inch: 'name as in the case', mm: 'name as in the case' },
  tub: { inch: 'name as in the case', mm: 'name as in the case' },
  top_height: { inch: '38 1/2', mm: '978' },
  centre_forward: { inch: '1/4', mm: '6' },
  runs: { inch: '4', mm: '4' },
  speed_low: { inch: '220', mm: '354' },
  speed_high: { inch: '226', mm: '364' },
  angle: { inch: '30', mm: '30' },
  measured: { inch: '6 1/8', mm: '156' },
};

export const fieldExample = (field: EntryField, units: Units): string | undefined => EXAMPLES[field]?.[units];

/** Under a field as long as nothing is wrong with it. */
export function fieldNote(kind: EntryKind, field: EntryField): string | undefined {
  const isSeen = kind === 'runs' || kind === 'gap';
  if (isSeen && field === 'tub') return 'Left empty: as the last entry of a tub says.';
  if (kind === 'runs' && field === 'speed_low') return 'Left empty: as the car’s case says.';
  if (field === 'mark') {
    return 'Look over the whole tub, both sides, legs and ends. Where nobody looked, enter nothing.';
  }
  return undefined;
}

/** The unit in which a field is typed; empty where it has none. */
export function fieldUnit(field: EntryField, units: Units): string {
  if (field === 'angle') return '°';
  if (field === 'speed_low' || field === 'speed_high') return usualUnit('speed', units).name;
  const isLength = field === 'top_height' || field === 'centre_forward' || field === 'measured';
  return isLength ? usualUnit('length', units).name : '';
}

function rangeWords({ kind, low, high }: NumberColumn, units: Units): string {
  const told = (value: number, rounding: 'up' | 'down'): string => {
    if (kind === 'length') return lengthText(value, rounding, units);
    if (kind === 'speed') return speedText(value, units);
    if (kind === 'angle') return `${wholeDegrees(value)}°`;
    return kind === 'count' ? wholeText(value) : formatQuantity(value, kind);
  };
  return `This cannot be: ${told(low, 'up')} to ${told(high, 'down')}.`;
}

/** What is wrong with what stands in a field, and what to write. */
export function problemWords(field: EntryField | 'date', problem: FieldProblem, units: Units): string {
  if (problem.code === 'range') return rangeWords(problem.column, units);
  if (problem.code === 'missing') {
    return field === 'mark'
      ? 'Say whether there is a mark: runs after which nobody looked say nothing.'
      : 'This is needed.';
  }
  if (field === 'date') return 'This is no day of the calendar.';
  if (field === 'runs') return 'Write a whole number of runs.';
  const unit = field === 'angle' ? 'degrees' : fieldUnit(field, units);
  return `Write a number of ${unit}, such as ${fieldExample(field, units)}.`;
}

/** What somebody who tells a mark has to do before anything else. */
export const MARK_STOP =
  'Stop: do not run this car again until its cause is found, the gaps are measured anew and a qualified chassis builder has looked at tub, tyre and axle.';
