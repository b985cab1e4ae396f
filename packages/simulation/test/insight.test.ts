import { BLOCK } from '@tubgap/statistics';
import { describe, expect, it } from 'vitest';
import { stepAt } from '../src/heights.ts';
import { touchCentres } from '../src/importance/centres.ts';
import { normalSpace } from '../src/importance/normal-space.ts';
import { tyreResponse } from '../src/importance/response.ts';
import { addWeightedTallies, emptyWeightedTallies } from '../src/importance/weighted-risk.ts';
import { weightByHeight } from '../src/importance/weighted-tally.ts';
import { findCarSpread } from '../src/insight/car-spread.ts';
import { findDrivers } from '../src/insight/drivers.ts';
import { createBlockRoom, drawBlock, evaluateBlock } from '../src/run-risk.ts';
import { mixtureRuns, weightedParts } from '../src/runner.ts';
import { caseSetup } from '../src/setup.ts';
import { demoCase } from './demo.ts';

const TUB = 3;
const SLICK = 0;

describe('insight into the demo’s pick', () => {
  const source = demoCase(1024, 1);
  const setup = caseSetup(source);
  const centres = touchCentres(setup, normalSpace(setup), 1, createBlockRoom(setup));
  const topHeight = setup.lowestHeights[TUB]! + 0.14;

  it('first-order shares are no larger than total ones and leave little over: the required height is nearly additive', () => {
    const { drivers, groups } = findDrivers(setup, centres, 1, SLICK, TUB, topHeight);
    const sum = drivers.reduce((total, driver) => total + driver.first.value, 0);
    expect(sum).toBeGreaterThan(0.75);
    expect(sum).toBeLessThan(1.15);
    for (const { first, total } of drivers) expect(first.low).toBeLessThan(total.high + 0.02);
    // The groups share out the same variance: what the tyre decides is what its inputs decide together.
    for (const { group, total } of groups) {
      const alone = drivers.filter((driver) => driver.group === group);
      const least = Math.max(...alone.map((driver) => driver.first.value));
      expect(total.value).toBeGreaterThan(least - 0.05);
    }
  });

  it('what to measure next goes by what an input takes away alone: where inputs act together only, hardly anything', () => {
    // So far down that nearly every run counts as beyond: first-order shares then leave half of the spread over, total
    // ones add up to more than one.
    const { measureNext } = findDrivers(setup, centres, 1, SLICK, TUB, setup.lowestHeights[TUB]! + 0.04);
    const shares = measureNext.map(({ share }) => share);
    const sum = shares.reduce((total, share) => total + share, 0);
    expect(sum).toBeGreaterThan(0.2);
    expect(sum).toBeLessThan(0.8);
    expect(shares.toSorted((a, b) => b - a)).toEqual(shares);
  });

  it('what to measure next may be new every run, and is never a toss or what the builder does', () => {
    const { drivers, measureNext } = findDrivers(setup, centres, 1, SLICK, TUB, topHeight);
    const each = (label: string) => measureNext.find((row) => row.label === label)?.each;
    expect(each('growth scale')).toBe('car');
    expect(each('speed at the finish')).toBe('run');
    expect(each('bump allowance')).toBe('run');
    const left = drivers.filter(({ label }) => each(label) === undefined).map(({ label }) => label);
    expect(left).toEqual([
      'tub top above where it was meant to be',
      'tub centre ahead of where it was meant to be',
      'whether grip is lost in this run',
    ]);
  });

  it('what is driven most is what a touch shows: growth is far from its own law among touching runs', () => {
    const { drivers } = findDrivers(setup, centres, 1, SLICK, TUB, topHeight);
    const byTotal = drivers.toSorted((a, b) => b.total.value - a.total.value);
    const byTail = drivers.toSorted((a, b) => b.tail.value - a.tail.value);
    expect(byTail[0]!.label).toBe(byTotal[0]!.label);
    expect(byTail[0]!.tail.low).toBeGreaterThan(0.3);
  });

  it('worst cars and the rest make up the weighted run risk that is told of the pick', () => {
    // Once 1,024 cars of their own stood for it: 1 in 1,700 to 1 in 2,600 from seed to seed for 1 in 2,100.
    const blocks = 32;
    const tail = emptyWeightedTallies(setup);
    const room = createBlockRoom(setup);
    for (const range of weightedParts(blocks))
      addWeightedTallies(tail, mixtureRuns(setup, centres, 1, range, room));
    const { events, weight } = weightByHeight(tail.tyres[SLICK]!.events, tail.tyres[SLICK]!.tubs[TUB]!.steps);
    const risk = weight[stepAt(setup.lowestHeights[TUB]!, topHeight)]! / events;
    const spread = findCarSpread(setup, centres, 1, SLICK, TUB, topHeight, blocks)!;
    const parts = spread.worstShare * spread.worst + (1 - spread.worstShare) * spread.rest;
    expect(parts / risk).toBeCloseTo(1, 10);
    expect((spread.worstShare * spread.worst) / parts).toBeCloseTo(spread.worstTouches, 10);
  });

  it('cars are not told apart where touches weigh less than a risk needs to speak', () => {
    const spreadAt = (height: number) => findCarSpread(setup, centres, 1, SLICK, TUB, height, 2);
    expect(spreadAt(topHeight)).not.toBeNull();
    // The centres lead to one touch in some million runs at most: far above a few draws touch, or none.
    const few = topHeight + 2 * 0.0254;
    expect(spreadAt(few)).toBeNull();
    expect(spreadAt(topHeight + 1)).toBeNull();
  });

  it('the worst cars touch as often as plain cars of another seed do that need as much in a middling run', () => {
    const blocks = 24;
    // Low enough that plain runs touch often and that not all touches are the worst cars'.
    const low = setup.lowestHeights[TUB]! + 0.09;
    const spread = findCarSpread(setup, centres, 1, SLICK, TUB, low, 32)!;
    const room = createBlockRoom(setup);
    const ranking = tyreResponse(setup, SLICK, TUB);
    const cars: { middle: number; touches: boolean }[] = [];
    for (let block = 0; block < blocks; block++) {
      drawBlock(setup, 7, block, BLOCK, room);
      evaluateBlock(setup, room, BLOCK);
      setup.tyres.forEach((tyre, i) => {
        tyre.car.forEach((input, c) => {
          if (input.each === 'car') ranking.columns[i]!.car[c]!.set(room.columns[i]!.car[c]!);
        });
        tyre.tyre.forEach((input, c) => {
          if (input.each === 'car') ranking.columns[i]!.tyre[c]!.set(room.columns[i]!.tyre[c]!);
        });
      });
      const middle = ranking.evaluate(BLOCK);
      const { requiredHeight, capacity } = room.tables[SLICK]!;
      for (let run = 0; run < BLOCK; run++) {
        cars.push({ middle: middle[run]!, touches: requiredHeight[TUB * capacity + run]! > low });
      }
    }
    cars.sort((a, b) => b.middle - a.middle);
    const worst = cars.slice(0, Math.round(spread.worstShare * cars.length));
    const touches = worst.filter((car) => car.touches).length;
    const counted = touches / worst.length;
    expect(touches).toBeGreaterThan(50);
    const error = Math.hypot(Math.sqrt((counted * (1 - counted)) / worst.length), 0.05 * counted);
    expect(Math.abs(spread.worst - counted) / error).toBeLessThan(3);
    expect(spread.worstTouches).toBeLessThan(1);
  });
});
