import { tyreColumn } from '@tubgap/core';
import type { Caution } from '@tubgap/simulation';
import { EntryPart } from '../entry/entry-part.tsx';
import { CautionsPart } from './cautions-part.tsx';
import { FilesPart } from './files-part.tsx';
import { MeasuresPart } from './measures-part.tsx';
import { SettingsPart } from './settings-part.tsx';
import type { Standing } from './shown.ts';
import type { Bench } from './use-bench.ts';

interface Props {
  bench: Bench;
  cautions: readonly Caution[];
  standing: Standing;
}

/** Everything under the picture and its risk. */
export function Rest({ bench, cautions, standing }: Props) {
  const { now, history, carried } = bench;
  const { source, setup, tyre } = now;
  // Gaps are seen at the pressure of the build on the build tyre, else at the tyre's own.
  const pressure = standing.builds
    ? setup.buildPressure
    : setup.tyres[tyre]!.centralTyre[tyreColumn('coldPressure')]!;
  return (
    <>
      <SettingsPart bench={bench} />
      <div class="pair">
        <section class="of-measure of-learn">
          <h2>Gap to see with the car at rest, and what was found</h2>
          <MeasuresPart bench={bench} standing={standing} pressure={pressure} />
        </section>
        <section class="of-place">
          <h2>What these figures do not know</h2>
          <CautionsPart source={source} cautions={cautions} />
        </section>
      </div>
      <section class="of-learn">
        <EntryPart
          units={history.now.units}
          tyres={source.tyres.map(({ name }) => name)}
          tubs={source.tubs.map(({ name }) => name)}
          car={source.name}
        />
      </section>
      <section class="of-place of-learn">
        <h2>Save, open, pass on</h2>
        <FilesPart carried={carried} state={history.now} onOpen={bench.open} />
      </section>
    </>
  );
}
