import { expect } from 'vitest';
import type { CarInput, ClearanceState, StateRequest, TyreInput } from '../src/index.ts';
import { carColumn, clearanceState, gapAtAngle, outlineRadius, SHARES, tyreColumn } from '../src/index.ts';

/** A state with every law of a state checked: what each test of a state asks for. */
export function checkedState(request: StateRequest): ClearanceState {
  const state = clearanceState(request);
  validate(state, request);
  return state;
}

const ROUNDING = 1e-12;

/** The laws of one state, whatever its numbers. */
export function validate(state: ClearanceState, request: StateRequest): void {
  const car = (name: CarInput): number => request.car[carColumn(name)]!;
  const tyre = (name: TyreInput): number => request.tyre[tyreColumn(name)]!;
  for (const [name, value] of Object.entries(state)) {
    if (typeof value !== 'number' || /^(required|contact)/.test(name)) continue;
    expect(Number.isFinite(value), `${name} is ${value}`).toBe(true);
  }
  expect(Number.isNaN(state.requiredHeight) || Number.isNaN(state.contactHeight)).toBe(false);

  // Nothing pulls, shrinks or slips backwards.
  expect(state.growth).toBeGreaterThanOrEqual(0);
  expect(state.tyreLoad).toBeGreaterThanOrEqual(0);
  expect(state.tyreThrust).toBeGreaterThanOrEqual(0);
  expect(state.downforce).toBeGreaterThanOrEqual(0);
  expect(state.treadSpeed).toBeGreaterThanOrEqual(state.carSpeed);
  expect(state.halfPatch).toBeGreaterThanOrEqual(0);
  expect(state.halfPatch).toBeLessThanOrEqual(0.6);
  expect(state.transfer).toBeLessThanOrEqual(car('mass') * 9.80665 * (1 - car('rearShare')) + 1e-9);
  expect(state.bodyDrop).toBeGreaterThanOrEqual(-car('droopTravel') - ROUNDING);

  // Sums.
  expect(Math.abs(state.grownRadius - state.freeRadius - state.growth)).toBeLessThan(ROUNDING);
  const parts = state.grownRadius + state.runOut + state.loadBulge + state.thrustBulge + state.lobe;
  expect(Math.abs(parts - state.outlineRadius)).toBeLessThan(1e-11);
  expect(Math.abs(state.closing - (state.staticSmallest - state.gap))).toBeLessThan(ROUNDING);
  expect(Math.abs(state.margin - (state.gap - request.reserve))).toBeLessThan(ROUNDING);
  const shares = SHARES.reduce((sum, name) => sum + state.shares[name], 0);
  expect(Math.abs(shares - state.closing)).toBeLessThan(1e-11);

  // No point that is looked at is nearer to the tub than the smallest gap. Through the tub's edge the distance jumps.
  const place = { ahead: state.centreAhead, above: state.centreAbove };
  for (let degrees = -120; degrees <= 120 && state.gap > 1e-3; degrees += 7.5) {
    const angle = (degrees * Math.PI) / 180;
    expect(gapAtAngle(state.outline, request.tub, place, angle)).toBeGreaterThanOrEqual(state.gap - 2e-5);
  }
  expect(outlineRadius(state.outline, state.tightAngle)).toBe(state.outlineRadius);

  // A reserve asks for its own size more at least, and a lobe or run-out never makes the outline smaller. Within 0.1 mm
  // of a tub's wall "fits at no height" may be said of one reserve and not yet of the other.
  if (Number.isFinite(state.requiredHeight) && Number.isFinite(state.contactHeight)) {
    expect(state.requiredHeight - state.contactHeight).toBeGreaterThanOrEqual(request.reserve - 2e-6);
  }
  expect(state.lobe).toBeGreaterThanOrEqual(0);
  expect(state.lobe).toBeLessThanOrEqual(tyre('lobeHeight') + ROUNDING);
}
