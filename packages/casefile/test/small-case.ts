import { stringify } from 'yaml';
import type { Case } from '../src/case.ts';
import { issueText, type Read } from '../src/issue.ts';
import { parseCase } from '../src/parse-case.ts';

export const TUBS = `tub,inside_diameter_in,liner_in,arc_extent_deg,leg_length_in,inside_width_in,skin_thickness_in,areal_density_lb_ft2
wide,48.5,0.1,180,6,20,0.04,0.56
snug,41,0.1,180,6,19,0.04,0.56
`;

export const TYRES = `tyre,construction,free_diameter_in,reference_pressure_psi,section_width_in,tread_width_in,rim_width_in,mass_lb,deflection_in,deflection_load_lbf
slick,bias,32.5,7,15,13,14,40,0.9,1300
radial,radial,29,18,12,10.5,11,33,0.8,1300
`;

/** The least that a case must say. Values of no car. */
export function smallCase() {
  return {
    name: 'small',
    catalogues: { tubs: 'tubs.csv', tyres: 'tyres.csv' },
    car: { mass: '2500 lb', rearShare: '51 %', wheelbase: '105 in' },
    aero: { downforceArea: '1 m2' },
    build: { tyre: 'slick', pressure: '7 psi' },
    run: { distance: '1320 ft', trapSpeed: { law: 'normal', mean: '205 mph', sd: '2 mph', each: 'run' } },
    tyres: [{ tyre: 'slick', runsPerSeason: 30 }],
    tubs: ['wide'],
    accept: { runRisk: '1 in 1000', seasonRisk: '1 in 20' },
  };
}

type Texts = Record<string, string>;

/** Reads a case given as text, or as an object that becomes one. */
export function read(written: string | object, tables: Texts = {}, set: Texts = {}): Read<Case> {
  const files: Record<string, string> = { 'tubs.csv': TUBS, 'tyres.csv': TYRES, ...tables };
  const text = typeof written === 'string' ? written : stringify(written);
  const settings = Object.entries(set).map(([path, value]) => ({ path, value }));
  return parseCase({ file: 'cars/case.yaml', text, load: (path) => files[path], set: settings });
}

/** The case, or an error that shows why there is none. */
export function sound(written: string | object, ...rest: [tables?: Texts, set?: Texts]): Case {
  const result = read(written, ...rest);
  if (result.ok) return result.value;
  throw new Error(result.issues.map(issueText).join('\n'));
}

/** Every issue as a line of text. */
export function lines(written: string | object, ...rest: [tables?: Texts, set?: Texts]): string[] {
  const result = read(written, ...rest);
  return (result.ok ? result.warnings : result.issues).map(issueText);
}
