import type { Problem } from '../issue.ts';

/** Why a text names no tyre: what was read, and what is allowed where it is a figure. */
export type MarkingFault =
  | { code: 'not-a-size' | 'rim-missing'; read: string }
  | {
      code: 'width' | 'aspect' | 'rim' | 'diameter' | 'rollout';
      read: string;
      /** In `unit`, as the limits. */
      value: number;
      least: number;
      most: number;
      unit: string;
    };

const EXAMPLE = 'Write it as on the sidewall, 33.5x17.0-16 or 315/60R15, or its rollout, 105 7/8 in';
const LABELS = {
  width: 'the width',
  aspect: 'the height over the width',
  rim: "the rim's diameter",
  diameter: 'the diameter',
  rollout: 'a rollout',
} as const;

/** The fault in the words of an issue. */
export function markingProblem(fault: MarkingFault): Problem {
  switch (fault.code) {
    case 'not-a-size':
      return { code: 'unknown-name', reason: 'this is no tyre size', hint: EXAMPLE };
    case 'rim-missing':
      return { code: 'missing', reason: "the rim's diameter is missing behind it", hint: EXAMPLE };
    default: {
      const { least, most, unit, value } = fault;
      const allowed = `${least} to ${most} ${unit}`;
      const reason = `${LABELS[fault.code]} is ${Number(value.toPrecision(5))} ${unit}; allowed are ${allowed}`;
      const hint =
        fault.code === 'rollout'
          ? 'The rollout is taped round the tyre: 3.14 times what it stands high'
          : EXAMPLE;
      return { code: 'out-of-range', reason, allowed, hint };
    }
  }
}
