/** What one answer may be: as typed, or null where "don't know" was said. */
export type Typed = string | null;

/** Answers as a call takes them, nested as their names say: 'tyres[0].size' is answers.tyres[0].size. */
export type Answered = { [name: string]: Typed | Answered | Answered[] };

/** 'tyres[0].size' as ['tyres', 0, 'size']. */
export const pathParts = (id: string): (string | number)[] =>
  id.split(/[.[\]]+/).flatMap((part) => (part === '' ? [] : [/^\d+$/.test(part) ? Number(part) : part]));

type Part = Typed | Answered | Answered[];

const partAt = (here: unknown, part: string | number): unknown =>
  (here as Record<string | number, unknown> | null | undefined)?.[part];

/** What was answered to a question; undefined: nothing yet. */
export function answerTo(answers: Answered, id: string): Typed | undefined {
  const found = pathParts(id).reduce(partAt, answers as unknown);
  return typeof found === 'string' || found === null ? found : undefined;
}

function placed(
  here: unknown,
  [part, ...rest]: readonly (string | number)[],
  value: Typed | undefined,
): Part {
  const next = rest.length === 0 ? value : placed(partAt(here, part!), rest, value);
  if (typeof part === 'number') {
    const list: (Part | undefined)[] = Array.isArray(here) ? [...here] : [];
    list[part] = next;
    return list as Answered[];
  }
  // A group of which nothing is said any more is no group.
  const isEmpty = next === undefined || (rest.length > 0 && Object.keys(next ?? {}).length === 0);
  const group = (here ?? {}) as Answered;
  const { [part!]: _, ...others } = group;
  return isEmpty ? others : { ...group, [part!]: next };
}

/** Answers with another one; undefined takes it away. */
export const withAnswer = (answers: Answered, id: string, value: Typed | undefined): Answered =>
  placed(answers, pathParts(id), value) as Answered;

export const tyresOf = ({ tyres }: Answered): Answered[] => (Array.isArray(tyres) ? tyres : [{}]);

/** More tyres than any car runs. */
export const MOST_TYRES = 6;
