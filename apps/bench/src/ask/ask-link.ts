import { isInvented, tubsText } from '../shop/shop-tubs.ts';
import { type AskState, callText, isNothing, readCall, tubsIn, unitsIn } from './ask-state.ts';

const CALL = 'call';
const TUBS = 'tubs';
/** Not 'units', which the page with the tub has for its own. */
const UNITS = 'told';

/** What an address says after #: a call, and what is left for the page on which the tub is moved. */
interface SplitLink {
  /** Undefined where it holds none. */
  state: AskState | undefined;
  rest: string;
}

/** Parts an address into what was asked and what the page with the tub reads. */
export function splitLink(link: string): SplitLink {
  const parts = new URLSearchParams(link);
  const call = readCall(parts.get(CALL) ?? '');
  const tubs = tubsIn(parts.get(TUBS));
  if (call === undefined) return { state: undefined, rest: link };
  parts.delete(CALL);
  const units = unitsIn(parts.get(UNITS));
  parts.delete(TUBS);
  parts.delete(UNITS);
  return { state: { call, tubs, units }, rest: parts.toString() };
}

/** The part of an address that holds all that was typed; empty where nothing was. */
export function askLink({ call, tubs, units }: AskState): string {
  const parts = new URLSearchParams();
  if (isNothing(call) && isInvented(tubs)) return '';
  parts.set(CALL, callText(call));
  if (!isInvented(tubs)) parts.set(TUBS, tubsText(tubs));
  if (units !== undefined) parts.set(UNITS, units);
  return parts.toString();
}
