import { type ParallelAxis, type ParallelLine, parallel } from '@tubgap/drawing';
import { oneIn } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { comparedAt, reportedTub } from './study-cells.ts';
import { valueText } from './sweep-effects.ts';
import { ownHeight, reportedCell, reportedRow, type Sweep } from './sweep-tables.ts';

type Varied = Pick<Sweep['varied'][number], 'label' | 'texts' | 'values' | 'unit' | 'own'>;

/** An input as an axis, and where each of its values stands on it; null: the case's own. */
export interface InputAxis {
  axis: ParallelAxis;
  /** Undefined where the case's own value is not known. */
  shareOf: (index: number | null) => number | undefined;
}

/** Values that are no numbers stand evenly, as they were asked for. @param withOwn  whether the case's own value is on it */
export function inputAxis({ label, texts, values, unit, own }: Varied, withOwn: boolean): InputAxis {
  if (values === null) {
    const last = Math.max(1, texts.length - 1);
    return {
      axis: {
        title: label,
        low: valueText(texts[0]!),
        high: texts.length > 1 ? valueText(texts.at(-1)!) : '',
      },
      shareOf: (index) => (index === null ? undefined : index / last),
    };
  }
  const all = withOwn && own !== null ? [...values, own] : values;
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const share = (value: number): number => (high > low ? (value - low) / (high - low) : 0.5);
  return {
    axis: {
      title: [label, unit].filter(Boolean).join(', '),
      low: String(low),
      high: high > low ? String(high) : '',
    },
    shareOf: (index) => {
      const value = index === null ? own : values[index]!;
      return value === null ? undefined : share(value);
    },
  };
}

/** A figure of points: its size, undefined where there is none, and how a size is written. */
interface PointFigure {
  title: string;
  of: (point: Sweep['points'][number]) => number | undefined;
  text: (size: number) => string;
  none: string;
}

/** Lines across the inputs' axes to one of a figure; undefined where no point has the figure. */
function drawPoints(
  study: Sweep,
  id: string,
  { title, of, text, none }: PointFigure,
  note: string,
): string | undefined {
  const inputs = study.varied.map((one) => inputAxis(one, true));
  const sizes = study.points.flatMap((point) => of(point) ?? []);
  if (sizes.length === 0) return undefined;
  const [least, most] = [Math.min(...sizes), Math.max(...sizes)];
  const lowest = study.points.findIndex((point) => of(point) === least);
  const lines = study.points.flatMap((point, p): ParallelLine[] => {
    const at = inputs.flatMap(({ shareOf }, v) => shareOf(point.at[v] ?? null) ?? []);
    if (at.length < inputs.length) return [];
    const size = of(point);
    const share = size === undefined ? undefined : most > least ? (size - least) / (most - least) : 0.5;
    const name =
      p === 0 ? 'the case as it stands' : p === lowest ? `the least: point ${p}, ${text(least)}` : undefined;
    return [{ at, share, name }];
  });
  return parallel({
    words: {
      id,
      title: `${title}, over ${study.varied.map(({ label }) => label).join(', ')}`,
      description: `${lines.length} points, each a line across its inputs to its figure, from ${text(least)} to ${text(most)}. ${note}`,
    },
    axes: inputs.map(({ axis }) => axis),
    figure: { title, low: text(least), high: most > least ? text(most) : '' },
    none,
    lines,
    note,
  });
}

/** Points that differ in several inputs at once: the height, and the risk at the height that the case asks for. */
export function pointsFigures(study: Sweep): Record<string, string> {
  if (study.mode !== 'points' || study.varied.length < 2) return {};
  const tub = reportedTub(study, study.points[0]!.figures);
  const { name } = study.tubs[tub]!;
  const { length } = figuresOf(study);
  const whose =
    reportedRow(study) === study.tyres.length ? 'the whole car' : `${study.tyres[reportedRow(study)]} alone`;
  const own = ownHeight(study, tub);
  const height = drawPoints(
    study,
    'sweep-points-height',
    {
      title: `least top in ${name}`,
      of: (point) => reportedCell(study, point, tub).topHeight ?? undefined,
      text: (size) => length(size, 'up'),
      none: 'none told',
    },
    `For ${whose}, at the accepted run risk; the darker the lower. Thin dashes: no height keeps it, or too few runs tell. sweep.csv has every point.`,
  );
  const risk =
    own === null
      ? undefined
      : drawPoints(
          study,
          'sweep-points-risk',
          {
            title: `runs too close at ${length(own, 'up').replaceAll(' ', '\u00a0')}`,
            of: (point) => {
              const found = comparedAt(reportedCell(study, point, tub), own)?.risk;
              return found === undefined
                ? undefined
                : Math.log(found.estimate === 0 ? found.high : found.estimate);
            },
            text: (size) => oneIn(Math.exp(size)),
            none: 'none told',
          },
          `For ${whose} in ${name}, at the height that the case as it stands asks for; the darker the rarer, even shades are even factors. Where none came too close, by the upper bound.`,
        );
  return {
    ...(height === undefined ? {} : { 'sweep-points-height.svg': height }),
    ...(risk === undefined ? {} : { 'sweep-points-risk.svg': risk }),
  };
}
