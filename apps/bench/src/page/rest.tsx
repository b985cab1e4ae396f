import { tyreColumn } from '@tubgap/core';
import { useState } from 'preact/hooks';
import { CautionsPart } from './cautions-part.tsx';
import { FilesPart } from './files-part.tsx';
import { GapsTable } from './gaps-table.tsx';
import { RunPanel } from './run-panel.tsx';
import { SettingsPart } from './settings-part.tsx';
import type { Place, Standing } from './shown.ts';
import type { Drawn } from './side-drawing.ts';
import type { Bench } from './use-bench.ts';

interface Props {
  bench: Bench;
  place: Place;
  standing: Standing;
  /** Told which state of a followed run the picture is to show. */
  onShow: (run: Drawn['run']) => void;
}

/** Everything under the picture and its risk. */
export function Rest({ bench, place, standing, onShow }: Props) {
  const { now, known, history, carried } = bench;
  const { source, setup, tyre } = now;
  const { units } = history.now;
  const [following, setFollowing] = useState(false);
  const name = source.tyres[tyre]!.name;
  // Gaps are seen at the pressure of the build on the build tyre, else at the tyre's own.
  const pressure = standing.builds
    ? setup.buildPressure
    : setup.tyres[tyre]!.centralTyre[tyreColumn('coldPressure')]!;
  return (
    <>
      <SettingsPart bench={bench} />
      <div class="pair">
        <section>
          <h2>One run along the track</h2>
          <button
            type="button"
            class={following ? '' : 'strong'}
            disabled={known.ranked === undefined}
            onClick={() => setFollowing(!following)}
          >
            {following ? 'Close the run' : 'Follow a run'}
          </button>
          {following && known.ranked && (
            <RunPanel
              place={place}
              runs={known.ranked}
              reserve={source.build.reserve}
              units={units}
              onShow={onShow}
            />
          )}
        </section>
        <section>
          <h2>Gap to see with the car at rest</h2>
          <GapsTable standing={standing} tyre={name} pressure={pressure} units={units} />
        </section>
      </div>
      <div class="pair">
        <section>
          <h2>What these figures do not know</h2>
          <CautionsPart source={source} place={place} />
        </section>
        <section>
          <h2>Save, open, pass on</h2>
          <FilesPart carried={carried} state={history.now} onOpen={bench.open} />
        </section>
      </div>
    </>
  );
}
