import { type HeatCell, type HeatPanel, heatMap, type TornadoEnd, tornado } from '@tubgap/drawing';
import type { StudyCell } from '@tubgap/results';
import { type Figures, oneIn } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { comparedAt, reportedTub } from './study-cells.ts';
import { moreBeside } from './study-words.ts';
import { effectsOf, valueText, written } from './sweep-effects.ts';
import { ownHeight, reportedCell, reportedRow, type SeriesPoint, type Sweep } from './sweep-tables.ts';

const whoseOf = (study: Sweep): string =>
  reportedRow(study) === study.tyres.length ? 'the whole car' : `${study.tyres[reportedRow(study)]} alone`;

/** The values of an input in the order of an axis: rising where they are numbers. */
function axisOf({ varied }: Sweep, input: number): { order: number[]; title: string; texts: string[] } {
  const { texts, values, unit, label } = varied[input]!;
  const order = [...texts.keys()];
  if (values !== null) order.sort((a, b) => values[a]! - values[b]!);
  const bare = order.map((v) => (values === null ? valueText(texts[v]!) : String(values[v])));
  return { order, title: values === null || unit === '' ? label : `${label}, ${unit}`, texts: bare };
}

/** A figure of a grid: what is written for a cell, and a number that rises with it. */
interface Figure {
  of: (cell: StudyCell) => { text: string; size: number | undefined };
  end: (size: number) => string;
}

/** The lowest top height; '?' where too few runs tell it. */
const heightIn = ({ length }: Figures): Figure => ({
  of: ({ topHeight, heightAtRisk }) =>
    topHeight === null
      ? { text: heightAtRisk === null ? 'none' : '?', size: undefined }
      : { text: length(topHeight, 'up').replace(/ (in|mm)$/, ''), size: topHeight },
  end: (size) => length(size, 'up'),
});

/** Log of the risk, so that a shade is a factor; nothing that touched is told by its upper bound. */
const riskAt = (height: number): Figure => ({
  of: (cell) => {
    const risk = comparedAt(cell, height)?.risk;
    if (risk === undefined) return { text: '?', size: undefined };
    const chance = risk.estimate === 0 ? risk.high : risk.estimate;
    const number = oneIn(chance).replace(/^1 in /, '');
    return { text: risk.estimate === 0 ? `> ${number}` : number, size: Math.log(chance) };
  },
  end: (size) => oneIn(Math.exp(size)),
});

/** The panels of a grid: its first input along, its second up, one for each combination of all others. */
function panelsOf(
  study: Sweep,
  tub: number,
  { of, end }: Figure,
): { panels: HeatPanel[]; ends: [string, string] } {
  const [along, up] = [axisOf(study, 0), axisOf(study, 1)];
  const points = study.points.slice(1);
  const sizes = points.flatMap((point) => of(reportedCell(study, point, tub)).size ?? []);
  const [least, most] = [Math.min(...sizes), Math.max(...sizes)];
  const shade = (size: number): number => (most > least ? (size - least) / (most - least) : 0);
  const panels = new Map<string, (HeatCell | undefined)[][]>();
  for (const point of points) {
    const title = study.varied
      .flatMap(({ label, texts }, v) => (v < 2 ? [] : [`${label} ${valueText(texts[point.at[v]!]!)}`]))
      .join(', ');
    const cells = panels.get(title) ?? up.order.map(() => along.order.map(() => undefined));
    const { text, size } = of(reportedCell(study, point, tub));
    cells[up.order.indexOf(point.at[1]!)]![along.order.indexOf(point.at[0]!)] = {
      text,
      share: size === undefined ? undefined : shade(size),
    };
    panels.set(title, cells);
  }
  return {
    panels: [...panels].map(([title, cells]) => ({ title, cells })),
    ends: sizes.length === 0 ? ['', ''] : [end(least), end(most)],
  };
}

/** Maps of a grid of two inputs and more, whole: the height, and the risk at the height that the case asks for. */
export function gridFigures(study: Sweep): Record<string, string> {
  if (study.mode !== 'grid' || study.varied.length < 2) return {};
  const tub = reportedTub(study, study.points[0]!.figures);
  const { name } = study.tubs[tub]!;
  const own = ownHeight(study, tub);
  const { length, units } = figuresOf(study);
  const [along, up] = [axisOf(study, 0), axisOf(study, 1)];
  const draw = (id: string, figure: string, of: Figure, note: string): string => {
    const { panels, ends } = panelsOf(study, tub, of);
    return heatMap({
      words: {
        id,
        title: `${figure}, over ${along.title} and ${up.title}`,
        description: `${study.points.length - 1} points, each with its figure, from ${ends[0]} to ${ends[1]}. ${note}`,
      },
      figure,
      columns: along,
      rows: up,
      panels,
      ends,
      note,
    });
  };
  const height = draw(
    'sweep-grid-height',
    `Lowest top height in ${name}, ${units === 'mm' ? 'mm' : 'in'}`,
    heightIn(figuresOf(study)),
    `For ${whoseOf(study)}, at the accepted run risk. none: no height keeps it. ?: too few runs to tell.`,
  );
  if (own === null) return { 'sweep-grid-height.svg': height };
  const risk = draw(
    'sweep-grid-risk',
    `One run in how many comes too close, top at ${length(own, 'up')}, ${name}`,
    riskAt(own),
    `For ${whoseOf(study)}, at the height that the case as it stands asks for. >: none came too close; rarer than that.`,
  );
  return { 'sweep-grid-height.svg': height, 'sweep-grid-risk.svg': risk };
}

/** What each input does alone, where one was varied at a time and the case as it stands has a height to hold it against. */
export function tornadoFigure(study: Sweep): Record<string, string> {
  if (study.mode !== 'one at a time') return {};
  const tub = reportedTub(study, study.points[0]!.figures);
  const base = reportedCell(study, study.points[0]!, tub);
  const endOf = (input: number, one: SeriesPoint): TornadoEnd | undefined => {
    const cell = reportedCell(study, one.point, tub);
    const words = moreBeside(figuresOf(study), cell, base);
    const change = cell.heightDifference;
    return change === null || words === undefined
      ? undefined
      : {
          change: change.estimate,
          low: change.low,
          high: change.high,
          text: `${written(study, input, one)}: ${words}`,
        };
  };
  const rows = effectsOf(study, tub).flatMap(({ input, least, most }) => {
    const low = endOf(input, least);
    const high = least === most ? low : endOf(input, most);
    return low === undefined || high === undefined
      ? []
      : [{ label: study.varied[input]!.label, least: low, most: high }];
  });
  if (rows.length === 0) return {};
  const { name } = study.tubs[tub]!;
  return {
    'sweep-tornado.svg': tornado({
      words: {
        id: 'sweep-tornado',
        title: `What each input alone moves the lowest top height in ${name}`,
        description: rows.map(({ label, least, most }) => `${label}: ${least.text}, ${most.text}`).join('; '),
      },
      rows,
      units: figuresOf(study).units,
      note: `In ${name}, for ${whoseOf(study)}; 0 is the case as it stands. Whiskers: 95 % interval of the change. Words as a tape shows them.`,
    }),
  };
}
