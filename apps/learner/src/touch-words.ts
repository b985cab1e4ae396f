import type { MeasuredFolder } from './measured-folder.ts';

/** Marks of touching where the gap to be kept should be, in words; undefined when there are none. @param reserve  m */
export function touchWords({ readings }: MeasuredFolder, reserve: number): string | undefined {
  const touched = readings.marks.filter((mark) => mark.touched && mark.thickness <= reserve + 1e-9);
  if (touched.length === 0) return undefined;
  const places = touched.map(
    ({ tyre, angle, line }) => `${tyre} at ${Math.round((angle * 180) / Math.PI)}° (marks.csv:${line})`,
  );
  return `the tyre has been inside the gap to be kept: ${places.join(', ')}. Do not run until the cause is found and the gaps are measured again`;
}
