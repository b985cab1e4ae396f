import { Document, isCollection, isMap, isNode, visit } from 'yaml';
import type { Answers } from './answers.ts';
import { pathParts } from './call-answers.ts';
import { type InterviewedCase, toCase } from './to-case.ts';

const HEADING =
  ' From a phone call. Tyre contact at speed can kill: before metal is cut, measure this car, and keep to the\n' +
  " sanctioning body's rules, the tyre maker's limits and the word of a qualified chassis builder.";

/** The case as a YAML text in which every line says whether it was told or why it is assumed. */
export function commentedText({ document, told, assumed }: InterviewedCase): string {
  const yaml = new Document(document);
  yaml.commentBefore = HEADING;
  visit(yaml, {
    Map(_, map) {
      if (map.has('law')) map.flow = true;
    },
  });
  const say = (path: string, words: string) => {
    const node = yaml.getIn(pathParts(path), true);
    if (!isNode(node) || (isCollection(node) && !(isMap(node) && node.flow))) return;
    node.comment = ` ${words.replace(/\p{Cc}/gu, ' ')}`;
  };
  for (const { path, words } of told) say(path, words);
  for (const { path, reason, mark, written } of assumed)
    if (written) say(path, `assumed: ${reason} (${mark})`);
  return yaml.toString({ lineWidth: 0 });
}

/** The same from the answers. */
export const commentedCase = (answers: Answers): string => commentedText(toCase(answers));
