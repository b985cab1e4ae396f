import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { caseIn, firstState, readCarried } from '../src/page/bench-case.ts';
import type { BenchState } from '../src/page/bench-state.ts';
import { placeText } from '../src/page/measured-car.ts';
import { standingAt } from '../src/page/shown.ts';
import { sideDrawing } from '../src/page/side-drawing.ts';

const demo = new URL('../../../datasets/demo/', import.meta.url);
const files = Object.fromEntries(
  ['case.yaml', 'tubs.csv', 'tyres.csv'].map((name) => [name, readFileSync(new URL(name, demo), 'utf8')]),
);
const carried = { file: 'case.yaml', files };

it('a top height is never shown lower than it is, in millimetres as in inches', () => {
  // 39 1/4 in is 996.95 mm; the page once said 996, and who built by it stood 1 mm under the least height.
  const read = readCarried(carried, []);
  const found = caseIn(carried, { tub: '', tyre: '', centre: undefined, notches: {}, values: {} });
  if (!read.ok || !found.ok) throw new Error('the demo cannot be shown');
  const top = 39.25 * 0.0254;
  const state: BenchState = { ...firstState(carried, read.value, found.setup), topHeight: top };
  expect(placeText(found, { ...state, units: 'mm' }).replaceAll('\u00a0', ' ')).toContain('top at 997 mm');
  expect(placeText(found, { ...state, units: 'inch' }).replaceAll('\u00a0', ' ')).toContain(
    'top at 39 1/4 in',
  );
  const place = { setup: found.setup, tub: found.tub, tyre: found.setup.buildIndex, topHeight: top };
  const [topText] = sideDrawing({
    place,
    source: found.source,
    standing: standingAt(place),
    units: 'mm',
    cloud: undefined,
    frame: { rear: -1, front: 1, top: 1 },
  }).topTexts;
  expect(topText!.replaceAll('\u00a0', ' ')).toBe('top 997 mm');
});
