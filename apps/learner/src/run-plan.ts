import type { Setting } from '@tubgap/casefile';
import {
  BAD_INPUT,
  DONE,
  indexNamed,
  printJson,
  printRemarks,
  RESULTS_FOLDER,
  stop,
  TOO_FEW,
} from '@tubgap/casefile/command-line';
import { readCase } from '@tubgap/casefile/node';
import { holdResults } from '@tubgap/results';
import { inchCell } from '@tubgap/units';
import { reserveWith, subjectOf, tableFiles } from '@tubgap/wording';
import { printed, terminal } from '@tubgap/wording/terminal';
import { MADE_BY } from './made-by.ts';
import { planElsewhere } from './make-plan.ts';
import { planPage, planSheet } from './plan-page.ts';
import { noPlanWords, overruling, type PlanSubject, planWords } from './plan-words.ts';

/** What the verb may be given; height m. */
interface PlanOptions {
  tub?: string | undefined;
  tyre?: string | undefined;
  height?: number | undefined;
  overrule?: string | undefined;
  results?: string | undefined;
  draws?: number | undefined;
  set?: Setting[] | undefined;
  json?: true | undefined;
}

/** The command that a plan was asked for by; a height as its tables have it. */
function planAsked({ tub, tyre, height, overrule }: PlanOptions): string {
  const words = Object.entries({
    tub,
    tyre,
    height: height && `"${inchCell(height)} in"`,
    overrule: overrule && JSON.stringify(overrule),
  });
  return ['tubgap plan', ...words.flatMap(([name, word]) => (word ? [`--${name} ${word}`] : []))].join(' ');
}

/** Judges the tub in the car, plans its first test and prints the plan. @returns exit code @throws Stop, ResultsError, RangeError */
export async function runPlan(file: string, options: PlanOptions): Promise<number> {
  const { source } = readCase(file, options.set);
  source.simulation.draws = options.draws ?? source.simulation.draws;
  const asked = planAsked(options);
  const hold = holdResults(options.results ?? RESULTS_FOLDER, `${source.name}-first-test`, {
    kind: 'first test',
    asked,
  });
  try {
    printRemarks(hold.remarks);
    const overruled = overruling(options.overrule);
    const made = await planElsewhere({
      source,
      asked: { tub: indexNamed(source.tubs, options.tub, 'tub'), topHeight: options.height },
      tyre: indexNamed(source.tyres, options.tyre, 'tyre'),
      isOverruled: overruled !== undefined,
    });
    if (made === undefined) {
      const which = 'Say which tub stands how high: --tub NAME --height "39 1/4 in"';
      stop(`${file}: there is no pick to plan for at the accepted risks. ${which}`, BAD_INPUT);
    }
    const { judged, plan } = made;
    const { standing } = judged.verdict;
    const subject: PlanSubject = {
      title: source.title,
      invented: source.invented,
      name: source.name,
      madeBy: MADE_BY,
      learned: source.learned !== undefined,
      reserve: reserveWith(subjectOf(source), plan?.tyre ?? judged.verdict.limitingTyre),
      tyres: source.tyres,
      units: source.units,
      overruled: standing === 'within' ? undefined : overruled,
    };
    if (plan === undefined) {
      stop(
        printed(noPlanWords(judged, subject), terminal()).trimEnd(),
        standing === 'not known' ? TOO_FEW : BAD_INPUT,
      );
    }
    const files = {
      'first-test.html': planPage(plan, judged, subject),
      ...(await tableFiles({ 'first-test.csv': planSheet(plan, judged, subject) })),
    };
    printRemarks(hold.write(files, asked));
    if (options.json) printJson({ case: source.name, verdict: judged, plan, place: hold.place });
    else process.stdout.write(printed(planWords(plan, judged, subject, hold.place), terminal()));
    return DONE;
  } finally {
    hold.free();
  }
}
