import { type LawText, STIFFNESS_OF_USUAL_DROP, usualMass } from '@tubgap/casefile';
import { formatQuantity, INCH, PSI } from '@tubgap/units';
import type { Answers, TyreAnswers } from './answers.ts';
import type { CaseDraft, Path } from './case-draft.ts';
import { type KindOfCar, RANGES } from './kind-ranges.ts';
import { figure, uniformOf } from './law-text.ts';
import { launchTold, speedTold } from './told-laws.ts';
import { CONSTRUCTION_OF, coldPressure, massLaw, tyreSize } from './tyre-priors.ts';
import type { CatalogueTyreRow } from './tyre-table.ts';

const inInches = (metres: number) => metres / INCH;

/** One tyre: its entry in the case, its row in the catalogue. */
export function fillTyre(
  draft: CaseDraft,
  its: TyreAnswers,
  index: number,
  answers: Answers,
  car: { kind: KindOfCar; distance: number },
  name: string,
): CatalogueTyreRow {
  const { kind, distance } = car;
  const at = (field: string): Path => ['tyres', index, field];
  const construction = CONSTRUCTION_OF[its.build];
  const size = tyreSize(
    {
      marking: its.size,
      rollout: its.rollout?.value,
      widthMeans: its.widthIs,
      rimWidth: its.rimWidth?.value,
    },
    its.build,
    kind,
  );
  draft.tell(at('tyre'), name, `told: ${its.size?.understood ?? name}, ${its.build}`);
  if (its.runsPerSeason) draft.tell(at('runsPerSeason'), its.runsPerSeason.value, 'told');
  else {
    const { high, reason, mark } = RANGES[kind].runsPerSeason;
    const shared = answers.tyres.length > 1 ? ', shared among the tyres' : '';
    const runs = Math.ceil(high / answers.tyres.length);
    draft.assume(at('runsPerSeason'), runs, `${reason}, the upper end as the safe one${shared}`, mark);
  }

  const rollout =
    its.rollout?.text ?? (its.size?.form === 'rollout' ? rolloutText(its.size.rollout) : undefined);
  const { freeDiameter, section, tread, reason, mark } = size;
  if (rollout === undefined) {
    const law = uniformOf(inInches(freeDiameter.low) / 2, inInches(freeDiameter.high) / 2, 'in', 'car');
    draft.assume(at('referenceRadius'), law, reason, mark);
  } else {
    // As the table's own spread of a radius, 0.06 in, times 2π.
    const law: LawText = { law: 'normal', mean: rollout, sd: '0.38 in', each: 'car' };
    draft.tell(at('rollout'), law, 'told; spread: judgement');
  }
  draft.assume(
    at('sectionWidth'),
    uniformOf(inInches(section.low), inInches(section.high), 'in', 'car'),
    reason,
    mark,
  );
  draft.assume(
    at('treadWidth'),
    uniformOf(inInches(tread.low), inInches(tread.high), 'in', 'car'),
    reason,
    mark,
  );
  const mass = usualMass(construction, freeDiameter.nominal, section.nominal);
  draft.assume(at('mass'), massLaw(mass), 'from its size, by what such tyres weigh', 'judgement');
  draft.assume(
    at('stiffnessFactor'),
    STIFFNESS_OF_USUAL_DROP,
    'nobody has measured how far the axle drops under a load',
    'judgement',
  );

  const usual = coldPressure(its.build, kind);
  const pressure = its.pressure?.value ?? ((usual.low + usual.high) / 2) * PSI;
  const pressureText = its.pressure?.text ?? `${figure((usual.low + usual.high) / 2, 'psi')}`;
  if (!its.pressure) {
    draft.assume(
      at('coldPressure'),
      uniformOf(usual.low, usual.high, 'psi', 'car'),
      usual.reason,
      usual.mark,
    );
  }
  if (index === 0) {
    draft.tell(['build', 'tyre'], name, 'told: the tyre that was told first');
    if (its.pressure) draft.tell(['build', 'pressure'], pressureText, 'told');
    else
      draft.assume(
        ['build', 'pressure'],
        pressureText,
        `the middle of what is usual: ${usual.reason}`,
        usual.mark,
      );
  } else fillClass(draft, its, index, answers, distance);
  return {
    name,
    construction,
    pressure,
    freeDiameter: freeDiameter.nominal,
    section: section.nominal,
    tread: tread.nominal,
    mass,
    rimWidth: its.rimWidth?.value,
  };
}

const rolloutText = (length: number): string => formatQuantity(length, 'length');

/** What is told of the car on another tyre than the first. */
function fillClass(
  draft: CaseDraft,
  its: TyreAnswers,
  index: number,
  answers: Answers,
  distance: number,
): void {
  const at = (field: string): Path => ['tyres', index, 'class', 'run', field];
  if (its.speed) {
    const { law, words } = speedTold(its.speed, answers.speedIs ?? 'slip', distance);
    draft.tell(at('trapSpeed'), law, words);
  }
  const { sixtyFoot, elapsed, speed = answers.speed } = its;
  const launch = launchTold({ sixtyFoot, elapsed, speed }, answers.speedIs ?? 'slip', distance);
  if (launch) draft.tell(at('launchAcceleration'), launch.law, launch.words);
}

/** Names of the tyres in the catalogue, each once. */
export function tyreNames(tyres: readonly TyreAnswers[]): string[] {
  const names = tyres.map(
    ({ size, rollout }) => size?.understood ?? `rollout ${rolloutText(rollout!.value)}`,
  );
  return names.map((name, i) => {
    const before = names.slice(0, i).filter((other) => other === name).length;
    return before === 0 ? name : `${name} (${before + 1})`;
  });
}
