import type { Law } from '@tubgap/statistics';

/** A law in one line with its numbers in SI: by it a learned file knows the law that it started from. */
export function exactLawWords(law: Law): string {
  const { kind, ...rest } = law;
  const parts = Object.entries(rest).map(([name, value]) =>
    typeof value === 'object'
      ? `${name} (${exactLawWords(value)})`
      : `${name} ${Number(value.toPrecision(10))}`,
  );
  return [kind, ...parts].join(', ');
}
