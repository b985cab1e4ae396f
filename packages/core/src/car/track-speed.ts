import { carColumn } from '../inputs.ts';
import { dayDensity } from './moments.ts';
import { solveTrackRun, speedAt, TRACK_RUN_LENGTH } from './track-run.ts';

const trackRun = new Float64Array(TRACK_RUN_LENGTH);

/**
 * Speed of a run at a place on the way to the trap, m/s: where a driver who shuts off there would have got to.
 * @param car  one draw of CAR_INPUTS
 * @param track  from the start to the trap, m
 * @param place  from the start, m, 0 to `track`
 */
export function speedAlong(car: Float64Array, track: number, place: number): number {
  const value = (name: Parameters<typeof carColumn>[0]): number => car[carColumn(name)]!;
  const dragPerMass = (0.5 * dayDensity(car) * value('dragArea')) / value('mass');
  solveTrackRun(trackRun, value('launchAcceleration'), value('trapSpeed'), track, dragPerMass);
  return speedAt(trackRun, dragPerMass, place);
}
