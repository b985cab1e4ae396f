import { readShopPriors } from '@tubgap/casefile';
import { isInvented, tubsText } from '../shop/shop-tubs.ts';
import { type AskState, callText, isNothing, NO_CALL, readCall, tubsIn, unitsIn } from './ask-state.ts';

const CALL = 'tubgap call';
const TUBS = 'tubgap tubs';
const UNITS = 'tubgap units';
const BOOK = 'tubgap book';

/** The browser's own store; some browsers let no page from a disk have one, and the page works without. */
function store(): Storage | undefined {
  try {
    return globalThis.localStorage;
  } catch {
    return undefined;
  }
}

/** A text that this browser kept. */
export function keptText(name: string): string | undefined {
  try {
    return store()?.getItem(name) ?? undefined;
  } catch {
    return undefined;
  }
}

/** Keeps a text in this browser, or takes it out. */
export function keepText(name: string, text: string | undefined): void {
  try {
    if (text === undefined) store()?.removeItem(name);
    else store()?.setItem(name, text);
  } catch {
    // A full or forbidden store keeps nothing; the link still holds everything.
  }
}

/** What this browser kept of the last call, and the shop's tubs; undefined where it kept nothing. */
export function keptState(): AskState | undefined {
  const [call, tubs, units, kept] = [CALL, TUBS, UNITS, BOOK].map(keptText);
  // Priors that an older page kept and this one does not read are none.
  const book = kept === undefined || 'problem' in readShopPriors(kept) ? undefined : kept;
  if (call === undefined && tubs === undefined && units === undefined && book === undefined) return undefined;
  return { call: readCall(call ?? '') ?? NO_CALL, tubs: tubsIn(tubs), units: unitsIn(units), book };
}

export function keep({ call, tubs, units, book }: AskState): void {
  keepText(CALL, isNothing(call) ? undefined : callText(call));
  keepText(TUBS, isInvented(tubs) ? undefined : tubsText(tubs));
  keepText(UNITS, units);
  keepText(BOOK, book);
}
