import { LOG_COLUMNS, type RunLog } from '../case.ts';
import type { WrittenCase } from '../schema.ts';

/** Usual heads of columns that the case does not name: what a log written for this program has. */
const USUAL_HEADS: RunLog['columns'] = {
  time: { head: 'time_s' },
  speed: { head: 'speed_mph' },
  distance: { head: 'distance_ft' },
  driveshaft: { head: 'driveshaft_rpm' },
  pressure: { head: 'pressure_psi' },
  travel: { head: 'travel_in' },
  throttle: { head: 'throttle_%' },
  brake: { head: 'brake_psi' },
};

/** How run logs are to be read, gaps filled. @param nameOf  gives a tyre its name in the case */
export function runLogOf(
  written: NonNullable<WrittenCase['runLog']>,
  buildTyre: string,
  nameOf: (tyre: string) => string,
): RunLog {
  const columns: RunLog['columns'] = written.columns === undefined ? { ...USUAL_HEADS } : {};
  for (const column of LOG_COLUMNS) {
    const given = written.columns?.[column];
    if (given !== undefined) columns[column] = typeof given === 'string' ? { head: given } : given;
  }
  return {
    axleRatio: written.axleRatio,
    travelRatio: written.travelRatio ?? 1,
    tyre: nameOf(written.tyre ?? buildTyre),
    columns,
  };
}
