import { dirname } from 'node:path';
import { labelAt } from '@tubgap/casefile';
import {
  type AssumedItem,
  type CaseValue,
  doubtText,
  type InterviewedCase,
  KIND_WORDS,
  pathParts,
} from '@tubgap/interview';
import { inputWords, row } from '@tubgap/wording';
import type { WrittenCase } from './case-folder.ts';

/** A law in few words: its ends where it has some, else its middle. */
function briefly(value: CaseValue): string {
  if (typeof value !== 'object') return value === true ? 'yes' : value === false ? 'none' : String(value);
  const { low, high, mean, median } = value;
  return low !== undefined && high !== undefined ? `${low} to ${high}` : `about ${mean ?? median}`;
}

/** What of a case is for the shop to choose, not to be asked of a caller. */
const OF_THE_SHOP = /^(?:accept|simulation)\b/;

function assumedWords({ path, value }: AssumedItem, tyres: readonly string[]): string {
  const parts = pathParts(path);
  const of = parts[0] === 'tyres' && tyres.length > 1 ? ` of ${tyres[Number(parts[1])]}` : '';
  return `${inputWords(labelAt(parts) ?? path)}${of}: ${briefly(value)}`;
}

/** A path as a shell takes it. */
const quoted = (path: string): string => (/^[\w./-]+$/.test(path) ? path : `"${path}"`);

/** What a shop reads once a case is written. @param tubs  the catalogue that it gave */
export function summary(
  { file, names, source }: WrittenCase,
  { kind, assumed, doubts, existing }: InterviewedCase,
  tubs: string | undefined,
): string {
  const tyres = source.tyres.map(({ name }) => name);
  const written = assumed.filter((item) => item.written && !OF_THE_SHOP.test(item.path));
  const told = kind.told ? '' : ', by its tyre and speed; say --kind if it is another';
  const lines = [
    `Written to ${dirname(file)}: ${names.join(', ')}`,
    '',
    row('Car', `${KIND_WORDS[kind.value]}${told}`),
    row(
      'Tubs',
      tubs === undefined
        ? `${source.tubs.length} invented ones that take the tyres; give your own list by --tubs`
        : `${source.tubs.length} of ${tubs} take the tyres`,
    ),
    ...written.map((item, i) => row(i === 0 ? 'Assumed' : '', assumedWords(item, tyres))),
    row(
      'Accepted',
      assumed
        .filter(({ path }) => path.startsWith('accept.'))
        .map((item) => assumedWords(item, tyres))
        .join(', ') || 'as told',
    ),
    ...doubts.map((doubt, i) => row(i === 0 ? 'Doubtful' : '', doubtText(doubt))),
    ...(existing
      ? [
          row(
            'In the car',
            'the tub that is in it is not in the case: give it a row in tubs.csv, then tubgap judge tells its risk',
          ),
        ]
      : []),
    row(
      '',
      'Each line of the case says whether it was told or why it is assumed; nothing in it is measured.',
    ),
    row('Next', `tubgap pick ${quoted(file)}`),
  ];
  return `${lines.join('\n')}\n`;
}
