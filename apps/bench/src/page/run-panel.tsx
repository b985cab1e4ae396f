import { runTrace } from '@tubgap/drawing';
import { choiceOf, FIRST_PLACE, followRun, momentsOf, type RunPlace, shownState } from '@tubgap/simulation';
import { gapWords } from '@tubgap/units';
import { useEffect, useMemo, useState } from 'preact/hooks';
import type { RankedRuns } from './ranked-runs.ts';
import type { Drawn } from './side-drawing.ts';
import { distanceText, lengthText, speedText, type Units } from './words.ts';

const SAMPLES = 40;
/** Where moments after the finish line are drawn, as shares of the track. */
const AFTER = { 'after the lift': 1.04, parachute: 1.09 } as const;

interface Props {
  place: RunPlace;
  runs: RankedRuns;
  reserve: number;
  units: Units;
  /** Told what to show in the side view; undefined: the run is not followed any more. */
  onShow: (run: Drawn['run']) => void;
}

/** Where the run stands: at a place of the track, m, or at one of its moments. */
type Here = { place: number } | { moment: number };

/** One run from the start line to the parachute, played or stepped through. */
export function RunPanel({ place, runs, reserve, units, onShow }: Props) {
  const [chosen, setChosen] = useState<keyof RankedRuns>('rare');
  const [here, setHere] = useState<Here>({ place: FIRST_PLACE });
  const [playing, setPlaying] = useState(false);
  const drawn = runs[chosen].run;
  const traced = useMemo(() => {
    const run = followRun(place.setup, choiceOf(place, drawn));
    const places = Array.from(
      { length: SAMPLES + 1 },
      (_, k) => FIRST_PLACE + ((run.finish - FIRST_PLACE) * k) / SAMPLES,
    );
    const where: Record<string, number> = {
      launch: FIRST_PLACE,
      'gear change': run.shift,
      middle: 0.5 * run.finish,
      'grip lost': 0.5 * run.finish,
      finish: run.finish,
      'after the lift': AFTER['after the lift'] * run.finish,
      parachute: AFTER.parachute * run.finish,
    };
    const moments = momentsOf(place, drawn)
      .filter(({ moment }) => moment !== 'burnout')
      .map(({ moment, state }) => ({
        name: moment as string,
        place: where[moment]!,
        shown: shownState(place, drawn, state),
      }));
    const states = places.map((at) => shownState(place, drawn, run.at(at)));
    const tightest = moments.reduce(
      (least, one, m) => (one.shown.state.gap < moments[least]!.shown.state.gap ? m : least),
      0,
    );
    return { run, places, states, moments, tightest };
  }, [place, drawn]);

  const now =
    'moment' in here
      ? traced.moments[here.moment]!
      : {
          name: '',
          place: here.place,
          shown: shownState(place, drawn, traced.run.at(Math.min(traced.run.finish, here.place))),
        };
  const { state, drop } = now.shown;
  const where = now.name === '' ? distanceText(now.place, units) : now.name;

  useEffect(() => {
    onShow({
      shown: now.shown,
      label: `tyre ${now.name === '' ? 'at ' : 'at the '}${where}, ${speedText(state.carSpeed, units)}`,
      tightTexts: [`${gapWords(state.gap, units)} left`],
    });
  }, [traced, here, units]);
  useEffect(() => () => onShow(undefined), []);

  useEffect(() => {
    if (!playing) return;
    let frame = 0;
    let last = 0;
    const step = (time: number): void => {
      const elapsed = last === 0 ? 0 : Math.min(0.1, (time - last) / 1000);
      last = time;
      let ended = false;
      setHere((before) => {
        const from = 'place' in before ? before.place : FIRST_PLACE;
        const speed = Math.max(3, traced.run.at(Math.min(from, traced.run.finish)).carSpeed);
        const next = from + speed * elapsed;
        ended = next >= traced.run.finish;
        return ended ? { moment: traced.tightest } : { place: next };
      });
      if (ended) setPlaying(false);
      else frame = requestAnimationFrame(step);
    };
    frame = requestAnimationFrame(step);
    return () => cancelAnimationFrame(frame);
  }, [playing, traced]);

  const values = (one: (typeof traced.states)[number]): number[] => [
    one.state.carSpeed,
    one.state.growth,
    one.drop,
    one.state.gap,
  ];
  const column = (q: number): number[] => traced.states.map((one) => values(one)[q]!);
  const tight = traced.moments[traced.tightest]!;
  const svg = runTrace({
    words: {
      id: 'trace',
      title: 'One run along the track',
      description: `Speed, growth of the tyre’s radius, drop of the body and gap to the tub against the distance. Tightest at the ${tight.name}: ${gapWords(tight.shown.state.gap, units)} left.`,
    },
    places: traced.places,
    quantities: [
      { name: 'speed', values: column(0), text: speedText(state.carSpeed, units) },
      { name: 'growth of the radius', values: column(1), text: lengthText(state.growth, 'up', units) },
      { name: 'body down', values: column(2), text: lengthText(drop, 'up', units) },
      {
        name: 'gap to the tub',
        values: column(3),
        text: gapWords(state.gap, units),
        limit: { value: reserve, text: `${lengthText(reserve, 'up', units)} to be kept` },
      },
    ],
    moments: traced.moments.map(({ place: at, name, shown }) => ({ place: at, name, values: values(shown) })),
    tightest: traced.tightest,
    tightestText: `tightest: ${tight.name}, ${gapWords(tight.shown.state.gap, units)}`,
    here: now.place,
    marks: [0, 0.25, 0.5, 0.75, 1].map((share) => ({
      place: share * traced.run.finish,
      text: distanceText(share * traced.run.finish, units),
    })),
    marksTitle: 'from the start; lift and parachute drawn after the finish',
  });
  return (
    <div class="run">
      <div class="row">
        <button
          type="button"
          class="strong"
          onClick={() => {
            if (!playing) setHere({ place: FIRST_PLACE });
            setPlaying(!playing);
          }}
        >
          {playing ? 'Stop' : 'Play the run'}
        </button>
        <label>
          Run{' '}
          <select
            value={chosen}
            onChange={(event) => setChosen(event.currentTarget.value as keyof RankedRuns)}
          >
            {(['middling', 'rare'] as const).map((key) => (
              <option key={key} value={key}>
                {runs[key].name}
              </option>
            ))}
          </select>
        </label>
      </div>
      <label class="track">
        Along the track
        <input
          type="range"
          min={FIRST_PLACE}
          max={traced.run.finish}
          step={1}
          value={Math.min(now.place, traced.run.finish)}
          aria-valuetext={`${where}, gap ${gapWords(state.gap, units)}`}
          onInput={(event) => {
            setPlaying(false);
            setHere({ place: Number(event.currentTarget.value) });
          }}
        />
      </label>
      <fieldset class="moments">
        <legend>Moments of the run</legend>
        {traced.moments.map(({ name }, m) => (
          <button
            key={name}
            type="button"
            aria-pressed={'moment' in here && here.moment === m}
            onClick={() => {
              setPlaying(false);
              setHere({ moment: m });
            }}
          >
            {name}
            {m === traced.tightest ? ' (tightest)' : ''}
          </button>
        ))}
      </fieldset>
      <div class="trace" dangerouslySetInnerHTML={{ __html: svg }} />
      <p class="note">
        Dots are the moments that the risk is counted from; a gear change and the lift add what the springs
        overshoot.
      </p>
    </div>
  );
}
