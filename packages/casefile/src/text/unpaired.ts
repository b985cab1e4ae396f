import { FLOW_CUT, tokensOf } from './plain-yaml.ts';

/** What somebody wrote wrong, and what to write; placed at the error unless it says where. */
export interface Slip {
  offset?: number;
  reason: string;
  hint: string;
}

const CLOSING: Readonly<Record<string, string>> = { '{': '}', '[': ']' };
const OPENING: Readonly<Record<string, string>> = { '}': '{', ']': '[' };

/** The first bracket or quote of a text without its fellow; undefined when all have theirs. */
export function unpaired(text: string): (Slip & { offset: number }) | undefined {
  const open: { sign: string; offset: number }[] = [];
  const neverClosed = ({ sign, offset }: (typeof open)[number]) => {
    const hint = `Write ${CLOSING[sign]} behind the last thing that belongs in it`;
    return { offset, reason: `the bracket ${sign} that opens here is never closed`, hint };
  };
  for (const { token, offset, sign } of tokensOf(text)) {
    const last = open.at(-1);
    const opener = OPENING[sign];
    if (sign in CLOSING) open.push({ sign, offset });
    else if (opener !== undefined && last?.sign === opener) open.pop();
    else if (opener !== undefined && !open.some((one) => one.sign === opener)) {
      return { offset, reason: `no bracket is open that ${sign} could close here`, hint: 'Take it out' };
    } else if (last && (opener !== undefined || sign === FLOW_CUT)) return neverClosed(last);
    else if (sign === '"' || sign === "'") {
      const closed = token.length > 1 && token.endsWith(sign);
      if (closed && !token.includes('\n')) continue;
      const reason = `the quote ${sign} that opens here is not closed on its line`;
      return { offset, reason, hint: `Write ${sign} behind the text, or take this one out` };
    }
  }
  const last = open.at(-1);
  return last && neverClosed(last);
}
