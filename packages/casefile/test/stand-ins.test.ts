import { describe, expect, it } from 'vitest';
import { standIns } from '../src/stand-ins.ts';
import { read, smallCase, sound, TUBS, TYRES } from './small-case.ts';

const MORE = `${TYRES}tall,bias,34,6.5,16,14,15,45,0.95,1300
`;

const sourceOf = (written: object, set = {}) => ({
  file: 'cars/case.yaml',
  text: JSON.stringify(written),
  load: (path: string) => ({ 'tubs.csv': TUBS, 'tyres.csv': MORE })[path],
  set: Object.entries(set).map(([path, value]) => ({ path, value: String(value) })),
});

describe('other tyres of the catalogue in the place of one', () => {
  it('are those built alike, with its class and pressure, and nothing that was measured of it', () => {
    const own = { ...smallCase().tyres[0], rollout: '102 in', coldPressure: '7.5 psi', mass: '41 lb' };
    const written = { ...smallCase(), tyres: [own] };
    expect(read(written, { 'tyres.csv': MORE }).ok).toBe(true);
    const [tall, ...others] = standIns(sourceOf(written, { 'tyres[0].runsPerSeason': 55 }), 'slick');
    expect(others).toEqual([]);
    const alone = sound(
      {
        ...smallCase(),
        build: { tyre: 'tall', pressure: '7 psi' },
        tyres: [{ tyre: 'tall', runsPerSeason: 55, coldPressure: '7.5 psi' }],
      },
      { 'tyres.csv': MORE },
    ).tyres[0]!;
    expect(tall!.runsPerSeason).toBe(55);
    for (const name of ['referenceRadius', 'mass', 'coldPressure', 'sectionWidth'] as const)
      expect(tall!.inputs[name].law, name).toEqual(alone.inputs[name].law);
  });

  it('leave out what the case runs already', () => {
    const written = {
      ...smallCase(),
      tyres: [...smallCase().tyres, { tyre: 'tall', runsPerSeason: 5 }],
    };
    expect(standIns(sourceOf(written), 'slick').map(({ name }) => name)).not.toContain('tall');
  });
});
