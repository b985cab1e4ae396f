import { moistAirDensity } from './air/moist.ts';
import { densityAltitude } from './air/standard.ts';
import { springForce } from './car/force.ts';
import {
  ACCELERATION,
  CAR_SPEED,
  DOWNFORCE,
  DRAG,
  fillMoments,
  HAPPENS,
  MOMENT_LENGTH,
  MOMENTS,
  MOMENTS_LENGTH,
  MOVING,
  type Moment,
  type RunSetup,
  SPRING_FORCE,
  THRUST_SHARE,
  TRANSFER,
  TREAD_SPEED,
  TYRE_LOAD,
  TYRE_THRUST,
} from './car/moments.ts';
import { buildLoad, staticLoadedRadius } from './car/stance.ts';
import { bodyDrop } from './car/travel.ts';
import {
  fillRequiredHeight,
  NEEDED,
  NEEDED_ANGLE,
  NEEDED_CONTACT,
  NEEDED_LENGTH,
} from './clearance/required-height.ts';
import { fillShares, SHARES, type Share } from './clearance/shares.ts';
import { smallestGap } from './clearance/smallest-gap.ts';
import { BODY_AS_BUILT, type BodyPlace, builtTubFromAxle, type TubPlace } from './clearance/tub-place.ts';
import { type CarInput, carColumn, type TyreInput, tyreColumn } from './inputs.ts';
import { standingOutline } from './standing.ts';
import type { Tub } from './tub/profile.ts';
import { airTension } from './tyre/band.ts';
import { bandDisplacement, fillBandShape, loadBulge } from './tyre/band-shape.ts';
import { criticalSpeed, hoopShareFromGrowth } from './tyre/critical-speed.ts';
import { grownTyre } from './tyre/grown.ts';
import { bandMassPerLength } from './tyre/growth.ts';
import type { TyreSetup } from './tyre/inflated.ts';
import { lobeAllowance } from './tyre/lobe.ts';
import {
  BASE,
  fillLobe,
  fillOutlineGrid,
  LOBE_HEIGHT,
  LOBE_LENGTH,
  LOBE_MIDDLE,
  OUTLINE_LENGTH,
  outlineRadius,
} from './tyre/outline.ts';
import { patchHalfAngle } from './tyre/patch.ts';
import { hotPressure } from './tyre/pressure.ts';

/** Nothing to beat: the answer is wanted whatever it is. */
const UNBEATEN = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY] as const;

/** One car, one tyre, one tub, one moment, all in SI. */
export interface StateRequest {
  /** One value a CAR_INPUTS name, in that order. */
  car: Float64Array;
  /** One value a TYRE_INPUTS name, in that order. */
  tyre: Float64Array;
  tyreSetup: TyreSetup;
  run: RunSetup;
  /** The build tyre, when another than `tyre`. */
  build: { tyre: Float64Array; tyreSetup: TyreSetup; pressure: number; axleHeight?: number };
  tub: Tub;
  /** Top height above the track with the build tyre at build pressure, m. */
  topHeight: number;
  /** m */
  reserve: number;
  moment: Moment;
  growthFactor?: number;
}

/** Every intermediate value of one state, SI. */
export interface ClearanceState {
  happens: boolean;
  airDensity: number;
  densityAltitude: number;
  carSpeed: number;
  treadSpeed: number;
  acceleration: number;
  drag: number;
  downforce: number;
  transfer: number;
  tyreThrust: number;
  tyreLoad: number;
  /** Before overshoot, roll and added mass. */
  steadySpringForce: number;
  springForce: number;
  /** Thrust over the launch's thrust. */
  thrustShare: number;
  /** Gauge pressure at which the free radius was taken, Pa. */
  referencePressure: number;
  coldPressure: number;
  pressure: number;
  coldFreeRadius: number;
  freeRadius: number;
  bandMass: number;
  /** v_c of a bias slick, m/s; q of a radial, 1. */
  growthParameter: number;
  growth: number;
  grownRadius: number;
  halfPatch: number;
  airTension: number;
  radialStiffness: number;
  tangentialStiffness: number;
  /** Warning speeds of standing waves: χ from growth on k_w alone with EI 10, and the careful end χ 0.6, EI 4. */
  criticalSpeedFromGrowth: number;
  criticalSpeedCareful: number;
  staticLoadedRadius: number;
  bodyDrop: number;
  bump: number;
  forward: number;
  /** Inner radius of the tub, on its liner where there is one, m. */
  tubRadius: number;
  /** Tub centre ahead of the axle at rest, misplacement in it, m. */
  centreAtRest: number;
  reserve: number;
  /** Tub centre from the axle at the moment, m. */
  centreAhead: number;
  centreAbove: number;
  tightAngle: number;
  /** At the tight angle, m. */
  loadBulge: number;
  thrustBulge: number;
  lobe: number;
  runOut: number;
  outlineRadius: number;
  gap: number;
  margin: number;
  staticSmallest: number;
  staticSmallestAngle: number;
  closing: number;
  requiredHeight: number;
  requiredAngle: number;
  contactHeight: number;
  shares: Record<Share, number>;
  /** Filled outlines, for drawing: at the moment and standing still. */
  outline: Float64Array;
  staticOutline: Float64Array;
}

/**
 * One state in plain steps, every intermediate value kept: what an engineer checks by hand, and what the kernel must
 * equal to the last bit.
 * @throws RangeError when the air density leaves the standard atmosphere's range
 */
export function clearanceState(request: StateRequest): ClearanceState {
  const { tyreSetup, tub } = request;
  const car = (name: CarInput): number => request.car[carColumn(name)]!;
  const tyre = (name: TyreInput): number => request.tyre[tyreColumn(name)]!;
  const growthFactor = request.growthFactor ?? 1;
  const moments = new Float64Array(MOMENTS_LENGTH);
  fillMoments(request.car, request.run, moments);
  const at = MOMENTS.indexOf(request.moment) * MOMENT_LENGTH;
  const moving = moments[at + MOVING]!;

  // 1 air in the tyre, 2 free radius
  const coldPressure = tyre('coldPressure');
  const pressure =
    moving === 0
      ? coldPressure
      : hotPressure(
          coldPressure,
          car('airTemperature'),
          car('airTemperature') + tyre('airHeating'),
          tyre('volumeRatio'),
          car('stationPressure'),
        );
  const coldFree = grownTyre(request.tyre, tyreSetup, coldPressure, 0).freeRadius;

  // 3 growth at tread speed
  const treadSpeed = moments[at + TREAD_SPEED]!;
  const grownFree = grownTyre(request.tyre, tyreSetup, pressure, treadSpeed);
  const free = grownFree.freeRadius;
  const growth = growthFactor * grownFree.growth;
  const bandMass = bandMassPerLength(tyre('mass'), free);
  const grown = free + growth;

  // 5 body drop and axle path
  const ride = tyre('rideHeightChange');
  const bump = moving * car('bump');
  const dropOnly =
    bodyDrop(
      moments[at + SPRING_FORCE]!,
      car('wheelRate'),
      car('bumpTravel') + ride,
      car('stopRate'),
      car('droopTravel') - ride,
    ) - ride;
  const drop = dropOnly + bump;
  const forward = car('axlePathSlope') * drop + car('bushingGive') * moments[at + THRUST_SHARE]!;

  // 6 band
  const load = moments[at + TYRE_LOAD]!;
  const thrust = moments[at + TYRE_THRUST]!;
  const steadySpringForce =
    moving === 0
      ? 0
      : springForce(
          moments[at + DOWNFORCE]!,
          moments[at + TRANSFER]!,
          2 * thrust,
          car('antiSquat'),
          car('cgHeight'),
          car('wheelbase'),
        );
  const halfPatch = patchHalfAngle(load, pressure, tyre('patchCarcassPressure'), tyre('treadWidth'), grown);
  const tension = airTension(pressure, tyre('sectionWidth'), grown);
  const radialStiffness = tyreSetup.radialStiffness * tyre('stiffnessFactor');
  const tangentialStiffness = radialStiffness * tyre('tangentialRatio');
  const outline = new Float64Array(OUTLINE_LENGTH);
  fillBandShape(outline, grown, radialStiffness, tangentialStiffness, tension, load, thrust, halfPatch);

  // 7 lobe, 8 outline
  outline[BASE] = grown + tyre('runOut');
  outline[LOBE_HEIGHT] = tyre('lobeHeight');
  outline[LOBE_MIDDLE] = tyre('lobeAngle');
  const lobe = new Float64Array(LOBE_LENGTH);
  fillLobe(lobe, tyre('lobeHeight'), tyre('lobeAngle'));
  fillOutlineGrid(outline, lobe);

  // 9 gap at this height, 10 required height, 11 the day of the build
  const build = request.build;
  const axleHeight =
    build.axleHeight ?? staticLoadedRadius(request.car, build.tyre, build.tyreSetup, build.pressure);
  const seen = (body: BodyPlace): TubPlace =>
    builtTubFromAxle(request.car, tub, request.topHeight, axleHeight, body);
  const place = seen({ drop, forward });
  const tight = smallestGap(outline, tub, place);
  const answer = new Float64Array(NEEDED_LENGTH);
  fillRequiredHeight(outline, tub, place.ahead, request.reserve, ...UNBEATEN, answer);
  const lift = axleHeight - car('topHeightError') + drop;

  const standLoad = buildLoad(request.car);
  const staticOutline = standingOutline(request.tyre, tyreSetup, coldPressure, standLoad);
  // Springs that were reset for this tyre hold the body higher before anything moves.
  const restDrop = -ride;
  const restForward = car('axlePathSlope') * restDrop;
  const restPlace = seen({ drop: restDrop, forward: restForward });
  const standing = smallestGap(staticOutline, tub, restPlace);
  const bulge = loadBulge(outline, tight.angle);
  const thrustBulge = bandDisplacement(outline, tight.angle) - bulge;
  const lobeHere = lobeAllowance(tight.angle, tyre('lobeHeight'), tyre('lobeAngle'));
  const shareValues = new Float64Array(SHARES.length);
  fillShares(
    tub,
    {
      angle: tight.angle,
      staticSmallest: standing.gap,
      staticRadius: outlineRadius(staticOutline, tight.angle),
      ahead: restPlace.ahead,
      above: restPlace.above,
      pressure: free - coldFree,
      growth,
      loadBulge: bulge - bandDisplacement(staticOutline, tight.angle),
      thrustBulge,
      lobe: lobeHere,
      runOut: tyre('runOut'),
      drop: dropOnly - restDrop,
      bump,
      forward: forward - restForward,
    },
    shareValues,
  );

  const density = moistAirDensity(car('airTemperature'), car('stationPressure'), car('humidity'));
  const band = {
    radius: grown,
    massPerLength: bandMass,
    airTension: tension,
    radialStiffness,
    tangentialStiffness,
  };
  return {
    happens: moments[at + HAPPENS]! !== 0,
    airDensity: density,
    densityAltitude: densityAltitude(density),
    carSpeed: moments[at + CAR_SPEED]!,
    treadSpeed,
    acceleration: moments[at + ACCELERATION]!,
    drag: moments[at + DRAG]!,
    downforce: moments[at + DOWNFORCE]!,
    transfer: moments[at + TRANSFER]!,
    tyreThrust: thrust,
    tyreLoad: load,
    steadySpringForce,
    springForce: moments[at + SPRING_FORCE]!,
    thrustShare: moments[at + THRUST_SHARE]!,
    referencePressure: tyreSetup.referencePressure,
    coldPressure,
    pressure,
    coldFreeRadius: coldFree,
    freeRadius: free,
    bandMass,
    growthParameter: grownFree.parameter,
    growth,
    grownRadius: grown,
    halfPatch,
    airTension: tension,
    radialStiffness,
    tangentialStiffness,
    criticalSpeedFromGrowth: criticalSpeed(
      band,
      10,
      hoopShareFromGrowth(radialStiffness, growth, grown, bandMass, Math.max(treadSpeed, 1)),
    ),
    criticalSpeedCareful: criticalSpeed(band, 4, 0.6),
    staticLoadedRadius: axleHeight,
    bodyDrop: dropOnly,
    bump,
    forward,
    tubRadius: tub.radius,
    centreAtRest: seen(BODY_AS_BUILT).ahead,
    reserve: request.reserve,
    centreAhead: place.ahead,
    centreAbove: place.above,
    tightAngle: tight.angle,
    loadBulge: bulge,
    thrustBulge,
    lobe: lobeHere,
    runOut: tyre('runOut'),
    outlineRadius: outlineRadius(outline, tight.angle),
    gap: tight.gap,
    margin: tight.gap - request.reserve,
    staticSmallest: standing.gap,
    staticSmallestAngle: standing.angle,
    closing: standing.gap - tight.gap,
    requiredHeight: lift + answer[NEEDED]!,
    requiredAngle: answer[NEEDED_ANGLE]!,
    contactHeight: lift + answer[NEEDED_CONTACT]!,
    shares: Object.fromEntries(SHARES.map((name, i) => [name, shareValues[i]!])) as Record<Share, number>,
    outline,
    staticOutline,
  };
}
