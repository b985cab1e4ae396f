import type { AssumedCost } from '@tubgap/simulation';
import { expect, test } from 'vitest';
import { callFiles, readFiles } from '../src/answer/call-files.ts';
import { otherKinds } from '../src/answer/other-kinds.ts';
import {
  type Answered,
  answerCall,
  type CallAnswer,
  costName,
  INVENTED_TUBS_TEXT,
  moveWords,
  nextQuestion,
  Outdated,
  readAnswers,
  toCase,
  toldUnits,
  withUsualUnits,
} from '../src/index.ts';

const DOOR = { tyres: [{ size: '33.5x17.0-16', build: 'bias slick' }], speed: '224 mph' };

test('every other kind of car that runs such tyres is a case with all its priors, and what was told stays', () => {
  const read = readAnswers({ ...DOOR, mass: '2,480 lb' });
  if (!read.ok) throw new Error('the answers are at fault');
  const filed = readFiles(callFiles(toCase(read.value), INVENTED_TUBS_TEXT));
  if ('faults' in filed) throw new Error('the case is at fault');
  const others = otherKinds(filed.source, read.value, INVENTED_TUBS_TEXT, 'tub-44');
  const laws = others.map(({ source }) => JSON.stringify(source.car.wheelbase.law));
  expect(others).toHaveLength(3);
  expect(new Set([...laws, JSON.stringify(filed.source.car.wheelbase.law)]).size).toBe(4);
  expect(others.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1 / 3, 12);
  for (const { source } of others) {
    expect(source.car.mass.law).toEqual(filed.source.car.mass.law);
    expect(source.tubs.map(({ name }) => name)).toEqual(['tub-44']);
    expect(source.accept).toEqual(filed.source.accept);
  }
});

const cost = (name: string, moves: number, low: number | null, high: number | null): AssumedCost => ({
  name,
  low,
  middle: 0,
  high,
  moves,
});

test('the question to ask next is the one that moves the height most, in the units of the page', () => {
  const costs = [
    cost('suspension.antiSquat', 0.09, -0.03, 0.03),
    cost('bumpTravel', 0.002, 0.004, -0.006),
    cost('tyres[0].rollout', 0.008, -0.0159, 0.0079),
    cost('mass', 0.0001, 0.05, 0.05),
  ];
  const next = nextQuestion(costs, DOOR)!;
  expect(next.put.id).toBe('tyres[0].rollout');
  expect(moveWords(next.cost, 'inch')).toBe('could move the height by +5/16 in to −5/8 in');
  expect(moveWords(next.cost, 'mm')).toBe('could move the height by +8 mm to −16 mm');
  expect(moveWords(cost('', 1, 0.001, null), 'mm')).toBe(
    'could move the height by +1 mm or ask for another tub',
  );
  expect(moveWords(cost('', 1, null, null), 'mm')).toBe('could ask for another tub');
  expect(nextQuestion([costs[3]!], DOOR)).toBeUndefined();
  expect(costs.map((one) => costName(one, DOOR))).toEqual([
    'Anti-squat',
    'Travel to the stop',
    'Rollout',
    'Weight with driver',
  ]);
});

test('a figure without a unit is of the units that most of the call is told in; a printed size says none', () => {
  const call = (more: Answered): Answered => ({ tyres: [{ size: '315/60R15' }], ...more });
  expect(toldUnits(call({}))).toBe('inch');
  expect(toldUnits(call({ speed: '206 km/h', mass: '1,770 kg', wheelbase: '106 in' }))).toBe('mm');
  expect(toldUnits(call({ speed: '206 km/h', mass: '3,900 lb' }))).toBe('inch');
  const told = call({ mass: '1770', bumpTravel: '75', title: '1965' });
  expect(withUsualUnits(told, 'mm')).toMatchObject({ mass: '1770 kg', bumpTravel: '75 mm', title: '1965' });
  expect(withUsualUnits(told, 'inch')).toMatchObject({ mass: '1770 lb', bumpTravel: '75 in' });
});

test('a tub that the shop does not have is looked at only where none in stock fits; a newer question stops the work', async () => {
  const tubs = (small: string, large: string): string =>
    `tub,inside_diameter_in,inside_width_in,stock\nsmall,30,20,${small}\nlarge,46,20,${large}\n`;
  const found = async (text: string, most: number): Promise<CallAnswer[]> => {
    const told: CallAnswer[] = [];
    const goOn = async (): Promise<boolean> => told.length < most;
    const listener = { tell: (answer: CallAnswer) => void told.push(answer), goOn };
    await expect(answerCall({ answers: DOOR, tubs: text }, listener)).rejects.toThrow(Outdated);
    return told;
  };
  const [ordered] = await found(tubs('yes', 'order'), 1);
  expect(ordered).toMatchObject({ kind: 'found', found: { order: true, settled: false } });
  const [here] = await found(tubs('order', '2'), 1);
  expect(here).toMatchObject({ kind: 'found', found: { order: false } });
});
