import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bulgeAngles, bulges, firmDrop } from '../../../test/outside/band/bulge.ts';
import { type Band, bandSeries, harmonicStiffness } from '../src/tyre/band.ts';
import {
  bandDisplacement,
  CONJUGATE_ROOTS,
  fillBandShape,
  IMAGINARY_ROOTS,
  KIND,
  loadBulge,
  REAL_ROOTS,
  SHAPE_LENGTH,
} from '../src/tyre/band-shape.ts';
import { axleDrop, bandCompliance, radialStiffnessFromDrop } from '../src/tyre/deflection.ts';
import { patchHalfAngle, patchWeight, patchWeightHyperbolic } from '../src/tyre/patch.ts';
import { between } from './draws.ts';

const KINDS = { real: REAL_ROOTS, conjugate: CONJUGATE_ROOTS, imaginary: IMAGINARY_ROOTS } as const;
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

function shapeOf(band: Band, load: number, thrust: number, halfPatch: number): Float64Array {
  const shape = new Float64Array(SHAPE_LENGTH);
  const { radius, radialStiffness, tangentialStiffness, airTension } = band;
  fillBandShape(shape, radius, radialStiffness, tangentialStiffness, airTension, load, thrust, halfPatch);
  return shape;
}

// Sum and boundary value problem of test/outside/band; 16 digits printed, the two methods agree to 4e-12 m.
test('closed form and series agree with a Fourier sum and a boundary value problem made elsewhere', () => {
  expect(bulges.length).toBe(5);
  let worst = 0;
  for (const [name, kind, radius, radial, tangential, tension, halfPatch, load, thrust, rows] of bulges) {
    const band = {
      radius,
      radialStiffness: radial,
      tangentialStiffness: tangential,
      airTension: tension,
      bending: 0,
    };
    const shape = shapeOf(band, load, thrust, halfPatch);
    expect(shape[KIND], name).toBe(KINDS[kind]);
    expect(rows.length).toBe(8);
    rows.forEach((expected, i) => {
      const angle = radians(bulgeAngles[i]!);
      worst = Math.max(worst, Math.abs(bandDisplacement(shape, angle) - expected));
      worst = Math.max(worst, Math.abs(bandSeries(band, angle, load, thrust, halfPatch) - expected));
    });
  }
  // 4,000 terms leave up to 3e-12 m for the short patch.
  expect(worst).toBeLessThan(1e-11);
});

const between2 = (low: number, high: number): fc.Arbitrary<number> =>
  between(Math.log(low), Math.log(high)).map(Math.exp);
const bandDraw = fc.record({
  radius: between(0.3, 0.5),
  radialStiffness: between2(5e4, 2e6),
  tangentialStiffness: between2(3e4, 2e6),
  airTension: between2(5e3, 4e5),
  bending: fc.constant(0),
});
const loads = fc.record({
  load: between(0, 12e3),
  thrust: between(-12e3, 15e3),
  halfPatch: between(0.02, 0.6),
});

test('the closed form equals the 4,000-term sum for any band, and the jump between roots hides in neither', () => {
  const seen = [0, 0, 0];
  fc.assert(
    fc.property(bandDraw, loads, between(-2.09, 2.09), (band, { load, thrust, halfPatch }, angle) => {
      const shape = shapeOf(band, load, thrust, halfPatch);
      seen[shape[KIND]!]!++;
      const sum = bandSeries(band, angle, load, thrust, halfPatch);
      // The sum's own rest: terms of F/(πRτn²) times 3/(nα)².
      const rest =
        (3 * (load + thrust)) / (Math.PI * band.radius * band.airTension * halfPatch ** 2 * 4000 ** 3);
      expect(Math.abs(bandDisplacement(shape, angle) - sum)).toBeLessThan(1e-11 + Math.abs(rest));
    }),
    { numRuns: 300 },
  );
  expect(Math.min(seen[REAL_ROOTS]!, seen[CONJUGATE_ROOTS]!)).toBeGreaterThan(30);
});

test('imaginary roots agree with the sum as well', () => {
  // τ > k_w and a small k_v: whole numbers must not lie between the two roots, or a harmonic would be unstable.
  fc.assert(
    fc.property(between(1e4, 6e4), between(0.02, 0.1), loads, between(-2, 2), (kw, share, forces, angle) => {
      const band = {
        radius: 0.44,
        radialStiffness: kw,
        tangentialStiffness: share * kw,
        airTension: 2 * kw,
        bending: 0,
      };
      const { load, thrust, halfPatch } = forces;
      const shape = shapeOf(band, load, thrust, halfPatch);
      expect(shape[KIND]).toBe(IMAGINARY_ROOTS);
      const sum = bandSeries(band, angle, load, thrust, halfPatch);
      const rest = (3 * 27e3) / (Math.PI * 0.44 * band.airTension * halfPatch ** 2 * 4000 ** 3);
      expect(Math.abs(bandDisplacement(shape, angle) - sum)).toBeLessThan(1e-10 + rest);
    }),
  );
});

test('next to a double root and on it the closed form keeps within 1e-9 m of the sum', () => {
  const [tension, kw] = [4e4, 6e5];
  const double = ((kw - tension) / (2 * tension)) ** 2 * tension;
  const steps = [0, 1e-14, 1e-12, 1e-11, 1e-10, 1e-9, 1e-7, 1e-5, 1e-3].flatMap((e) => [e, -e]);
  expect(steps.length).toBe(18);
  for (const step of steps) {
    const band = {
      radius: 0.44,
      radialStiffness: kw,
      tangentialStiffness: double * (1 + step),
      airTension: tension,
      bending: 0,
    };
    const shape = shapeOf(band, 1e4, 1e4, 0.3);
    for (const angle of [-2, -0.7, 0, 0.4, 1.6]) {
      const off = Math.abs(bandDisplacement(shape, angle) - bandSeries(band, angle, 1e4, 1e4, 0.3));
      expect(off, `${step} at ${angle}`).toBeLessThan(1e-9);
    }
  }
});

test('the even part of the displacement is the load’s, the odd part the thrust’s', () => {
  fc.assert(
    fc.property(bandDraw, loads, between(-2, 2), (band, { load, thrust, halfPatch }, angle) => {
      const both = shapeOf(band, load, thrust, halfPatch);
      const loaded = shapeOf(band, load, 0, halfPatch);
      const pulled = shapeOf(band, 0, thrust, halfPatch);
      const scale = 1e-12 + 1e-12 * Math.abs(load + thrust);
      expect(Math.abs(loadBulge(both, angle) - bandDisplacement(loaded, angle))).toBeLessThan(scale);
      expect(
        Math.abs(bandDisplacement(both, angle) - loadBulge(both, angle) - bandDisplacement(pulled, angle)),
      ).toBeLessThan(scale);
      expect(Math.abs(bandDisplacement(pulled, -angle) + bandDisplacement(pulled, angle))).toBeLessThan(
        scale,
      );
    }),
  );
});

const firm = {
  radius: 0.44,
  radialStiffness: 7e5,
  tangentialStiffness: 5e5,
  airTension: 32e3,
  bending: 0,
};

test('the axle drop agrees with the sum made elsewhere', () => {
  expect(Math.abs(firmDrop.load * bandCompliance(firm, 0.3) - firmDrop.sum)).toBeLessThan(
    2e-7 * firmDrop.sum,
  );
  expect(Math.abs(axleDrop(firm, firmDrop.load, 0.3) - firmDrop.drop)).toBeLessThan(2e-7 * firmDrop.drop);
});

test('a short patch drops the axle by what a sum of 100,000 harmonics gives, within 1 µm', () => {
  // Bug: 96 harmonics whatever the patch, some hundredths of a millimetre too little drop where pressure or a light car make it short.
  let shortest = 1;
  fc.assert(
    fc.property(
      between(Math.log(3e-4), Math.log(0.6)),
      between(3e4, 3e5),
      between(1, 3),
      (log, pressure, more) => {
        const halfPatch = Math.exp(log);
        const width = 0.3;
        const band = { ...firm, airTension: (pressure * 0.8 * width) / firm.radius };
        // The load that makes the patch so long, with a carcass that carries as much as `more` says.
        const load = halfPatch * 2 * pressure * more * width * firm.radius;
        let sum = 0;
        for (let n = 100_000; n >= 1; n--)
          sum += patchWeight(n * halfPatch) ** 2 / harmonicStiffness(band, n);
        expect(load * Math.abs(bandCompliance(band, halfPatch) - sum)).toBeLessThan(1e-6);
        shortest = Math.min(shortest, halfPatch);
      },
    ),
    { numRuns: 60 },
  );
  expect(shortest).toBeLessThan(3e-3);
});

test('the mean over the patch is within 6 % of the drop at its centre for slicks at 45 kPa', () => {
  // Derived: at the middle of the patch the band touches the ground, so the drop there is −w(π).
  for (const stiffness of [3e5, 5e5, 7e5]) {
    for (const load of [3000, 4500, 6200]) {
      const band = { ...firm, radialStiffness: stiffness, tangentialStiffness: 0.7 * stiffness };
      const halfPatch = patchHalfAngle(load, 45e3, 14e3, 0.36, 0.44);
      const centre = -bandSeries(band, Math.PI, load, 0, halfPatch);
      expect(Math.abs(axleDrop(band, load, halfPatch) / centre - 1)).toBeLessThan(0.06);
    }
  }
  // Worked: 23.5721 mm against 23.27 mm at the centre.
  expect(-bandSeries(firm, Math.PI, 6200, 0, 0.3) * 1e3).toBeCloseTo(23.27, 2);
});

test('the sidewall found from a measured drop gives that drop back', () => {
  fc.assert(
    fc.property(between(0.014, 0.03), between(3e4, 7e4), between(4e3, 7e3), (drop, pressure, load) => {
      const measured = {
        pressure,
        load,
        drop,
        freeRadius: 0.44,
        sectionWidth: 0.4,
        treadWidth: 0.35,
        carcassPressure: 14e3,
        tangentialRatio: 0.7,
      };
      const halfPatch = patchHalfAngle(load, pressure, 14e3, 0.35, 0.44);
      const radialStiffness = radialStiffnessFromDrop(measured);
      const band = {
        ...firm,
        radialStiffness,
        tangentialStiffness: 0.7 * radialStiffness,
        airTension: (pressure * 0.8 * 0.4) / 0.44,
      };
      expect(Math.abs(axleDrop(band, load, halfPatch) - drop)).toBeLessThan(1e-11);
    }),
  );
});

test('a drop that no sidewall gives is refused with the drops that are possible', () => {
  const measured = {
    pressure: 45e3,
    load: 6200,
    freeRadius: 0.44,
    sectionWidth: 0.4,
    treadWidth: 0.35,
    carcassPressure: 14e3,
    tangentialRatio: 0.7,
  };
  expect(() => radialStiffnessFromDrop({ ...measured, drop: 0.001 })).toThrow(
    /fits no sidewall; allowed is 0\.00/,
  );
  expect(() => radialStiffnessFromDrop({ ...measured, drop: 3 })).toThrow(RangeError);
  expect(() => radialStiffnessFromDrop({ ...measured, drop: Number.NaN })).toThrow(RangeError);
});

test('the patch weights join their series without a step and have the shape of a parabola', () => {
  // Derived: f is the cosine transform of ¾(1 − u²) over −1…1, here by Simpson's rule with 2,000 intervals.
  const transform = (wave: (u: number) => number): number => {
    let sum = 0;
    for (let i = 0; i <= 2000; i++) {
      const u = -1 + i / 1000;
      sum += (i === 0 || i === 2000 ? 1 : i % 2 === 1 ? 4 : 2) * 0.75 * (1 - u * u) * wave(u);
    }
    return sum / 3000;
  };
  for (const x of [0, 0.05, 0.0999, 0.1001, 0.7, 3, 12]) {
    expect(patchWeight(x)).toBeCloseTo(
      transform((u) => Math.cos(u * x)),
      9,
    );
    expect(patchWeightHyperbolic(x) / transform((u) => Math.cosh(u * x))).toBeCloseTo(1, 8);
  }
});

test('the patch carries its load and stops at 0.6 rad', () => {
  // Derived: mean pressure (p + p₀) over b_t · 2αR is the load; 6,200 N at 45 + 14 kPa, 0.35 m wide, R 0.44 m.
  const halfPatch = patchHalfAngle(6200, 45e3, 14e3, 0.35, 0.44);
  expect(59e3 * 0.35 * 2 * halfPatch * 0.44).toBeCloseTo(6200, 9);
  expect(patchHalfAngle(20e3, 20e3, 14e3, 0.35, 0.44)).toBe(0.6);
});

test('harmonic 1 is the rigid ring on its springs', () => {
  // Derived: πR(k_w + k_v), whatever tension and bending.
  const stiffness = harmonicStiffness({ ...firm, bending: 12 }, 1);
  expect(stiffness / (Math.PI * 0.44 * 12e5)).toBeCloseTo(1, 13);
});
