import { dirname } from 'node:path';
import { labelAt } from '@tubgap/casefile';
import {
  type Answered,
  type AssumedItem,
  answerTo,
  type CaseValue,
  doubtText,
  type InterviewedCase,
  KIND_WORDS,
  type PutQuestion,
  pathParts,
  putQuestions,
} from '@tubgap/interview';
import { BLANK, type Block, inputWords, line, row } from '@tubgap/wording';
import type { WrittenCase } from './case-folder.ts';
import { flagOf } from './question-options.ts';

/** A law in few words: its ends where it has some, else its middle. */
function briefly(value: CaseValue): string {
  if (typeof value !== 'object') return value === true ? 'yes' : value === false ? 'none' : String(value);
  const { low, high, mean, median } = value;
  return low !== undefined && high !== undefined ? `${low} to ${high}` : `about ${mean ?? median}`;
}

/** A field's name as words, where the table has no label for it: 'anti roll bar'. */
const asWords = (name: string): string => name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);

/** The option that would tell what is assumed; undefined where none would. */
function flagFor(path: string, call: Answered): string | undefined {
  const place = path.replace(/\[\d+\]/, '[]');
  const open = ({ question, id }: PutQuestion): boolean =>
    question.kind !== 'size' && typeof answerTo(call, id) !== 'string' && question.fills.includes(place);
  // A kind of car narrows much and tells nothing.
  const put = putQuestions(call).find((one) => open(one) && one.id !== 'kind');
  return put && flagOf(put.id);
}

function assumedWords({ path, value }: AssumedItem, tyres: readonly string[], flag: string): string {
  const parts = pathParts(path);
  const of = parts[0] === 'tyres' && tyres.length > 1 ? ` (${tyres[Number(parts[1])]})` : '';
  const label = inputWords(labelAt(parts) ?? asWords(String(parts.at(-1))));
  return `${label}${of}: ${briefly(value)}; ${flag}`;
}

/** What is assumed and could be told, a line each; then how much else is. */
function assumedLines(assumed: readonly AssumedItem[], call: Answered, tyres: readonly string[]): string[] {
  const written = assumed.filter((item) => item.written);
  const told = written.flatMap((item) => {
    const flag = flagFor(item.path, call);
    return flag === undefined ? [] : [assumedWords(item, tyres, flag)];
  });
  return [...told, `${written.length - told.length} more that no question tells, marked in the case`];
}

/** A path as a shell takes it. */
const quoted = (path: string): string => (/^[\w./-]+$/.test(path) ? path : `"${path}"`);

/** What to do with the case. */
export const nextLine = ({ file }: WrittenCase): Block[] => [row('Next', `tubgap pick ${quoted(file)}`)];

/**
 * What a shop reads once a case is written.
 * @param call  the answers
 * @param tubs  the catalogue that it gave
 */
export function summary(
  { file, names, source }: WrittenCase,
  { kind, assumed, doubts }: InterviewedCase,
  call: Answered,
  tubs: string | undefined,
): Block[] {
  const tyres = source.tyres.map(({ name }) => name);
  const told = kind.told ? '' : ', by its tyre and speed; say --kind if it is another';
  return [
    line(`Written to ${dirname(file)}: ${names.join(', ')}`),
    BLANK,
    row('Car', `${KIND_WORDS[kind.value]}${told}`),
    row(
      'Tubs',
      tubs === undefined
        ? `${source.tubs.length} invented ones that take the tyres; give your own list by --tubs`
        : `${source.tubs.length} of ${tubs} take the tyres`,
    ),
    ...assumedLines(assumed, call, tyres).map((line, i) => row(i === 0 ? 'Assumed' : '', line)),
    ...doubts.map((doubt, i) => row(i === 0 ? 'Doubtful' : '', doubtText(doubt))),
    row(
      '',
      'Each line of the case says whether it was told or why it is assumed; nothing in it is measured.',
    ),
  ];
}
