import { readCaseText } from '@tubgap/casefile';
import { DEGREE, INCH, readLength } from '@tubgap/units';
import { useMemo, useState } from 'preact/hooks';
import { readCarried } from './bench-case.ts';
import { CENTRES, HEIGHTS, type Notch } from './bench-state.ts';
import { BroughtList } from './brought-list.tsx';
import { ControlList } from './control-list.tsx';
import { type Control, controlsOf, placeControls, shownValue } from './controls.ts';
import type { Bench } from './use-bench.ts';
import { lengthText } from './words.ts';

const DEPTH: Control['units'] = {
  inch: { name: 'in', step: 0.125, decimals: 3 },
  mm: { name: 'mm', step: 2, decimals: 1 },
};
const ANGLE: Control['units'] = {
  inch: { name: 'deg', step: 5, decimals: 0 },
  mm: { name: 'deg', step: 5, decimals: 0 },
};
/** Where a first notch is cut: ahead of the top, where tyres come closest. */
const FIRST_ANGLE = 35 * DEGREE;
const MOST_DEPTH = 8 * INCH;
const MOST_ANGLE = 75 * DEGREE;

const clamp = (value: number, least: number, most: number): number => Math.min(most, Math.max(least, value));

/** Depth and angle of the tub's notch as fields beside the others. */
function notchControls({ angle, depth }: Notch): Control[] {
  return [
    {
      id: 'notch-depth',
      label: 'Notch, depth',
      note: '0: none',
      path: 'notch depth',
      law: false,
      kind: 'length',
      value: depth,
      units: DEPTH,
    },
    ...(depth > 0
      ? [
          {
            id: 'notch-angle',
            label: 'Notch, angle from the top',
            note: 'ahead is positive',
            path: 'notch angle',
            law: false,
            kind: 'angle',
            value: angle,
            units: ANGLE,
          } as const,
        ]
      : []),
  ];
}

/** SI value of a setting that only holds a number and the control's own unit. */
function plainNumber(value: string, { kind }: Control, mm: boolean): number | undefined {
  const number = Number.parseFloat(value);
  if (!Number.isFinite(number)) return undefined;
  return number * (kind === 'angle' ? DEGREE : mm ? 0.001 : INCH);
}

/** Which tub, which tyre, and everything else that can be changed at the car. */
export function SettingsPart({ bench }: { bench: Bench }) {
  const { history, now, carried } = bench;
  const state = history.now;
  const { source, tub, tyre } = now;
  const { units } = state;
  const [faults, setFaults] = useState<Record<string, string>>({});
  const name = source.tubs[tub]!.name;
  const raw = useMemo(() => {
    const read = readCaseText(carried.file, carried.files[carried.file]!);
    return read.ok ? read.value.raw : undefined;
  }, [carried]);
  const [first = { angle: FIRST_ANGLE, depth: 0 }, ...others] = source.tubs[tub]!.notches;
  const { centreForward } = source.tubs[tub]!;
  const controls = [
    ...placeControls(state.topHeight, centreForward),
    ...controlsOf(source, raw, tyre),
    ...notchControls(first),
  ];
  const before = useMemo(() => {
    const read = readCarried(carried, []);
    if (!read.ok) return {};
    return Object.fromEntries(
      controlsOf(read.value, raw, tyre).map((one) => [
        one.id,
        `${shownValue(one, units)} ${one.units[units].name}`.trim(),
      ]),
    );
  }, [carried, tyre, units]);
  const changed = new Set([
    ...Object.keys(state.values),
    ...(name in state.notches ? ['notch depth', 'notch angle'] : []),
  ]);

  const setNotch = (control: Control, value: string | undefined): void => {
    if (value === undefined) {
      const { [name]: _, ...rest } = state.notches;
      bench.set(control.id, { ...state, notches: rest });
      return;
    }
    const number = plainNumber(value, control, units === 'mm');
    if (number === undefined) return;
    const notch: Notch =
      control.id === 'notch-depth'
        ? { ...first, depth: clamp(number, 0, MOST_DEPTH) }
        : { ...first, angle: clamp(number, -MOST_ANGLE, MOST_ANGLE) };
    const notches = notch.depth > 0 ? [notch, ...others] : others;
    bench.set(control.id, { ...state, notches: { ...state.notches, [name]: notches } });
  };
  const setPlace = (control: Control, value: string | undefined): void => {
    const [low, high] = control.id === 'top' ? HEIGHTS : CENTRES;
    const length = readLength(value ?? '');
    const fits = length !== undefined && length >= low && length <= high;
    const range = `${lengthText(low, 'up', units)} to ${lengthText(high, 'down', units)}`;
    setFaults({ ...faults, [control.id]: fits ? '' : `Not taken: a length of ${range} is needed.` });
    if (fits)
      bench.set(control.id, {
        ...state,
        ...(control.id === 'top' ? { topHeight: length } : { centre: length }),
      });
  };
  const set = (control: Control, value: string | undefined): void => {
    if (control.id === 'top' || control.id === 'centre') {
      setPlace(control, value);
      return;
    }
    if (control.id.startsWith('notch')) {
      setNotch(control, value);
      return;
    }
    const { [control.path]: _, ...rest } = state.values;
    const problems = bench.set(control.id, {
      ...state,
      values: value === undefined ? rest : { ...rest, [control.path]: value },
    });
    // What was read stands in the field already.
    const words = problems.map((problem) => problem.replace(/^read ".*?"; /, ''));
    setFaults({ ...faults, [control.id]: words.length === 0 ? '' : `Not taken: ${words.join(' ')}` });
  };
  return (
    <section class="settings of-place">
      <h2>Tub, tyre and car</h2>
      <div class="picks">
        <label>
          Tub
          <select
            value={name}
            onChange={(event) => bench.set('', { ...state, tub: event.currentTarget.value })}
          >
            {source.tubs.map((one) => (
              <option key={one.name} value={one.name}>
                {one.name} ({lengthText(one.diameter, 'down', units)})
              </option>
            ))}
          </select>
        </label>
        <label>
          Tyre
          <select
            value={source.tyres[tyre]!.name}
            onChange={(event) => bench.set('', { ...state, tyre: event.currentTarget.value })}
          >
            {source.tyres.map((one) => (
              <option key={one.name} value={one.name}>
                {one.name}
              </option>
            ))}
          </select>
        </label>
      </div>
      <ControlList
        controls={controls}
        units={units}
        before={before}
        changed={changed}
        faults={Object.fromEntries(Object.entries(faults).filter(([, words]) => words !== ''))}
        onSet={set}
      />
      <BroughtList brought={bench.brought} />
    </section>
  );
}
