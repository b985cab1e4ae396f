import type { z } from 'zod';
import type { Problem } from './issue.ts';
import { didYouMean, nameList, nearestName } from './nearest-name.ts';
import { misplaced } from './quantity.ts';
import { type Path, pathText } from './text/node-place.ts';

/** A fault in the structure of the file and where it is; `key` when the name of the field is at fault, not its value. */
export interface Fault {
  path: Path;
  at: 'key' | 'value';
  problem: Problem;
  /** Of a name that is at fault: the field beside it that was most likely meant. */
  meant?: string;
}

const EXPECTED: Readonly<Record<string, string>> = {
  object: 'a group of fields, one a line, indented',
  array: 'a list',
  string: 'text',
  boolean: 'true or false',
};

/** A long list of names would bury the message; the nearest name is worth more. */
const LONGEST_LIST = 12;

function unknownKey(key: string, names: readonly string[]): Problem {
  if (/^\d/.test(key)) {
    const reason = 'a comma inside { } ends a field, so this became a field of its own';
    return { code: 'unknown-key', reason, hint: 'Write numbers without a comma between thousands' };
  }
  // Inside { } a name runs on to the next comma where its colon, or the blank behind that, is missing.
  const [, name = '', rest] = /^(\w+)(?::|\s+)\s*(.+)$/.exec(key) ?? [];
  if (names.includes(name)) {
    const what = key[name.length] === ':' ? 'a blank is missing behind the colon' : 'a colon is missing';
    return { code: 'unknown-key', reason: what, hint: `Write ${name}: ${rest}` };
  }
  const hint = didYouMean(key, names);
  const listed = hint === undefined && names.length <= LONGEST_LIST ? `; known are ${nameList(names)}` : '';
  const reason = `there is no field of this name here${listed}`;
  return { code: 'unknown-key', reason, allowed: names.join(', '), ...(hint === undefined ? {} : { hint }) };
}

const EACH_HINT = 'car: one value that stays with this car; run: a new value every run';

function unknownChoice(read: unknown, names: readonly string[]): Problem {
  const allowed = nameList(names);
  if (read === undefined)
    return { code: 'missing', reason: `this is missing; allowed are ${allowed}`, allowed };
  const hint = didYouMean(String(read), names);
  return {
    code: 'unknown-name',
    reason: `allowed are ${allowed}`,
    allowed,
    ...(hint === undefined ? {} : { hint }),
  };
}

function wrongType(issue: z.core.$ZodIssueInvalidType): Problem {
  const expected = EXPECTED[issue.expected] ?? issue.expected;
  if (issue.input === undefined) return { code: 'missing', reason: `this is missing; expected ${expected}` };
  return { code: 'wrong-type', reason: `${misplaced(issue.input)}; expected ${expected}` };
}

function sizeProblem(issue: z.core.$ZodIssueTooSmall | z.core.$ZodIssueTooBig): Problem {
  const limit = issue.code === 'too_small' ? issue.minimum : issue.maximum;
  const [one, many] = issue.origin === 'array' ? ['entry', 'entries'] : ['letter', 'letters'];
  const allowed = `${issue.code === 'too_small' ? 'at least' : 'at most'} ${limit} ${limit === 1 ? one : many}`;
  return { code: 'out-of-range', reason: `must have ${allowed}`, allowed };
}

/** Puts one zod issue into the project's own words. An issue of unknown keys becomes one problem a key. */
export function faultsOf(issue: z.core.$ZodIssue): Fault[] {
  const path = issue.path.filter((part) => typeof part !== 'symbol');
  const one = (problem: Problem): Fault[] => [{ path, at: 'value', problem }];
  switch (issue.code) {
    case 'custom':
      return one(issue.params?.problem as Problem);
    case 'unrecognized_keys': {
      const names = issue.message.split('\n');
      return issue.keys.map((key) => {
        const meant = nearestName(key, names);
        const fault: Fault = { path: [...path, key], at: 'key', problem: unknownKey(key, names) };
        return meant === undefined ? fault : { ...fault, meant };
      });
    }
    case 'invalid_type':
      return one(wrongType(issue));
    case 'invalid_value': {
      const problem = unknownChoice(issue.input, issue.values.map(String));
      return one(path.at(-1) === 'each' ? { ...problem, hint: EACH_HINT } : problem);
    }
    case 'invalid_union': {
      const options = 'options' in issue && Array.isArray(issue.options) ? issue.options.map(String) : [];
      const read = (issue.input as Record<string, unknown> | null)?.[String(path.at(-1))];
      return one(unknownChoice(read, options));
    }
    case 'too_small':
    case 'too_big':
      return one(sizeProblem(issue));
    case 'invalid_format':
      return one({ code: 'wrong-type', reason: 'allowed are small letters, digits and hyphens, 60 at most' });
    default:
      return one({ code: 'wrong-type', reason: issue.message });
  }
}

/** Faults as they are told: a name that is wrong stands for the field that is missing because of it. */
export function toldOnce(faults: readonly Fault[]): Fault[] {
  const meant = new Set(
    faults.flatMap(({ path, meant }) =>
      meant === undefined ? [] : [pathText([...path.slice(0, -1), meant])],
    ),
  );
  return faults.filter(({ path, problem }) => problem.code !== 'missing' || !meant.has(pathText(path)));
}
