import type { Case } from '@tubgap/casefile';
import { BLANK, type Block, heading, paragraph, type ReportLine, row, rowsOf, SURELY } from '@tubgap/wording';
import { printed, terminal } from '@tubgap/wording/terminal';

const CAUTION =
  'Tyre contact at speed can kill. These figures come from a model with assumed inputs. The sanctioning body’s rules, the ' +
  'tyre maker’s limits and a qualified chassis builder come first. Check the gaps on the car, look for marks after the ' +
  'first runs, and stop when you find one.';

/** A verdict and what else was found as a terminal shows them, with the case's title over them and the caution below. */
export const printedVerdict = (
  source: Case,
  verdict: readonly Block[],
  found: readonly ReportLine[] = [],
): string =>
  printed(
    [
      BLANK,
      heading(`${source.title}${source.invented ? '  [an invented car]' : ''}`),
      BLANK,
      ...verdict,
      BLANK,
      ...(found.length === 0 ? [] : [...rowsOf(found), BLANK]),
      row('Surely', SURELY),
      BLANK,
      paragraph(CAUTION),
      BLANK,
    ],
    terminal(),
  );
