import { type HeightPoint, heightLines, type ParallelLine, parallel } from '@tubgap/drawing';
import { chanceText } from '@tubgap/units';
import { figuresOf } from '../figures-of.ts';
import { chosenText, whole } from './optimum-report.ts';
import type { Optimum } from './optimum-tables.ts';
import { inputAxis } from './points-figures.ts';
import { listText } from './study-words.ts';

/** The height against the one input, or every place that was looked at as a line across all inputs. */
export function optimumFigure(study: Optimum): string {
  const figures = figuresOf(study);
  const { ranges, places, tubs, tub } = study;
  const { name } = tubs[tub]!;
  const best = whole(places[0]!.cells);
  const bestWords = listText(ranges.map(chosenText));
  const note = `The whole car in ${name}, at the accepted run risk (accepted: ${chanceText(study.accept.runRisk)}). By the draws of the search where a place was not looked at again.`;
  const [only, ...others] = ranges;
  if (others.length === 0 && only!.values !== null) {
    const points = places
      .flatMap(({ at, cells }): HeightPoint[] => {
        const { heightAtRisk, heightDifference } = whole(cells);
        if (heightAtRisk === null) return [];
        const from = best.heightAtRisk;
        const isKnown = from !== null && heightDifference !== null && places[0]!.at !== at;
        return [
          {
            value: only!.values![at[0]!]!,
            height: heightAtRisk,
            low: isKnown ? Math.min(heightAtRisk, from + heightDifference.low) : heightAtRisk,
            high: isKnown ? Math.max(heightAtRisk, from + heightDifference.high) : heightAtRisk,
          },
        ];
      })
      .toSorted((a, b) => a.value - b.value);
    return heightLines({
      words: {
        id: 'optimum',
        title: `Lowest top height against ${only!.label}`,
        description: `The best is ${bestWords}. ${note}`,
      },
      units: figures.units,
      axis: [only!.label, only!.unit].filter(Boolean).join(', '),
      curves: points.length === 0 ? [] : [{ label: name, pieces: [points] }],
      own: { value: only!.values![only!.best]!, text: 'the best' },
      note,
      noneText: 'No value has a height that keeps the accepted risk.',
    });
  }
  const inputs = ranges.map((range) => inputAxis(range, false));
  const sizes = places.flatMap(({ cells }) => whole(cells).heightAtRisk ?? []);
  const [least, most] = [Math.min(...sizes), Math.max(...sizes)];
  const lines = places.map(({ at, cells }, p): ParallelLine => {
    const size = whole(cells).heightAtRisk;
    return {
      at: inputs.map(({ shareOf }, v) => shareOf(at[v]!) ?? 0),
      share: size === null ? undefined : most > least ? (size - least) / (most - least) : 0.5,
      name: p === 0 ? 'the best' : undefined,
    };
  });
  const text = (size: number): string => (Number.isFinite(size) ? figures.length(size, 'up') : '');
  return parallel({
    words: {
      id: 'optimum',
      title: `Lowest top height over ${listText(ranges.map(({ label }) => label))}`,
      description: `${places.length} places that were looked at, from ${text(least)} to ${text(most)}. The best is ${bestWords}. ${note}`,
    },
    axes: inputs.map(({ axis }) => axis),
    figure: {
      title: 'top height at the accepted risk',
      low: text(least),
      high: most > least ? text(most) : '',
    },
    none: 'no height',
    lines,
    note: `Each line a place that was looked at; the darker the lower. ${note}`,
  });
}
