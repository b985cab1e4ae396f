/**
 * The uncertain numbers of one run, in SI. The order of each list is the order of the kernel's columns; a
 * caller addresses a column by its name through `carColumn` and `tyreColumn`, never by a bare number.
 */

/** Numbers that belong to the car, its build, the day or the run; shared by all tyres of the car. */
export const CAR_INPUTS = [
  'mass', // kg, car with driver and fuel as raced
  'rearShare', // 1, share of the static weight on the rear axle
  'wheelbase', // m
  'cgHeight', // m, centre of gravity above the track
  'dragArea', // m², C_d A
  'dragHeight', // m, height of the body drag's line of action
  'downforceArea', // m², C_z A on the rear axle
  'rollingCoefficient', // 1, rolling resistance over weight
  'wheelRate', // N/m, per side, at the wheel
  'bumpTravel', // m, free travel from rest to the stop, at the wheel
  'stopRate', // N/m, per side, what the stop adds
  'droopTravel', // m, from rest down to full droop, at the wheel
  'antiSquat', // 1, share of the thrust's transfer that the links carry
  'axlePathSlope', // 1, forward movement of the axle per unit of bump
  'bushingGive', // m, forward movement of the axle at full thrust
  'torqueRoll', // m, extra drop of the worse side at full thrust, from driveshaft torque
  'addedMass', // kg on the rear axle: what was missing when the tub's place was set
  'topHeightError', // m, tub top above where it was meant to be (negative: too low)
  'centreError', // m, tub centre ahead of where it was meant to be
  'trapSpeed', // m/s
  'launchAcceleration', // m/s², net, while grip limits
  'finishAcceleration', // m/s² net at the finish, or a factor on what the point mass gives (RunSetup says which)
  'slipAtLaunch', // 1, slip κ of the driven tread
  'slipUnderway', // 1, at the gear change and in the middle
  'slipGripLost', // 1, when grip is lost in mid-track
  'gripLostToss', // 1, uniform: grip is lost in this run when it falls below the chance
  'slipAtFinish', // 1
  'burnoutSpeed', // m/s, tread speed in the burnout
  'burnoutThrust', // 1, thrust in the burnout over the static weight on the rear axle
  'gearOvershoot', // 1, overshoot of the force when the thrust comes back
  'liftOvershoot', // 1, overshoot of the force at the lift and at the parachute
  'chuteDeceleration', // m/s², parachute pull over mass
  'chuteHeight', // m, height of the parachute's attachment
  'bump', // m, bump allowance
  'airTemperature', // K
  'stationPressure', // Pa, absolute, at the track; not corrected to sea level
  'humidity', // 1, relative humidity
] as const;

/** Numbers that belong to one tyre. */
export const TYRE_INPUTS = [
  'referenceRadius', // m, free radius at the tyre's reference pressure
  'radiusPerPressure', // m/Pa, dR/dp of the free radius
  'growthScale', // 1: bias slick A over R; radial q_ref
  'growthSpeedFactor', // 1, factor on the bias law's speed v_c (a radial has no use for it)
  'growthCarcassPressure', // Pa, p_0 of the growth law
  'patchCarcassPressure', // Pa, p_0 of the contact patch
  'mass', // kg
  'sectionWidth', // m
  'treadWidth', // m
  'stiffnessFactor', // 1, factor on the radial band stiffness k_w found from the measured deflection
  'tangentialRatio', // 1, k_v over k_w
  'lobeHeight', // m
  'lobeAngle', // rad from straight up, forward positive
  'runOut', // m, radial run-out beyond the mean radius
  'coldPressure', // Pa, gauge, as set before the run
  'airHeating', // K, tyre air above its temperature when the pressure was set
  'volumeRatio', // 1, hot over cold inner volume
  'rideHeightChange', // m, body raised on the springs for this tyre (positive: up)
] as const;

export type CarInput = (typeof CAR_INPUTS)[number];
export type TyreInput = (typeof TYRE_INPUTS)[number];

const carIndex = new Map<string, number>(CAR_INPUTS.map((name, index) => [name, index]));
const tyreIndex = new Map<string, number>(TYRE_INPUTS.map((name, index) => [name, index]));

/** Column of a car input in the kernel's input table. */
export const carColumn = (name: CarInput): number => carIndex.get(name) as number;

/** Column of a tyre input in the kernel's input table. */
export const tyreColumn = (name: TyreInput): number => tyreIndex.get(name) as number;
