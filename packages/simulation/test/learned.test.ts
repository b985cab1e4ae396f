import type { Case, Follows, UncertainInput } from '@tubgap/casefile';
import { carColumn, tyreColumn } from '@tubgap/core';
import { BLOCK, type PlainLaw, quantile } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { createColumns, fillColumns } from '../src/draws.ts';
import { touchCentres } from '../src/importance/centres.ts';
import { fillNormals, normalSpace, setDirection } from '../src/importance/normal-space.ts';
import { addWeightedTallies, emptyWeightedTallies } from '../src/importance/weighted-risk.ts';
import { weightByHeight } from '../src/importance/weighted-tally.ts';
import { createBlockRoom, drawBlock, evaluateBlock } from '../src/run-risk.ts';
import { mixtureRuns, weightedParts } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { demoCase } from './demo.ts';

const SLICK = 'tall-slick';
const WHEEL: Follows = { input: 'wheelRate', share: 1 };
const SCALE: Follows = { tyre: SLICK, input: 'growthScale', share: 0.8 };

const learnedInput = (
  input: UncertainInput,
  middle: number,
  spread: number,
  follows?: Follows[],
): UncertainInput => ({
  ...input,
  law: { kind: 'updated', from: input.law as PlainLaw, middle, below: spread, above: spread },
  ...(follows === undefined ? {} : { follows }),
});

/** The demo, with its slick's growth learned together with the wheel rate and its growth speed against it. */
function learnedDemo(): Case {
  const source = demoCase(4096, 64);
  return {
    ...source,
    car: { ...source.car, wheelRate: learnedInput(source.car.wheelRate, 0.5, 0.5) },
    tyres: source.tyres.map((tyre) =>
      tyre.name !== SLICK
        ? tyre
        : {
            ...tyre,
            inputs: {
              ...tyre.inputs,
              growthScale: learnedInput(tyre.inputs.growthScale, 1, 0.7, [{ ...WHEEL, share: 0.6 }, SCALE]),
              growthSpeedFactor: learnedInput(tyre.inputs.growthSpeedFactor, -0.5, 0.6, [
                { ...SCALE, share: -0.5 },
                { tyre: SLICK, input: 'growthSpeedFactor', share: Math.sqrt(0.75) },
              ]),
            },
          },
    ),
  };
}

const source = learnedDemo();
const setup = caseSetup(source);
const WHEEL_RATE = carColumn('wheelRate');
const GROWTH = tyreColumn('growthScale');
const SPEED = tyreColumn('growthSpeedFactor');

function correlation(a: readonly number[], b: readonly number[]): number {
  const mean = (x: readonly number[]) => x.reduce((sum, v) => sum + v, 0) / x.length;
  const [ma, mb] = [mean(a), mean(b)];
  const dot = (x: readonly number[], y: readonly number[], mx: number, my: number) =>
    x.reduce((sum, v, i) => sum + (v - mx) * (y[i]! - my), 0);
  return dot(a, b, ma, mb) / Math.sqrt(dot(a, a, ma, ma) * dot(b, b, mb, mb));
}

describe('inputs that were learned together', () => {
  const columns = createColumns(setup.tyres);
  const drawn: number[][] = [[], [], []];
  for (let block = 0; block < 8; block++) {
    fillColumns(setup.tyres, 1, '', block, [BLOCK, BLOCK], 'both', columns);
    drawn[0]!.push(...Array.from(columns[0]!.car[WHEEL_RATE]!, Math.log));
    drawn[1]!.push(...Array.from(columns[0]!.tyre[GROWTH]!, Math.log));
    drawn[2]!.push(...Array.from(columns[0]!.tyre[SPEED]!, Math.log));
  }

  it('are drawn with the correlation they have', () => {
    // Their scores are sums of the same normal numbers: shares 0.6, and −0.5 · 0.8 with their own sign. 8,192 draws: 4 sd 0.04.
    expect(Math.abs(correlation(drawn[0]!, drawn[1]!) - 0.6)).toBeLessThan(0.04);
    expect(Math.abs(correlation(drawn[1]!, drawn[2]!) + 0.4)).toBeLessThan(0.04);
    expect(Math.abs(correlation(drawn[0]!, drawn[2]!))).toBeLessThan(0.045);
  });

  it('keep the laws that were learned', () => {
    const law = source.tyres[0]!.inputs.growthScale.law;
    const sorted = drawn[1]!.slice().sort((a, b) => a - b);
    for (const u of [0.05, 0.5, 0.95]) {
      expect(Math.abs(sorted[Math.floor(u * sorted.length)]! - Math.log(quantile(law, u)))).toBeLessThan(
        0.01,
      );
    }
  });

  it('have the same values when each is set by itself, in the order of the space', () => {
    const space = normalSpace(setup);
    const room = createBlockRoom(setup);
    drawBlock(setup, 1, 0, BLOCK, room);
    const normals = new Float64Array(BLOCK);
    const alone = createColumns(setup.tyres);
    for (const direction of space.directions) {
      fillNormals(direction, 1, '', 0, BLOCK, normals);
      setDirection(direction, normals, BLOCK, alone);
    }
    for (const [group, index] of [
      ['car', WHEEL_RATE],
      ['tyre', GROWTH],
      ['tyre', SPEED],
    ] as const) {
      const [a, b] = [room.columns[0]![group][index]!, alone[0]![group][index]!];
      expect(a).toEqual(b);
    }
  });
});

it('weighted draws of a learned case agree with its plain count', () => {
  const space = normalSpace(setup);
  const room = createBlockRoom(setup);
  const tub = source.tubs.findIndex(({ name }) => name === 'tall-46');
  const blocks = 16;
  const heights: number[] = [];
  for (let block = 0; block < blocks; block++) {
    drawBlock(setup, 1, block, BLOCK, room);
    evaluateBlock(setup, room, BLOCK);
    const { requiredHeight, capacity } = room.tables[0]!;
    heights.push(...requiredHeight.subarray(tub * capacity, tub * capacity + BLOCK));
  }
  const centres = touchCentres(setup, space, 1, room);
  const total = emptyWeightedTallies(setup);
  for (const range of weightedParts(8))
    addWeightedTallies(total, mixtureRuns(setup, centres, 1, range, room, space));
  const { weight, square } = weightByHeight(total.tyres[0]!.events, total.tyres[0]!.tubs[tub]!.steps);
  const sorted = heights.sort((a, b) => b - a);
  const height = sorted[Math.floor(0.005 * sorted.length)]!;
  const step = Math.round((height - setup.lowestHeights[tub]!) / (0.0254 / 16));
  const top = setup.lowestHeights[tub]! + step * (0.0254 / 16);
  const counted = heights.filter((needed) => needed > top).length / heights.length;
  const events = total.tyres[0]!.events;
  const weighted = weight[step]! / events;
  const error = Math.sqrt(counted / heights.length + square[step]! / events ** 2);
  expect(counted).toBeGreaterThan(0.002);
  expect(Math.abs(weighted - counted)).toBeLessThan(4 * error);
});
