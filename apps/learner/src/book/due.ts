import { countLeftOut, placeText } from '@tubgap/evidence';
import type { Book, BookEntry } from './read-book.ts';

/** Something that is to be done for a car of a book, most pressing kind first. */
export type Due =
  | { kind: 'unreadable'; car: string; why: string }
  /** Runs left a mark and nobody has written what it was. */
  | { kind: 'mark'; car: string; date: string; place: string }
  | { kind: 'left out'; car: string; rows: number; first: string; reason: string }
  | { kind: 'nothing seen'; car: string }
  /** Nothing was entered since tub or tyre were changed: what was seen before may not hold now. */
  | { kind: 'no runs since'; car: string; date: string; changed: string }
  | { kind: 'no rollout'; car: string; tyre: string }
  | { kind: 'no run log'; car: string; tyre: string };

/** In the order in which they are told. */
const ORDER: readonly Due['kind'][] = [
  'unreadable',
  'mark',
  'left out',
  'nothing seen',
  'no runs since',
  'no rollout',
  'no run log',
];

function dueOf({ name: car, source, readings, history, rejected }: BookEntry): Due[] {
  const due: Due[] = [];
  for (const { marked, date, file, line } of readings.runs) {
    if (marked && !history.lookedInto.some((day) => day >= date)) {
      due.push({ kind: 'mark', car, date, place: `${file}:${line}` });
    }
  }
  const [first] = rejected;
  if (first !== undefined) {
    const { reason } = first;
    due.push({ kind: 'left out', car, rows: countLeftOut(rejected), first: placeText(first), reason });
  }
  if (Object.values(readings).every((list) => list.length === 0))
    return [...due, { kind: 'nothing seen', car }];
  const changes = [
    ...history.tyreChanges.map(({ date, tyre }) => ({ date, changed: tyre })),
    ...(history.builtSince === '' ? [] : [{ date: history.builtSince, changed: 'the tub' }]),
  ].sort((a, b) => (a.date < b.date ? 1 : -1));
  const newest = changes[0];
  if (newest !== undefined && !readings.runs.some(({ date }) => date >= newest.date)) {
    due.push({ kind: 'no runs since', car, ...newest });
  }
  for (const tyre of new Set(source.tyres.map((own) => own.tyre))) {
    const names = source.tyres.flatMap((own) => (own.tyre === tyre ? [own.name] : []));
    if (!readings.rollouts.some((reading) => names.includes(reading.tyre)))
      due.push({ kind: 'no rollout', car, tyre });
  }
  const tyre = source.runLog?.tyre ?? source.build.tyre;
  if (readings.logs.length === 0) due.push({ kind: 'no run log', car, tyre });
  return due;
}

/** What is due in a book, the most pressing first. */
export function dueIn({ cars, unreadable }: Pick<Book, 'cars' | 'unreadable'>): Due[] {
  const all: Due[] = [
    ...unreadable.map(({ car, why }): Due => ({ kind: 'unreadable', car, why })),
    ...cars.flatMap(dueOf),
  ];
  return all.sort((a, b) => ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind));
}

/** What is due, in words. */
export function dueWords(due: Due): string {
  switch (due.kind) {
    case 'unreadable':
      return `cannot be read, left out: ${due.why}`;
    case 'mark':
      return `runs of ${due.date} left a mark (${due.place}): find its cause, and enter it: --entry "looked into" --note "…"`;
    case 'left out':
      return `${due.rows} ${due.rows === 1 ? 'row' : 'rows'} left out, first ${due.first}: ${due.reason}`;
    case 'nothing seen':
      return 'nothing was measured or entered yet: it teaches nothing';
    case 'no runs since':
      return `no runs entered since ${due.changed} was changed on ${due.date}`;
    case 'no rollout':
      return `no rollout of ${due.tyre} taped: ten minutes with a tape`;
    case 'no run log':
      return `no run log with ${due.tyre}: a long roll-out says most of its growth`;
  }
}
