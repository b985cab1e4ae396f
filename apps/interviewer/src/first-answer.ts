import {
  type Answered,
  answerCall,
  changeText,
  costlyOf,
  costName,
  type Found,
  KIND,
  leastWords,
  moveWords,
  nextQuestion,
  pickedOf,
  toldUnits,
  tubWords,
} from '@tubgap/interview';
import type { AssumedCost } from '@tubgap/simulation';
import { shownLength } from '@tubgap/units';
import { type Block, row } from '@tubgap/wording';
import { flagOf } from './question-options.ts';

/** What was found for a call: an answer, and what it costs that answers are missing. */
interface FirstAnswer {
  found?: Found;
  costs: AssumedCost[];
}

/** Works the call out as the page of questions does, with the same figures. @param tubs  text of the shop's catalogue */
async function workOut(answers: Answered, tubs: string): Promise<FirstAnswer> {
  const all: FirstAnswer = { costs: [] };
  const tell: Parameters<typeof answerCall>[1]['tell'] = (answer) => {
    if (answer.kind === 'found') all.found = answer.found;
    if (answer.kind === 'cost') all.costs.push(answer.cost);
  };
  await answerCall({ answers, tubs, questionsOnly: true }, { tell, goOn: async () => true });
  return all;
}

/** The tub and its heights in one line; why there is none where none fits. */
function answerWords(found: Found, answers: Answered): string {
  const units = toldUnits(answers);
  const pick = pickedOf(found);
  if (pick === undefined) {
    const reasons = [...found.refused, ...found.picks].flatMap(({ tub, reason }) =>
      reason === '' ? [] : [`${tub}: ${reason}`],
    );
    return `none of the tubs fits. ${reasons.join('; ')}`;
  }
  const out = found.look?.setOut;
  const least = leastWords(pick.height, found.settled, units);
  const set = out && shownLength(out.topHeight, 'up')[units];
  const beside = set === least ? '' : `, at least ${least}`;
  const top = set === undefined ? `at least ${least}` : `set out at ${set}${beside}`;
  return `${tubWords(found, pick, units)}; top ${top} above the track`;
}

/** What it costs that something is not known, with the option that tells it. */
function costWords(cost: AssumedCost, answers: Answered): string {
  const units = toldUnits(answers);
  const [middle, low, high] = [cost.middle, cost.low, cost.high].map((change) => changeText(change, units));
  const changes =
    cost.name === KIND
      ? `${low} to ${high} if it is another`
      : `${middle} if ordinary, ${low} if low, ${high} if high`;
  return `${costName(cost, answers)}: ${changes}; ${flagOf(cost.name)}`;
}

/**
 * The first answer for a case that was just written, what each answer costs that is missing, and which to ask for next.
 * @param answers  of the call
 * @param tubs  text of the shop's catalogue
 */
export async function firstAnswer(answers: Answered, tubs: string): Promise<Block[]> {
  const { found, costs } = await workOut(answers, tubs);
  if (found === undefined) return [];
  const dear = costlyOf(costs);
  const next = nextQuestion(costs, answers);
  return [
    row('Answer', answerWords(found, answers)),
    ...dear.map((cost, i) => row(i === 0 ? 'Not known' : '', costWords(cost, answers))),
    ...(dear.length === 0 ? [] : [row('', 'How the least height would change if that were known')]),
    ...(next === undefined
      ? []
      : [
          row(
            'Ask next',
            `${next.put.question.words} The answer ${moveWords(next.cost, toldUnits(answers))}; ${flagOf(next.put.id)}`,
          ),
        ]),
  ];
}
