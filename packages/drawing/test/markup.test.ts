import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { escapeText, markup } from '../src/markup.ts';

const ENTITIES: Record<string, string> = {
  '&amp;': '&',
  '&lt;': '<',
  '&gt;': '>',
  '&quot;': '"',
  '&#39;': "'",
};
const plain = (text: string): string =>
  text.replace(/&(?:amp|lt|gt|quot|#39);/g, (entity) => ENTITIES[entity]!);

/** Any code point, the halves of surrogate pairs among them, and often one that matters. */
const characters = fc.oneof(
  fc.constantFrom('&', '<', '>', '"', "'", '\u0000', '\ud800'),
  fc.integer({ min: 0, max: 0x10ffff }).map((code) => String.fromCodePoint(code)),
);

describe('markup', () => {
  it('lets no text end an element or an attribute, and loses none of it', () => {
    fc.assert(
      fc.property(fc.array(characters, { maxLength: 20 }), (list) => {
        const text = list.join('');
        const escaped = escapeText(text);
        expect(escaped).not.toMatch(/[<>"']/);
        // Every character that XML 1.0 allows (W3C Recommendation, section 2.2, production 2) comes back as it was.
        const allowed = [...text]
          .map((c) => (/^[\t\n\r\u0020-\ud7ff\ue000-\ufffd\u{10000}-\u{10ffff}]$/u.test(c) ? c : '\ufffd'))
          .join('');
        expect(plain(escaped)).toBe(allowed);
      }),
    );
  });

  it('escapes names and keeps markup', () => {
    const name = '"><script>alert(1)</script>';
    expect(markup`<b title="${name}">${markup`<i>${1 / 3}</i>`}${false}${undefined}</b>`.markup).toBe(
      '<b title="&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;"><i>0.33</i></b>',
    );
  });

  it('refuses a number that is none', () => {
    expect(() => markup`${Number.NaN}`).toThrow(RangeError);
    expect(() => markup`${Number.POSITIVE_INFINITY}`).toThrow(RangeError);
  });
});
