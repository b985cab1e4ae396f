import { expect, it } from 'vitest';
import { openSealed, sealedText } from '../src/seal.ts';

const value = { format: 'a file', version: 3, list: [0.1, 12345.678901234567, 1e-7], text: 'shown 7 in' };
const text = sealedText(value);

it('a sealed text gives its value back', () => {
  expect(openSealed(text)).toEqual({ value });
});

it('no letter of it can be changed unseen, not even a digit that no number takes up', () => {
  let changed = 0;
  for (let i = 0; i < text.length; i++) {
    for (const letter of '0479x ') {
      if (text[i] === letter) continue;
      const other = text.slice(0, i) + letter + text.slice(i + 1);
      let read: ReturnType<typeof openSealed> = { value: undefined, fault: 'changed' };
      try {
        read = openSealed(other);
      } catch (error) {
        expect(error).toBeInstanceOf(SyntaxError);
      }
      expect(read, `letter ${i} as ${letter}`).toHaveProperty('fault');
      changed++;
    }
  }
  expect(changed).toBeGreaterThan(5 * text.length);
});

it('a text without its digest is told from a changed one', () => {
  expect(openSealed(text.replace(/ "digest": .*\n/, ''))).toMatchObject({ fault: 'unsealed' });
  expect(openSealed('{"version":3}')).toMatchObject({ fault: 'unsealed' });
  expect(openSealed('null')).toMatchObject({ fault: 'unsealed' });
});
