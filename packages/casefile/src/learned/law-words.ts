import type { Law } from '@tubgap/statistics';

/** A law in one line with its numbers in SI: by it a learned file knows the law that it started from. */
export function exactLawWords(law: Law): string {
  const { kind, ...rest } = law;
  const figure = (value: number): number => Number(value.toPrecision(10));
  const parts = Object.entries(rest).map(([name, value]: [string, number | readonly number[] | Law]) => {
    if (typeof value === 'number') return `${name} ${figure(value)}`;
    return 'kind' in value ? `${name} (${exactLawWords(value)})` : `${name} ${value.map(figure).join(' ')}`;
  });
  return [kind, ...parts].join(', ');
}
