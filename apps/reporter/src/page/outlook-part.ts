import { labelledBars, type Markup, markup } from '@tubgap/drawing';
import type { Result } from '@tubgap/results';
import { chance, inches, percent } from './measures.ts';
import { figure, list, table } from './parts.ts';

const SHOWN = 10;

const name = (row: { tyre: string; label: string }): string =>
  row.tyre === '' ? row.label : `${row.tyre}: ${row.label}`;

/** What drives the risk: inputs by what they do to the smallest gap of a run; undefined when it was not looked for. */
export function driversPart(result: Result): Markup | undefined {
  const { drivers } = result;
  if (drivers === undefined || drivers.length === 0) return undefined;
  const shown = drivers.toSorted((a, b) => b.total.value - a.total.value).slice(0, SHOWN);
  const svg = labelledBars({
    words: {
      id: 'drivers',
      title: 'Inputs that drive the smallest gap of a run',
      description: `Largest first: ${shown.map((row) => `${name(row)} ${percent(row.total.value)}`).join(', ')}.`,
    },
    series: ['alone', 'with the others', 'among the tightest runs'],
    rows: shown.map((row) => ({
      label: name(row),
      bars: [row.first, row.total, row.tail].map((part) => ({ ...part, text: percent(part.value) })),
    })),
  });
  return markup`<p>How much of the spread of a run’s smallest gap each input makes. What is uncertain drives the risk, not what is
large: a big growth that is well known asks for height, but leaves little to chance.</p>
${figure(svg, 'Thin lines: 95 % intervals. Shares “with the others” count what two inputs do together once for each.')}`;
}

/** What would change the pick; undefined when nothing is known. */
export function changesPart(result: Result): Markup | undefined {
  const t = result.chosen;
  const larger = t === null ? null : (result.largerGrowth[t] ?? null);
  const growth =
    larger !== null &&
    markup`<p>A growth one quarter larger than reckoned would ask for <b>${inches(Math.max(0, larger), 'up')}</b> more height. No measured
growth of a drag slick was found in open literature, so this is worth knowing.</p>`;
  const { changes } = result;
  if (changes === undefined || changes.length === 0) return growth === false ? undefined : growth;
  return markup`${growth}${table({
    caption: 'What a change would ask for in top height, and what it does to the risk when the height stays.',
    head: [
      { text: 'change' },
      { text: 'top height', figure: true },
      { text: 'run too close, now', figure: true },
      { text: 'then', figure: true },
    ],
    rows: changes.map((change) => ({
      cells: [
        { text: change.label },
        {
          text:
            change.heightChange > 0
              ? `${inches(change.heightChange, 'up')} more`
              : `${inches(-change.heightChange, 'down')} less`,
          figure: true,
        },
        { text: chance(change.runRisk.before), figure: true },
        { text: chance(change.runRisk.after), figure: true },
      ],
    })),
  })}`;
}

/** What to measure next, the most telling first; undefined when it was not looked for. */
export function measurePart(result: Result): Markup | undefined {
  const { measureNext } = result;
  if (measureNext === undefined || measureNext.length === 0) return undefined;
  return markup`<p>Measured on this car and written into the case, these take most of the doubt away:</p>
${list(measureNext.map((row) => markup`<b>${row.label}</b>: ${percent(row.share)} of the spread of the smallest gap`))}`;
}
