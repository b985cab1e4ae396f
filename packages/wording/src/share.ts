/** What takes the gap away, as a workshop says it. */
const PLAIN: Readonly<Record<string, string>> = {
  'tight angle': 'tightest spot elsewhere than standing still',
  pressure: 'pressure gained when hot',
  growth: 'growth at speed',
  'body drop': 'body dropped on its springs',
  'axle forward': 'axle moved forward under the body',
  'lobe allowance': 'room allowed for waves in the tread (common practice)',
  'whole closing': 'whole closing (not the sum: each row is its own ranking)',
};

/** A share of the gap's closing by what it is in a workshop; its own name where that says it. */
export const shareWords = (share: string): string => PLAIN[share] ?? share;
