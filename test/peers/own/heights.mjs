/**
 * The project's own kernel as a peer among the peers: reads the same two files and speaks the same protocol as
 * ../c/main.c. Plain JavaScript, so that node runs it and the built packages as they are.
 */
import { readFileSync } from 'node:fs';
import { createInterface } from 'node:readline';
import {
  CAR_INPUTS,
  createMomentTable,
  createRunTable,
  evaluateRuns,
  fillAxleHeights,
  fillMomentTable,
  TYRE_INPUTS,
} from '@tubgap/core';
import { BLOCK } from '@tubgap/statistics';

// A third argument: the lowest height in question of each tub, m, with commas between.
const [, , setupFile, drawsFile, floorList] = process.argv;
const floors = floorList === undefined ? undefined : Float64Array.from(floorList.split(','), Number);
const lines = readFileSync(setupFile, 'utf8').trim().split('\n');
const rows = lines.map((line) => line.split(' '));
const values = (key) => rows.find((row) => row[0] === key)?.slice(1);
const number = (key) => Number(values(key)[0]);

const [referencePressure, radialStiffness] = values('tyre').map(Number);
const tyre = { construction: values('construction')[0], referencePressure, radialStiffness };
const clearance = {
  tubs: rows
    .filter((row) => row[0] === 'tub')
    .map((row) => row.slice(1).map(Number))
    .map(([radius, halfExtent, centreForward, legLength]) => ({
      radius,
      halfExtent,
      legLength,
      centreForward,
    })),
  hardPoints: [],
  reserve: number('reserve'),
  growthFactor: number('growthFactor'),
  distance: number('distance'),
  finishAccelerationIs: values('finishAccelerationIs')[0],
  gripLostChance: number('gripLostChance'),
};
const build = values('build')?.map(Number);
const measured = build === undefined ? number('axleHeight') : undefined;

const runs = number('runs');
const bytes = readFileSync(drawsFile);
const draws = new Float64Array(bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength));
const cars = CAR_INPUTS.length;
const tyres = TYRE_INPUTS.length;

/** Columns of one block of runs, from column `first` on. */
const blockColumns = (first, count, at, length) =>
  Array.from({ length: count }, (_, c) =>
    draws.subarray((first + c) * runs + at, (first + c) * runs + at + length),
  );
const blocks = [];
for (let at = 0; at < runs; at += BLOCK) {
  const length = Math.min(BLOCK, runs - at);
  blocks.push({
    length,
    car: blockColumns(0, cars, at, length),
    tyre: blockColumns(cars, tyres, at, length),
    build: build === undefined ? [] : blockColumns(cars + tyres, tyres, at, length),
  });
}

const table = createRunTable(clearance, BLOCK);
const moments = createMomentTable(BLOCK);
const axleHeights = new Float64Array(BLOCK).fill(measured ?? 0);
const buildTyre = build && { construction: 'bias', referencePressure: build[1], radialStiffness: build[2] };

/** One evaluation of all runs; gives the sum of the finite heights, so that none of it can be left out. */
function evaluate() {
  let sum = 0;
  for (const block of blocks) {
    fillMomentTable(clearance, block.car, block.length, moments);
    if (buildTyre) fillAxleHeights(buildTyre, build[0], block.car, block.build, block.length, axleHeights);
    evaluateRuns(clearance, tyre, block.car, block.tyre, moments, axleHeights, block.length, table, floors);
    for (const heights of [table.requiredHeight, table.contactHeight]) {
      for (let t = 0; t < clearance.tubs.length; t++) {
        for (let run = 0; run < block.length; run++) {
          const height = heights[t * BLOCK + run];
          if (Number.isFinite(height)) sum += height;
        }
      }
    }
  }
  return sum;
}

for await (const _ of createInterface({ input: process.stdin })) {
  const before = process.cpuUsage();
  const sum = evaluate();
  const { user, system } = process.cpuUsage(before);
  process.stdout.write(`${((user + system) / 1e6).toFixed(6)} ${sum.toFixed(9)}\n`);
}
