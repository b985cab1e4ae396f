import { reportedCell, type SeriesPoint, type Sweep, seriesOf } from './sweep-tables.ts';

/** What one input does to the height, all others held. */
export interface Effect {
  input: number;
  spread: number;
  least: SeriesPoint;
  most: SeriesPoint;
  others: string;
  /** How far the others are held from where the case has them, in shares of their ranges. */
  away: number;
}

/** How far a point's inputs but one stand from the case's own, in shares of their ranges. */
function awayFromCase(study: Sweep, { at }: Sweep['points'][number], input: number): number {
  return study.varied.reduce((sum, { values, own }, v) => {
    const index = at[v];
    if (v === input || index === null || index === undefined || values === null || own === null) return sum;
    const range = Math.max(...values) - Math.min(...values);
    return range > 0 ? sum + Math.abs(values[index]! - own) / range : sum;
  }, 0);
}

/** The effect of one input with the others as near to the case as the sweep has them. */
function effectOf(study: Sweep, input: number, tub: number): Effect | undefined {
  const effects = seriesOf(study, input).flatMap(({ name, points }): Effect[] => {
    const heights = points
      .filter(({ index }) => index !== undefined)
      .flatMap((one) => {
        const height = reportedCell(study, one.point, tub).heightAtRisk;
        return height === null ? [] : [{ one, height }];
      })
      .toSorted((a, b) => a.height - b.height);
    const [least, most] = [heights[0], heights.at(-1)];
    if (least === undefined || most === undefined) return [];
    const away = awayFromCase(study, least.one.point, input);
    // One value alone is told against the case.
    const alone = reportedCell(study, least.one.point, tub).heightDifference?.estimate ?? 0;
    const spread = heights.length === 1 ? Math.abs(alone) : most.height - least.height;
    return [{ input, spread, least: least.one, most: most.one, others: name, away }];
  });
  return effects.toSorted((a, b) => a.away - b.away || b.spread - a.spread)[0];
}

/** A value as a sentence takes it: '230 mph', 'exactly 230 mph', '{ law: normal, mean: 230 mph, … }'. */
export function valueText(text: string): string {
  if (text === '~') return 'as in the case';
  const plain = text
    .replace(/^~\s*/, '')
    .replaceAll('"', '')
    .replace(/([:,{])(?=[^\s])/g, '$1 ')
    .replace(/(\S)\}$/, '$1 }');
  const exact = /^\{ law: constant, value: ([^,}]+?)(,.*)?\s*\}$/.exec(plain)?.[1];
  return exact === undefined ? plain : `exactly ${exact}`;
}

/** What a point of a series has of its input, in words. */
export const written = (study: Sweep, input: number, { index }: SeriesPoint): string =>
  index === undefined ? 'as in the case' : valueText(study.varied[input]!.texts[index]!);

/** What each input of a sweep does alone in a tub, the greatest first. */
export function effectsOf(study: Sweep, tub: number): Effect[] {
  // Points that differ in several inputs at once tell of none of them alone.
  const told = study.mode === 'points' && study.varied.length > 1 ? [] : study.varied;
  return told.flatMap((_, v) => effectOf(study, v, tub) ?? []).toSorted((a, b) => b.spread - a.spread);
}
