import { answerTo, QUESTIONS, readCall } from '@tubgap/interview';
import { expect, test } from 'vitest';
import { answersOf } from '../src/given-answers.ts';
import { flagOf, QUESTION_OPTIONS } from '../src/question-options.ts';

const given = (words: string) =>
  [...words.matchAll(/(--[\w-]+) "([^"]*)"/g)].map(([, flag, text]) => ({ flag: flag!, text: text! }));

test('every question has an option, and every option answers its question', () => {
  expect(QUESTIONS.length).toBeGreaterThan(30);
  for (const { id, example, choices } of QUESTIONS) {
    const text = choices?.[0]?.value ?? example ?? 'Blue';
    const flag = flagOf(id);
    expect(QUESTION_OPTIONS.filter(({ flags }) => flags.startsWith(`${flag} `))).toHaveLength(1);
    const second = /^tyres\[\]\.(?:speed|sixtyFoot|elapsed)$/.test(id);
    const before = second ? [...given('--tyre "28x10.5" --tyre "28x9"')] : [];
    const answers = answersOf([...before, { flag, text }]);
    const place = id.replace('[]', second ? '[1]' : '[0]');
    expect(answerTo(answers, place), `${flag} of ${id}`).toBe(text);
    expect(readCall(answers).faults[place], `${flag} "${text}"`).toBeUndefined();
  }
});

test('what is told of a tyre belongs to the one before it, and a speed behind a second tyre is its own', () => {
  const answers = answersOf(
    given(
      '--build "bias slick" --tyre "33.0x16.5-15" --speed "188 mph" --pressure "6 psi" --mass "2500 lb" --tyre "275/60R15" --build "treaded radial" --speed "165 mph" --wheelbase "108 in"',
    ),
  );
  expect(answers).toEqual({
    tyres: [
      { build: 'bias slick', size: '33.0x16.5-15', pressure: '6 psi' },
      { size: '275/60R15', build: 'treaded radial', speed: '165 mph' },
    ],
    speed: '188 mph',
    mass: '2500 lb',
    wheelbase: '108 in',
  });
});
