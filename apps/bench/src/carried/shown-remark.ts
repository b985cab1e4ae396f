import { z } from 'zod';
import { type Measures, readMeasures } from './measures.ts';

/** What a saved case keeps of the page beside the case itself. */
export interface ShownRemark {
  tub: string;
  tyre: string;
  units: 'inch' | 'mm';
  measures: Measures;
}

/** Line of a saved case that says what was shown: a remark to whoever else reads the file. */
const SHOWN = /^# shown: (\{.*\})$/m;

const remark = z.object({
  tub: z.string(),
  tyre: z.string(),
  units: z.enum(['inch', 'mm']).catch('inch'),
  measures: z.unknown(),
});

/** A case file's text with a remark of what was shown at its end, in place of any before. */
export const withRemark = (text: string, shown: ShownRemark): string =>
  `${text.replace(SHOWN, '').trimEnd()}\n\n# shown: ${JSON.stringify(shown)}\n`;

/** What a case file's text says was shown; undefined when it says nothing that can be read. */
export function remarkIn(text: string): ShownRemark | undefined {
  try {
    const read = remark.safeParse(JSON.parse(SHOWN.exec(text)?.[1] ?? 'null'));
    return read.success ? { ...read.data, measures: readMeasures(read.data.measures) } : undefined;
  } catch {
    return undefined;
  }
}
