import type { Limited } from '@tubgap/simulation';
import { wholeText } from '@tubgap/units';
import { limitLines, limitsHeading } from '@tubgap/wording';
import { useEffect, useRef, useState } from 'preact/hooks';
import type { LimitsAnswer, LimitsFound, LimitsQuestion } from '../worker/messages.ts';
import { openWorker, type PageWorker } from './page-worker.ts';
import type { ReadCase } from './use-bench.ts';

/** What is asked at the car: what a driver chooses, and what is set between two runs. */
const ASKED: readonly Limited[] = ['speed', 'launch', 'pressure', 'spring'];

type Asking =
  | { kind: 'none' }
  | { kind: 'working'; share: number }
  | { kind: 'found'; found: LimitsFound; key: string }
  | { kind: 'problem'; message: string };

/** How far speed, launch, pressure and springs may go with the tub where it stands, worked out when it is asked for. */
export function LimitsPart({ now, topHeight }: { now: ReadCase; topHeight: number }) {
  const { source, tub, inputs } = now;
  const [asking, setAsking] = useState<Asking>({ kind: 'none' });
  const worker = useRef<PageWorker<LimitsQuestion, LimitsAnswer> | undefined>(undefined);
  const stop = (): void => {
    worker.current?.end();
    worker.current = undefined;
  };
  useEffect(() => stop, []);
  const key = JSON.stringify([inputs, source.tubs[tub], topHeight]);
  // What is worked out for a car that stands otherwise is of no use.
  useEffect(() => {
    stop();
    setAsking((before) => (before.kind === 'working' ? { kind: 'none' } : before));
  }, [key]);
  const start = (): void => {
    setAsking({ kind: 'working', share: 0 });
    worker.current = openWorker();
    worker.current.listen(
      (answer) => {
        if (answer.kind === 'doing') {
          setAsking({ kind: 'working', share: answer.share });
          return;
        }
        stop();
        setAsking(answer.kind === 'problem' ? answer : { kind: 'found', found: answer.found, key });
      },
      () => {
        stop();
        setAsking({ kind: 'problem', message: 'This browser stopped the work; run tubgap limits.' });
      },
    );
    worker.current?.ask({ kind: 'limits', source, tub, topHeight, codes: ASKED });
  };
  return (
    <section class="limits" aria-label="How far it may go like this">
      {asking.kind === 'working' ? (
        <>
          <button
            type="button"
            onClick={() => {
              stop();
              setAsking({ kind: 'none' });
            }}
          >
            Stop working it out
          </button>
          <p role="status">
            Working it out: {Math.round(100 * asking.share)} %. The page works on meanwhile.
          </p>
        </>
      ) : (
        <button type="button" onClick={start}>
          How fast may it run like this?
        </button>
      )}
      {asking.kind === 'problem' && (
        <p class="fault" role="alert">
          No limit can be given. {asking.message}
        </p>
      )}
      {asking.kind === 'found' && asking.key !== key && (
        <p role="status">The car stands otherwise now: ask again.</p>
      )}
      {asking.kind === 'found' && asking.key === key && (
        <div class="found-limits">
          <p>{limitsHeading(asking.found.standing)}:</p>
          <dl>
            {limitLines(asking.found.limits).map(({ label, text }) => (
              <div key={label}>
                <dt>{label}</dt>
                <dd>{text}</dd>
              </div>
            ))}
          </dl>
          <p class="caution">
            <b>No limit makes it safe.</b> From {wholeText(asking.found.draws)} simulated runs of a model with
            assumed inputs; more than one change at a time is not covered. Tyre contact at speed can kill.
          </p>
        </div>
      )}
    </section>
  );
}
