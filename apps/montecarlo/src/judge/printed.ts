import type { Case } from '@tubgap/casefile';
import { type ReportLine, row, wrapped } from '@tubgap/wording';

const CAUTION =
  'Tyre contact at speed can kill. These figures come from a model with assumed inputs. The sanctioning body’s rules, the ' +
  'tyre maker’s limits and a qualified chassis builder come first. Check the gaps on the car, look for marks after the ' +
  'first runs, and stop when you find one.';

/** Lines about a case as a terminal shows them, with its title over them and the caution below. */
export const printedLines = (source: Case, ...parts: (readonly ReportLine[])[]): string =>
  [
    '',
    `${source.title}${source.invented ? '  [an invented car]' : ''}`,
    '',
    ...parts.flatMap((lines) => [...lines.map(({ label, text }) => row(label, text)), '']),
    `  ${wrapped(CAUTION, '  ')}`,
    '',
    '',
  ].join('\n');
