import { type ClassLimits, limitsOf, type Result } from '@tubgap/results';
import { type Figures, oneIn, SIXTEENTH, wholeText } from '@tubgap/units';
import { BLANK, type Block, comesClose, heading, line, paragraph } from '@tubgap/wording';
import { reasonText } from '../best-place.ts';
import { figuresOf } from '../figures-of.ts';
import { chosenTub } from '../sheets/chosen-tub.ts';
import { type Change, caseChanges } from './changes.ts';

/** Changes that a headline names; the list below it has all. */
const MOST_NAMED = 4;

function heightOf(result: Result, tub: string): number | undefined {
  return result.picks.find((pick) => pick.tub === tub)?.height?.topHeight;
}

/** The tub to build as it is set out, with its least height beside it. */
function topWords(result: Result): string {
  const { length } = figuresOf(result);
  const { setOut, height } = chosenTub(result)!;
  return `top set out at ${length(setOut, 'up')} (least ${length(height.topHeight, 'up')})`;
}

function needText(difference: number, { changeText }: Figures): string {
  return `needs ${changeText(difference) ?? 'the same height'}`;
}

/** What the change asks of the tub that was to be built, or of the one that is now. */
function verdict(before: Result, after: Result): string {
  const old = before.chosen === null ? undefined : before.picks[before.chosen]?.tub;
  const now = after.chosen === null ? undefined : after.picks[after.chosen]?.tub;
  if (now === undefined) return old === undefined ? 'still no tub' : `no tub any more (was ${old})`;
  if (old === undefined) return `now ${now}, ${topWords(after)}, was no tub`;
  if (old === now) return needText(heightOf(after, now)! - heightOf(before, now)!, figuresOf(after));
  const stays = heightOf(after, old);
  const of =
    stays === undefined
      ? `${old} no longer has a height`
      : `${old} ${needText(stays - heightOf(before, old)!, figuresOf(after))}`;
  return `now ${now}, ${topWords(after)}, in place of ${old}; ${of}`;
}

/** Whether a tub at a height of before is as high as the new result asks for. */
function staysEnough(after: Result, tub: string, topHeight: number): boolean {
  const needed = heightOf(after, tub);
  return needed !== undefined && needed <= topHeight + 1e-9;
}

/**
 * Upper bound of the new run risk at the old height: read at the next lower height of the risk table, never too small, and
 * no more than is accepted where that height is enough; of the tyre that uses up most of what is accepted in its class.
 */
function riskAtOldHeight(
  after: Result,
  tub: string,
  topHeight: number,
): { risk: number | undefined; limits: ClassLimits } {
  const t = after.tubs.findIndex(({ name }) => name === tub);
  const h = after.heights[t]?.findLastIndex((height) => height <= topHeight + 1e-9) ?? -1;
  const isEnough = staysEnough(after, tub, topHeight);
  if (t < 0 || h < 0) {
    const limits = limitsOf(after, after.picks[t]?.height?.limitingTyre);
    return { risk: isEnough ? limits.runRisk : undefined, limits };
  }
  const [worst] = after.tyres
    .map(({ name }, i) => ({ high: after.risks[i]![t]![h]!.high, limits: limitsOf(after, name) }))
    .sort((a, b) => b.high / b.limits.runRisk - a.high / a.limits.runRisk);
  const { high, limits } = worst!;
  return { risk: Math.min(isEnough ? limits.runRisk : 1, high), limits };
}

/** What becomes of a tub that stands already as the old result said. */
function builtAlready(before: Result, after: Result): string[] {
  const { length } = figuresOf(after);
  const old = before.chosen === null ? undefined : before.picks[before.chosen];
  if (old?.height === undefined) return [];
  const { topHeight } = old.height;
  // A tub that was set out higher may have come out as low as this.
  const place = `${old.tub} built at ${length(topHeight, 'up')}, the least of its result,`;
  if (staysEnough(after, old.tub, topHeight)) {
    return [`${place} stays within the accepted risk, as far as its own measured gaps pass.`];
  }
  const { risk, limits } = riskAtOldHeight(after, old.tub, topHeight);
  const most =
    risk === undefined
      ? 'may touch in any run'
      : `now ${comesClose(limits.reserve, after.case.units)} in up to ${oneIn(risk)} runs`;
  return [`${place} ${most} (accepted: ${oneIn(limits.runRisk)}): do not run it so.`];
}

function tubLines(before: Result, after: Result): string[] {
  const { length } = figuresOf(after);
  return after.picks.flatMap((pick, t) => {
    if (!before.picks.some((other) => other.tub === pick.tub)) return [];
    const old = heightOf(before, pick.tub);
    const now = pick.height?.topHeight;
    if (old === undefined && now === undefined) return [];
    if (now === undefined) return [`${pick.tub}: ${length(old!, 'up')}, now none: ${reasonText(after, t)}`];
    if (old === undefined) return [`${pick.tub}: none, now ${length(now, 'up')}`];
    return [
      `${pick.tub}: ${length(old, 'up')}, now ${length(now, 'up')}: ${needText(now - old, figuresOf(after))}`,
    ];
  });
}

function headline(changes: readonly Change[], before: Result, after: Result): string {
  const named = changes.slice(0, MOST_NAMED).map((change) => change.short);
  const rest = changes.length - named.length;
  const what = [...named, ...(rest > 0 ? [`${rest} more`] : [])].join(', ');
  return `${what === '' ? 'Nothing of the case changed' : what}: ${verdict(before, after)}.`;
}

/** What changed from one result of a case to another, in words for the shop: a headline first, then all of it. */
export function revisionText(before: Result, after: Result): Block[] {
  const { length } = figuresOf(after);
  const changes = caseChanges(before, after);
  const sameCounts = before.seed === after.seed && before.draws === after.draws && before.cars === after.cars;
  return [
    BLANK,
    line(
      before.case.name === after.case.name
        ? `${after.case.title}${after.case.invented ? '  [an invented car]' : ''}`
        : `${after.case.title}, against ${before.case.title}`,
    ),
    BLANK,
    heading(headline(changes, before, after)),
    BLANK,
    ...builtAlready(before, after).map(line),
    BLANK,
    line(changes.length === 0 ? 'Nothing of the case changed.' : 'What changed in the case:'),
    ...changes.map((change) => paragraph(change.full)),
    BLANK,
    line('Least top height for the accepted risk, tub by tub:'),
    ...tubLines(before, after).map(paragraph),
    BLANK,
    line(
      'What each single change asks for cannot be told from two results: change one thing at a time for that.',
    ),
    line(
      sameCounts
        ? `Both were counted in the same runs; a step of ${length(SIXTEENTH, 'up')} may be the counting.`
        : `They were counted in other runs (seed ${before.seed} and ${after.seed}, ${wholeText(before.draws)} and ${wholeText(after.draws)} runs): ${length(2 * SIXTEENTH, 'up')} may be the counting.`,
    ),
    line(
      'Tyre contact at speed can kill. After any change measure the gaps again, and keep to the sanctioning body’s rules, the tyre maker’s limits and the word of a qualified chassis builder.',
    ),
  ];
}

/** The same as figures, SI: what changed in the case, and of every tub of both results its least height before and after. */
export function revisionJson(before: Result, after: Result) {
  const tubOf = (result: Result) => (result.chosen === null ? null : result.picks[result.chosen]!.tub);
  const of = (result: Result) => ({
    case: result.case.name,
    tub: tubOf(result),
    setOut: chosenTub(result)?.setOut ?? null,
    seed: result.seed,
    draws: result.draws,
  });
  const old = chosenTub(before);
  return {
    before: of(before),
    after: of(after),
    changes: caseChanges(before, after).map(({ full }) => full),
    tubs: after.picks
      .filter(({ tub }) => before.picks.some((other) => other.tub === tub))
      .map(({ tub }) => ({
        tub,
        topHeightBefore: heightOf(before, tub) ?? null,
        topHeightAfter: heightOf(after, tub) ?? null,
      })),
    /** Of the tub that was to be built, at its old least height: most that the new run risk can be; null: not known. */
    runRiskAtOldHeight:
      old === undefined ? null : (riskAtOldHeight(after, old.tub.name, old.height.topHeight).risk ?? null),
  };
}
