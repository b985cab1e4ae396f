import { readFileSync } from 'node:fs';
import { exactLawWords, SHOP_PRIORS_VERSION, shopPriorsText } from '@tubgap/casefile';
import { expect, it } from 'vitest';
import { readFiles } from '../src/answer/call-files.ts';
import { BOOK_FILE, CALL_FILE, callFiles, readAnswers, toCase } from '../src/index.ts';

const TUBS = readFileSync(new URL('../../../datasets/demo/tubs.csv', import.meta.url), 'utf8');
const read = readAnswers({ tyres: [{ size: '33.5x17.0-16', build: 'bias slick' }], speed: '224 mph' });
if (!read.ok) throw new Error('the call is sound');
const interviewed = toCase(read.value);

it("a call starts from its shop's book, and its saved case names the file beside it", () => {
  const plain = readFiles(callFiles(interviewed, TUBS));
  if ('faults' in plain) throw new Error(plain.faults[0]!.words);
  const prior = plain.source.tyres[0]!.inputs.growthScale;
  const book = shopPriorsText({
    format: 'tubgap shop priors',
    version: SHOP_PRIORS_VERSION,
    caution: 'Tyre contact at speed can kill.',
    madeBy: 'a test',
    book: 'back-street',
    invented: true,
    date: '2026-05-02',
    seed: 1,
    from: { cars: 7, unmarkedRuns: 212, marks: 3, sha256: 'ab' },
    sampling: { method: 'none', chains: 4, draws: 10, worstRHat: 1, leastEffectiveDraws: 40, widened: 1 },
    tyres: [],
    constructions: [
      {
        construction: 'bias',
        models: 3,
        inputs: [
          {
            input: 'growthScale',
            label: 'growth scale',
            startedFrom: exactLawWords(prior.law),
            before: '0.036',
            after: '0.04',
            middle: 0.4,
            spreadBelow: 0.5,
            spreadAbove: 0.5,
            together: [1],
            apart: 0.05,
          },
        ],
      },
    ],
  });
  const files = callFiles({ ...interviewed, book }, TUBS);
  expect(files[BOOK_FILE]).toBe(book);
  expect(files[CALL_FILE]).toContain(`\nbook: ${BOOK_FILE}\n`);
  const filed = readFiles(files);
  if ('faults' in filed) throw new Error(filed.faults[0]!.words);
  expect(filed.source.book).toMatchObject({ name: 'back-street', cars: 7, inputs: 1 });
  expect(filed.source.tyres[0]!.inputs.growthScale.law).toMatchObject({ kind: 'updated', middle: 0.4 });
  // Without a book the files are what they were.
  expect(Object.keys(callFiles(interviewed, TUBS))).toEqual([CALL_FILE, 'tubs.csv', 'tyres.csv']);
});
