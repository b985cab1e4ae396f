import { isMap, parseDocument } from 'yaml';

/** The first words of a field that stands in no group. */
const FIELD = /^["']?(learned|book)["']?\s*:/m;

/**
 * A case's text without what was learned of its car or its shop's others: as it was measured. A text that is not to be read
 * comes back as it is, for the reader of cases to say why.
 */
export function untaughtText(text: string): string {
  if (!FIELD.test(text)) return text;
  const document = parseDocument(text, { uniqueKeys: false, version: '1.2' });
  if (document.errors.length > 0 || !isMap(document.contents)) return text;
  document.contents.delete('learned');
  document.contents.delete('book');
  return document.toString({ lineWidth: 0, flowCollectionPadding: true });
}
