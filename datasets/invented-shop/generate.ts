import { mkdirSync, writeFileSync } from 'node:fs';
import { numberSource } from '@tubgap/statistics';
import { INCH, POUND } from '@tubgap/units';
import { DEMO_CAR, type InventedCar, inventedRun } from '../demo-measurements/generator/invented-car.ts';
import { DEMO_FAULTS, loggedRun } from '../demo-measurements/generator/logger.ts';

/** Sizes of the shop's two tyres, and how stiff each model's sidewall is beside that of the demo's invented slick. */
const MODELS = {
  'shop-slick': { radius: 16.65, pressure: 6, stiffness: 0.86 },
  'other-slick': { radius: 16.2, pressure: 6.5, stiffness: 1.12 },
} as const;

/** One car of the invented shop. Lines of its history are typed, as a shop's would be. */
interface ShopCar {
  name: string;
  title: string;
  tyre: keyof typeof MODELS;
  pounds: number;
  mph: number;
  /** Of this very tyre beside its model: 1 as the model's. */
  own: number;
  logs: number;
  /** Tapes of the free tyre, inches off its true rollout. */
  tapes: readonly number[];
  history: readonly string[];
}

const TUB = (date: string, tub: string, top: string, note = ''): string =>
  `${date},tub,,,${tub},${top},0.25,,,,,,,${note}`;
const RUNS = (
  date: string,
  tyre: string,
  runs: number,
  low: number,
  high: number,
  mark = 'none',
  note = '',
): string => `${date},runs,${tyre},,,,,${runs},${low},${high},${mark},,,${note}`;

const CARS: readonly ShopCar[] = [
  {
    name: 'blue-door',
    title: 'Door car, blue',
    tyre: 'shop-slick',
    pounds: 2510,
    mph: 221,
    own: 0.97,
    logs: 1,
    tapes: [0.02, -0.05, 0.04],
    history: [
      TUB('2025-03-02', 'shop-43', '38.875'),
      '2025-02-20,tyre,shop-slick,lot 4,,,,,,,,,,',
      RUNS('2025-04-12', 'shop-slick', 11, 198, 219),
      RUNS('2025-06-07', 'shop-slick', 34, 216, 224),
      RUNS('2025-08-30', 'shop-slick', 29, 217, 225),
    ],
  },
  {
    name: 'grey-door',
    title: 'Door car, grey',
    tyre: 'shop-slick',
    pounds: 2440,
    mph: 226,
    own: 1.05,
    logs: 1,
    tapes: [-0.03, 0.06],
    history: [
      TUB('2025-02-15', 'shop-43', '37'),
      RUNS('2025-03-22', 'shop-slick', 6, 205, 218),
      RUNS('2025-04-19', 'shop-slick', 9, 222, 229, 'mark', 'both sides and ahead of the top'),
      '2025-04-26,looked into,,,,,,,,,,,,nothing bent: the tyre grows more than was thought',
      TUB('2025-05-03', 'shop-43', '38.75', 'raised'),
      RUNS('2025-07-05', 'shop-slick', 41, 222, 230),
    ],
  },
  {
    name: 'long-coupe',
    title: 'Long coupe',
    tyre: 'shop-slick',
    pounds: 2610,
    mph: 214,
    own: 1.02,
    logs: 0,
    tapes: [0.05],
    history: [
      TUB('2025-03-29', 'shop-45', '38.25'),
      RUNS('2025-05-17', 'shop-slick', 22, 209, 217),
      RUNS('2025-09-13', 'shop-slick', 18, 211, 218),
    ],
  },
  {
    name: 'red-roadster',
    title: 'Roadster, red',
    tyre: 'other-slick',
    pounds: 2330,
    mph: 208,
    own: 0.98,
    logs: 1,
    tapes: [0.01, -0.02],
    history: [TUB('2025-04-05', 'shop-43', '37.5'), RUNS('2025-06-21', 'other-slick', 25, 203, 211)],
  },
  {
    name: 'white-pickup',
    title: 'Pickup, white',
    tyre: 'other-slick',
    pounds: 2720,
    mph: 199,
    own: 1.04,
    logs: 0,
    tapes: [-0.04, 0.03],
    history: [
      TUB('2025-03-15', 'shop-43', '37.25'),
      RUNS('2025-05-24', 'other-slick', 31, 194, 202),
      RUNS('2025-07-19', 'other-slick', 14, 196, 203),
    ],
  },
];

const caseOf = ({
  name,
  title,
  tyre,
  pounds,
  mph,
}: ShopCar): string => `# An invented car of an invented shop. Tyre contact at speed can kill: measure your own car.
name: ${name}
title: ${title}
invented: true

catalogues: { tubs: tubs.csv, tyres: tyres.csv }

car:
  mass: { law: normal, mean: ${pounds} lb, sd: 15 lb, each: car }
  rearShare: { law: normal, mean: 52 %, sd: 0.5 %, each: car }
  wheelbase: 107 in
  cgHeight: { law: normal, mean: 19 in, sd: 1 in, each: car }

aero:
  dragArea: { law: log-normal, median: 0.6 m2, cov: 0.08, each: car }
  rearDownforce:
    force: { law: log-normal, median: 1100 lbf, cov: 0.1, each: car }
    at: 215 mph
    airDensity: 1.16 kg/m3

suspension:
  wheelRate: { law: log-normal, median: 210 lbf/in, cov: 0.06, each: car }
  bumpTravel: { law: truncated, mean: 1.8 in, sd: 0.15 in, low: 0 in, each: car }

build:
  tyre: ${tyre}
  pressure: ${MODELS[tyre].pressure.toFixed(1)} psi

run:
  distance: 1320 ft
  trapSpeed: { law: normal, mean: ${mph} mph, sd: 3 mph, each: run }

tyres:
  - tyre: ${tyre}
    runsPerSeason: 50

tubs: all
tubCentreForward: 1/4 in

runLog:
  axleRatio: ${DEMO_CAR.axleRatio}
  columns:
    time: Time [s]
    speed: GPS speed [mph]
    driveshaft: Driveshaft [rpm]
    throttle: Throttle [%]

accept: { runRisk: "1 in 2,000", seasonRisk: "1 in 20" }
`;

/** The invented car of physics that is not the model's, in the size of this one. */
function physicsOf({ tyre, pounds, mph, own }: ShopCar): InventedCar {
  const { radius, stiffness } = MODELS[tyre];
  const softer = stiffness / own;
  return {
    ...DEMO_CAR,
    mass: pounds * POUND,
    power: DEMO_CAR.power * (pounds / 2480) * (mph / 224) ** 3,
    freeRadius: (radius + 0.06) * INCH,
    sidewall: { linear: softer * DEMO_CAR.sidewall.linear, cubic: softer * DEMO_CAR.sidewall.cubic },
  };
}

/** A log that says where it comes from. */
const ofThisShop = (text: string): string =>
  text.replace('demo-measurements/generate.ts', 'invented-shop/generate.ts');

const HEAD =
  'date,entry,tyre,batch,tub,top_height_in,centre_forward_in,runs,speed_low_mph,speed_high_mph,mark,angle_deg,measured_in,note';

CARS.forEach((car, k) => {
  const folder = new URL(`cars/${car.name}/`, import.meta.url);
  mkdirSync(new URL('measured/', folder), { recursive: true });
  const write = (file: string, text: string): void => writeFileSync(new URL(file, folder), text);
  const { radius, pressure } = MODELS[car.tyre];
  const { normal } = numberSource(k + 1, 'invented shop');
  // A tyre is not quite the size of its row.
  const rollout = 2 * Math.PI * (radius + 0.04 * normal());
  write('case.yaml', caseOf(car));
  write('history.csv', `${[HEAD, ...car.history].join('\n')}\n`);
  write(
    'measured/rollout.csv',
    `# Invented.\ntyre,pressure_psi,rollout_in,date\n${car.tapes
      .map((off) => `${car.tyre},${pressure},${(rollout + off).toFixed(2)},2025-03-01`)
      .join('\n')}\n`,
  );
  for (let log = 1; log <= car.logs; log++) {
    const physics = physicsOf(car);
    const run = inventedRun(physics, { brakesBelow: 42, powerFactor: 1 - 0.01 * log });
    write(`measured/run-log-${log}.csv`, ofThisShop(loggedRun(physics, run, DEMO_FAULTS, 10 * k + log)));
  }
});
