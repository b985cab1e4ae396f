import type { Setting } from '@tubgap/casefile';
import { BAD_INPUT, DONE, indexNamed, printRemarks, stop } from '@tubgap/casefile/command-line';
import { readCase } from '@tubgap/casefile/node';
import { MOMENTS } from '@tubgap/core';
import { DiskRefused, writeFileWhole } from '@tubgap/results';
import { caseSetup, caseState, type RunTyre } from '@tubgap/simulation';
import { formatQuantity, harmlessLines, INCH, sixteenths } from '@tubgap/units';
import { csvText } from '@tubgap/wording';
import { runHistory } from './run-history.ts';
import { type StateInput, stateJson, stateSheet } from './state-sheet.ts';

/** What the verb may be given; height m. */
interface StateOptions {
  tyre?: string | undefined;
  tub?: string | undefined;
  moment?: string | undefined;
  height?: number | undefined;
  set?: Setting[] | undefined;
  json?: true | undefined;
  history?: string | undefined;
}

/** Inputs of a tyre's runs with their middle values. */
function stateInputs(tyre: RunTyre): StateInput[] {
  const row = (input: RunTyre['car'][number], value: number): StateInput => ({
    label: input.label,
    value,
    shown: formatQuantity(value, input.kind),
    source: input.source === 'assumed' ? 'assumed' : input.basis,
  });
  return [
    ...tyre.car.map((input, c) => row(input, tyre.centralCar[c]!)),
    ...tyre.tyre.map((input, c) => row(input, tyre.centralTyre[c]!)),
  ];
}

/** Prints one state of a case, all inputs at their middle values. @returns exit code @throws Stop, RangeError, DiskRefused */
export async function runState(file: string, options: StateOptions): Promise<number> {
  const { source } = readCase(file, options.set);
  const asked = options.moment ?? 'finish';
  const moment = MOMENTS.find((name) => name === asked);
  if (moment === undefined) {
    stop(`--moment ${asked}: there is no such moment; there are ${MOMENTS.join(', ')}.`, BAD_INPUT);
  }
  const tyre = indexNamed(source.tyres, options.tyre, 'tyre') ?? 0;
  const tub = indexNamed(source.tubs, options.tub, 'tub') ?? 0;
  const setup = caseSetup(source);
  const topHeight = options.height ?? setup.lowestHeights[tub]! + 6 * INCH;
  const state = caseState(setup, { tyre, tub, topHeight, moment });
  const heading = {
    title: `${source.title}${source.invented ? ' [an invented car]' : ''}`,
    tyre: source.tyres[tyre]!.name,
    tub: source.tubs[tub]!.name,
    moment,
    topHeight,
    inputs: stateInputs(setup.tyres[tyre]!),
  };
  process.stdout.write(
    options.json
      ? `${JSON.stringify(stateJson(heading, state), null, 2)}\n`
      : harmlessLines(stateSheet(heading, state)),
  );
  if (!Number.isFinite(state.requiredHeight)) {
    printRemarks([`The tyre fits this tub at no height, ${sixteenths(topHeight, 'down')} included.`]);
  }
  if (options.history !== undefined) {
    const text = await csvText(runHistory(setup, { tyre, tub, topHeight }));
    try {
      writeFileWhole(options.history, text);
    } catch (error) {
      throw new DiskRefused(`${options.history}: could not be written (${(error as Error).message}).`);
    }
  }
  return DONE;
}
