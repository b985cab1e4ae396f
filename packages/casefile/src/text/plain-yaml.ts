import { Lexer } from 'yaml';
import type { Problem } from '../issue.ts';

/** A fault at a place of the text, counted in letters from its beginning. */
export interface TextFault {
  offset: number;
  read?: string;
  problem: Problem;
}

/** Groups within groups; the deepest place of a case lies seven deep. */
const DEEPEST = 40;
/** References (*name) and their anchors (&name) in one file: few are useful, many are a trap. */
const MOST_REFERENCES = 100;
/** Tags that say what a value is anyhow. */
const PLAIN_TAGS = /^!!(?:str|int|float|bool|null|map|seq)$/;
/** Letters that the lexer puts in, which the text does not hold: marks of a document, of a scalar, of an error. */
const SCALAR_MARK = '\u001f';
/** Where the lexer gives up brackets that the lines below do not belong to. */
export const FLOW_CUT = '\u0018';
const MARKS = new Set(['\u0002', FLOW_CUT, SCALAR_MARK]);

/** A piece of the text as YAML parts it; `sign` is its first letter, empty where that means nothing but itself. */
export interface Token {
  token: string;
  offset: number;
  sign: string;
}

/** All pieces of a text in order, FLOW_CUT among them: one pass, nothing is built. */
export function* tokensOf(text: string): Generator<Token> {
  let offset = 0;
  let scalarNext = false;
  for (const token of new Lexer().lex(text)) {
    if (MARKS.has(token)) {
      scalarNext = token === SCALAR_MARK;
      if (token === FLOW_CUT) yield { token, offset, sign: token };
      continue;
    }
    yield { token, offset, sign: scalarNext ? '' : token[0]! };
    scalarNext = false;
    offset += token.length;
  }
}

const refused = (offset: number, read: string, reason: string, hint: string): TextFault => ({
  offset,
  read: read.slice(0, 40),
  problem: { code: 'syntax', reason, hint },
});

/**
 * What of YAML is not read here, found by its signs alone before anything is built from the text: tags, which change or
 * drop what stands behind them; groups as names; nesting and references without end. The first of each kind, in one pass.
 * What is left can be read in a time that grows with the length of the text.
 */
export function beyondPlain(text: string): TextFault | undefined {
  let brackets = 0;
  let dashes = 0;
  let references = 0;
  for (const { token, offset, sign } of tokensOf(text)) {
    if (sign === '!' && !PLAIN_TAGS.test(token)) {
      const reason = 'a tag is not read: what stands behind it could be dropped or changed';
      return refused(offset, token, reason, 'Take the tag out and write the value alone');
    }
    if (sign === '%' && !/^%YAML\s+1\.2\b/.test(token)) {
      return refused(offset, token, 'directives (%) are not read', 'Take the line out');
    }
    if (token === '?' && sign !== '') {
      return refused(offset, token, 'a field needs a plain name', 'Write name: value');
    }
    if (sign === '&' || sign === '*') references++;
    if (references > MOST_REFERENCES) {
      const reason = `it has more than ${MOST_REFERENCES} anchors (&name) and references (*name)`;
      return refused(offset, token, reason, 'Write the values out');
    }
    if (sign === '[' || sign === '{') brackets++;
    if (sign === ']' || sign === '}') brackets--;
    if (sign === '\n') dashes = 0;
    if (token === '-' && sign !== '') dashes++;
    if (brackets > DEEPEST || dashes > DEEPEST) {
      return refused(offset, token, 'it is nested too deep', 'Write the values out');
    }
  }
  return undefined;
}
