import { readCaseText } from '@tubgap/casefile';
import { CALL_FILE, callFiles, readCall } from '@tubgap/interview';
import { useMemo, useState } from 'preact/hooks';
import { askLink, splitLink } from '../ask/ask-link.ts';
import { AskPage } from '../ask/ask-page.tsx';
import { type AskState, wholeAnswers } from '../ask/ask-state.ts';
import type { Carried } from '../carried/carried.ts';
import { tubsText } from '../shop/shop-tubs.ts';
import { App } from './app.tsx';
import { readLink } from './link.ts';

/** The page on which a tub is moved: its case, what its address says, and whether it is the case of the call. */
interface OpenBench {
  carried: Carried;
  link: string;
  ofCall: boolean;
}

interface Props {
  /** Null: a page that begins with its questions. */
  carried: Carried | null;
  /** At hand in a page without a case. */
  demo: Carried | undefined;
  /** What the page's address says after #. */
  link: string;
  /** What this browser kept. */
  kept: AskState;
}

/** The case of a call as the page with the tub takes it, every tub of the shop in it; undefined while there is none. */
function carriedOf(state: AskState): Carried | undefined {
  const { interviewed } = readCall(wholeAnswers(state));
  return (
    interviewed && {
      file: CALL_FILE,
      files: callFiles(
        { ...interviewed, ...(state.book !== undefined && { book: state.book }) },
        tubsText(state.tubs),
      ),
    }
  );
}

const nameOf = ({ file, files }: Carried): unknown => {
  const read = readCaseText(file, files[file] ?? '');
  return read.ok ? (read.value.raw as { name?: unknown } | null)?.name : undefined;
};

/** What a link of a page without a case opens: the call's own case or the demo, else a remark on why it does not. */
function linked(
  rest: string,
  state: AskState | undefined,
  demo: Carried | undefined,
): { bench?: OpenBench; remark?: string } {
  const asked = readLink(rest);
  if (asked === undefined) return {};
  const own = state && carriedOf(state);
  if (own && asked.case === nameOf(own)) return { bench: { carried: own, link: rest, ofCall: true } };
  if (demo && asked.case === nameOf(demo)) return { bench: { carried: demo, link: rest, ofCall: false } };
  return { remark: `The link is of the case ${asked.case ?? 'of no name'}: open its file here.` };
}

/** A page: with a case the tub to be moved; without one the questions, from which one gets there and back. */
export function Root({ carried, demo, link, kept }: Props) {
  if (carried !== null) return <App carried={carried} link={link} />;
  return <Asking demo={demo} link={link} kept={kept} />;
}

function Asking({ demo, link, kept }: Omit<Props, 'carried'>) {
  const split = useMemo(() => splitLink(link), []);
  const first = useMemo(() => linked(split.rest, split.state, demo), []);
  const [state, setState] = useState(split.state ?? kept);
  const [bench, setBench] = useState(first.bench);
  if (bench !== undefined) {
    return (
      <App
        carried={bench.carried}
        link={bench.link}
        beside={bench.ofCall ? askLink(state) : ''}
        onBack={() => setBench(undefined)}
      />
    );
  }
  return (
    <AskPage
      state={state}
      demo={demo}
      remark={first.remark}
      onState={setState}
      onBench={(carried, ofCall) => {
        setBench({ carried, link: '', ofCall });
        scrollTo(0, 0);
      }}
    />
  );
}
