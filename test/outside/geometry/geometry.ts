/** Point, distance to an arc of radius 10 about the origin from 0° to 180° and from 30° to 150°. */
export const arcDistances = [
  [3, 4, 5, 5],
  [0, 12, 2, 2],
  [-8, 6, 0, 0],
  [0, 0, 10, 10],
  [10, 0, 0, 5.17638090205042],
  [6, -2, 4.47213595499958, 7.48845454989662],
  [-3, -4, 8.06225774829855, 10.6319554068353],
] as const;

/** Outer radius, inner radius, inner centre ahead and above, smallest gap, its direction in ° from horizontal. */
export const twoCircles = [
  [23.5, 17.25, 1, 0, 5.25, 0],
  [23.5, 17.25, 1, 1, 4.8357864376269, 45],
  [23.5, 17.25, 2, 1.5, 3.75, 36.869897645844],
  [23.5, 17.25, -1.5, 2, 3.75, 126.869897645844],
] as const;

/** Circle of radius 23.5: angle °, arc, chord, area of the segment. */
export const segments = [
  [60, 24.60914245312, 23.5, 50.0261592041824],
  [90, 36.9137136796801, 33.2340187157677, 157.611135736241],
  [120, 49.2182849062401, 40.7031939778686, 339.183583028343],
  [180, 73.8274273593601, 47, 867.472271472482],
] as const;

/** Diameter of a half cylinder, its flat length. */
export const flatLengths = [
  [52, 81.6814089933],
  [43, 67.5442420522],
  [38, 59.6902604182],
  [31, 48.6946861306],
] as const;

/** Half cylinder of 47, width 20: sheet; one end; with two legs of 8 the flat length; a 0.040 sheet along its middle. */
export const halfTub = {
  sheet: 1476.5485471872,
  end: 867.472271472482,
  withLegs: 89.8274273594,
  middle: 73.8902592124,
};

/**
 * Round tyre of 34.5 on an axle 16.5 up in a half circle of 47 with its top at 39: centre ahead of the axle, hub angle
 * °, distance from the tyre's point to the tub.
 */
export const plainGaps = [
  [0, 0, 5.25],
  [0, 30, 5.37707594149],
  [0, 45, 5.52897654693],
  [0, 60, 5.72888579745],
  [0, 90, 6.22103880437],
  [1, 45, 6.19212606933],
  [1, -45, 4.83578643763],
] as const;
