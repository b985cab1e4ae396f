import { describe, expect, it } from 'vitest';
import { findCarSpread } from '../src/insight/car-spread.ts';
import { findChanges } from '../src/insight/changes.ts';
import { findDrivers } from '../src/insight/drivers.ts';
import { createBlockRoom } from '../src/run-risk.ts';
import { caseSetup } from '../src/setup.ts';
import { touchCentres } from '../src/tail/centres.ts';
import { normalSpace } from '../src/tail/normal-space.ts';
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
  }, 60_000);

  it('what is driven most is what a touch shows: growth is far from its own law among touching runs', () => {
    const { drivers } = findDrivers(setup, centres, 1, SLICK, TUB, topHeight);
    const byTotal = drivers.toSorted((a, b) => b.total.value - a.total.value);
    const byTail = drivers.toSorted((a, b) => b.tail.value - a.tail.value);
    expect(byTail[0]!.label).toBe(byTotal[0]!.label);
    expect(byTail[0]!.tail.low).toBeGreaterThan(0.3);
  }, 60_000);

  it('changes point the way they must: less speed, wing or travel ask for less height, more growth for more', () => {
    const changes = new Map(
      findChanges(source, centres, SLICK, TUB, topHeight).map((change) => [change.label, change]),
    );
    const height = (label: string): number => changes.get(label)!.heightChange;
    expect(height('5 mph less at the finish')).toBeLessThan(0);
    expect(height('10 % less rear downforce')).toBeLessThan(0);
    expect(height('1/2 in less bump travel')).toBeLessThan(0);
    expect(height('growth one quarter larger than assumed')).toBeGreaterThan(0);
    const higher = changes.get('top 1/2 in higher')!.runRisk;
    expect(higher.after).toBeLessThan(0.5 * higher.before);
  }, 60_000);

  it('the worst cars touch more often than the rest, and shares add up to the whole', () => {
    const spread = findCarSpread(setup, centres, 1, SLICK, TUB, topHeight)!;
    expect(spread.worst).toBeGreaterThan(10 * spread.rest);
    const whole = spread.worstShare * spread.worst + (1 - spread.worstShare) * spread.rest;
    expect((spread.worstShare * spread.worst) / whole).toBeCloseTo(spread.worstTouches, 10);
  }, 60_000);
});
