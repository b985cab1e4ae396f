import { readFileSync } from 'node:fs';
import { type Case, parseCase, type Setting } from '@tubgap/casefile';
import { NO_CENTRES, openWorkplace, performTask } from '@tubgap/simulation';
import { describe, expect, it } from 'vitest';
import { type Carried, withCarried } from '../src/carried/carried.ts';
import { textWith } from '../src/carried/case-text.ts';

const demo = new URL('../../../datasets/demo/', import.meta.url);
const load = (name: string): string => readFileSync(new URL(name, demo), 'utf8');
const text = load('case.yaml');

function read(file: string, set: readonly Setting[] = []): Case {
  const found = parseCase({ file: 'case.yaml', text: file, load, set });
  if (!found.ok) throw new Error(found.issues.map(({ message }) => message).join('\n'));
  return found.value;
}

/** Every way in which a law can stand in a file or be left out, and plain values. */
const SETTINGS: readonly Setting[] = [
  { path: 'run.trapSpeed', value: '~231 mph' }, // normal
  { path: 'suspension.wheelRate', value: '~230 lbf/in' }, // log-normal
  { path: 'suspension.bumpTravel', value: '~2.05 in' }, // truncated
  { path: 'run.launchAcceleration', value: '~2.5 g' }, // triangular
  { path: 'run.gripLost.slip', value: '~0.3' }, // uniform
  { path: 'tyres[tall-slick].rollout', value: '~106.25 in' }, // measured
  { path: 'aero.rearDownforce.force', value: '~1250 lbf' }, // stands for another input
  { path: 'tyres[class-radial].class.run.trapSpeed', value: '~190 mph' }, // of a class
  { path: 'run.slipAtFinish', value: '~0.06' }, // left out: a prior
  { path: 'tyres[0].growthScale', value: '~0.03' }, // left out: a prior of the tyre
  { path: 'car.wheelbase', value: '~109 in' }, // exact
  { path: 'build.reserve', value: '3/8 in' },
  {
    path: 'tubs',
    value: '[{ tub: street-42, centreForward: 1 in, notches: [{ angle: 35 deg, depth: 0.5 in }] }]',
  },
];

/** Touches of the first runs of a case, all tyres, at every height. */
function counts(source: Case): unknown {
  const task = { kind: 'runs', firstBlock: 0, endBlock: 2, centres: NO_CENTRES } as const;
  const found = performTask(
    openWorkplace({ ...source, simulation: { draws: 2048, cars: 1, seed: 1 } }),
    task,
  );
  return found.kind === 'runs' && found.tallies.tyres.map(({ tubs }) => tubs.map(({ steps }) => [...steps]));
}

describe('settings written into a case file', () => {
  const set = read(text, SETTINGS);
  const written = textWith(text, set, SETTINGS);

  it('give the same counts as the settings do', () => {
    expect(counts(read(written))).toEqual(counts(set));
    expect(counts(set)).not.toEqual(counts(read(text)));
  });

  it.each(SETTINGS.map((setting) => [setting.path, setting]))('give them one by one: %s', (_, setting) => {
    const alone = read(text, [setting]);
    expect(counts(read(textWith(text, alone, [setting])))).toEqual(counts(alone));
  });

  it('leave comments and what is not set as they stand', () => {
    for (const kept of [
      '# with driver, half the fuel',
      'taped round the free tyre',
      'cgHeight: { law: normal, mean: 19.5 in',
    ])
      expect(written).toContain(kept);
    expect(written).toContain('mean: 231 mph');
    expect(textWith(written, read(written), [])).toBe(written);
  });
});

describe('a case in a page', () => {
  const page =
    '<div id="page" inert></div>\n    <!-- end of the page --><script type="application/json" id="carried">{}</script><p>rest</p>';
  it('comes out as it went in, whatever is in it, and ends no element', () => {
    const carried: Carried = {
      file: 'a.yaml',
      files: { 'a.yaml': '</script><!-- \u2028 "\\ $& $1', 'b.csv': '' },
    };
    const made = withCarried(page, carried, '<h1>$&amp;</h1>');
    expect(made.match(/<\/script>/g)).toHaveLength(1);
    expect(made).toContain('inert><h1>$&amp;</h1></div>');
    expect(withCarried(made, carried, '')).toBe(withCarried(page, carried, ''));
    expect(made.endsWith('</script><p>rest</p>')).toBe(true);
    expect(JSON.parse(/id="carried">(.*)<\/script>/s.exec(made)![1]!)).toEqual(carried);
  });
  it('needs a place', () => {
    expect(() => withCarried('<p></p>', { file: '', files: {} }, '')).toThrow(/no place/);
  });
});
