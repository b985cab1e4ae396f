import fc from 'fast-check';
import { fillBandShape } from '../src/tyre/band-shape.ts';
import {
  BASE,
  fillLobe,
  fillOutlineGrid,
  LOBE_HEIGHT,
  LOBE_LENGTH,
  LOBE_MIDDLE,
  OUTLINE_LENGTH,
} from '../src/tyre/outline.ts';
import { between } from './draws.ts';

/** What an outline is made of: grown radius m, springs and tension N/m², forces N, patch rad, lobe m and rad. */
export interface Shape {
  radius: number;
  radialStiffness: number;
  tangentialStiffness: number;
  tension: number;
  load: number;
  thrust: number;
  halfPatch: number;
  lobeHeight: number;
  lobeAngle: number;
}

/** The filled outline of a shape. */
export function outlineOf(shape: Shape): Float64Array {
  const { radius, radialStiffness, tangentialStiffness, tension, load, thrust, halfPatch } = shape;
  const outline = new Float64Array(OUTLINE_LENGTH);
  fillBandShape(outline, radius, radialStiffness, tangentialStiffness, tension, load, thrust, halfPatch);
  outline[BASE] = radius;
  outline[LOBE_HEIGHT] = shape.lobeHeight;
  outline[LOBE_MIDDLE] = shape.lobeAngle;
  const lobe = new Float64Array(LOBE_LENGTH);
  fillLobe(lobe, shape.lobeHeight, shape.lobeAngle);
  fillOutlineGrid(outline, lobe);
  return outline;
}

/** A round outline. */
export const round = (radius: number): Float64Array =>
  outlineOf({
    radius,
    radialStiffness: 7e5,
    tangentialStiffness: 5e5,
    tension: 3e4,
    load: 0,
    thrust: 0,
    halfPatch: 0,
    lobeHeight: 0,
    lobeAngle: 0.7,
  });

export const shapeDraw: fc.Arbitrary<Shape> = fc.record({
  radius: between(0.36, 0.49),
  radialStiffness: between(Math.log(1.5e5), Math.log(1.2e6)).map(Math.exp),
  tangentialStiffness: between(Math.log(1e5), Math.log(1.2e6)).map(Math.exp),
  tension: between(1.5e4, 1.6e5),
  load: between(1e3, 11e3),
  thrust: between(-8e3, 16e3),
  halfPatch: between(0.05, 0.5),
  lobeHeight: between(0, 0.02),
  lobeAngle: between(0.2, 1.2),
});
