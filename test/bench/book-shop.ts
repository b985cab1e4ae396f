import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { numberSource } from '@tubgap/statistics';
import { DEMO_CAR, inventedRun } from '../../datasets/demo-measurements/generator/invented-car.ts';
import { DEMO_FAULTS, loggedRun } from '../../datasets/demo-measurements/generator/logger.ts';

/** Four invented tyre models: free radius, in, pressure, psi, and how stiff the sidewall is beside the demo's slick. */
const MODELS = [
  { name: 'slick-a', radius: 16.65, pressure: 6, stiffness: 0.86, tub: 'shop-43', top: 37.75 },
  { name: 'slick-b', radius: 16.2, pressure: 6.5, stiffness: 1.12, tub: 'shop-43', top: 36.75 },
  { name: 'slick-c', radius: 17, pressure: 5.5, stiffness: 0.95, tub: 'shop-45', top: 38.5 },
  { name: 'slick-d', radius: 16.4, pressure: 6, stiffness: 1, tub: 'shop-43', top: 37.25 },
] as const;

const HEAD =
  'date,entry,tyre,batch,tub,top_height_in,centre_forward_in,runs,speed_low_mph,speed_high_mph,mark,angle_deg,measured_in,note';

const caseOf = (
  name: string,
  model: (typeof MODELS)[number],
  pounds: number,
  mph: number,
): string => `# Invented.
name: ${name}
title: Invented car ${name}
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
build: { tyre: ${model.name}, pressure: ${model.pressure} psi }
run:
  distance: 1320 ft
  trapSpeed: { law: normal, mean: ${mph} mph, sd: 3 mph, each: run }
tyres: [{ tyre: ${model.name}, runsPerSeason: 50 }]
tubs: all
tubCentreForward: 1/4 in
runLog:
  axleRatio: ${DEMO_CAR.axleRatio}
  columns: { time: "Time [s]", speed: "GPS speed [mph]", driveshaft: "Driveshaft [rpm]", throttle: "Throttle [%]" }
accept: { runRisk: "1 in 2,000", seasonRisk: "1 in 20" }
`;

/** Entries of a car's history, so many runs each in a range of speeds of its own; every fifteenth car left a mark. */
function historyOf(c: number, entries: number, model: (typeof MODELS)[number], mph: number): string {
  const { uniform } = numberSource(c + 1, 'invented book/history');
  const rows = [
    `2025-02-01,tub,,,${model.tub},${model.top - 0.5 + (Math.floor(c / MODELS.length) % 5) / 4},0.25,,,,,,,`,
  ];
  for (let e = 0; e < entries; e++) {
    const runs = 5 + Math.floor(35 * uniform());
    const low = mph - 4 - Math.floor(5 * uniform());
    const high = mph + 1 + Math.floor(4 * uniform());
    const marked = c % 15 === 14 && e === 0;
    const date = `2025-0${3 + e}-10`;
    if (marked) rows.push(`${date},tub,,,${model.tub},${model.top - 1.75},0.25,,,,,,,`);
    rows.push(`${date},runs,${model.name},,,,,${runs},${low},${high},${marked ? 'mark' : 'none'},,,`);
    if (marked) rows.push(`${date.replace(/10$/, '12')},tub,,,${model.tub},${model.top},0.25,,,,,,,raised`);
  }
  return `${[HEAD, ...rows].join('\n')}\n`;
}

/**
 * Writes an invented shop's book of many cars, ten readings each: four entries of runs, each in its own range of speeds, and
 * of the others one or two run logs and tapes of the free tyre.
 * @param place  folder of the book, to be made
 */
export function writeBookOf(place: string, count: number, entries = 4): void {
  mkdirSync(join(place, 'cars'), { recursive: true });
  const write = (file: string, text: string): void => writeFileSync(join(place, file), text);
  write(
    'book.yaml',
    'format: tubgap book\nversion: 1\nname: many-cars\ninvented: true\nbuilder: one fabricator\ntape: 25 ft steel tape\n',
  );
  write(
    'tubs.csv',
    'tub,inside_diameter_in,liner_in,arc_extent_deg,leg_length_in,inside_width_in,skin_thickness_in,areal_density_lb_ft2\nshop-43,43.25,0.06,180,7,18.5,0.040,0.56\nshop-45,45.75,0.06,180,8,19,0.040,0.56\n',
  );
  write(
    'tyres.csv',
    `tyre,construction,free_diameter_in,reference_pressure_psi,section_width_in,tread_width_in,rim_width_in,mass_lb,deflection_in,deflection_load_lbf\n${MODELS.map(
      ({ name, radius, pressure }) => `${name},bias,${2 * radius},${pressure},16.1,14.0,15,42,0.92,1330\n`,
    ).join('')}`,
  );
  for (let c = 0; c < count; c++) {
    const model = MODELS[c % MODELS.length]!;
    const { normal, uniform } = numberSource(c + 1, 'invented book');
    const name = `car-${String(c).padStart(3, '0')}`;
    const [pounds, mph] = [2350 + Math.floor(350 * uniform()), 205 + Math.floor(20 * uniform())];
    const rollout = 2 * Math.PI * (model.radius + 0.04 * normal());
    const softer = model.stiffness / (1 + 0.05 * normal());
    const car = {
      ...DEMO_CAR,
      mass: pounds * 0.45359237,
      power: DEMO_CAR.power * (pounds / 2480) * (mph / 224) ** 3,
      freeRadius: (model.radius + 0.06) * 0.0254,
      sidewall: { linear: softer * DEMO_CAR.sidewall.linear, cubic: softer * DEMO_CAR.sidewall.cubic },
    };
    const measured = `cars/${name}/measured`;
    mkdirSync(join(place, measured), { recursive: true });
    write(`cars/${name}/case.yaml`, caseOf(name, model, pounds, mph));
    write(`cars/${name}/history.csv`, historyOf(c, entries, model, mph));
    const logs = 1 + (c % 2);
    const tapes = Array.from({ length: 10 - entries - logs }, () => (rollout + 0.05 * normal()).toFixed(2));
    write(
      `${measured}/rollout.csv`,
      `# Invented.\ntyre,pressure_psi,rollout_in,date\n${tapes.map((tape) => `${model.name},${model.pressure},${tape},2025-03-01\n`).join('')}`,
    );
    for (let log = 1; log <= logs; log++) {
      const run = inventedRun(car, { brakesBelow: 42, powerFactor: 1 - 0.01 * log });
      write(`${measured}/run-log-${log}.csv`, loggedRun(car, run, DEMO_FAULTS, 10 * c + log));
    }
  }
}
