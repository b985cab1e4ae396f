import type { ClearanceState } from '@tubgap/core';
import { FOOT, INCH, inchCell, MPH, POUND_FORCE, PSI, STANDARD_GRAVITY, toDegrees } from '@tubgap/units';
import { STATE_STEPS, type Unit } from './state-steps.ts';

/** What a shop would read a value in, beside the SI value; undefined where SI is what the trade uses too. */
function shopUnits(value: number, unit: Unit): string {
  switch (unit) {
    case 'm':
      return `${(value / INCH).toFixed(3)} in`;
    case 'm/s':
      return `${(value / MPH).toFixed(2)} mph`;
    case 'm/s²':
      return `${(value / STANDARD_GRAVITY).toFixed(3)} g`;
    case 'N':
      return `${(value / POUND_FORCE).toFixed(1)} lbf`;
    case 'Pa':
      return `${(value / PSI).toFixed(3)} psi`;
    case 'rad':
      return `${toDegrees(value).toFixed(2)}°`;
    default:
      return '';
  }
}

export interface StateHeading {
  title: string;
  tyre: string;
  tub: string;
  moment: string;
  /** m */
  topHeight: number;
  /** Every input of the state with the value taken for it. */
  inputs: readonly StateInput[];
}

export interface StateInput {
  label: string;
  /** SI */
  value: number;
  /** In the units of the shop. */
  shown: string;
  /** From the case, its catalogues, or assumed. */
  source: string;
}

/** One state as text, for checking by hand: symbol, value in SI, value in shop units, formula. */
export function stateSheet(heading: StateHeading, state: ClearanceState): string {
  const lines = [
    heading.title,
    `${heading.tyre} in ${heading.tub}, ${heading.moment}, top ${inchCell(heading.topHeight)} in above the track`,
    '',
  ];
  lines.push('Inputs, each at the middle of its law: as a shop reads it, in SI, where it comes from');
  for (const input of heading.inputs) {
    lines.push(
      `  ${input.label.padEnd(62)} ${input.shown.padEnd(16)} ${input.value.toPrecision(7).padEnd(14)} ${input.source}`.trimEnd(),
    );
  }
  for (const step of STATE_STEPS) {
    lines.push(step.title);
    for (const line of step.lines) {
      const value = state[line.key] as number;
      const shop =
        line.key === 'densityAltitude' ? `${(value / FOOT).toFixed(0)} ft` : shopUnits(value, line.unit);
      const si = `${value.toPrecision(7)} ${line.unit === '1' || line.unit === 'v_c or q' ? '' : line.unit}`;
      lines.push(
        `  ${line.symbol.padEnd(10)} ${line.name.padEnd(30)} ${si.padEnd(22)} ${shop.padEnd(14)} ${line.how}`.trimEnd(),
      );
    }
  }
  lines.push('Shares of the closing, switched on in this order at the tight angle (they add up)');
  for (const [name, value] of Object.entries(state.shares)) {
    lines.push(
      `  ${''.padEnd(10)} ${name.padEnd(30)} ${`${value.toPrecision(7)} m`.padEnd(22)} ${shopUnits(value, 'm')}`,
    );
  }
  return `${lines.join('\n')}\n`;
}

/** The same as data: SI values by name, without the drawn outlines. */
export function stateJson(heading: StateHeading, state: ClearanceState): object {
  const { outline: _, staticOutline: __, ...values } = state;
  return { ...heading, units: 'SI', ...values };
}
