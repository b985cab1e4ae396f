import type { Case } from '@tubgap/casefile';
import { BLANK, heading, paragraph, type ReportLine, row, SURELY, strongRow } from '@tubgap/wording';
import { printed, terminal } from '@tubgap/wording/terminal';

const CAUTION =
  'Tyre contact at speed can kill. These figures come from a model with assumed inputs. The sanctioning body’s rules, the ' +
  'tyre maker’s limits and a qualified chassis builder come first. Check the gaps on the car, look for marks after the ' +
  'first runs, and stop when you find one.';

/** Lines about a case as a terminal shows them, with its title over them and the caution below. */
export const printedLines = (source: Case, ...parts: (readonly ReportLine[])[]): string =>
  printed(
    [
      BLANK,
      heading(`${source.title}${source.invented ? '  [an invented car]' : ''}`),
      BLANK,
      ...parts.flatMap((lines) => [
        ...lines.map(({ label, text }, i) => (i === 0 ? strongRow(label, text) : row(label, text))),
        BLANK,
      ]),
      row('Surely', SURELY),
      BLANK,
      paragraph(CAUTION),
      BLANK,
    ],
    terminal(),
  );
