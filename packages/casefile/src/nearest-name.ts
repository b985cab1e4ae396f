/**
 * Fewest single-letter insertions, deletions, replacements and swaps of neighbours that turn one word into the other, no
 * place touched twice (optimal string alignment).
 */
function editDistance(from: string, to: string): number {
  let before: number[] = [];
  let previous = Array.from({ length: to.length + 1 }, (_, index) => index);
  for (let i = 1; i <= from.length; i++) {
    const current = [i];
    for (let j = 1; j <= to.length; j++) {
      const replaced = previous[j - 1]! + (from[i - 1] === to[j - 1] ? 0 : 1);
      const swaps = i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1];
      const swapped = swaps ? before[j - 2]! + 1 : Number.POSITIVE_INFINITY;
      current.push(Math.min(replaced, swapped, previous[j]! + 1, current[j - 1]! + 1));
    }
    before = previous;
    previous = current;
  }
  return previous[to.length]!;
}

const plain = (name: string) => name.toLowerCase().replace(/[\s_-]/g, '');

/**
 * The name that was most likely meant, or undefined when none is near: capitals, blanks, hyphens and underscores do
 * not count, and a third of the letters may be wrong, but not the only one.
 */
export function nearestName(read: string, names: readonly string[]): string | undefined {
  const wanted = plain(read.slice(0, 60));
  let best: string | undefined;
  let bestDistance = (wanted.length < 2 ? 0 : Math.max(1, Math.floor(wanted.length / 3))) + 1;
  for (const name of names) {
    const distance = editDistance(wanted, plain(name));
    if (distance < bestDistance) {
      best = name;
      bestDistance = distance;
    }
  }
  return best;
}

/** Names as a sentence takes them: "a, b or c". */
export function nameList(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} or ${names.at(-1)}`;
}

/** "Did you mean x?" when a name is near, otherwise undefined. */
export function didYouMean(read: string, names: readonly string[]): string | undefined {
  const nearest = nearestName(read, names);
  return nearest === undefined ? undefined : `Did you mean ${nearest}?`;
}
