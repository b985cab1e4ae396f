import { type HeightCurve, type HeightPoint, heightLines } from '@tubgap/drawing';
import { figuresOf } from '../figures-of.ts';
import { plainName, reportedTub } from './study-cells.ts';
import { reportedCell, reportedRow, type Series, type Sweep, seriesOf } from './sweep-tables.ts';

/** Lines in one picture at most. */
const MOST_CURVES = 5;

/** A line of the plot; a value without a height breaks it. */
function curveOf(study: Sweep, label: string, { points }: Series, tub: number): HeightCurve {
  const base = reportedCell(study, study.points[0]!, tub);
  const pieces: HeightPoint[][] = [[]];
  for (const { point, value } of points) {
    const { heightAtRisk, heightDifference } = reportedCell(study, point, tub);
    if (heightAtRisk === null || typeof value !== 'number') {
      if (pieces.at(-1)!.length > 0) pieces.push([]);
      continue;
    }
    const from = base.heightAtRisk;
    const known = from !== null && heightDifference !== null;
    pieces.at(-1)!.push({
      value,
      height: heightAtRisk,
      low: known ? from + heightDifference.low : heightAtRisk,
      high: known ? from + heightDifference.high : heightAtRisk,
    });
  }
  return { label, pieces: pieces.filter((piece) => piece.length > 0) };
}

function curvesOf(study: Sweep, input: number): { curves: HeightCurve[]; left: number } {
  const series = seriesOf(study, input);
  const curves =
    series.length === 1
      ? study.tubs.map((tub, t) => curveOf(study, tub.name, series[0]!, t))
      : series.map((one) => {
          const tub = reportedTub(study, study.points[0]!.figures);
          return curveOf(study, one.name, one, tub);
        });
  const drawn = curves.filter(({ pieces }) => pieces.length > 0);
  // Evenly over all, the first and the last among them.
  const shown =
    drawn.length <= MOST_CURVES
      ? drawn
      : Array.from(
          { length: MOST_CURVES },
          (_, i) => drawn[Math.round((i * (drawn.length - 1)) / (MOST_CURVES - 1))]!,
        );
  return { curves: shown, left: drawn.length - shown.length };
}

/** A picture for each input that was varied over numbers: name of its file → SVG. */
export function sweepFigures(study: Sweep): Record<string, string> {
  const files: Record<string, string> = {};
  // Points that differ in several inputs at once are on no line.
  if (study.mode === 'points' && study.varied.length > 1) return files;
  const row = reportedRow(study);
  const whose = row === study.tyres.length ? 'the whole car' : `${study.tyres[row]} alone`;
  study.varied.forEach(({ path, label, unit, values, own }, v) => {
    if (values === null || values.length < 2) return;
    const { curves, left } = curvesOf(study, v);
    const tub = study.tubs[reportedTub(study, study.points[0]!.figures)]!.name;
    const where = seriesOf(study, v).length === 1 ? 'in each tub' : `in ${tub}`;
    const more =
      left === 0
        ? ''
        : ` ${curves.length} of ${curves.length + left} lines are drawn; ${study.mode === 'grid' && study.varied.length > 1 ? 'sweep-grid-height.svg has all points, ' : ''}summary.csv all lines.`;
    files[`sweep-${plainName(path)}.svg`] = heightLines({
      words: {
        id: `sweep-${plainName(path)}`,
        title: `Lowest top height against ${label}`,
        description: `Lowest top height of ${whose} for the accepted run risk ${where}, against ${label} from ${Math.min(...values)} to ${Math.max(...values)} ${unit}. Bands: 95 % interval of the difference to the case as it stands.${more}`,
      },
      units: figuresOf(study).units,
      axis: [label, unit].filter(Boolean).join(', '),
      curves,
      ...(own === null ? {} : { own: { value: own, text: 'as in the case' } }),
      note: `Inside of the tub above the track, for ${whose}. Bands: 95 % interval of the difference to the case as it stands.${more}`,
      noneText: 'No value has a height that keeps the accepted risk.',
    });
  });
  return files;
}
